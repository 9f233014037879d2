"""count.py - adds up the test cases of a meson run from its JUnit log and prints one closing line.

SPDX-License-Identifier: GPL-3.0-or-later

A program that crashed, ran out of time or ended without its plan counts as one failure besides the
cases it reported. Exit 1 when anything failed or nothing ran.
"""
import sys
import xml.etree.ElementTree as ET


def main(path):
    passed = failed = skipped = 0
    reasons = []
    for case in ET.parse(path).getroot().iter("testcase"):
        skip = case.find("skipped")
        if case.find("failure") is not None or case.find("error") is not None:
            failed += 1
        elif skip is not None:
            skipped += 1
            reasons.append(f'{case.get("classname", "")} {case.get("name", "")}: {skip.get("message") or "no reason given"}')
        else:
            passed += 1
    for suite in ET.parse(path).getroot().iter("testsuite"):
        reported = len(suite.findall("testcase"))
        broken = int(suite.get("errors", 0)) + int(suite.get("failures", 0))
        told = len([c for c in suite.findall("testcase") if c.find("failure") is not None or c.find("error") is not None])
        if broken > told and reported:
            failed += broken - told
    for reason in reasons:
        print("skipped:", reason)
    print(f"{passed} passed, {failed} failed, {skipped} skipped")
    return 1 if failed or passed == 0 else 0


sys.exit(main(sys.argv[1]))
