#!/usr/bin/env python3
# spoken.py - PO-FOLDER LANGUAGE TEXT…: holds what the program said to the catalogue of its language: nothing of it is
# left English, and enough of it is in the language to tell
# SPDX-License-Identifier: GPL-3.0-or-later
#
# Compared are the pieces of messages between their placeholders, of three words or more. English is held to the
# messages themselves; that they are found there shows that they would be found elsewhere.
import pathlib
import re
import subprocess
import sys

PLACE = re.compile(r'%(?:\d+\$)?[-+ 0#]*\d*(?:\.\d+)?l?[sdugf]|\{[^{}\s]*\}|\\n|%%')
WORDS = 3
ENOUGH = 20              # different pieces in each text


def flat(text):
    """Breaks of lines and the kind of a space are left out of account, and so are marks of mnemonics."""
    return ' '.join(text.replace('\u00a0', ' ').replace('\u202f', ' ').split())


def pieces(message):
    message = message.replace('\\"', '"').replace('_', '')
    for piece in PLACE.split(message):
        piece = flat(piece).strip(' .,:;“”„«»()')
        if len(re.findall(r'[^\W\d]{2,}', piece)) >= WORDS:
            yield piece


def catalogue(path):
    text = subprocess.run(['msgcat', '--no-wrap', path], check=True, capture_output=True, encoding='utf-8').stdout
    text = re.sub(r'"\n"', '', text)
    return re.findall(r'^(msgid|msgid_plural|msgstr)(?:\[\d\])? "(.*)"$', text, re.M)


def main():
    folder, language = pathlib.Path(sys.argv[1]), sys.argv[2]
    english, own = set(), set()
    for name in [language] if language != 'en' else ['de', 'fr', 'es']:
        for kind, message in catalogue(folder / f'{name}.po'):
            (own if kind == 'msgstr' else english).update(pieces(message))
    if language == 'en':
        english, own = own - english, english
    foreign = english - own                     # titles of documents and what is spelt alike are no fault
    faults = 0
    for path in sys.argv[3:]:
        text = flat(pathlib.Path(path).read_text(encoding='utf-8'))
        found = {piece for piece in own if piece in text}
        left = {piece for piece in foreign if re.search(rf'(?<!\w){re.escape(piece)}(?!\w)', text)}
        left = {piece for piece in left if not any(piece in of_own for of_own in found)}
        print(f'{language}, {path}: {len(found)} pieces of its own, {len(left)} of another language')
        for piece in sorted(left):
            print(f'  “{piece}”')
        faults += len(left) + (len(found) < ENOUGH)
    return 1 if faults else 0


sys.exit(main())
