#!/bin/sh
# memcheck.sh - runs one test program under valgrind; the ordinary exit status unless memory was misused or leaked.
# Scripts and what they start are let through: valgrind follows into our own programs only.
# SPDX-License-Identifier: GPL-3.0-or-later
here=$(cd "$(dirname "$0")" && pwd)
case $1 in
*.sh | *.py | *python3*) exec "$@" ;;
esac
# valgrind has an allocator of its own, and GLib must not keep slices back from it
unset MALLOC_CHECK_
export G_SLICE=always-malloc
exec valgrind --quiet --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \
  --show-leak-kinds=definite --num-callers=25 --suppressions="$here/valgrind.supp" \
  --trace-children=no "$@"
