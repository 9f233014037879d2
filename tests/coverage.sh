#!/bin/sh
# coverage.sh - how much of src below the window a run of the tests in BUILD has gone through.
#   coverage.sh BUILD
# Prints each file under the mark and the sums; exit 1 when less than 95 % of lines or 85 % of branches were run.
# Branches that only a failing g_return_if_fail(), g_assert() or clean-up of a local variable takes are left out.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
here=$(cd "$(dirname "$0")/.." && pwd)
cd "$here"
exec gcovr --root . --filter 'src/(trade|files|handbook|model|plan|words|card|command)/' \
  --gcov-ignore-parse-errors --exclude-unreachable-branches --exclude-throw-branches \
  --exclude-lines-by-pattern '.*\b(g_return_(val_)?if_fail|g_assert(_not_reached)?|g_assert_cmp\w+|g_error|G_DEFINE_QUARK)\b.*' \
  --exclude-branches-by-pattern '.*\b(g_auto|g_autoptr|g_autofree|g_clear_\w+|g_steal_pointer|g_return_\w+|g_assert\w*|g_ptr_array_index|_|ngettext|C_)\b *\(?.*' \
  --print-summary --fail-under-line 95 --fail-under-branch 85 "$1"
