#!/bin/sh
# with-display.sh - runs a test program on a display, a session bus and folders of its own
# SPDX-License-Identifier: GPL-3.0-or-later
# Usage: with-display.sh PROGRAM [ARGUMENT…]. Nothing of the person's own desktop is read or written.
set -eu

for need in Xvfb dbus-run-session; do
  if ! command -v "$need" >/dev/null 2>&1; then
    echo "1..0 # SKIP $need is not installed"
    exit 0
  fi
done

folder=$(mktemp -d "${TMPDIR:-/tmp}/handwheel-display-XXXXXX")
server=
clean_up () {
  # Waited for: a dying server takes its number's socket with it, even from the next one that got the number.
  if [ -n "$server" ]; then
    kill "$server" 2>/dev/null || :
    wait "$server" 2>/dev/null || :
  fi
  rm -rf "$folder"
}
trap clean_up EXIT
trap 'exit 1' HUP INT TERM

# The server itself picks a number that no other has, and says it once it is ready. It does not begin anew when its last
# client goes: the bus's services come and go before the program, and would find it gone.
mkfifo "$folder/number"
Xvfb -displayfd 3 -screen 0 1280x1024x24 -nolisten tcp -noreset 3>"$folder/number" >"$folder/server.log" 2>&1 &
server=$!
read -r number <"$folder/number" || { cat "$folder/server.log" >&2; echo "Bail out! No display"; exit 1; }

mkdir -m 700 "$folder/run"
export DISPLAY=":$number" HOME="$folder" XDG_RUNTIME_DIR="$folder/run"
export XDG_CONFIG_HOME="$folder/config" XDG_DATA_HOME="$folder/data" XDG_STATE_HOME="$folder/state"
export XDG_CACHE_HOME="$folder/cache"
# The system's data, but no file-sync services, and a folder for them all the same: GTK's file dialog asks a library for
# them that loses the name of a folder which is not there, where no suppression could know it by.
mkdir "$folder/share"
ln -s /usr/share/* "$folder/share"
rm -f "$folder/share/cloud-providers"
mkdir "$folder/share/cloud-providers"
export XDG_DATA_DIRS="$folder/share"
export GDK_BACKEND=x11 GSK_RENDERER=cairo GDK_SCALE=1 GSETTINGS_BACKEND=memory
unset NO_AT_BRIDGE WAYLAND_DISPLAY DBUS_SESSION_BUS_ADDRESS AT_SPI_BUS_ADDRESS

# What the bus's own services say is not the test's output.
status=0
dbus-run-session -- sh -c 'exec "$@" >&3 3>&-' sh "$@" 3>&1 >/dev/null || status=$?
exit $status
