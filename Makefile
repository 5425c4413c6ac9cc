# The front door. `make help` lists what there is; each target installs what it needs if it is missing.
.PHONY: help run build test wasm wasm-test site site-test site-bench bench sanitize format format-check tidy clean
.DEFAULT_GOAL := help
MAKEFLAGS += --no-print-directory
WERROR ?= OFF

# Configures quietly; says what went wrong if it did. $(call configure,PRESET,OPTIONS)
configure = mkdir -p build && { cmake --preset $(1) $(2) >build/configure-$(1).log 2>&1 \
  || { cat build/configure-$(1).log; exit 1; }; }
# Runs a command in web/ with its packages in place, as package-lock.json pins them.
in_web = cd web && PATH="$$(tools/node-path):$$PATH" && { [ node_modules/.package-lock.json -nt package-lock.json ] || npm ci --no-audit --no-fund --silent; } &&
sources = git ls-files '*.cpp' '*.h'

help: ## List the targets
	@sed -n 's/^\([a-z-]*\):.*## /\1\t/p' Makefile | while IFS='	' read -r n t; do printf '  make %-13s %s\n' "$$n" "$$t"; done

run: build ## Plan every job in examples/, and open the app on one: Ctrl-C ends it
	@mkdir -p out; for job in examples/*.json; do \
	  bin/treadfold plan "$$job" -o "out/$$(basename "$$job" .json)" || exit; echo; done
	@echo "The sheets of every example:"; ls out/*/all-sheets.pdf
	@$(MAKE) site
	@if [ -t 1 ]; then exec bin/treadfold serve examples/open-stair.json; \
	  else echo "The app, on an example: bin/treadfold serve examples/open-stair.json"; fi

build: ## Build the command: bin/treadfold
	@tools/setup build
	@[ -f build/release/build.ninja ] || { $(call configure,release,-DTREADFOLD_TESTS=OFF); }
	@cmake --build build/release --target treadfold -- --quiet
	@mkdir -p bin && cp -f build/release/cli/treadfold bin/treadfold

test: ## Build and run the tests
	@tools/setup build test
	@$(call configure,release,-DTREADFOLD_TESTS=ON -DTREADFOLD_WERROR=$(WERROR))
	@cmake --build build/release -- --quiet
	@ctest --test-dir build/release --output-on-failure --progress -j2 --output-junit results.xml

wasm: ## Build the core as WebAssembly: build/wasm/treadfold.wasm
	@tools/setup build wasm
	@$(call configure,wasm,-DTREADFOLD_WERROR=$(WERROR))
	@cmake --build build/wasm -- --quiet

wasm-test: build wasm ## Compare every file of every plan, native and WebAssembly
	@tools/setup wasm-test
	@node --test --test-reporter=tap --test-reporter-destination=build/wasm/results.tap \
	  --test-reporter=spec --test-reporter-destination=stdout tests/wasm/same_bytes.test.mjs

site: wasm ## Build the app as a folder for any web host: build/site
	@tools/setup site
	@$(in_web) { npm run -s types && npx vite build --logLevel warn; }

site-test: site ## Check and test the app, in a browser too
	@tools/setup site-test
	@$(in_web) npm run -s check
	@$(in_web) npm run -s test
	@$(in_web) npm run -s e2e

site-bench: site ## Measure what the app weighs and how fast it is: build/bench/app.md
	@tools/setup site-test
	@$(in_web) node bench/budgets.mjs

sanitize: ## Run the tests under the address and undefined-behaviour sanitizers, properties and seeded tests on a quarter of their cases
	@tools/setup build test
	@$(call configure,sanitize,-DTREADFOLD_WERROR=$(WERROR))
	@cmake --build build/sanitize -- --quiet
	@TREADFOLD_CASES=25 RC_PARAMS="$$RC_PARAMS max_success=25" ctest --test-dir build/sanitize --output-on-failure --progress -j2 --output-junit results.xml

SECONDS_EACH ?= 0.1,1
bench: ## Build and run the benchmarks: build/bench/report.md; SECONDS_EACH=0.1,1,10 for all of it, which takes hours
	@tools/setup build bench
	@$(call configure,bench,)
	@cmake --build build/bench --target bench_treadfold bench_report -- --quiet
	@build/bench/bench/bench_treadfold
	@build/bench/bench/bench_report --seconds $(SECONDS_EACH) --out build/bench

format: ## Format the sources
	@tools/setup lint
	@$(sources) | xargs clang-format-14 -i

format-check: ## Check the formatting of the sources
	@tools/setup lint
	@$(sources) | xargs clang-format-14 --dry-run -Werror

tidy: ## Run clang-tidy; unchanged sources are not checked again
	@tools/setup build lint
	@[ -f build/release/build.ninja ] || { $(call configure,release,-DTREADFOLD_TESTS=OFF); }
	@tools/tidy build/release

clean: ## Remove everything that was built or planned
	@rm -rf build bin out
