#!/usr/bin/env python3
# pseudo.py - makes a language out of the template for translators, to see what nobody can translate or what is cut off
# SPDX-License-Identifier: GPL-3.0-or-later
"""pseudo.py POT PO [--rtl]: every message with accents on its letters, four tenths longer and between ‹ and ›; with
--rtl each word runs from right to left instead. What a program or a person's files put into a message stays."""

import re
import sys

PLAIN = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"
ACCENTED = "áƀçđéƒĝĥíĵķłḿñóṕɋŕšťúṽŵẋýžÁɃÇĐÉƑĜĤÍĴĶŁḾÑÓṔɊŔŠŤÚṼŴẊÝŽ"
ACCENTS = str.maketrans(PLAIN, ACCENTED)
PADDING = "óñé ťŵó ťĥŕéé ƒóúŕ "
RIGHT_TO_LEFT, AS_BEFORE = "\u202e", "\u202c"

# printf and strftime directives, {places}, <markup>, entities, and what is typed as it stands
KEPT = re.compile(r"%(?:\d+\$)?[-+#0'\d.*]*(?:hh|h|ll|l|z|t|j)?[A-Za-z%]|\{[\w-]+\}|</?[a-z][^<>]*>|&[a-z]+;"
                  r"|--[a-z][a-z-]*|\\.|\.(?:xml|handwheel|pdf|png|svg|ics)\b")
MESSAGE = re.compile(r'^(msgctxt|msgid|msgid_plural|msgstr(?:\[\d\])?) "(.*)"$')


def accent(text):
    return text.translate(ACCENTS)


def turn(text):
    return re.sub(r"[A-Za-z]+", lambda word: RIGHT_TO_LEFT + word.group().translate(ACCENTS) + AS_BEFORE, text)


def replace(text, change):
    at, pieces = 0, []
    for kept in KEPT.finditer(text):
        pieces += [change(text[at:kept.start()]), kept.group()]
        at = kept.end()
    return "".join(pieces) + change(text[at:])


def pseudo(text, rtl):
    """text: as between the quotes of a .po file. gettext wants a \\n at either end where the message has one."""
    if text == "default:LTR":            # which way the window runs
        return "default:RTL" if rtl else text
    head = re.match(r"(?:\\n|\s)*", text).group()
    tail = re.search(r"(?:\\n|\s)*$", text[len(head):]).group()
    middle = text[len(head):len(text) - len(tail)]
    if rtl:
        return head + replace(middle, turn) + tail
    longer = (len(middle) * 4 + 9) // 10
    padding = (PADDING * (longer // len(PADDING) + 1))[:longer].rstrip()
    return head + "‹" + replace(middle, accent) + (" " + padding if padding else "") + "›" + tail


def read(path):
    """Yields each message as a dict of its parts."""
    message, part = {}, None
    for line in open(path, encoding="utf-8"):
        line = line.rstrip("\n")
        found = MESSAGE.match(line)
        if found:
            part = found.group(1)
            message[part] = found.group(2)
        elif line.startswith('"') and part:
            message[part] += line[1:-1]
        elif not line.startswith("#"):
            if message.get("msgid"):
                yield message
            message, part = {}, None
    if message.get("msgid"):
        yield message


def main(template, target, rtl):
    with open(target, "w", encoding="utf-8") as out:
        out.write('msgid ""\nmsgstr ""\n"Content-Type: text/plain; charset=UTF-8\\n"\n'
                  '"Plural-Forms: nplurals=2; plural=(n != 1);\\n"\n')
        for message in read(template):
            out.write("\n")
            for part in ("msgctxt", "msgid", "msgid_plural"):
                if part in message:
                    out.write('%s "%s"\n' % (part, message[part]))
            if "msgid_plural" in message:
                out.write('msgstr[0] "%s"\n' % pseudo(message["msgid"], rtl))
                out.write('msgstr[1] "%s"\n' % pseudo(message["msgid_plural"], rtl))
            else:
                out.write('msgstr "%s"\n' % pseudo(message["msgid"], rtl))


main(sys.argv[1], sys.argv[2], "--rtl" in sys.argv[3:])
