#!/usr/bin/env bash
# Draws the icons of the installed page anew from their drawings, with headless Chromium.
#
#   style/icons.sh
#
# `any` is shown as it is; of `maskable` a system shows a part of its own shape, so its sign keeps to the
# inner circle of four fifths (W3C Web Application Manifest, safe zone).
set -euo pipefail

cd "$(dirname "${BASH_SOURCE[0]}")/icons"
profile=$(mktemp -d)
trap 'rm -rf "$profile"' EXIT
sandbox=()
[[ $(id -u) != 0 ]] || sandbox=(--no-sandbox)

draw() {
  local drawing=$1 size=$2
  printf '<style>*{margin:0}img{display:block;width:100vw}</style><img src="%s">' "$PWD/$drawing.svg" >"$profile/page.html"
  chromium --headless "${sandbox[@]}" --disable-gpu --allow-file-access-from-files --hide-scrollbars \
    --user-data-dir="$profile" --window-size="$size,$size" --default-background-color=00000000 \
    --screenshot="$PWD/$drawing-$size.png" "file://$profile/page.html" 2>/dev/null
}

draw any 192
draw any 512
draw maskable 512
