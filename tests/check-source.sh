#!/bin/sh
# check-source.sh - layout that no formatter of ours can check: tabs, trailing space, width, SPDX, floors.
# TAP output; run from the source folder given as the first argument.
# SPDX-License-Identifier: GPL-3.0-or-later
export LC_ALL=C.UTF-8   # columns, not bytes
cd "$1" || exit 1

files=$(find src tests data ui -name '*.[ch]' -o -name '*.sh' -o -name '*.build' | sort)
n=0

# report NAME OFFENDERS: one TAP case, passed when there are no offenders.
report () {
  n=$((n + 1))
  if [ -z "$2" ]; then
    echo "ok $n - $1"
  else
    echo "not ok $n - $1"
    echo "$2" | sed 's/^/# /' | head -20
  fi
}

echo "1..8"
report "no tabs" "$(grep -nP '\t' $files | head -20)"
report "no trailing space" "$(grep -nP ' +$' $files | head -20)"
report "at most 120 columns" "$(grep -nP '^.{121,}' $files | head -20)"
sources=$(echo "$files" | grep '\.[ch]$')
report "every C file opens with its name and licence" "$(for f in $sources; do
  head -1 "$f" | grep -q "^/\* $(basename "$f") - " || echo "$f"
  head -4 "$f" | grep -q 'SPDX-License-Identifier: GPL-3.0-or-later' || echo "$f"
done)"
below_window=$(echo "$sources" | grep -v -e '^src/window/' -e '^tests/window/' -e '^tests/language/')
report "only the window includes GTK" "$(grep -nE '#include <(gtk|gdk)/' $below_window)"

# A floor may include itself and those before it in this list.
floors="trade files handbook model plan words card command window"
report "no floor includes a higher one" "$(below=""
for floor in $floors; do
  below="$below $floor"
  allowed=$(echo $below | sed 's/ /|/g')
  grep -nE '^#include "[a-z]+/' src/$floor/*.[ch] 2>/dev/null | grep -vE "#include \"($allowed)/"
done)"

# What the README's first steps put in quotes is what the window says, word for word.
report "the first steps say what the window says" "$(sed -n '/^## A first shirt/,/^## Two commands/p' README.md \
  | tr '\n' ' ' | tr -s ' ' | grep -oP '“[^”]*”' | sed 's/[“”]//g' | sort -u | while read -r words; do
    cat src/window/*.c src/words/*.c ui/*.ui | tr -d '_' | grep -aqF "$words" || echo "$words"
  done)"

# A semicolon stands off its word in French: what joins parts of a text is itself translated, as C_("list", ", ").
joint='((?<=[(?:,=] )|(?<=\())(?<!C_\("list", )(?<!C_\("list of choices", )"[,;] "'
report "what joins a list is translated" "$(grep -naP "$joint" src/words/*.c src/card/*.c src/window/*.c)"
