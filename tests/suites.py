"""suites.py - prints what must be built for suites of tests, a path in the build folder a line.

SPDX-License-Identifier: GPL-3.0-or-later

    tests/suites.py BUILD SUITE…

Exit 2 with one line when there is no such suite.
"""
import json
import os
import subprocess
import sys


def introspect(build, what):
    return json.loads(subprocess.run(["meson", "introspect", what, build], check=True, capture_output=True).stdout)


def main(build, suites):
    tests = [(test, {suite.split(":")[-1] for suite in test["suite"]}) for test in introspect(build, "--tests")]
    known = set().union(*(own for _, own in tests))
    for suite in suites:
        if suite not in known:
            print(f"tests/run.sh: there is no suite {suite}; there are: {' '.join(sorted(known))}", file=sys.stderr)
            return 2
    needed = {target for test, own in tests if own & set(suites) for target in test["depends"]}
    for target in introspect(build, "--targets"):
        if target["id"] in needed:
            print(*(os.path.relpath(name, os.path.abspath(build)) for name in target["filename"]), sep="\n")
    return 0


sys.exit(main(sys.argv[1], sys.argv[2:]))
