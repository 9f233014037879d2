#!/usr/bin/env python3
# flatpak.py - SOURCE DESKTOP-ENTRY: what can be told of the Flatpak manifest without building it
# SPDX-License-Identifier: GPL-3.0-or-later
#
# It parses; every file it names is there; it is of the program that the desktop entry starts; it asks for the display
# and for nothing else: no network, no folder of the person's, no service. Files are chosen, cards printed, care notified
# and the palette read through the portals, which every Flatpak may talk to.
import configparser
import json
import pathlib
import re
import sys

# What a GTK window needs.
GRANTED = {'--socket=wayland', '--socket=fallback-x11', '--share=ipc', '--device=dri'}
APP_ID = re.compile(r'[A-Za-z_][A-Za-z0-9_-]*(\.[A-Za-z_][A-Za-z0-9_-]*){2,}$')


def no_repeats(pairs):
    keys = [key for key, _ in pairs]
    assert len(keys) == len(set(keys)), f'a key twice among {keys}'
    return dict(pairs)


def check(source, desktop):
    folder = source / 'data/packaging'
    manifests = list(folder.glob('*.json'))
    assert len(manifests) == 1, f'one manifest, not {manifests}'
    manifest = json.loads(manifests[0].read_text(encoding='utf-8'), object_pairs_hook=no_repeats)
    app_id = manifest['id']
    assert APP_ID.match(app_id), f'{app_id} is no application id'
    assert manifests[0].stem == app_id, 'the manifest is named by its id'
    assert desktop.name == f'{app_id}.desktop', f'{desktop.name} is not that of {app_id}'
    entry = configparser.ConfigParser(interpolation=None, strict=True)
    entry.optionxform = str
    entry.read(desktop, encoding='utf-8')
    started = entry['Desktop Entry']['Exec'].split()[0]
    assert pathlib.Path(started).name == manifest['command'], f'the desktop entry starts {started}'
    assert entry['Desktop Entry']['Icon'].startswith(app_id), 'only what bears the id leaves a Flatpak: the icon'
    for part in ('runtime', 'runtime-version', 'sdk'):
        assert manifest[part], f'no {part}'
    assert manifest['runtime'].replace('.Platform', '') == manifest['sdk'].replace('.Sdk', ''), 'runtime and SDK differ'
    asked = manifest['finish-args']
    assert len(asked) == len(set(asked)), f'asked for twice: {asked}'
    assert set(asked) == GRANTED, f'asks for {sorted(set(asked) ^ GRANTED)}'
    for module in manifest['modules']:
        assert module['buildsystem'] == 'meson', 'built by meson'
        for origin in module['sources']:
            assert origin['type'] == 'dir', 'from this tree alone: nothing is fetched'
            tree = (folder / origin['path']).resolve()
            assert tree == source.resolve() and (tree / 'meson.build').is_file(), f'{tree} is not the source'
            assert all(re.fullmatch(r'build[a-z-]*', name) for name in origin['skip']), 'only builds are left out'


def goes_through_portals(source):
    """What the sandbox leaves out is not called by another way than the portals."""
    code = ''.join(path.read_text(encoding='utf-8') for path in sorted((source / 'src').glob('*/*.c')))
    for call in ('g_socket_client_new', 'soup_session', 'gtk_file_chooser_dialog_new', '"org.freedesktop.Notifications"',
                 '"org.freedesktop.login1"', '"org.gnome.'):
        assert call not in code, f'{call} is not there in a sandbox'


def main():
    source, desktop = pathlib.Path(sys.argv[1]), pathlib.Path(sys.argv[2])
    check(source, desktop)
    goes_through_portals(source)


main()
