#!/bin/sh
# run.sh - installs, builds and runs every suite on its own virtual display and session bus.
# Ends with "N passed, N failed, N skipped" over all test cases; exit 1 on any failure.
#   tests/run.sh                 the ordinary build
#   tests/run.sh --sanitize      the same under AddressSanitizer, UBSan and LeakSanitizer
#   tests/run.sh --memcheck      all but the window's suite under valgrind
#   tests/run.sh --coverage      all but the window's suite, then how much of what lies below the window they run
#   tests/run.sh --fuzz          the fuzz targets under clang's engine, FUZZ_SECONDS each (10)
#   tests/run.sh [OPTION] SUITE…   only these suites
# Without an option and without suites the fuzz targets run too, for a few seconds each.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

here=$(cd "$(dirname "$0")/.." && pwd)
. "$here/data/packages.sh"
install_missing $TEST_PACKAGES

build=$here/build-tests
options="-Dbuildtype=debugoptimized -Dwerror=true"
below_window="trade published handbook model plan card command crash fuzz"
how=${1:-}
wrapper=""
case $how in
--sanitize)
  shift
  build=$here/build-sanitize
  options="-Dbuildtype=debug -Db_sanitize=address,undefined -Db_lundef=false -Dwerror=true"
  ;;
--memcheck)
  shift
  install_missing valgrind libc6-dbg
  wrapper=$here/tests/memcheck.sh
  [ $# -gt 0 ] || set -- $below_window
  ;;
--coverage)
  shift
  install_missing gcovr
  build=$here/build-coverage
  options="-Dbuildtype=debug -Doptimization=0 -Db_coverage=true"
  [ $# -gt 0 ] || set -- $below_window
  ;;
--fuzz)
  shift
  install_missing $FUZZ_PACKAGES
  exec sh "$here/tests/fuzz/run.sh" "${FUZZ_SECONDS:-10}" "$@"
  ;;
esac
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
logs=$build/meson-logs/testlog.junit.xml
multiplier=4
if [ -n "$wrapper" ]; then
  multiplier=60
  logs=$build/meson-logs/testlog-memcheck.sh.junit.xml
fi
[ "$how" != --coverage ] || find "$build" -name '*.gcda' -delete
# shellcheck disable=SC2086
meson test -C "$build" --no-rebuild --print-errorlogs --timeout-multiplier $multiplier \
  ${wrapper:+--wrapper "$wrapper"} $suites || status=$?
if [ -z "$how$suites" ]; then
  install_missing $FUZZ_PACKAGES
  sh "$here/tests/fuzz/run.sh" "${FUZZ_SECONDS:-5}" || status=1
  logs="$logs $here/build-fuzz/meson-logs/testlog.junit.xml"
fi
if [ "$how" = --coverage ]; then
  sh "$here/tests/coverage.sh" "$build" || status=1
fi
# shellcheck disable=SC2086
python3 "$here/tests/count.py" $logs || status=1
exit $status
