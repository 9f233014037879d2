#!/bin/sh
# test-debian.sh - BUILD: the Debian package is built twice, from two folders, to the same bytes; it is installed under
# a scratch root, does its job there, and leaves nothing when it is purged
# SPDX-License-Identifier: GPL-3.0-or-later
set -u
export LC_ALL=C.UTF-8
build=$1
source=$(cd "$(dirname "$0")/../.." && pwd)

# The same places each time, so that a compiler's cache helps.
work=$build/debian-package
rm -rf "$work"
mkdir -p "$work"
root=$work/root
n=0

check () {
  n=$((n + 1))
  name=$1
  shift
  if said=$("$@" 2>&1); then
    echo "ok $n - $name"
    return 0
  fi
  echo "$said" | tail -n 30 | sed 's/^/# /'
  echo "not ok $n - $name"
  return 1
}

make_package () {
  mkdir -p "$work/$1/handwheel"
  (cd "$source" && tar --create --exclude='./build*' --exclude=./.git --exclude='*.pot' .) |
    tar --extract --directory "$work/$1/handwheel" && cd "$work/$1/handwheel" && cp -R data/packaging/debian debian \
    && dpkg-buildpackage --build=binary --no-sign --no-check-builddeps
}

same_bytes () {
  cmp "$work"/one/handwheel_*.deb "$work"/another/handwheel_*.deb
}

install_package () {
  mkdir -p "$root/var/lib/dpkg/updates" "$root/var/lib/dpkg/info" "$root/var/lib/dpkg/triggers"
  : >"$root/var/lib/dpkg/status"
  fakeroot dpkg --root="$root" --force-depends --install "$work"/one/handwheel_*.deb
}

# LOCALE: the main job with the program as it was unpacked, in that language; its cards are the same bytes twice.
does_its_job_in () {
  sh "$source/tests/packages/main-job.sh" "$root/usr" "$1" "$build/tests/language/locales" "$work/job-$1"
}

leaves_nothing () {
  fakeroot dpkg --root="$root" --purge handwheel && left=$(find "$root" ! -type d ! -path '*/var/lib/dpkg/*') \
    && echo "$left" && [ -z "$left" ]
}

if check "dpkg-buildpackage makes the package" make_package one; then
  check "it is made again in another folder" make_package another \
    && check "both packages are the same, byte for byte" same_bytes
  check "it is installed under a scratch root" install_package && {
    check "it does the main job there in English" does_its_job_in en_US
    check "it does the main job there in German" does_its_job_in de_DE
    check "it does the main job there in French" does_its_job_in fr_FR
    check "it does the main job there in Spanish" does_its_job_in es_ES
  }
  check "purged, it leaves nothing" leaves_nothing
fi
echo "1..$n"
