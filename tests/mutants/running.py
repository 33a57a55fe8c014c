"""Runs tests on mutants: collected once, then each mutant in a process of its own that is a copy of this one."""

from __future__ import annotations

import gc
import itertools
import multiprocessing
import os
import re
import sys
import time
import traceback
from collections.abc import Callable, Iterable, Iterator, Mapping
from multiprocessing.connection import Connection, wait
from types import CodeType, FrameType
from typing import Any, TypeVar

import pytest
from grafting import put_in
from mutant import Mutant, file_of

MOST_SECONDS = 8.0  # slower tests are left out; a test that is watched takes two to three times as long
AROUND = 0.02  # seconds that pytest itself takes for a test, at most
MEMORY = 2 << 30  # bytes
Task = TypeVar("Task")
Answer = TypeVar("Answer")
Reached = set[tuple[str, str]]  # module and outermost function


class OutOfTime(Exception):  # noqa: N818 - an outcome, not a fault
    """The process of a task took too long or too much memory."""


class UntriedError(Exception):
    """Nothing can be said about any change; the text says why."""


class Tests:
    """The collected tests, as a plugin of pytest; `job` is done in place of running them all."""

    def __init__(self, modules: Iterable[str], job: Callable[[Tests], None]) -> None:
        self.modules = {str(file_of(module)): module for module in modules}
        self.job = job
        self.items: dict[str, pytest.Item] = {}
        self.failed = ""
        self.seconds: dict[str, float] = {}
        self.reach: dict[str, Reached] = {}

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Do the job."""
        if session.testsfailed:
            raise session.Failed("the tests cannot be collected")
        self.items = {item.nodeid: item for item in session.items}
        gc.collect()
        gc.freeze()
        self.job(self)
        return True

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        """Keep what failed first."""
        if report.failed:
            self.failed = self.failed or report.nodeid

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_call(self, item: pytest.Item) -> Iterator[None]:
        """Keep how many processor seconds a test took, without what it shares with others."""
        start = time.process_time()
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = time.process_time() - start

    def run(self, names: list[str]) -> str:
        """Run tests until one fails; its name, or nothing."""
        for name, after in itertools.zip_longest(names, names[1:]):
            self._run(name, after)
            if self.failed:
                break
        return self.failed

    def _run(self, name: str, after: str | None) -> None:
        item = self.items[name]
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=None if after is None else self.items[after])

    # ---------------------------------------------------------- which test reaches what

    def measure(self) -> None:
        """Find out which functions each test reaches, and how long it takes."""
        for failed, reach, seconds in self._shared(list(self.items), self._measured):
            if failed:
                raise UntriedError(f"{failed} fails with nothing changed")
            self.reach |= reach
            self.seconds |= seconds

    def as_it_is(self, texts: Mapping[str, str]) -> None:
        """All modules put in as they are: every test must pass, or what is caught later proves nothing."""

        def work(names: list[str]) -> str:
            for module, text in texts.items():
                put_in(module, text)
            return self.run(names)

        for failed in self._shared([name for name in self.items if self.seconds[name] <= MOST_SECONDS], work):
            if failed:
                raise UntriedError(f"{failed} fails with every module put in as it is")

    def _shared(self, names: list[str], work: Callable[[list[str]], Answer]) -> Iterator[Answer]:
        for _, answer in in_forks([names[n :: cores()] for n in range(cores())], work):
            if isinstance(answer, OutOfTime):
                raise UntriedError("the tests were stopped, with nothing changed")
            yield answer

    def _measured(self, names: list[str]) -> tuple[str, dict[str, Reached], dict[str, float]]:
        codes: dict[int, CodeType] = {}

        def look(frame: FrameType, event: str, _: object) -> None:
            if event == "call":
                codes[id(frame.f_code)] = frame.f_code

        for name, after in itertools.zip_longest(names, names[1:]):
            sys.setprofile(look)
            try:
                self._run(name, after)
            finally:
                sys.setprofile(None)
            here = [(self.modules[c.co_filename], c) for c in codes.values() if c.co_filename in self.modules]
            self.reach[name] = {(module, code.co_qualname.split(".<locals>")[0]) for module, code in here}
            codes.clear()
        return self.failed, self.reach, self.seconds

    def fitting(self, module: str, function: str) -> list[str]:
        """The tests that reach the changed function, or are named after it; the fastest first.

        What runs while modules are loaded may matter anywhere: for that, all of them.
        """
        found = list(self.reach)
        if function and module != "reasoning.formulas":
            named = re.compile(rf"\[{re.escape(function)}\b")
            found = [name for name in found if (module, function) in self.reach[name] or named.search(name)]
        took = {name: self.seconds.get(name, 0) for name in found}
        return sorted((name for name in found if took[name] <= MOST_SECONDS), key=took.__getitem__)

    # ---------------------------------------------------------------------- mutants

    def tried(self, mutants: list[Mutant], texts: Mapping[str, str]) -> Iterator[tuple[Mutant, str]]:
        """Each mutant with what caught it, or nothing."""
        fitting: dict[tuple[str, str], list[str]] = {}
        for m in mutants:
            if (m.module, m.function) not in fitting:
                fitting[m.module, m.function] = self.fitting(m.module, m.function)

        def work(mutant: Mutant) -> str:
            names = fitting[mutant.module, mutant.function]
            end_after(20 + 4 * sum(self.seconds.get(name, 0) + AROUND for name in names))
            try:
                put_in(mutant.module, mutant.source(texts[mutant.module]))
            except Exception as error:
                return f"loading: {type(error).__name__}"
            return self.run(names) or either_ways(mutant)

        for mutant, answer in in_forks(mutants, work):
            yield mutant, "time" if isinstance(answer, OutOfTime) else answer


def either_ways(mutant: Mutant) -> str:
    """The test whose cases follow from the declarations, with the cases of a changed declaration."""
    if mutant.kind != "declared":
        return ""
    declared, agree = sys.modules["farm_ranges"].DECLARED, sys.modules["test_text_and_code_agree"]
    for one in declared:
        for name, way in one.directions.items() if one.name == mutant.function else ():
            if way == agree.EITHER and (one.name, name) not in agree.TO_BE_SAFE:
                try:
                    agree.test_what_is_declared_to_go_either_way_goes_both_ways(one, name)
                except AssertionError:
                    return "either ways"
    return ""


# ------------------------------------------------------------------------- processes


def cores() -> int:
    """How many processes run at a time."""
    return os.cpu_count() or 1


def in_forks(tasks: Iterable[Task], work: Callable[[Task], Answer]) -> Iterator[tuple[Task, Answer | OutOfTime]]:
    """Each task in a process of its own, as many at a time as there are cores."""
    fork = multiprocessing.get_context("fork")
    running: dict[Any, tuple[Any, Task]] = {}  # by the end of the pipe that is read
    waiting = iter(tasks)
    while True:
        for task in itertools.islice(waiting, cores() - len(running)):
            ours, theirs = fork.Pipe(duplex=False)
            process = fork.Process(target=_child, args=(work, task, theirs), daemon=True)
            process.start()
            theirs.close()
            running[ours] = process, task
        if not running:
            return
        ready: Any
        for ready in wait(list(running)):
            process, task = running.pop(ready)
            with ready:
                try:
                    fault, answer = ready.recv()
                except EOFError:
                    fault, answer = "", OutOfTime()
            process.join()
            if fault:
                raise UntriedError(fault)
            yield task, answer


def end_after(seconds: float) -> None:
    """End this process after so many processor seconds, or ten times as many by the clock."""
    import resource
    import signal

    resource.setrlimit(resource.RLIMIT_CPU, (int(seconds), int(seconds) + 5))
    resource.setrlimit(resource.RLIMIT_DATA, (MEMORY, MEMORY))
    signal.alarm(10 * int(seconds))


def _child(work: Callable[[Task], Answer], task: Task, pipe: Connection) -> None:
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (1, 2):
        os.dup2(nowhere, stream)
    try:
        pipe.send(("", work(task)))
    except BaseException:  # also what pytest raises to stop
        pipe.send((traceback.format_exc(), None))
