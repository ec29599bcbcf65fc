"""Which tests are asked over a mutant, in which order, and how: in a process forked from one that has run them once."""

import gc
import os
import resource
import shutil
import signal
import time
from collections import Counter, defaultdict
from dataclasses import dataclass
from pathlib import Path
from types import CodeType
from typing import Any

import coverage
import pytest
from apart import answer_forks
from swapping import PACKAGE, caches, put_in_place

MEMORY = 3 * 2**30
# By exit status; any signal: out of time.
VERDICTS = {0: "survived", 1: "killed", 3: "error"}


@dataclass(frozen=True)
class Child:
    """A process at work on one mutant: where it says which test noticed, and its folder."""

    pipe: int
    folder: Path


class Tests:
    """The tests that pass as things are, with the time each takes and the lines it runs.

    They are asked in two stages: first the quick ones, with few examples of each property; over what survives these,
    the slower ones, and the properties with more examples.
    """

    def __init__(self, files: list[Path], examples: int, quick: float, slowest: float, hung: int) -> None:
        self.files = files  # those that slips are made in
        self.examples = examples
        self.quick = quick
        self.slowest = slowest
        self.hung = hung  # seconds by the clock in which what waits without end has used next to no time
        self.properties: dict[str, int] = {}  # tests that draw examples, and how many they would
        self.second = False  # the stage
        self.longer = 1.0  # how many times as long a property test may take in the second stage
        self.failed = False
        self.items: dict[str, pytest.Item] = {}
        self.watcher: coverage.Coverage | None = None
        self.asking = ""  # the test that runs
        self.made: dict[tuple[str, str], set[str]] = defaultdict(set)  # a fixture that tests share: the contexts of it
        self.took: dict[str, float] = {}  # by context
        self.seconds: dict[str, float] = {}  # of processor time, under coverage
        self.runs: dict[str, dict[int, list[str]]] = {}  # file, line: tests
        self.killers: dict[str, Counter[str]] = defaultdict(Counter)  # by function and by file: tests that failed

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.failed = self.failed or report.failed

    def watch(self, items: list[pytest.Item]) -> None:
        """Runs every test once."""
        for item in items:
            if function := drawing(item):
                self.properties[item.nodeid] = function._hypothesis_internal_use_settings.max_examples
        self.draw(items, self.examples)
        watcher = coverage.Coverage(data_file=None, config_file=False, include=[str(file) for file in self.files])
        rooms = {file.relative_to(PACKAGE).parts[0] for file in self.files}
        answer_forks()
        watcher.start()
        self.watcher = watcher
        for at, item in enumerate(items):
            self.asking = item.nodeid
            watcher.switch_context(item.nodeid)
            # Or only the first test that asks a cache would seem to run what the cache keeps.
            for clear in caches(*rooms):
                clear()
            begun = time.process_time()
            if not self.passes(item, items[at + 1] if items[at + 1 :] else None):
                print(f"fails without any slip, left out: {item.nodeid}", flush=True)
            elif (spent := time.process_time() - begun) <= self.slowest:
                self.items[item.nodeid], self.seconds[item.nodeid] = item, spent
        watcher.stop()
        self.watcher = None
        data = watcher.get_data()
        users = self.share()
        self.runs = {
            file: {
                line: sorted({test for one in contexts for test in users.get(one, (one,))})
                for line, contexts in data.contexts_by_lineno(file).items()
            }
            for file in data.measured_files()
        }
        print(f"{len(self.items)} tests kept of {len(items)}: {sum(self.seconds.values()):.0f} s", flush=True)
        self.caches = caches()
        gc.collect()
        gc.freeze()

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any, request: Any) -> Any:
        """Notes what a fixture that several tests share runs, apart from the test that happens to ask it first."""
        if self.watcher is None or fixturedef.scope == "function":
            return (yield)
        context = f"{fixturedef.baseid} {fixturedef.argname} {len(self.took)}"
        self.made[fixturedef.baseid, fixturedef.argname].add(context)
        begun = time.process_time()
        self.watcher.switch_context(context)
        try:
            return (yield)
        finally:
            self.took[context] = time.process_time() - begun
            self.watcher.switch_context(self.asking)

    def share(self) -> dict[str, list[str]]:
        """The tests that each fixture was made for, which take its time as well: a fork makes it anew."""
        users: dict[str, list[str]] = defaultdict(list)
        for name, item in self.items.items():
            known = item._fixtureinfo.name2fixturedefs  # type: ignore[attr-defined]
            for fixture in (known[asked][-1] for asked in item.fixturenames if asked in known):  # type: ignore[attr-defined]
                contexts = self.made.get((fixture.baseid, fixture.argname), set())
                for context in contexts:
                    users[context].append(name)
                    self.seconds[name] += self.took[context]
        return users

    def passes(self, item: pytest.Item, after: pytest.Item | None) -> bool:
        self.failed = False
        item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
        return not self.failed

    def ask_more(self, examples: int) -> None:
        """Begins the second stage."""
        self.second, self.longer = True, examples / self.examples
        self.draw(list(self.items.values()), examples)

    def draw(self, items: list[pytest.Item], examples: int) -> None:
        """Lets property tests draw the same examples every time, at most so many, and shrink none."""
        from hypothesis import HealthCheck, Phase, settings  # not before pytest has had its look at it

        for item in items:
            if function := drawing(item):
                function._hypothesis_internal_use_settings = settings(
                    function._hypothesis_internal_use_settings,
                    derandomize=True,
                    database=None,
                    deadline=None,
                    max_examples=min(examples, self.properties[item.nodeid]),
                    phases=(Phase.explicit, Phase.generate),
                    suppress_health_check=list(HealthCheck),
                )

    def reach(self, path: Path, lines: tuple[int, int]) -> set[str]:
        """The tests that run one of the lines."""
        by_line = self.runs.get(str(path), {})
        return {test for line in range(lines[0], lines[1] + 1) for test in by_line.get(line, ())} & self.items.keys()

    def asked(self, path: Path, function: str, lines: tuple[int, int]) -> list[str]:
        """Those of them to ask in this stage: first the ones that take little or have failed over other slips there."""
        found = self.reach(path, lines)
        quick = {test for test in found if self.seconds[test] <= self.quick}
        found = found - quick | found & self.properties.keys() if self.second else quick
        here, file = self.killers[f"{path} {function}"], self.killers[str(path)]
        return sorted(found, key=lambda test: (self.seconds[test] / (here[test] + file[test] / 5 + 0.05), test))

    def fork(self, path: Path, function: str, code: CodeType, names: list[str], folder: Path) -> tuple[int, Child]:
        read, write = os.pipe()
        child = os.fork()
        if child == 0:
            self._child(path, function, code, names, folder, write)
        os.close(write)
        return child, Child(read, folder)

    def heard(self, child: Child, status: int, path: Path, function: str) -> tuple[str, str]:
        """(verdict, the test that noticed or "") of a process that has ended."""
        with os.fdopen(child.pipe, encoding="utf-8") as told:
            killer = told.read()
        shutil.rmtree(child.folder, ignore_errors=True)
        if killer:
            self.killers[f"{path} {function}"][killer] += 1
            self.killers[str(path)][killer] += 1
        return VERDICTS.get(os.waitstatus_to_exitcode(status), "timed out"), killer

    def _child(self, path: Path, function: str, code: CodeType, names: list[str], folder: Path, tell: int) -> None:
        """Runs the tests over the changed function; ends with a status of VERDICTS."""
        status = 3
        try:
            quiet = os.open(os.devnull, os.O_WRONLY)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            folder.mkdir()
            self.items[names[0]].config._tmp_path_factory._basetemp = folder  # type: ignore[attr-defined]
            put_in_place(path, function, code)
            end_if_hung(self.hung)
            for clear in self.caches:
                clear()
            status = 0
            for name, after in zip(names, [*names[1:], None], strict=True):
                # The signal's default ends the process, also inside numpy.
                signal.setitimer(signal.ITIMER_PROF, 1 + 10 * self.longer * self.seconds[name])
                # What a file's tests share is made once, by the slip; nothing is left of it when the process ends.
                if not self.passes(self.items[name], self.items[after] if after else None):
                    status = 1
                    os.write(tell, name.encode())
                    break
        except MemoryError:
            status = 1
        finally:
            os._exit(status)


def end_if_hung(seconds: int, before: float = -1.0) -> None:
    """Ends this process with an error once it has used next to no time for so many seconds by the clock; one that works
    goes on, however busy the machine is. `before` is what it had used when that was looked at last."""
    used = time.process_time()
    if used < before + 0.2:
        os._exit(3)
    signal.signal(signal.SIGALRM, lambda *_: end_if_hung(seconds, used))
    signal.alarm(seconds)


def drawing(item: pytest.Item) -> Any:
    """The function of a property test; None for any other test."""
    test: Any = getattr(item, "obj", None)
    function: Any = getattr(test, "__func__", test)
    return function if getattr(function, "is_hypothesis_test", False) else None
