#!/usr/bin/env python3
# every-row.py - is each published figure that was gathered a case, or among those turned down with a reason?
# SPDX-License-Identifier: GPL-3.0-or-later
#
#   every-row.py REJECTED PROGRAM…   lists the cases of each PROGRAM and the rows that REJECTED tells of
#
# ROWS: the rows of exact (E), published (P) and ranged (R) figures, and how many figures each holds. A row is covered
# when it has that many cases and rejected parts together, or is rejected as a whole.
import os
import re
import subprocess
import sys

ROWS = """
A1 1, A2 3, A3 2, A4 4, A5 6, A7 4, A8 4, A10 2, A11 2, A13 1, A16 1, A18 1, A19 1, A20 1, A21 4, A22 1,
B1 1, B2 1, B4 1, B5 4, B6 1, B8 1, B9 1, B10 1, B11 1, B12 1,
C1 2, C2 1, C3 1, C4 7, C5 1, C7 1, C8 1, C9 1, C10 1, C17 2, C18 1, C20 2, C22 3, C23 1, C25 4, C27 1, C31 1, C32 2,
D2 1, D4 6, D5 1, D6 1, D7 4, D10 1, D12 2, D13 2, D14 4, D15 1,
E1 1, E2 1, E4 1, E5 1, E6 1, E7 1, E9 1, E10 1, E11 5, E13 1, E14 1, E15 2,
F1 5, F3 3, F4 2, F6 2, F7 2, F8 2, F10 1, F12 2, F13 1, F14 2, F15 2, F16 1, F18 1, F20 1, F21 12, F22 1, F23 1, F24 1,
F25 2, F27 2, F29 1, F30 1, F31 1, F32 3, F33 1, F35 2,
G5 1, H1 1, H2 1, H4 1, H5 2, H6 1, H7 2, H9 1, H10 3, H13 1, I1 1, I2 1, I4 2, I6 2, I8 1, I9 2, J1 1, J2 1, J4 1,
K1 4, K2 7, K3 8, K4 1, K6 1
"""


# A program that only lists its cases never frees what they were to be run with: the test framework's leak, not ours.
# Each is run for itself as well, and may leak nothing then.
ENVIRONMENT = {**os.environ, "ASAN_OPTIONS": os.environ.get("ASAN_OPTIONS", "") + ":detect_leaks=0"}


def run(*argv):
    return subprocess.run(argv, capture_output=True, text=True, check=True, env=ENVIRONMENT).stdout


rejected = re.findall(r"^# (([A-K]\d+)(?:/[a-z0-9-]+)?): ", run(sys.argv[1], "--tap"), re.M)
cases = [path for program in sys.argv[2:] for path in re.findall(r"^/published/(\S+)$", run(program, "-l"), re.M)]
whole = {name for name, row in rejected if name == row}
covered, missing = 0, []
print("1..1")
for row, n in re.findall(r"([A-K]\d+) (\d+)", ROWS):
    found = sum(path.split("/")[0] == row for path in cases) + sum(of == row for _, of in rejected)
    if row in whole or found >= int(n):
        covered += 1
    else:
        missing.append(f"{row}: {found} of {n}")
print(f"# {covered} rows covered, {len(cases)} cases, {len(rejected)} rows or parts of rows rejected")
for line in missing:
    print(f"# not covered: {line}")
print(f"{'not ok' if missing else 'ok'} 1 - every published row is a case or rejected with its reason")
sys.exit(1 if missing else 0)
