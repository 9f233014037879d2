#!/bin/sh
# start.sh - installs what is missing, builds, and opens the demo project; without a display it
# writes the demo's setup cards as PDF and says where. Safe to repeat.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

here=$(cd "$(dirname "$0")/.." && pwd)
. "$here/data/packages.sh"
install_missing $BUILD_PACKAGES

build=$here/build
[ -f "$build/build.ninja" ] || meson setup "$build" "$here" >/dev/null
ninja -C "$build" handwheel data/desktop/gschemas.compiled >"$build/build.log" 2>&1 \
  || { cat "$build/build.log" >&2; exit 1; }

export HANDWHEEL_DATA_DIR="$here/data" GSETTINGS_SCHEMA_DIR="$build/data/desktop"
demo=$(ls "$here"/data/demo/projects/*.handwheel | head -n 1)

if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
  # The first start furnishes an empty sewing room with the demo; later ones find it there.
  exec "$build/handwheel" "$@"
fi

HANDWHEEL_ROOM="$here/data/demo" "$build/handwheel" card "$demo" -o "$build/demo-cards.pdf"
echo "No display here, so the window stays shut. The demo's setup cards: $build/demo-cards.pdf"
