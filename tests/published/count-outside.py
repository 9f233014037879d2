#!/usr/bin/env python3
# count-outside.py - how many cases hold a figure that was itself read in a document outside the project
# SPDX-License-Identifier: GPL-3.0-or-later
#
#   count-outside.py LEAST PROGRAM…   runs each PROGRAM and counts the cases that passed and named such a source
import re
import subprocess
import sys

least, programs = int(sys.argv[1]), sys.argv[2:]
total = 0
print("1..1")
for program in programs:
    out = subprocess.run([program, "--tap", "-k"], capture_output=True, text=True, check=False).stdout
    outside, n = False, 0
    for line in out.splitlines():
        if re.match(r"^\s*#.*\bexternal\b", line):
            outside = True
        elif re.match(r"^\s*(not )?ok \d", line):
            n += outside and not line.lstrip().startswith("not")
            outside = False
    total += n
    print(f"# {n} in {program.rsplit('/', 1)[-1]}")
print(f"# {total} cases with an outside value, at least {least} wanted")
print(f"{'ok' if total >= least else 'not ok'} 1 - cases with an outside value")
sys.exit(0 if total >= least else 1)
