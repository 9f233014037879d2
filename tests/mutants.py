#!/usr/bin/env python3
"""mutants.py - how many faults, put into pairing, tension and order on purpose, do the tests catch?

SPDX-License-Identifier: GPL-3.0-or-later

    tests/mutants.py [--seed N] [--count N] [--only N…] [--again] [--list]

A copy of the sources is made in which a hundred statements hold two forms, the right one and one with a fault: an
operator, a constant, a condition or the choice between equals is another. The variable HW_MUTANT of the environment
says which fault is in force, so that one build serves for all. Then the tests of each fault's subject run until one
fails. What no test caught is printed; a fault that changes nothing which the plan promises stands in
mutants-equal.txt with the reason, and does not count. Exit 1 when fewer than 95 % of the others are caught.

A test that runs five times as long as it should (of processor time) has caught the fault too. What no test caught has
a second chance in a build under AddressSanitizer and UBSan: a fault that reads or writes beyond an array may change no
result. --again runs the faults of the last build once more. The comparison of orders with an integer programme is left
out: it takes minutes.
"""
import argparse
import os
import random
import re
import resource
import shutil
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
WORK = ROOT / "build-mutants"
TREE = WORK / "tree"
# What holds no fault is compiled by the very commands of the tests' own builds.
PLAIN = TREE / "build-tests"
WATCHED = TREE / "build-sanitize"
OPTIONS = {
    PLAIN: ["-Dbuildtype=debugoptimized", "-Dwerror=true"],
    WATCHED: ["-Dbuildtype=debug", "-Db_sanitize=address,undefined", "-Db_lundef=false", "-Dwerror=true"],
}

# What is changed, and the tests that are to notice, the quick ones first.
SUBJECTS = {
    "pairing": {
        "files": ["src/plan/pair-*.c", "src/plan/pairing.c", "src/plan/cloth.c", "src/plan/rules.c",
                  "src/trade/needle.c", "src/trade/thread.c"],
        "share": 0.36,
        "tests": ["plan/test-pairing", "trade/test-needle", "trade/test-thread", "plan/test-bands", "plan/test-fabrics",
                  "plan/test-far", "plan/test-seams", "plan/test-plan", "plan/test-share", "plan/test-words",
                  "published/published-setups", "plan/test-properties"],
    },
    "tension": {
        "files": ["src/trade/tension*.c"],
        "share": 0.24,
        "tests": ["trade/test-first-try", "trade/test-tension", "trade/test-tension-learn", "plan/test-seams",
                  "plan/test-pairing", "trade/test-tension-posterior"],
    },
    "order": {
        "files": ["src/plan/order*.c", "src/plan/share*.c", "src/plan/sequence.c", "src/plan/changes.c",
                  "src/plan/wish-arrows.c"],
        "share": 0.40,
        "tests": ["plan/test-order-choice", "plan/test-order-projects", "plan/test-order", "plan/test-order-path",
                  "plan/test-order-memory", "plan/test-order-together", "plan/test-share", "plan/test-wishes",
                  "plan/test-plan", "plan/test-properties"],
    },
}

OPERATORS = [(" < ", " <= "), (" <= ", " < "), (" > ", " >= "), (" >= ", " > "), (" == ", " != "), (" != ", " == "),
             (" && ", " || "), (" || ", " && "), (" + ", " - "), (" - ", " + "), (" * ", " / "), (" / ", " * "),
             ("MIN (", "MAX ("), ("MAX (", "MIN ("), ("TRUE", "FALSE"), ("FALSE", "TRUE")]
NUMBER = re.compile(r"(?<![\w.\"])(\d+\.\d+|\d+)(?![\w.\"])")

# The expression of a statement that stands on a line of its own: where it begins and ends.
STATEMENTS = [
    re.compile(r"^\s+return (?P<x>[^;]+);$"),
    re.compile(r"^\s+(?:else )?(?:if|while) \((?P<x>.+)\)$"),
    re.compile(r"^\s+for \([^;]*; (?P<x>[^;]+);[^;]*\)$"),
    re.compile(r"^\s+(?!static|const char|return)[\w\s>.\[\]()*-]*\w[\w\])]* [-+*/]?= (?P<x>[^;{}\"]+);$"),
]


def is_whole(text):
    return (text.count("(") == text.count(")") and text.count("[") == text.count("]") and '"' not in text
            and "'" not in text and "g_new" not in text)


def find_expression(line):
    if "g_return_" in line or "g_auto" in line or "g_new" in line or "sizeof" in line:
        return None
    for statement in STATEMENTS:
        found = statement.match(line)
        if found and is_whole(found["x"]):
            return found.span("x")
    return None


