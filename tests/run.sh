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

# give_up LINE…: what was asked for cannot be done.
give_up () {
  echo "tests/run.sh: $*" >&2
  exit 2
}

build=$here/build-tests
options="-Dbuildtype=debugoptimized -Dwerror=true"
below_window="trade published handbook model plan card command crash fuzz"
how=""
case ${1:-} in
--sanitize)
  build=$here/build-sanitize
  options="-Dbuildtype=debug -Db_sanitize=address,undefined -Db_lundef=false -Dwerror=true"
  ;;
--memcheck) TEST_PACKAGES="$TEST_PACKAGES valgrind libc6-dbg" ;;
--coverage)
  build=$here/build-coverage
  options="-Dbuildtype=debug -Doptimization=0 -Db_coverage=true"
  TEST_PACKAGES="$TEST_PACKAGES gcovr"
  ;;
--fuzz)
  build=$here/build-fuzz
  TEST_PACKAGES="$TEST_PACKAGES $FUZZ_PACKAGES"
  ;;
-*) give_up "there is no option $1, only --sanitize, --memcheck, --coverage and --fuzz." ;;
esac
case ${1:-} in
-*)
  how=$1
  shift
  ;;
esac
for name in "$@"; do
  case $name in
  -*) give_up "$name: one option at most, before the suites." ;;
  esac
  [ "$how" != --fuzz ] || [ -f "$here/tests/fuzz/fuzz-$name.c" ] ||
    give_up "there is no fuzz target $name; there are:" \
      "$(ls "$here"/tests/fuzz/fuzz-*.c | sed 's/.*fuzz-//; s/\.c$//' | tr '\n' ' ')"
done
install_missing $TEST_PACKAGES

# Numbers of an earlier run must never be taken for this one's.
rm -f "$build"/meson-logs/testlog*.junit.xml
if [ "$how" = --fuzz ]; then
  status=0
  sh "$here/tests/fuzz/run.sh" "${FUZZ_SECONDS:-10}" "$@" || status=$?
  python3 "$here/tests/count.py" "$build/meson-logs/testlog.junit.xml" || status=1
  exit $status
fi

# shellcheck disable=SC2086
[ -f "$build/build.ninja" ] || meson setup $options "$build" "$here" >/dev/null
case $how in
--memcheck | --coverage)
  # shellcheck disable=SC2086
  [ $# -gt 0 ] || set -- $below_window
  ;;
esac
targets=""
if [ $# -gt 0 ]; then
  ninja -C "$build" build.ninja >/dev/null
  targets=$(python3 "$here/tests/suites.py" "$build" "$@") || exit 2
fi
suites=""
for suite in "$@"; do suites="$suites --suite $suite"; done

# shellcheck disable=SC2086
if ! ninja -C "$build" $targets >"$build/build.log" 2>&1; then
  cat "$build/build.log" >&2
  echo "0 passed, 1 failed, 0 skipped"
  exit 1
fi

status=0
logs=$build/meson-logs/testlog.junit.xml
wrapper=""
multiplier=4
if [ "$how" = --memcheck ]; then
  wrapper=$here/tests/memcheck.sh
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
