#!/bin/sh
# make-locales.sh - FOLDER STAMP: the locales that the tests run in, as the C library wants them, found by LOCPATH
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

mkdir -p "$1"
for locale in de_DE fr_FR es_ES en_US he_IL ar_EG; do
  # What is merely unusual in a locale's source is a warning, and makes it exit with 1.
  localedef --quiet -i "$locale" -f UTF-8 "$1/$locale.UTF-8" 2>/dev/null || [ -f "$1/$locale.UTF-8/LC_TIME" ]
done
: >"$2"