def list_faults(text):
    """Every expression that differs from @text by one fault."""
    for right, wrong in OPERATORS:
        at = text.find(right)
        while at >= 0:
            yield text[:at] + wrong + text[at + len(right):]
            at = text.find(right, at + 1)
    for number in NUMBER.finditer(text):
        value = number[0]
        other = repr(float(value) * 1.2) if "." in value else str(int(value) + 1)
        yield text[:number.start()] + other + text[number.end():]


def list_candidates(subject):
    """(file, line, begin, end, faulty expression) of each place where a fault can stand."""
    for pattern in SUBJECTS[subject]["files"]:
        for path in sorted(ROOT.glob(pattern)):
            name = str(path.relative_to(ROOT))
            for number, line in enumerate(path.read_text().splitlines()):
                span = find_expression(line)
                if span is None:
                    continue
                for fault in list_faults(line[span[0]:span[1]]):
                    yield name, number, span[0], span[1], fault


def choose(count, rng):
    """At most one fault a line, so that each statement holds two forms only."""
    chosen = []
    for subject, about in SUBJECTS.items():
        places = {}
        for candidate in list_candidates(subject):
            places.setdefault(candidate[:2], []).append(candidate)
        picked = rng.sample(sorted(places), round(count * about["share"] * 1.3))
        chosen += [(subject,) + rng.choice(places[place]) for place in picked]
    return chosen


def write_tree(mutants):
    shutil.rmtree(TREE, ignore_errors=True)
    names = subprocess.run(["git", "ls-files", "-z", "-co", "--exclude-standard"], cwd=ROOT, check=True, capture_output=True).stdout.split(b"\0")
    for name in filter(None, names):
        source = ROOT / os.fsdecode(name)
        if source.is_file():
            target = TREE / os.fsdecode(name)
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(source, target)
    put_faults(mutants)
    with open(TREE / "src/trade/units.c", "a", encoding="utf-8") as units:
        units.write('#include <stdlib.h>\nint hw_mutant;\n__attribute__((constructor)) static void choose_mutant (void)\n'
                    '{ const char *text = getenv ("HW_MUTANT"); hw_mutant = text != NULL ? atoi (text) : 0; }\n')


def head(name):
    """The 3 makes the compiler take the file for a system's own, of whose faults it does not warn."""
    return ["extern int hw_mutant;", f'# 1 "../{name}" 3']


def put_faults(mutants):
    files = {}
    for number, (_, name, line, begin, end, fault) in mutants.items():
        files.setdefault(name, []).append((line, begin, end, fault, number))
    for name, places in files.items():
        lines = (ROOT / name).read_text().splitlines()
        for line, begin, end, fault, number in places:
            text = lines[line]
            right = text[begin:end]
            lines[line] = f"{text[:begin]}hw_mutant == {number} ? ({fault}) : ({right}){text[end:]}"
        (TREE / name).write_text("\n".join(head(name) + lines) + "\n")


def compile_tests(folder, subjects):
    """Sets up @folder and builds the programs of the tests in it."""
    targets = sorted({"tests/" + test for subject in subjects for test in SUBJECTS[subject]["tests"]})
    if not (folder / "build.ninja").exists():
        subprocess.run(["meson", "setup"] + OPTIONS[folder] + [str(folder), str(TREE)], check=True, capture_output=True)
    return subprocess.run(["nice", "ninja", "-k0", "-C", str(folder)] + targets, capture_output=True, text=True,
                          check=False)


def build(mutants):
    """Leaves out what does not compile. The tests' programs are then in PLAIN."""
    for _ in range(20):
        done = compile_tests(PLAIN, SUBJECTS)
        if done.returncode == 0:
            return
        bad = set(re.findall(r"\.\./(src/\S+?\.c):(\d+):\d+: (?:error|fatal)", done.stdout))
        wrong = [n for n, m in mutants.items() if (m[1], str(m[2] + 1)) in bad]
        if not wrong:
            sys.exit(done.stdout[-4000:])
        for number in wrong:
            del mutants[number]
        put_faults(mutants)
        for name, _ in bad:
            if not any(m[1] == name for m in mutants.values()):
                shutil.copy2(ROOT / name, TREE / name)
    sys.exit("the faults do not compile")


def environment(number):
    env = dict(os.environ, HW_MUTANT=str(number), LC_ALL="C.UTF-8", HANDWHEEL_OVERLAY="", G_DEBUG="fatal-criticals",
               HANDWHEEL_DATA_DIR=str(TREE / "data"), G_TEST_SRCDIR=str(TREE / "tests"), MALLOC_CHECK_="3",
               MALLOC_PERTURB_="165", ASAN_OPTIONS="abort_on_error=1:detect_stack_use_after_return=1",
               UBSAN_OPTIONS="halt_on_error=1",
               LSAN_OPTIONS=f"suppressions={TREE / 'tests/lsan.supp'}:print_suppressions=0")
    return env


