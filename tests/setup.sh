# Sets up what Beatwalk is built and tested with. Sourced by demo/run.sh and tests/run.sh.
#
# Installs only what is missing or of another version, and says so. Everything comes from package
# managers: rustup, cargo and the system's own. This is the one place where versions are pinned;
# wasm-bindgen's has to equal the crate's in Cargo.toml, and Trunk.toml names it too.

WASM_BINDGEN_VERSION=0.2.126
TRUNK_VERSION=0.21.14
CARGO_DENY_VERSION=0.20.2

say() { printf '\n== %s\n' "$*"; }
fail() { printf '\nstopped: %s\n' "$*" >&2; exit 1; }
has() { command -v "$1" >/dev/null 2>&1; }

# What `cargo install` puts there has to be found, also in a shell that does not know it yet.
export PATH="$PATH:${CARGO_HOME:-$HOME/.cargo}/bin"

set_up_rust() {
  has cargo || fail "Rust is missing; install it with rustup, see https://rustup.rs"
  if [[ ! -d "$(rustc --print sysroot)/lib/rustlib/wasm32-unknown-unknown/lib" ]]; then
    say "installing the wasm32-unknown-unknown target"
    has rustup || fail "the Rust target wasm32-unknown-unknown is missing and there is no rustup to add it"
    rustup target add wasm32-unknown-unknown
  fi
  local component
  for component in "$@"; do
    has "cargo-$component" || { say "installing $component"; rustup component add "$component"; }
  done
}

# Where tools are built: in one folder, so that what two of them are made of is built once.
tools_built_in=

# A name, the version it has to print, and how cargo installs it.
set_up_cargo_tool() {
  local tool=$1 version=$2
  shift 2
  if ! has "$tool" || [[ " $("$tool" --version) " != *" $version "* ]]; then
    say "installing $tool $version (built from source, a few minutes)"
    tools_built_in=${tools_built_in:-$(mktemp -d)}
    # A tool runs for seconds: that it is built quickly matters more than that it is quick.
    CARGO_PROFILE_RELEASE_OPT_LEVEL=0 CARGO_PROFILE_RELEASE_LTO=off CARGO_PROFILE_RELEASE_CODEGEN_UNITS=16 \
      CARGO_TARGET_DIR="$tools_built_in" cargo install "$@" --version "$version" --locked --force
  fi
}

set_up_wasm_bindgen() {
  set_up_cargo_tool wasm-bindgen "$WASM_BINDGEN_VERSION" wasm-bindgen-cli
}

set_up_trunk() {
  set_up_cargo_tool trunk "$TRUNK_VERSION" trunk --no-default-features --features rustls
}

set_up_cargo_deny() {
  set_up_cargo_tool cargo-deny "$CARGO_DENY_VERSION" cargo-deny
}

# What is left of building tools is of no use once they are there.
set_up_done() {
  [[ -z $tools_built_in ]] || rm -rf "$tools_built_in"
}

# A command and the package that brings it on Debian, Fedora, Arch and macOS; `-` where it is none.
set_up_package() {
  local command=$1 debian=$2 fedora=$3 arch=$4 brew=$5
  has "$command" && return
  if has apt-get && [[ $debian != - ]] && { [[ $(id -u) == 0 ]] || has sudo; }; then
    local as_root=(env DEBIAN_FRONTEND=noninteractive)
    [[ $(id -u) == 0 ]] || as_root=(sudo "${as_root[@]}")
    say "installing the package $debian"
    "${as_root[@]}" apt-get install -y --no-install-recommends "$debian" ||
      { "${as_root[@]}" apt-get update &&
        "${as_root[@]}" apt-get install -y --no-install-recommends "$debian"; } || true
    has "$command" && return
  fi
  fail "$command is missing. Install it, then run this again:
  Debian, Ubuntu  apt-get install $debian
  Fedora          dnf install $fedora
  Arch            pacman -S $arch
  macOS           brew install $brew"
}

set_up_wasm_opt() {
  set_up_package wasm-opt binaryen binaryen binaryen binaryen
}

set_up_browser() {
  has chromium || has chromium-browser || has google-chrome ||
    [[ -d "/Applications/Chromium.app" || -d "/Applications/Google Chrome.app" ]] ||
    set_up_package chromium chromium chromium chromium chromium
  set_up_package chromedriver chromium-driver chromedriver chromium chromedriver
  has firefox-esr || has firefox || set_up_package firefox-esr firefox-esr firefox firefox firefox
}
