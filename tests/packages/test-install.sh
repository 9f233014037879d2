#!/bin/sh
# test-install.sh - BUILD: what meson installs stands on its own, and is in order as a desktop wants it
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
export LC_ALL=C.UTF-8
build=$1
stage=$(mktemp -d)
trap 'rm -rf "$stage"' EXIT
n=0

# check NAME COMMAND…: one TAP case, passed when the command does; what it says is told when it does not.
check () {
  n=$((n + 1))
  name=$1
  shift
  if said=$("$@" 2>&1); then
    echo "ok $n - $name"
  else
    echo "$said" | sed 's/^/# /'
    echo "not ok $n - $name"
  fi
}

needs () {
  command -v "$1" >/dev/null 2>&1 && return 0
  n=$((n + 1))
  echo "ok $n - $2 # SKIP $1 is not installed"
  return 1
}

stays_in_prefix () {
  [ -z "$(find "$stage" -mindepth 1 -maxdepth 1 ! -name "$(echo "$prefix" | cut -d/ -f2)")" ]
}

# VARIABLE… PROGRAM…: with nothing of the source tree in the environment but, for a build that watches for leaks, which
# leaks are not ours.
bare () {
  env -i PATH=/usr/bin:/bin "LSAN_OPTIONS=${LSAN_OPTIONS:-}" "$@"
}

# In a folder of its own.
run () {
  (cd "$stage" && bare LC_ALL=C.UTF-8 HOME="$stage/home" G_DEBUG=fatal-criticals \
    HANDWHEEL_DATA_DIR="$share/handwheel" "$root/bin/handwheel" "$@")
}

prints_guide () {
  run guide -o "$stage/guide.pdf" && [ -s "$stage/guide.pdf" ]
}

makes_cards () {
  run new --garment skirt --size 96 -o "$stage/skirt.handwheel" && run plan "$stage/skirt.handwheel" \
    && run card "$stage/skirt.handwheel" -o "$stage/cards.pdf" && [ -s "$stage/cards.pdf" ]
}

# LOCALE: a garment is planned, ordered, printed, sewn, and the next needle told, all of it in its language.
does_its_job_in () {
  sh "$source/tests/packages/main-job.sh" "$root" "$1" "$build/tests/language/locales" "$stage/job-$1"
}

# What the job said in English must not pass for German: else the others would prove nothing.
knows_english () {
  ! python3 "$source/tests/packages/spoken.py" "$source/po" de "$stage/job-en_US/said.txt"
}

names_no_source () {
  ! grep -rlF "$source" "$root"
}

is_documented () {
  for name in $(run --help | sed -n 's/^  \([a-z][a-z-]*\)  .*/\1/p' | grep -v '^handwheel$'); do
    grep -qF "handwheel $(echo "$name" | sed 's/-/\\-/g')" "$root/share/man/man1/handwheel.1" \
      || { echo "$name is not in the manual page"; return 1; }
    for option in $(run "$name" --help | sed -n 's/^  \(-[a-z], \)\{0,1\}--\([a-z-]*\).*/\2/p'); do
      grep -qF -- "--$option" "$share/bash-completion/completions/handwheel" \
        && grep -qF -- "--$option" "$share/zsh/site-functions/_handwheel" \
        && grep -qF -- "-l $option " "$share/fish/vendor_completions.d/handwheel.fish" \
        || { echo "$name --$option is not completed"; return 1; }
    done
  done
  for status in 0 1 2 3; do grep -q "^.B $status" "$root/share/man/man1/handwheel.1" || return 1; done
}

