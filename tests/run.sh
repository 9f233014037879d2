#!/bin/sh
# run.sh - installs, builds and runs every suite on its own virtual display and session bus.
# Ends with "N passed, N failed, N skipped" over all test cases; exit 1 on any failure.
#   tests/run.sh                 the ordinary build
#   tests/run.sh --sanitize      the same under AddressSanitizer, UBSan and LeakSanitizer
#   tests/run.sh [--sanitize] SUITE…   only these suites
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

here=$(cd "$(dirname "$0")/.." && pwd)
. "$here/data/packages.sh"
install_missing $TEST_PACKAGES

build=$here/build-tests
options="-Dbuildtype=debugoptimized -Dwerror=true"
if [ "${1:-}" = --sanitize ]; then
  shift
  build=$here/build-sanitize
  options="-Dbuildtype=debug -Db_sanitize=address,undefined -Db_lundef=false -Dwerror=true"
fi
suites=""
for suite in "$@"; do suites="$suites --suite $suite"; done

# shellcheck disable=SC2086
[ -f "$build/build.ninja" ] || meson setup $options "$build" "$here" >/dev/null
if ! ninja -C "$build" >"$build/build.log" 2>&1; then
  cat "$build/build.log" >&2
  echo "0 passed, 1 failed, 0 skipped"
  exit 1
fi

status=0
# shellcheck disable=SC2086
meson test -C "$build" --no-rebuild --print-errorlogs --timeout-multiplier 4 $suites || status=$?
python3 "$here/tests/count.py" "$build/meson-logs/testlog.junit.xml" || status=1
exit $status
