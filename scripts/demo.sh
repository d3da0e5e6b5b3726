#!/bin/sh
# SPDX-License-Identifier: Apache-2.0
# Usage: scripts/demo.sh: plans a job of the invented firm Quillfen Duct Care with the program as users run it.
set -eu
cd "$(dirname "$0")/.."
build/release/fogwright plan --label product_profiles_demo/fenmist-rtu.toml --area 2400 --returns 3