# What a person would get on the Tab key: of a command, and of an option.
completes_in_fish () {
  got=$(HOME="$stage" XDG_DATA_HOME="$stage/none" XDG_CONFIG_HOME="$stage/none" fish --no-config -c '
    source $argv[1]; complete -C "handwheel pla"; complete -C "handwheel plan --form"' \
    "$share/fish/vendor_completions.d/handwheel.fish")
  echo "$got"
  echo "$got" | grep -q '^plan' && echo "$got" | grep -q '^--format'
}

# zsh completes only at a terminal of its own: one is made, and what Tab puts there is read back.
completes_in_zsh () {
  python3 "$source/tests/packages/zsh-tab.py" "$share/zsh/site-functions" "handwheel pla" "plan" \
    && python3 "$source/tests/packages/zsh-tab.py" "$share/zsh/site-functions" "handwheel plan --form" "--format"
}

completes () {
  bash -c '. "$1"; COMP_WORDS=(handwheel pl); COMP_CWORD=1; _handwheel; [ "${COMPREPLY[0]}" = plan ] || exit 1
    COMP_WORDS=(handwheel plan --fo); COMP_CWORD=2; _handwheel; [ "${COMPREPLY[0]}" = --format= ] || exit 1
    COMP_WORDS=(handwheel plan --format = x); COMP_CWORD=4; _handwheel; [ "${COMPREPLY[0]}" = xml ]' \
    bash "$share/bash-completion/completions/handwheel"
}

source=$(cd "$(dirname "$0")/../.." && pwd)
prefix=$(meson introspect "$build" --buildoptions |
  python3 -c 'import json, sys; print(*[o["value"] for o in json.load(sys.stdin) if o["name"] == "prefix"])')
root=$stage$prefix share=$stage$prefix/share
id=net.handwheel.Handwheel

check "DESTDIR takes everything" env DESTDIR="$stage" meson install -C "$build" --no-rebuild --quiet --strip
check "nothing outside the prefix" stays_in_prefix
check "the job is done from what is installed alone" makes_cards
check "the main job in German" does_its_job_in de_DE
check "the main job in French" does_its_job_in fr_FR
check "the main job in Spanish" does_its_job_in es_ES
check "the main job in English" does_its_job_in en_US
check "what is English is known as such" knows_english
check "no file installed names the source tree" names_no_source
check "every command and option is in the manual page and completed" is_documented
check "bash completes commands, options and values" completes
needs fish "fish completes commands and options" && check "fish completes commands and options" completes_in_fish
needs zsh "zsh completes commands and options" && check "zsh completes commands and options" completes_in_zsh
needs groff "the manual page is sound" &&
  check "the manual page is sound" sh -c '! groff -k -man -Tutf8 -ww -z "$1" 2>&1 | grep .' sh \
    "$root/share/man/man1/handwheel.1"
needs desktop-file-validate "the desktop entry is valid" &&
  check "the desktop entry is valid" desktop-file-validate "$share/applications/$id.desktop"
needs appstreamcli "the metainfo is valid" &&
  check "the metainfo is valid" appstreamcli validate --no-net "$share/metainfo/$id.metainfo.xml"
needs update-mime-database "a project file is known by its kind" &&
  check "a project file is known by its kind" sh -c 'update-mime-database "$1/mime" &&
    grep -q "application/x-handwheel+xml:\*.handwheel" "$1/mime/globs"' sh "$share"
check "icons of the program and of its files" test -s "$share/icons/hicolor/scalable/apps/$id.svg" \
  -a -s "$share/icons/hicolor/symbolic/apps/$id-symbolic.svg" \
  -a -s "$share/icons/hicolor/scalable/mimetypes/application-x-handwheel+xml.svg"
check "it is started by its name on the bus" grep -qx "Exec=$prefix/bin/handwheel --gapplication-service" \
  "$share/dbus-1/services/$id.service"
check "the guide is on paper" prints_guide
check "the Flatpak manifest is of this program and asks for no more than it needs" \
  python3 "$source/tests/packages/flatpak.py" "$source" "$share/applications/$id.desktop"
needs flatpak-builder "flatpak-builder reads the manifest" &&
  check "flatpak-builder reads the manifest" sh -c 'cd "$1" && flatpak-builder --show-manifest "$2"' sh "$stage" \
    "$source/data/packaging/net.handwheel.Handwheel.json"
echo "1..$n"
