#!/usr/bin/env python3
# check-languages.py - FOLDER: each language of LINGUAS, in TAP: its formats are sound, nothing is left open or
# guessed, and what the program fills in or a person types stands in the translation as in the message
# SPDX-License-Identifier: GPL-3.0-or-later
import pathlib
import re
import subprocess
import sys

# {value} of a handbook sentence, --option of a command, <element> of a file
KEPT = re.compile(r'\{[^{}\s]*\}|--[a-z][a-z-]*|</?[a-z]+')


def messages(path):
    """(message, translation) of each form that is translated."""
    text = subprocess.run(['msgattrib', '--translated', '--no-obsolete', '--no-wrap', path], check=True,
                          capture_output=True, encoding='utf-8').stdout
    for block in text.split('\n\n'):
        fields, last = {}, None
        for line in block.split('\n'):
            head = re.match(r'(msgid_plural|msgid|msgstr(?:\[\d\])?) "(.*)"$', line)
            if head:
                last, fields[head[1]] = head[1], head[2]
            elif line.startswith('"') and last:
                fields[last] += line[1:-1]
            elif line.startswith('msgctxt'):
                last = None
        source = fields.get('msgid_plural', fields.get('msgid', ''))
        for name, value in fields.items():
            if name.startswith('msgstr') and source != '':
                yield source, value


def unfinished(path):
    for what, name in ('--untranslated', 'has no translation'), ('--only-fuzzy', 'is translated by a guess'):
        text = subprocess.run(['msgattrib', what, '--no-obsolete', '--no-wrap', path], check=True,
                              capture_output=True, encoding='utf-8').stdout
        for block in text.split('\n\n')[1:]:
            yield f'{block[block.find("msgid"):][:90]!r} {name}'


def faults(path):
    sound = subprocess.run(['msgfmt', '--check', '--output-file=/dev/null', path], capture_output=True,
                           encoding='utf-8')
    if sound.returncode != 0:
        yield from sound.stderr.strip().split('\n')
    yield from unfinished(path)
    for source, value in messages(path):
        if sorted(KEPT.findall(source)) != sorted(KEPT.findall(value)):
            yield f'“{value}” does not keep {KEPT.findall(source)}'
        if source.endswith('\\n') != value.endswith('\\n'):
            yield f'“{value}” does not end as “{source}” does'


def main():
    folder = pathlib.Path(sys.argv[1])
    lines = (folder / 'LINGUAS').read_text(encoding='utf-8').split('\n')
    languages = [line.strip() for line in lines if line.strip() and not line.startswith('#')]
    failed = 0
    print(f'1..{len(languages)}')
    for number, language in enumerate(languages, 1):
        found = list(faults(folder / f'{language}.po'))
        for fault in found:
            print('#', fault)
        print('not ok' if found else 'ok', number, f'- {language} is whole and keeps what must be kept')
        failed += bool(found)
    return 1 if failed else 0


sys.exit(main())
