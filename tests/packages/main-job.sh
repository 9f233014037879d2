#!/bin/sh
# main-job.sh - ROOT LOCALE LOCALES FOLDER: what is installed under ROOT does the main job in the language of LOCALE
# SPDX-License-Identifier: GPL-3.0-or-later
#
# A shirt is planned from its garment, put in order, its cards printed twice to the same bytes, a session logged and the
# next needle told, in a sewing room of its own in FOLDER, with an empty environment. What the program said, and what
# the cards say, is then held to that language: tests/packages/spoken.py. LOCALES is where the locale lies.
set -eu
root=$1 locale=$2 locales=$3 folder=$4
here=$(cd "$(dirname "$0")" && pwd)
share=$root/share
language=${locale%%_*}
rm -rf "$folder"
mkdir -p "$folder"
cd "$folder"

run () {
  echo "\$ handwheel $*" >>commands.txt
  env -i PATH=/usr/bin:/bin HOME="$folder/home" LC_ALL="$locale.UTF-8" LOCPATH="$locales" TZ=UTC0 \
    "LSAN_OPTIONS=${LSAN_OPTIONS:-}" \
    G_DEBUG=fatal-criticals HANDWHEEL_DATA_DIR="$share/handwheel" HANDWHEEL_LOCALE_DIR="$share/locale" \
    HANDWHEEL_ROOM="$folder/room" SOURCE_DATE_EPOCH=1700000000 "$root/bin/handwheel" "$@" >>said.txt 2>&1 || {
      echo "handwheel $*: status $?"
      tail -n 5 said.txt
      exit 1
    }
}

run new --garment shirt --size M -o shirt.handwheel
run pair --fabric denim --plies 4
run plan shirt.handwheel
run card shirt.handwheel --paper a5 -o one.pdf
sleep 1                                  # else the same second would hide a clock in the file
run card shirt.handwheel --paper a5 -o two.pdf
cmp one.pdf two.pdf
run log shirt.handwheel --step 1 --load
run log --machine lockstitch --minutes 60
run next shirt.handwheel
run care
run journal
run queue shirt.handwheel
pdftotext one.pdf cards.txt
python3 "$here/spoken.py" "$here/../../po" "$language" said.txt cards.txt
