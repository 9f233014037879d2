#!/bin/sh
# memcheck.sh - runs one test program under valgrind; the ordinary exit status unless memory was misused or leaked.
# Scripts, and the program where a test starts it, are let through: --sanitize watches those. So are tests whose figures
# come of a hundred thousand draws, or of another solver, and mean nothing when fewer are made.
# SPDX-License-Identifier: GPL-3.0-or-later
here=$(cd "$(dirname "$0")" && pwd)
case $1 in
*.sh | *.py | *python3*) exec "$@" ;;
esac
case $(basename "$1") in
test-tension-learn | test-tension-posterior | test-order-model)
  echo "1..0 # SKIP would take hours under valgrind; --sanitize watches it"
  exit 0
  ;;
esac
echo "# under valgrind; drawn cases are a 50th of the usual"
export TESTS_ONE_IN=50
# valgrind has an allocator of its own, and GLib must not keep slices back from it
unset MALLOC_CHECK_
export G_SLICE=always-malloc
exec valgrind --quiet --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \
  --show-leak-kinds=definite --num-callers=25 --suppressions="$here/valgrind.supp" \
  --trace-children=no "$@"
