#!/usr/bin/env bash
# Sets up and runs every check: format, lints, native tests, WASM tests and end-to-end tests in
# headless Chromium. Goes on after a failed check, so that one run shows them all; the last line
# sums up the tests. Stops at once only when a tool can't be set up.
#
#   tests/run.sh
set -euo pipefail

cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/setup.sh

set_up_rust fmt clippy
set_up_wasm_bindgen
set_up_trunk
set_up_wasm_opt
set_up_cargo_deny
set_up_browser
set_up_done

log=$(mktemp)
trap 'rm -f "$log"' EXIT
failed=()

# Runs one check, keeps what it prints, and remembers it when it fails.
check() {
  local name=$1 began=$SECONDS
  shift
  say "$name"
  if "$@" 2>&1 | tee -a "$log"; then
    printf '== %s: done in %s s\n' "$name" $((SECONDS - began))
  else
    failed+=("$name")
    printf '== %s: FAILED after %s s\n' "$name" $((SECONDS - began))
    return 1
  fi
}

changes() { git status --porcelain 2>/dev/null || true; }
tree_is_unchanged() { diff <(echo "$before") <(echo "$(changes)"); }

deny() { cargo deny --locked --config .config/deny.toml "$@"; }
# The list of known faults in packages lies where not every machine may reach; without it nothing is known.
advisories() {
  if timeout 60 cargo deny --locked --config .config/deny.toml fetch db >/dev/null 2>&1; then
    deny check --disable-fetch advisories
  else
    echo "advisories: NOT checked, their database can't be reached from here"
  fi
}

before=$(changes)
# With the page's own profile, so that what the page is made of is built once.
wasm=(--target wasm32-unknown-unknown --profile wasm)
# Headless Chromium's options for the WASM tests.
export WASM_BINDGEN_TEST_WEBDRIVER_JSON="$PWD/tests/wasm/webdriver.json"
CHROMEDRIVER=$(command -v chromedriver)
export CHROMEDRIVER

check "format" cargo fmt --all --check || true
check "lints" cargo clippy --locked --workspace --all-targets -- -D warnings || true
check "lints, WASM" cargo clippy --locked "${wasm[@]}" --lib --bins --test wasm -- -D warnings || true
check "licences and sources" deny check licenses bans sources || true
check "advisories" advisories || true
check "native tests" cargo test --locked --workspace --no-fail-fast || true
check "WASM tests" cargo test --locked "${wasm[@]}" --test wasm || true
if check "page" trunk build; then
  check "weight" cargo run --quiet --locked --package beatwalk-pack -- weigh dist || true
  check "end-to-end tests" cargo test --locked --test browser || true
else
  failed+=("end-to-end tests (no page)")
fi
check "no file changed by the tests" tree_is_unchanged || true

say "summary"
((${#failed[@]} == 0)) || printf 'failed: %s\n' "${failed[@]}"
grep -a '^test result:' "$log" | awk '{ passed += $4; failed += $6 } END { printf "%d passed, %d failed\n", passed, failed }'
((${#failed[@]} == 0))
