"""Changes one thing at a time in what must not be wrong, and names every change that no test notices.

    python tests/mutants/run.py [mechanics|reasoning|conditions ...] [--only ID ...] [--list]

Each change is made in memory; no file is written. The fast tests that reach the changed function are run on it. A
change that nobody could notice has its reason in `accepted.yaml`. Ends with 1 when a change is left without a reason,
or a reason without a change; with 2 when nothing can be said. For systems that can fork: Linux, macOS.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import Any

import yaml
from mutant import HOUSE, ROOT, Key, Mutant, file_of, key_of, module_of, mutants

# What is changed, and the tests of it; the examples in the docstrings of what is changed are always run.
SOURCES = {
    "mechanics": ("mechanics/*.py",),
    "reasoning": ("reasoning/*.py",),
    "conditions": ("book/conditions.py", "asking/walk.py", "asking/contradictions.py"),
}
TESTS = {
    "mechanics": ("tests/mechanics", "tests/published"),
    "reasoning": ("tests/reasoning", "tests/mechanics"),
    "conditions": ("tests/book/test_conditions.py", "tests/book/test_conditions_as_asked.py", "tests/asking"),
}
ACCEPTED = Path(__file__).with_name("accepted.yaml")
PYTEST = [
    "-q", "-s", "--doctest-modules", "-m", "not long", "--hypothesis-seed=0", "-o", "addopts=", "--tb=no",
    "-p", "no:cacheprovider", "-p", "no:terminalreporter", "-p", "no:faulthandler",
]  # fmt: skip


def entries() -> list[dict[str, Any]]:
    """The changes that are left as they are."""
    return yaml.safe_load(ACCEPTED.read_text(encoding="utf-8")) or []


def accepted() -> dict[Key, str]:
    """The reason of each change that is left as it is."""
    return {key_of(entry): entry["because"] for entry in entries()}


def texts_of(packages: list[str]) -> dict[str, str]:
    """The text of every module that is changed."""
    paths = [path for package in packages for pattern in SOURCES[package] for path in sorted(HOUSE.glob(pattern))]
    return {module_of(path): path.read_text(encoding="utf-8") for path in paths}


def caught(packages: list[str], texts: dict[str, str], chosen: list[Mutant]) -> dict[Key, str]:
    """What caught each of the chosen mutants, or nothing. The house as it is is tried first: it must pass."""
    import pytest
    from running import Tests, UntriedError

    found: dict[Key, str] = {}
    trouble = ["the tests cannot be collected"]

    def job(tests: Tests) -> None:
        trouble.clear()
        try:
            every(tests)
        except UntriedError as error:
            trouble.append(str(error))

    def every(tests: Tests) -> None:
        start = time.monotonic()
        tests.measure()
        tests.as_it_is(texts)
        say(f"{len(tests.items)} tests measured, {time.monotonic() - start:.0f} s")
        for mutant, by in tests.tried(chosen, texts):
            found[mutant.key] = by
            if len(found) % 100 == 0 or len(found) == len(chosen):
                held = sum(map(bool, found.values()))
                say(f"{len(found)} of {len(chosen)} tried, {held} caught, {time.monotonic() - start:.0f} s")

    paths = [*dict.fromkeys(path for package in packages for path in TESTS[package]), *(str(file_of(m)) for m in texts)]
    pytest.main([*PYTEST, f"--rootdir={ROOT}", *paths], plugins=[Tests(texts, job)])
    if len(found) != len(chosen):
        say(" ".join(["Not every change was tried:", *trouble]))
        raise SystemExit(2)
    return found


def say(words: str) -> None:
    """Progress, beside the result."""
    print(words, file=sys.stderr, flush=True)


def report(chosen: list[Mutant], by: dict[Key, str], reasons: dict[Key, str], stale: list[Key]) -> int:
    """Print what was made, caught and left; 1 when something needs a test or a reason."""
    left = [m for m in chosen if not by[m.key]]
    counts = {
        "made": Counter(m.module for m in chosen),
        "caught": Counter(m.module for m in chosen if by[m.key]),
        "by time": Counter(m.module for m in chosen if by[m.key] == "time"),
        "accepted": Counter(m.module for m in left if m.key in reasons),
        "left": Counter(m.module for m in left if m.key not in reasons),
    }
    print(f"{'':26}" + "".join(f"{name:>10}" for name in counts))
    for module in counts["made"]:
        print(f"{module:26}" + "".join(f"{count[module]:10}" for count in counts.values()))
    print(f"{'all':26}" + "".join(f"{count.total():10}" for count in counts.values()))
    new = [m for m in left if m.key not in reasons]
    for m in new:
        print(f"\n# {line_of(m)}: no test notices it")
        print(yaml.safe_dump([m.entry()], sort_keys=False, width=110), end="")
    for m in chosen:
        if m.key in reasons and by[m.key]:
            print(f"\n{line_of(m)} is in {ACCEPTED.name}, but is caught by {by[m.key]}: {m.old} -> {m.new}")
    for key in stale:
        print(f"\nin {ACCEPTED.name}, but no such change exists: {key}")
    return int(bool(new or stale or any(m.key in reasons and by[m.key] for m in chosen)))


def line_of(mutant: Mutant) -> str:
    """Where the change is, and its id."""
    return f"{file_of(mutant.module).relative_to(ROOT).as_posix()}:{mutant.line} {mutant.id}"


def main() -> int:
    """Try what the command line asks for."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("packages", nargs="*", metavar="PACKAGE", help=", ".join(SOURCES) + "; all when none is named")
    parser.add_argument("--only", nargs="+", default=[], metavar="ID", help="try these changes alone")
    parser.add_argument("--list", action="store_true", help="name every change with its id, and try none")
    asked = parser.parse_args()
    packages = asked.packages or list(SOURCES)
    if unknown := set(packages) - set(SOURCES):
        parser.error(f"no such package: {', '.join(sorted(unknown))}; there are {', '.join(SOURCES)}")
    texts = texts_of(packages)
    every = [mutant for module, text in texts.items() for mutant in mutants(module, text)]
    chosen = [m for m in every if m.id in asked.only] if asked.only else every
    if missing := set(asked.only) - {m.id for m in every}:
        parser.error(f"no change has the id {', '.join(sorted(missing))}; --list names them all")
    if asked.list:
        for m in chosen:
            print(f"{m.id} {m.module}:{m.line} {m.function} ({m.kind}): {m.old} -> {m.new}")
        return 0
    if not hasattr(os, "fork"):
        parser.error("this needs a system that can fork (Linux, macOS); on Windows, run it under Linux")
    reasons = accepted()
    stale = [key for key in reasons if key[0] in texts and key not in {m.key for m in every}]
    sys.dont_write_bytecode = True
    sys.path[:0] = [str(ROOT / "src"), str(ROOT / "tests")]
    os.chdir(ROOT)
    with tempfile.TemporaryDirectory() as folder:
        os.environ |= {"PYTEST_DEBUG_TEMPROOT": folder, "HYPOTHESIS_STORAGE_DIRECTORY": folder}
        by = caught(packages, texts, chosen)
    return report(chosen, by, reasons, stale)


if __name__ == "__main__":
    sys.exit(main())