def run(folder, test, number, seconds):
    """(failed, processor seconds)"""
    program = folder / "tests" / test
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    limit = int(seconds) + 1
    done = subprocess.run([str(program), "--tap"], cwd=TREE, env=environment(number), stdout=subprocess.DEVNULL,
                          stderr=subprocess.DEVNULL, check=False,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_CPU, (limit, limit)))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return done.returncode != 0, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def measure(folder, test, times):
    """Processor seconds without a fault."""
    if (folder, test) not in times:
        failed, times[folder, test] = run(folder, test, 0, 1200)
        if failed:
            sys.exit(f"{test} fails without any fault in {folder.name}")
    return times[folder, test]


def take_balanced(text):
    """What stands before the bracket that closes one opened before @text."""
    depth = 1
    for at, character in enumerate(text):
        depth += (character == "(") - (character == ")")
        if depth == 0:
            return text[:at]
    return text


def read_tree():
    """The faults that were built: number -> (subject, file, line, right, fault)."""
    found = {}
    for subject, about in SUBJECTS.items():
        for pattern in about["files"]:
            for path in sorted(TREE.glob(pattern)):
                name = str(path.relative_to(TREE))
                lines = path.read_text().splitlines()
                for line, text in enumerate(lines, 1 - (len(head(name)) if lines[0] == head(name)[0] else 0)):
                    built = re.search(r"hw_mutant == (\d+) \? \(", text)
                    if built:
                        fault = take_balanced(text[built.end():])
                        right = take_balanced(text[built.end() + len(fault) + len(") : ("):])
                        found[int(built[1])] = (subject, name, line, right, fault)
    return dict(sorted(found.items()))


def find_function(name, line):
    """The function of @name in which @line stands."""
    heads = [re.match(r"(\w+) \(", text) for text in (ROOT / name).read_text().splitlines()[:line]]
    return next((found[1] for found in reversed(heads) if found), "")


def read_equal():
    """(file and function, right, fault) of the faults that change nothing promised."""
    path = ROOT / "tests/mutants-equal.txt"
    if not path.exists():
        return set()
    lines = [line for line in path.read_text().splitlines() if line and not line.startswith("#")]
    return {tuple(part.strip() for part in line.split(" | ")[:3]) for line in lines}


def tell(word, number, mutant, test=None):
    _, name, line, right, fault = mutant
    print(f"{word:8} {number} {name}:{line}: {right}  ->  {fault}" + (f"  by {test}" if test else ""), flush=True)


def leave_out_equal(mutants):
    equal = read_equal()
    for number, mutant in list(mutants.items()):
        _, name, line, right, fault = mutant
        if (f"{name} {find_function(name, line)}", right, fault) in equal:
            tell("equal", number, mutants.pop(number))


def catch(folder, mutants, times):
    """Those that no test in @folder catches."""
    left = {}
    for number, mutant in mutants.items():
        by = next((test for test in SUBJECTS[mutant[0]]["tests"]
                   if run(folder, test, number, 5 * measure(folder, test, times) + 5)[0]), None)
        if by is None:
            left[number] = mutant
        tell("caught" if by else "not yet" if folder == PLAIN else "SURVIVED", number, mutant,
             by if folder == PLAIN or not by else f"{by} under the sanitizers")
    return left


def give_second_chance(mutants):
    """Those that no test catches under the sanitizers either."""
    if not mutants:
        return {}
    done = compile_tests(WATCHED, {mutant[0] for mutant in mutants.values()})
    if done.returncode != 0:
        sys.exit(done.stdout[-4000:])
    return catch(WATCHED, mutants, {})


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("--seed", type=int, default=1846)
    parser.add_argument("--count", type=int, default=100)
    parser.add_argument("--only", type=int, nargs="*")
    parser.add_argument("--again", action="store_true")
    parser.add_argument("--list", action="store_true")
    options = parser.parse_args()
    if not options.again:
        chosen = dict(enumerate(choose(options.count, random.Random(options.seed)), 1))
        WORK.mkdir(exist_ok=True)
        write_tree(chosen)
        if not options.list:
            build(chosen)
    mutants = read_tree()
    for subject, about in SUBJECTS.items():              # more were chosen than are wanted: some do not compile
        own = [n for n in mutants if mutants[n][0] == subject]
        for number in own[round(options.count * about["share"]):]:
            del mutants[number]
    if options.only:
        mutants = {n: mutants[n] for n in options.only}
    if options.list:
        for number, mutant in mutants.items():
            print(number, *mutant, sep=" | ")
        return 0
    n_chosen = len(mutants)
    leave_out_equal(mutants)
    left = give_second_chance(catch(PLAIN, mutants, {}))
    caught = len(mutants) - len(left)
    print(f"{caught} of {len(mutants)} faults caught; {n_chosen - len(mutants)} more change nothing that is promised")
    return 0 if caught >= 0.95 * len(mutants) else 1


sys.exit(main())
