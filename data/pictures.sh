#!/bin/sh
# pictures.sh - makes the pictures of the README and the guide from the real window and a real card of the demo, on a
# virtual display of its own, and puts them into data/pictures and data/guide. Run it after a change that shows.
# SPDX-License-Identifier: GPL-3.0-or-later
set -eu

here=$(cd "$(dirname "$0")/.." && pwd)
. "$here/data/packages.sh"
install_missing $BUILD_PACKAGES xvfb xauth dbus dbus-daemon xdotool openbox imagemagick

build=$here/build
[ -f "$build/build.ninja" ] || meson setup "$build" "$here" >/dev/null
ninja -C "$build" handwheel >/dev/null

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir -p "$here/data/pictures" "$work/run"
chmod 700 "$work/run"

cat >"$work/openbox.xml" <<END
<openbox_config xmlns="http://openbox.org/3.4/rc">
  <applications>
    <application class="*"><decor>no</decor><maximized>yes</maximized></application>
  </applications>
</openbox_config>
END

# Inside the display: start, go to each page, take its picture, quit.
cat >"$work/inside.sh" <<END
set -eu
openbox --config-file "$work/openbox.xml" &
"$build/handwheel" &
xdotool search --sync --onlyvisible --class handwheel >/dev/null
sleep 3
# A busy computer wants a while; the pointer rests where it brings up no tip.
press () {
  xdotool mousemove "\$1" "\$2" click 1 mousemove 1270 790
  sleep 2
}
take () {
  import -window root "$here/data/\$1.png"
}
press 500 465
take pictures/making-up
take guide/plan
press 1022 433
take guide/test-seam
xdotool key Escape
sleep 1
press 1206 590
take guide/numbers
xdotool key Escape
sleep 1
press 712 30
press 500 597
take pictures/order-of-work
take guide/order-of-work
press 824 30
take guide/print
press 60 205
take guide/queue
press 60 243
take pictures/machines
take guide/care
press 60 281
take guide/room
press 60 357
take guide/own-fabric
press 60 395
press 866 277
take pictures/stitch-faults
take guide/faults
press 60 471
take guide/own-entries
kill %2 %1
END

export HANDWHEEL_DATA_DIR="$here/data" HANDWHEEL_ROOM="$work/room" XDG_RUNTIME_DIR="$work/run" XDG_CONFIG_HOME="$work" \
  XDG_CACHE_HOME="$work" GDK_BACKEND=x11 GSK_RENDERER=cairo GTK_A11Y=none HANDWHEEL_THEME=light LC_ALL=C.UTF-8
unset DISPLAY WAYLAND_DISPLAY
xvfb-run -a -s "-screen 0 1280x800x24" dbus-run-session -- sh "$work/inside.sh" 2>/dev/null || true

demo=$(ls "$here"/data/demo/projects/*.handwheel | head -n 1)
HANDWHEEL_ROOM="$here/data/demo" "$build/handwheel" card "$demo" --step 5 --dpi 110 -o "$here/data/pictures/card.png"
cp "$here/data/pictures/card.png" "$here/data/guide/card.png"
for picture in "$here"/data/pictures/*.png "$here"/data/guide/*.png; do
  convert "$picture" -strip -colors 128 "PNG8:$picture"
  echo "$picture"
done
