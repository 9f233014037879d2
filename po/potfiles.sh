#!/bin/sh
# potfiles.sh - writes po/POTFILES: every file whose text is translated. With --check it writes nothing and prints the
# lines that differ, in TAP.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu
export LC_ALL=C

cd "$(dirname "$0")/.."

list () {
  echo "# Files whose text is translated; written by po/potfiles.sh"
  find data/desktop -name '*.in' ! -name '*.service.in' -o -name '*.gschema.xml' | sort
  find data/demo -name '*.handwheel' -o -path '*/journal/*.xml' | sort
  find data/guide data/handbook -maxdepth 1 -name '*.xml' | sort
  grep -rl 'glib/gi18n' src --include='*.c' | sort
  grep -l 'translatable="yes"' ui/*.ui | sort
}

if [ "${1:-}" != --check ]; then
  list >po/POTFILES
  exit 0
fi
echo "1..1"
if difference=$(list | diff po/POTFILES -); then
  echo "ok 1 - every file with text is in po/POTFILES"
else
  echo "$difference" | sed 's/^/# /'
  echo "# sh po/potfiles.sh mends it"
  echo "not ok 1 - every file with text is in po/POTFILES"
fi
