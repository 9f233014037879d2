#!/bin/sh
# coverage.sh - how much of src below the window a run of the tests in BUILD has gone through.
#   coverage.sh BUILD
# Prints each file and the sums; exit 1 when less than 95 % of lines or 85 % of branches were run. Left out are the
# branches alone of lines where the compiler puts some that no source has: a promise checked by g_return_if_fail(),
# which only a fault in the program itself could break, and the clean-up of g_autofree and its like. The sums with
# nothing left out stand before.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
cd "$(dirname "$0")/.."
made_up='.*\b(g_return_(val_)?if_fail|g_auto\w*)\b.*'
measure () {
  gcovr --root . --filter 'src/(trade|files|handbook|model|plan|words|card|command)/' --gcov-ignore-parse-errors \
    --print-summary "$@"
}
echo "With nothing left out:"
measure "$1/src" | tail -n 3
measure --exclude-branches-by-pattern "$made_up" --fail-under-line 95 --fail-under-branch 85 "$1/src"
