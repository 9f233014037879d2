#!/bin/sh
# make-pseudo.sh - SOURCE FOLDER LANGUAGE STAMP: the made-up language's catalogue, LANGUAGE "xb" from right to left
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

source=$1 folder=$2/$3/LC_MESSAGES language=$3 stamp=$4
mkdir -p "$folder"
rtl=
[ "$language" != xb ] || rtl=--rtl

GETTEXTDATADIRS="$source/po" xgettext --from-code=UTF-8 --keyword=_ --keyword=N_ --keyword=C_:1c,2 --keyword=NC_:1c,2 \
  --directory="$source" --files-from="$source/po/POTFILES" --output="$folder/handwheel.pot"
# shellcheck disable=SC2086
python3 "$source/tests/language/pseudo.py" "$folder/handwheel.pot" "$folder/handwheel.po" $rtl
msgfmt --output-file="$folder/handwheel.mo" "$folder/handwheel.po"
: >"$stamp"
