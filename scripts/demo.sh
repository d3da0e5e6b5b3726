#!/bin/sh
# SPDX-License-Identifier: Apache-2.0
# Usage: scripts/demo.sh: a plan on the driveway, then a season of the invented firm Quillfen Duct Care in a book of its own.
set -eu
cd "$(dirname "$0")/.."
echo '$ fogwright plan --label product_profiles_demo/fenmist-rtu.toml --area 2400 --returns 3'
build/release/fogwright plan --label product_profiles_demo/fenmist-rtu.toml --area 2400 --returns 3
echo
rm -rf build/demo
build/release/fogwright-demo build/demo "$PWD" > build/demo-log.txt || { cat build/demo-log.txt; exit 1; }
cat build/demo-log.txt
mv build/demo-log.txt build/demo/log.txt
echo
echo '$ fogwright book verify --book build/demo/quillfen.db'
build/release/fogwright book verify --book build/demo/quillfen.db
cat <<END

The book is build/demo/quillfen.db, its keys are beside it (quillfen.db.key, quillfen.db.vkey).
Its papers are in build/demo/papers, those for customers in English and Spanish.
build/demo also holds the two walks (ready-to-use.txt, high-strength.txt), the refusals, a checkpoint, an export, this log.
The pages: build/release/fogwright serve --book build/demo/quillfen.db --invite marrow
  prints a link; open it in a browser on this machine, choose a password for marrow, sign in (docs/pages.md).
Look around: export FOGWRIGHT_BOOK=build/demo/quillfen.db, then build/release/fogwright stock list, job list --all, help.
END
