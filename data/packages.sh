# packages.sh - installs the Debian packages that are missing; sourced by start.sh and tests/run.sh
# SPDX-License-Identifier: GPL-3.0-or-later

BUILD_PACKAGES="gcc libc6-dev meson ninja-build pkgconf gettext libgtk-4-dev libxml2-dev libcairo2-dev
  libpango1.0-dev adwaita-icon-theme fonts-inter libxml2-utils"
TEST_PACKAGES="$BUILD_PACKAGES xvfb dbus dbus-daemon at-spi2-core libatspi2.0-dev poppler-utils
  glpk-utils python3 python3-icalendar appstream desktop-file-utils shared-mime-info xsltproc groff-base
  locales zsh fish dpkg-dev debhelper fakeroot flatpak-builder"
# the compiler with the fuzzing engine, and its sanitizers
FUZZ_PACKAGES="clang libclang-rt-dev llvm"

# install_missing PACKAGE...: does nothing, and needs no rights, when all are there.
install_missing () {
  command -v dpkg-query >/dev/null 2>&1 || return 0
  missing=""
  for package in "$@"; do
    state=$(dpkg-query -W -f '${db:Status-Status}' "$package" 2>/dev/null)
    [ "$state" = installed ] || missing="$missing $package"
  done
  [ -n "$missing" ] || return 0
  echo "Installing:$missing"
  as_root=""
  [ "$(id -u)" = 0 ] || as_root=sudo
  if [ -n "$as_root" ] && ! command -v sudo >/dev/null 2>&1; then
    echo "These packages are missing and only root can install them:$missing" >&2
    return 1
  fi
  $as_root apt-get update -qq || return 1
  # shellcheck disable=SC2086
  DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends $missing >/dev/null
}
