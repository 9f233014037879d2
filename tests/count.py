"""count.py - adds up the test cases of a meson run from its JUnit logs and prints one closing line.

SPDX-License-Identifier: GPL-3.0-or-later

A case that was planned but never reported (its program crashed or ran out of time) counts as failed; a
program that reported no plan at all, or that ended badly after its last case (a leak, a crash on the way out), counts as
one failure, and so does a log that is not there, for then the tests never started. Exit 1 when anything failed or nothing
ran.
"""
import os
import re
import sys
import xml.etree.ElementTree as ET


def count_suite(suite):
    passed = failed = skipped = 0
    for case in suite.findall("testcase"):
        skip = case.find("skipped")
        if case.find("failure") is not None or case.find("error") is not None:
            failed += 1
            print("failed:", case.get("classname", ""), case.get("name", ""))
        elif skip is not None:
            skipped += 1
            reason = skip.get("message") or case.findtext("system-out") or "no reason given"
            print("skipped:", case.get("classname", ""), case.get("name", "") + ":", reason.strip())
        else:
            passed += 1

    reported = passed + failed + skipped
    plan = re.search(r"^1\.\.(\d+)", suite.findtext("system-out") or "", re.MULTILINE)
    planned = int(plan.group(1)) if plan else max(reported, 1)
    if planned > reported:
        print(f"failed: {suite.get('name')}: {planned - reported} of {planned} cases never came to an end")
        failed += planned - reported
    if not failed and re.search(r"test program exited with status code", suite.findtext("system-err") or ""):
        print(f"failed: {suite.get('name')}: ended badly after its last case")
        failed += 1
    return passed, failed, skipped


def read_log(path):
    """The log holds what programs printed, and may hold control characters that no XML allows."""
    with open(path, encoding="utf-8", errors="replace") as log:
        return ET.fromstring(re.sub(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]", "?", log.read()))


def count_log(path):
    if not os.path.exists(path):
        print("failed:", path, "was not written, for the tests did not start")
        return [(0, 1, 0)]
    return [count_suite(suite) for suite in read_log(path).iter("testsuite")]


def main(paths):
    sums = [counts for path in paths for counts in count_log(path)]
    passed, failed, skipped = (sum(column) for column in zip(*sums)) if sums else (0, 0, 0)
    print(f"{passed} passed, {failed} failed, {skipped} skipped")
    return 1 if failed or passed == 0 else 0


sys.exit(main(sys.argv[1:]))
