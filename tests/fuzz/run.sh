#!/bin/sh
# run.sh - builds the fuzz targets with clang, AddressSanitizer and UBSan, and runs each for SECONDS.
#   tests/fuzz/run.sh [SECONDS [TARGET…]]      10 seconds, all targets
# What an input broke is printed; the input stays in build-fuzz/found. Put it into the target's corpus: the ordinary
# tests run over it from then on.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")/../.." && pwd)
build=$here/build-fuzz
FUZZ_SECONDS=${1:-10}
[ $# -eq 0 ] || shift
FUZZ_FOUND=$build/found
export FUZZ_SECONDS FUZZ_FOUND

[ -f "$build/build.ninja" ] || CC="${CLANG:-clang}" meson setup -Dbuildtype=debugoptimized \
  -Db_sanitize=address,undefined -Db_lundef=false "$build" "$here" >/dev/null
mkdir -p "$FUZZ_FOUND"
rm -f "$build"/meson-logs/testlog*.junit.xml
ninja -C "$build" fuzzers >"$build/build.log" 2>&1 || { cat "$build/build.log" >&2; exit 1; }
tests=""
for target in "$@"; do tests="$tests fuzz-engine-$target"; done
# shellcheck disable=SC2086
exec meson test -C "$build" --no-rebuild --num-processes 1 --suite engine --print-errorlogs $tests
