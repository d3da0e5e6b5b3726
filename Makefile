# SPDX-License-Identifier: Apache-2.0
# A short name for each thing done with this tree; the work is in CMakePresets.json and scripts/.
.PHONY: help setup build demo test format format-check tidy bench soak fuzz browser

help: ## this list
	@sed -n 's/^\([a-z-]*\):.*## /\1|/p' Makefile | awk -F'|' '{ printf "make %-13s %s\n", $$1, $$2 }'

setup: ## install what building and testing needs (Debian 12)
	@scripts/setup

build: ## the program, at build/release/fogwright
	@scripts/setup build
	@cmake --preset release > /dev/null && cmake --build --preset release

demo: build ## plan an invented job
	@scripts/demo.sh

test: ## everything that must hold before a change goes in
	@scripts/test

format: ## lay out the sources
	@scripts/format

format-check: ## list what is not laid out
	@scripts/format --check

tidy: ## static analysis of src and bench
	@scripts/tidy

bench: ## the benchmarks
	@cmake --preset bench > /dev/null && cmake --build --preset bench
	@find build/bench/bench -name '*_bench' -type f -print0 | sort -z | xargs -0 -I{} {} --benchmark_min_time=0.2

soak: ## the long tests
	@cmake --preset develop > /dev/null && cmake --build --preset develop && ctest --preset soak --no-tests=ignore

fuzz: ## search with each fuzz target for FUZZ_SECONDS (60)
	@scripts/fuzz

browser: ## the engine for the pages, at build/browser/src/browser/fogwright_wasm.*
	@cmake --preset browser > /dev/null && cmake --build --preset browser
