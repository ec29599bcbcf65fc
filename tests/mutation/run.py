"""Mutation run: makes one slip at a time in the rooms of the package and sees whether a test notices.

    python tests/mutation/run.py planning [--jobs 1] [--results FILE]
    python tests/mutation/run.py rules --sample 600 --seed 1
    python tests/mutation/run.py planning/cover/cover.py

The tests are collected and run once, while coverage notes which test runs which line. Then every mutant gets a process
of its own, forked from that one: the changed function's code is put in place of the right one, and the tests that run
its statement are run until one fails, those first that are quick or have failed over other slips in the same function.
What survives the quick tests is tried again with the slow ones and with more examples of the property tests. These draw
the same examples every time and shrink nothing. A test is asked for what the code does: only a slip that makes it take
ten times as long, and a second more, is noticed for its slowness.

Results are appended to FILE (default build/mutation.jsonl) mutant by mutant; a run that was broken off goes on where it
stopped. Figures are told at the end, and the survivors that SURVIVORS.md has no reason for; `--survivors` tells them
without a run.
"""

import argparse
import os
import sys
import tempfile
import time
from pathlib import Path
from typing import TextIO

import pytest

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).resolve().parents[2] / "lint")]

from asking import Child, Tests  # noqa: E402 - beside this file
from results import Entry, note, read_results, summary, survived  # noqa: E402
from rooms import tests_for  # noqa: E402
from swapping import ROOT, Chosen, changed_code, chosen  # noqa: E402

# The first starts processes of its own, which would run the right code; the second is slow and asks neither part.
LEFT_OUT = ["engine/test_targets.py", "reference/test_result_formats.py"]
PYTEST = ["-q", "-s", "-m", "quick", "-p", "no:cacheprovider", "--no-header", "--tb=line", "--assert=plain"]
Running = dict[int, tuple[Child, Entry, Chosen]]  # by process


class Plugin:
    """Takes pytest's loop over: every test once, then the mutants."""

    def __init__(self, asked: argparse.Namespace, wanted: list[Chosen], tests: Tests) -> None:
        self.asked = asked
        self.wanted = wanted
        self.tests = tests

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        self.tests.watch(session.items)
        self.end = time.monotonic() + self.asked.minutes * 60
        with tempfile.TemporaryDirectory() as folder, self.asked.results.open("a", encoding="utf-8") as out:
            self.stage(out, self.wanted, Path(folder, "quick"))
            if not self.asked.more:
                return True
            self.tests.ask_more(self.asked.more)
            known = read_results(self.asked.results)
            left = [chosen for chosen in self.wanted if chosen[2] in known and survived(known[chosen[2]])]
            print(f"{len(left)} left for the second stage", flush=True)
            self.stage(out, left, Path(folder, "more"))
        return True

    def stage(self, out: TextIO, wanted: list[Chosen], folder: Path) -> None:
        folder.mkdir()
        running: Running = {}
        for number, mutant in enumerate(wanted):
            if time.monotonic() > self.end:
                print("the time is up", flush=True)
                break
            self.begin(out, mutant, folder / str(number), running)
            while len(running) >= self.asked.jobs:
                self.reap(out, running)
        while running:
            self.reap(out, running)

    def begin(self, out: TextIO, chosen: Chosen, folder: Path, running: Running) -> None:
        """Forks a process over a mutant, or notes why there is nothing to try."""
        path, mutant, name = chosen
        names = self.tests.asked(path, mutant.function, mutant.lines)
        entry = {"id": name, "tests": len(self.tests.reach(path, mutant.lines))}
        code = changed_code(path, mutant)
        if code is None:
            note(out, entry, "no change")
        elif names:
            process, child = self.tests.fork(path, mutant.function, code, names, folder)
            running[process] = child, entry, chosen
        elif not self.tests.second:
            note(out, entry, "survived" if entry["tests"] else "not reached")

    def reap(self, out: TextIO, running: Running) -> None:
        """Waits for one mutant's end and notes it."""
        process, status, used = os.wait3(0)
        child, entry, (path, mutant, _) = running.pop(process)
        verdict, killer = self.tests.heard(child, status, path, mutant.function)
        seconds = round(used.ru_utime + used.ru_stime, 3)
        note(out, {**entry, "by": killer, "seconds": seconds}, verdict)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument(
        "parts", nargs="+", help="folders or files of lint/lintarsia, as planning or rules/shared/areas.py"
    )
    parser.add_argument("--sample", type=int, help="only so many mutants, the first in the order of --seed")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--examples", type=int, default=10, help="of a property test")
    parser.add_argument(
        "--more",
        type=int,
        default=60,
        help="examples of a property test over what survives the first; 0: no second stage",
    )
    parser.add_argument("--quick", type=float, default=0.4, help="seconds; slower tests are asked over what survives")
    parser.add_argument("--slowest", type=float, default=20, help="seconds; slower tests are not asked at all")
    parser.add_argument("--hung", type=int, default=120, help="seconds by the clock; who uses no time so long is ended")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=1e6, help="begin no mutant after that")
    parser.add_argument("--results", type=Path, default=ROOT / "build" / "mutation.jsonl")
    parser.add_argument("--again", action="store_true", help="try again what survived, with the tests as they are now")
    parser.add_argument("--tests", nargs="+", help="folders or files below tests/ (default: rooms.py)")
    parser.add_argument("--basetemp", help="pytest's folder for the tests' files")
    parser.add_argument("--survivors", action="store_true", help="run nothing; tell what FILE holds")
    asked = parser.parse_args()
    asked.results.parent.mkdir(parents=True, exist_ok=True)
    every = chosen(asked.parts, asked.sample, asked.seed)
    known = read_results(asked.results)
    if not asked.survivors:
        wanted = [c for c in every if c[2] not in known or (asked.again and survived(known[c[2]]))]
        print(f"{len(wanted)} mutants of {len(every)}", flush=True)
        tests_asked = asked.tests or tests_for(asked.parts)
        options = [
            *PYTEST,
            "--rootdir",
            str(ROOT),
            *(f"--ignore={ROOT / 'tests' / name}" for name in LEFT_OUT if name not in tests_asked),
        ]
        options += [f"--basetemp={asked.basetemp}"] if asked.basetemp else []
        options += [str(ROOT / "tests" / name) for name in tests_asked]
        files = sorted({path for path, _, _ in wanted})
        tests = Tests(files, asked.examples, asked.quick, asked.slowest, asked.hung)
        status = pytest.main(options, plugins=[tests, Plugin(asked, wanted, tests)])
        if status not in (0, 1):
            return int(status)
        known = read_results(asked.results)
    summary([known[name] for _, _, name in every if name in known])
    return 0


if __name__ == "__main__":
    sys.exit(main())
