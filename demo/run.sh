#!/usr/bin/env bash
# Builds Beatwalk and serves it on this machine only. Stop it with Ctrl-C.
#
#   demo/run.sh [--port 8080]
#
# Changes in the source are built again while it runs; reload the page, and change to the newer version in its foot.
set -euo pipefail

cd "$(dirname "${BASH_SOURCE[0]}")/.."
source tests/setup.sh

port=8080
while (($#)); do
  case $1 in
    --port) [[ ${2:-} =~ ^[0-9]+$ ]] || fail "--port wants a number"; port=$2; shift 2 ;;
    -h | --help) sed -n '2,6s/^# \{0,1\}//p' demo/run.sh; exit ;;
    *) fail "unknown option $1; there is only --port" ;;
  esac
done

set_up_rust
set_up_wasm_bindgen
set_up_trunk
set_up_wasm_opt
set_up_done

say "building the page"
trunk build

open=false
[[ -n ${DISPLAY:-}${WAYLAND_DISPLAY:-} || $(uname) == Darwin ]] && open=true
say "Beatwalk is at http://127.0.0.1:$port/ (stop with Ctrl-C)"
exec trunk serve --address 127.0.0.1 --port "$port" --no-autoreload true --open "$open"
