#!/usr/bin/env python3
# zsh-tab.py - FUNCTIONS TYPED WANTED: types TYPED and the Tab key into a zsh that has the completions of the folder
# FUNCTIONS; exit 0 when WANTED stands on the line then
# SPDX-License-Identifier: GPL-3.0-or-later
import os
import pty
import select
import sys
import time

functions, typed, wanted = sys.argv[1:]
pid, terminal = pty.fork()
if pid == 0:
    os.environ.update(TERM='dumb', PS1='ready> ', ZDOTDIR='/nonexistent')
    os.execvp('zsh', ['zsh', '-f', '-i'])


def read_until(text, seconds):
    got, end = '', time.monotonic() + seconds
    while text not in got and time.monotonic() < end:
        if select.select([terminal], [], [], 0.2)[0]:
            got += os.read(terminal, 4096).decode('utf-8', 'replace').replace('\a', '')
    return got


def say(line):
    os.write(terminal, line.encode())


read_until('ready> ', 30)
say(f"fpath=({functions} $fpath); autoload -Uz compinit; compinit -u -D; print set''up\n")
read_until('setup', 30)
read_until('ready> ', 30)
say(typed + '\t')
got = read_until(wanted, 30)
os.close(terminal)
os.waitpid(pid, 0)
print(repr(got))
sys.exit(0 if wanted in got else 1)
