#!/bin/sh
# SPDX-License-Identifier: Apache-2.0
# check_verifier_go.sh SOURCE_DIR BUILD_DIR WRITE_EXPORT: builds the Go verifier from Debian's packages and checks it.
set -eu
packages=/usr/share/gocode
if ! command -v go >/dev/null || [ ! -d "$packages/src/golang.org/x/mod/sumdb/note" ]; then
  echo "SKIPPED: this needs golang-go and golang-golang-x-mod-dev"
  exit 77
fi
GO111MODULE=off GOPATH=$packages GOFLAGS= GOCACHE=$2/go-cache go build -o "$2/verify-book-go" "$1/scripts/verify-book-go/main.go"
exec python3 "$1/tests/book/check_verifier.py" "$3" "$2/verify-book-go"
