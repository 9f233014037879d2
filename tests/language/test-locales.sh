#!/bin/sh
# test-locales.sh - numbers, lengths, dates and paper as they are usual in a country, and as the person chose them
# SPDX-License-Identifier: GPL-3.0-or-later
#
# The locales are made by make-locales.sh and found by LOCPATH; the catalogues are those of HANDWHEEL_LOCALE_DIR.
set -u
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cp -R "$HANDWHEEL_DATA_DIR/demo" "$work/room"
chmod -R u+w "$work/room"
export HANDWHEEL_ROOM="$work/room"
unset LANGUAGE
demo=$work/room/projects/stage-cape.handwheel
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

run () {
  LC_ALL=$1 "$HANDWHEEL" "$2" "$demo" $3 2>&1
}

# LOCALE TEXT: the order of work says it.
says () {
  told=$(run "$1" plan "") && echo "$told" | grep -qF "$2" || { echo "$told"; return 1; }
}

# LOCALE OPTIONS SIZE: cards are written on that paper.
prints () {
  rm -f "$work/cards.pdf"
  run "$1" card "-o $work/cards.pdf $2" || return 1
  pdfinfo "$work/cards.pdf" | grep -q "^Page size: *$3" || { pdfinfo "$work/cards.pdf"; return 1; }
}

guide_is () {
  rm -f "$work/guide.pdf"
  LC_ALL=$1 "$HANDWHEEL" guide -o "$work/guide.pdf" || return 1
  pdfinfo "$work/guide.pdf" | grep -q "^Page size: *$2" || { pdfinfo "$work/guide.pdf"; return 1; }
}

dates () {
  told=$(LC_ALL=$1 "$HANDWHEEL" queue "$demo" 2>&1) && echo "$told" | grep -qE "$2" || { echo "$told"; return 1; }
}

# LOCALE PATTERN: the journal of the demo's sewing room says when, as it is written there.
journal_says () {
  told=$(LC_ALL=$1 TZ=UTC0 "$HANDWHEEL" journal 2>&1) && echo "$told" | grep -qE "$2" || { echo "$told"; return 1; }
}

chooses () {
  echo "<preferences xmlns=\"urn:handwheel:room:1\" $1/>" >"$work/room/preferences.xml"
}

A5='595.27[0-9]* x 419.52'
check "de: a decimal comma, metres" says de_DE.UTF-8 "2,6 m, 10 min)"
check "fr: a decimal comma, metres" says fr_FR.UTF-8 "2,6 m, 10 min)"
check "es: a decimal comma, metres" says es_ES.UTF-8 "2,6 m, 10 min)"
check "en_US: inches" says en_US.UTF-8 "(18⅞ in, 3 min)"
check "C: a decimal point, metres" says C.UTF-8 "2.6 m, 10 min)"
check "de: cards on A5" prints de_DE.UTF-8 "" "$A5"
check "fr: cards on A5" prints fr_FR.UTF-8 "" "$A5"
check "es: cards on A5" prints es_ES.UTF-8 "" "$A5"
check "de: several on A4" prints de_DE.UTF-8 "--paper a4 --per-sheet 4" '841.8[0-9]* x 595.27'
check "en_US: cards on Letter" prints en_US.UTF-8 "" '612 x 792'
check "de: the guide on A4" guide_is de_DE.UTF-8 '595.27[0-9]* x 841.8'
check "en_US: the guide on Letter" guide_is en_US.UTF-8 '612 x 792'
check "de: dates" dates de_DE.UTF-8 '[0-9]+\. [A-Z][a-zä]+ 20[0-9]+'
check "en_US: dates" dates en_US.UTF-8 '[A-Z][a-z]+ [0-9]+, 20[0-9]+'
check "de: times" journal_says de_DE.UTF-8 '^[0-3][0-9]\.[01][0-9]\.20[0-9]{2} [0-9]{2}:[0-9]{2} '
check "fr: times" journal_says fr_FR.UTF-8 '^[0-3][0-9]/[01][0-9]/20[0-9]{2} [0-9]{2}:[0-9]{2} '
check "en_US: times" journal_says en_US.UTF-8 '^[01][0-9]/[0-3][0-9]/20[0-9]{2} [0-9]+:[0-9]{2} [AP]M '
check "C: times" journal_says C.UTF-8 '^[1-3]?[0-9] [A-Z][a-z]{2} 20[0-9]{2} [0-9]{2}:[0-9]{2} '
chooses 'units="mm" numbers="comma" paper="a6"'
check "en_US: what was chosen comes first, lengths" says en_US.UTF-8 "2,6 m, 10 min)"
check "en_US: what was chosen comes first, paper" prints en_US.UTF-8 "" '419.52[0-9]* x 297.6'
chooses 'units="inch" numbers="point" paper="letter"'
check "de: what was chosen comes first, lengths" says de_DE.UTF-8 "(18⅞ in, 3 min)"
check "de: what was chosen comes first, paper" prints de_DE.UTF-8 "" '612 x 792'
echo "1..$n"
