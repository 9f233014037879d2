#!/bin/sh
# coverage.sh - how much of src below the window a run of the tests in BUILD has gone through.
#   coverage.sh BUILD
# Prints each file under the mark and the sums; exit 1 when less than 95 % of lines or 85 % of branches were run.
# Left out: lines that only check a promise of the program to itself, and the branches that clean-up of local variables,
# text lookup and such checks bring into a line.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
cd "$(dirname "$0")/.."
checks='.*\b(g_return_(val_)?if_fail|g_assert\w*|g_error|G_DEFINE_QUARK)\b.*'
clean_up='.*\b(g_auto\w*|g_clear_\w+|g_steal_pointer|g_ptr_array_index|_|ngettext|C_)\b *\(?.*'
exec gcovr --root . --filter 'src/(trade|files|handbook|model|plan|words|card|command)/' \
  --gcov-ignore-parse-errors --exclude-unreachable-branches --exclude-throw-branches \
  --exclude-lines-by-pattern "$checks" --exclude-branches-by-pattern "$clean_up" \
  --print-summary --fail-under-line 95 --fail-under-branch 85 "$1"
