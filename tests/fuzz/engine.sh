#!/bin/sh
# engine.sh - one fuzz target under the fuzzing engine for FUZZ_SECONDS, from its seeds; TAP, one case.
#   engine.sh PROGRAM DICTIONARY SEEDS
# An input that breaks a promise stays in FUZZ_FOUND (else the working folder) to be kept in the corpus.
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
seconds=${FUZZ_SECONDS:-10}
found=${FUZZ_FOUND:-$PWD}
name=$(basename "$1")
# In memory where that can be: a target writes a file for each input, and waits for no disk.
if [ -w /dev/shm ]; then
  work=$(mktemp -d -p /dev/shm)
else
  work=$(mktemp -d)
fi
trap 'rm -rf "$work"' EXIT

mkdir "$work/grown" "$work/tmp"
echo "1..1"
if TMPDIR=$work/tmp "$1" -max_total_time="$seconds" -timeout=20 -rss_limit_mb=2048 -max_len=16384 \
    -print_final_stats=1 -dict="$2" -artifact_prefix="$found/$name-" "$work/grown" "$3" >"$work/log" 2>&1; then
  echo "ok 1 - $name"
else
  echo "not ok 1 - $name"
  tail -60 "$work/log" | sed 's/^/# /'
fi
grep -E '^stat::(number_of_executed_units|new_units_added|peak_rss)' "$work/log" | sed 's/^/# /'
grep -E 'cov: ' "$work/log" | tail -1 | sed 's/^/# /'
