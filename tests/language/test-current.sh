#!/bin/sh
# test-current.sh - PO TEMPLATE: every message of the template made from the sources stands in each language, translated
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
export LC_ALL=C.UTF-8
po=$1 template=$2
n=0

for language in $(grep -v '^#' "$po/LINGUAS"); do
  n=$((n + 1))
  if said=$(msgcmp "$po/$language.po" "$template" 2>&1); then
    echo "ok $n - $language has every message"
  else
    echo "$said" | head -n 20 | sed 's/^/# /'
    echo "# ninja handwheel-update-po brings the languages up to the sources"
    echo "not ok $n - $language has every message"
  fi
done
echo "1..$n"
