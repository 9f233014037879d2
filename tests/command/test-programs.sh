#!/bin/sh
# test-programs.sh - SOURCE: the XML of plan and cards follows its schema, and the guide's example makes a page of it
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
source=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
project=$source/data/demo/projects/stage-cape.handwheel
n=0

check () {
  n=$((n + 1))
  name=$1
  shift
  if said=$("$@" 2>&1); then
    echo "ok $n - $name"
  else
    echo "$said" | tail -n 20 | sed 's/^/# /'
    echo "not ok $n - $name"
  fi
}

for tool in xsltproc xmllint; do
  command -v $tool >/dev/null 2>&1 && continue
  echo "1..0 # SKIP $tool is not installed"
  exit 0
done
HANDWHEEL_ROOM=$source/data/demo
export HANDWHEEL_ROOM

follows () {
  "$HANDWHEEL" "$1" "$project" --format=xml >"$work/$1.xml" &&
    xmllint --noout --nonet --relaxng "$source/data/schema/output.rng" "$work/$1.xml"
}

makes_page () {
  xsltproc --nonet "$source/data/guide/example/plan.xsl" "$work/plan.xml" >"$work/plan.html" &&
    xmllint --html --noout "$work/plan.html" &&
    grep -q '<h1>Lined cape for the school play</h1>' "$work/plan.html" &&
    grep -q '>5 Topstitch both sides of each seam<' "$work/plan.html" &&
    [ "$(grep -c '<tr>' "$work/plan.html")" -gt 24 ]
}

# A card for each set-up that the plan names, no more.
same_setups () {
  for file in plan card; do
    xmllint --xpath '//@setup' "$work/$file.xml" | tr -d ' ' | sort -u >"$work/$file.setups"
  done
  [ -s "$work/plan.setups" ] && diff "$work/plan.setups" "$work/card.setups"
}

check "the plan's XML follows output.rng" follows plan
check "the cards' XML follows output.rng" follows card
check "plan and cards have the same set-ups" same_setups
check "plan.xsl makes a page of the plan" makes_page
echo "1..$n"
