#!/usr/bin/env bash
# Builds the page twice, in different folders with different target folders, and compares every byte.
#
#   tests/reproducible.sh
#
# What is built is what is committed. Takes two whole builds from cold, so it is no part of tests/run.sh.
set -euo pipefail

cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/setup.sh

set_up_rust
set_up_wasm_bindgen
set_up_trunk
set_up_wasm_opt
set_up_done

scratch=$(mktemp -d)
trap 'rm -rf "$scratch"' EXIT

for place in first "a second/with a longer name"; do
  say "building in $place"
  git clone --quiet . "$scratch/$place/beatwalk"
  (
    cd "$scratch/$place/beatwalk"
    CARGO_TARGET_DIR="$scratch/$place/target" trunk build
    cd dist
    find . -type f -print0 | sort -z | xargs -0 sha256sum >"$scratch/${place##*/}.sums"
  )
  rm -rf "${scratch:?}/$place"
done

diff "$scratch/first.sums" "$scratch/with a longer name.sums" || fail "the two builds differ"
say "$(wc -l <"$scratch/first.sums") files, the same in both"
