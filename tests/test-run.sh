#!/bin/sh
# test-run.sh - SOURCE BUILD: tests/run.sh refuses what it cannot do in one line, and counts no earlier run's cases
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
n=0

# refuses NAME WORDS ARGUMENT…: exit 2, nothing on standard output, one line with WORDS on the other
refuses () {
  n=$((n + 1))
  name=$1
  words=$2
  shift 2
  status=0
  sh "$source/tests/run.sh" "$@" >"$work/out" 2>"$work/said" || status=$?
  if [ $status -eq 2 ] && [ ! -s "$work/out" ] && [ "$(wc -l <"$work/said")" -eq 1 ] && grep -q "$words" "$work/said"
  then
    echo "ok $n - $name"
  else
    echo "# exit $status"
    sed 's/^/# /' "$work/out" "$work/said"
    echo "not ok $n - $name"
  fi
}

counts () {
  n=$((n + 1))
  if [ "$(python3 "$source/tests/count.py" "$work/none.xml" | tail -n 1)" = "0 passed, 1 failed, 0 skipped" ]; then
    echo "ok $n - $1"
  else
    echo "not ok $n - $1"
  fi
}

# The tests of the sources run none of our programs; those of the packages give them an environment of their own.
ends_at_criticals () {
  n=$((n + 1))
  lenient=$(meson introspect --tests "$build" | python3 -c 'import json, sys
for test in json.load(sys.stdin):
    own = {suite.split(":")[-1] for suite in test["suite"]} & {"source", "packages"}
    if not own and "fatal-criticals" not in test["env"].get("G_DEBUG", ""):
        print(test["name"])')
  if [ -z "$lenient" ]; then
    echo "ok $n - $1"
  else
    echo "# $lenient"
    echo "not ok $n - $1"
  fi
}

source=$1
build=$2
echo "1..6"
refuses "an unknown option" "no option --nonsense" --nonsense
refuses "an option among the suites" "one option at most" plan --sanitize
refuses "an unknown fuzz target" "no fuzz target nonsense" --fuzz nonsense
counts "a log that was never written"
ends_at_criticals "every program of a test ends at a critical message"
if [ -f "$source/build-tests/build.ninja" ]; then
  refuses "an unknown suite" "no suite nonsense" nonsense
else
  echo "ok 6 - an unknown suite # SKIP build-tests is not configured"
fi
