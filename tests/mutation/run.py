"""Mutation run: makes one slip at a time in planning/ or rules/ and sees whether a test notices.

    python tests/mutation/run.py planning [--jobs 1] [--results FILE]
    python tests/mutation/run.py rules --sample 600 --seed 1
    python tests/mutation/run.py planning/cover.py

The tests of TESTS are collected and run once, while coverage notes which test runs which line. Then every mutant gets a
process of its own, forked from that one: the changed function's code is put in place of the right one, and the tests
that run its statement are run until one fails, those first that are quick or have failed over other slips in the same
function. A test is asked for what the code does, so a slip that only makes the code slower is noticed by the limit of
processor time if by anything. Property tests draw the same examples every time (derandomised, at most --examples) and
do not shrink what they find.

Results are appended to FILE (default build/mutation.jsonl) mutant by mutant; a run that was broken off goes on where it
stopped. Survivors are listed at the end, and by `--survivors` without a run.
"""

import argparse
import gc
import json
import os
import resource
import sys
import time
from collections import Counter, defaultdict
from pathlib import Path
from types import CodeType
from typing import Any, TextIO

import coverage
import pytest

sys.path[:0] = [str(Path(__file__).parent), str(Path(__file__).resolve().parents[2] / "lint")]

from swapping import PACKAGE, ROOT, changed_code, chosen, put_in_place  # noqa: E402 - beside this file

TESTS = ["planning", "rules", "reference", "planreport", "pattern", "mending", "examples", "engine", "words"]
# The first starts processes of its own, which would run the right code; the second is slow and asks neither part.
LEFT_OUT = ["engine/test_targets.py", "reference/test_result_formats.py"]
Running = dict[int, tuple[dict[str, Any], "Counter[str]", int]]  # by process: what is noted, the killers, the pipe
SLOWEST = 20.0  # seconds; a test that takes longer under coverage is left out
MEMORY = 3 * 2**30


class Plugin:
    """Takes pytest's loop over: coverage first, then the mutants."""

    def __init__(self, asked: argparse.Namespace) -> None:
        self.asked = asked
        self.failed = False
        self.seconds: dict[str, float] = defaultdict(float)
        self.killers: dict[str, Counter[str]] = defaultdict(Counter)  # by function, how often a test failed over a slip

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.failed = self.failed or report.failed
        self.seconds[report.nodeid] += report.duration

    @pytest.hookimpl(tryfirst=True)
    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        calm_hypothesis(session.items, self.asked.examples)
        line_tests, items = self.watch(session.items)
        print(f"{len(items)} tests kept of {len(session.items)}", flush=True)
        gc.collect()
        gc.freeze()
        self.mutate(line_tests, items)
        return True

    def watch(self, items: list[pytest.Item]) -> tuple[dict[str, dict[int, list[str]]], dict[str, pytest.Item]]:
        """Runs every test; says for each file and line which tests run it, and which tests may be asked."""
        watcher = coverage.Coverage(data_file=None, include=[f"{PACKAGE}/planning/*", f"{PACKAGE}/rules/*"])
        kept = {}
        watcher.start()
        for at, item in enumerate(items):
            watcher.switch_context(item.nodeid)
            self.failed = False
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=items[at + 1] if items[at + 1 :] else None)
            if not self.failed and self.seconds[item.nodeid] < SLOWEST:
                kept[item.nodeid] = item
            elif self.failed:
                print(f"fails without any slip, left out: {item.nodeid}", flush=True)
        watcher.stop()
        data = watcher.get_data()
        found = {file: data.contexts_by_lineno(file) for file in data.measured_files()}
        return found, kept

    def mutate(self, line_tests: dict[str, dict[int, list[str]]], items: dict[str, pytest.Item]) -> None:
        wanted = list(chosen(self.asked))
        done = {
            n for n, entry in read_results(self.asked.results).items() if not (self.asked.again and survived(entry))
        }
        running: Running = {}
        begun = time.monotonic()
        with self.asked.results.open("a", encoding="utf-8") as out:
            for path, mutant, name in wanted:
                if name in done:
                    continue
                tests = lines_run(line_tests.get(str(path), {}), mutant.lines)
                known = self.killers[f"{path} {mutant.function}"]
                tests = sorted((t for t in tests if t in items), key=lambda t: self.seconds[t] / (known[t] + 0.05))
                entry = {"id": name, "tests": len(tests)}
                if not tests:
                    note(out, entry, "not reached")
                    continue
                while len(running) >= self.asked.jobs:
                    self.reap(out, running)
                code = changed_code(path, mutant)
                if code is None:
                    note(out, entry, "no change")
                    continue
                limit = 5 + 3 * sum(self.seconds[test] for test in tests)
                read, write = os.pipe()
                child = os.fork()
                if child == 0:
                    self.child(path, mutant.function, code, [items[test] for test in tests], limit, write)
                os.close(write)
                running[child] = entry, known, read
                if time.monotonic() - begun > self.asked.minutes * 60:
                    print("the time is up", flush=True)
                    break
            while running:
                self.reap(out, running)

    def reap(self, out: TextIO, running: Running) -> None:
        """Waits for one mutant's end and notes it."""
        child, status = os.wait()
        entry, known, read = running.pop(child)
        with os.fdopen(read, encoding="utf-8") as told:
            killer = told.read()
        if killer:
            known[killer] += 1
            entry["by"] = killer
        code = os.waitstatus_to_exitcode(status)
        note(out, entry, {0: "survived", 1: "killed", 3: "error"}.get(code, "timed out"))

    def child(
        self, path: Path, function: str, code: CodeType, items: list[pytest.Item], limit: float, tell: int
    ) -> None:
        """Runs the tests over the changed function; ends with 0: none noticed, 1: one did, 3: this failed."""
        status = 3
        try:
            quiet = os.open(os.devnull, os.O_WRONLY)
            os.dup2(quiet, 1)
            os.dup2(quiet, 2)
            resource.setrlimit(resource.RLIMIT_CPU, (int(limit) + 1, int(limit) + 6))
            resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
            resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
            put_in_place(path, function, code)
            self.failed = False
            for item, after in zip(items, [*items[1:], None], strict=True):
                item.config.hook.pytest_runtest_protocol(item=item, nextitem=after)
                if self.failed:
                    os.write(tell, item.nodeid.encode())
                    break
            status = 1 if self.failed else 0
        except MemoryError:
            status = 1
        finally:
            os._exit(status)


def calm_hypothesis(items: list[pytest.Item], examples: int) -> None:
    """The same examples every time, fewer of them, none shrunk."""
    from hypothesis import HealthCheck, Phase, settings  # not before pytest has had its look at it

    for item in items:
        function = getattr(getattr(item, "obj", None), "__func__", getattr(item, "obj", None))
        if not getattr(function, "is_hypothesis_test", False):
            continue
        mine = getattr(function, "_hypothesis_internal_use_settings", settings.default)
        function._hypothesis_internal_use_settings = settings(
            mine,
            derandomize=True,
            database=None,
            deadline=None,
            max_examples=min(mine.max_examples, examples),
            phases=(Phase.explicit, Phase.generate),
            suppress_health_check=list(HealthCheck),
        )


def lines_run(by_line: dict[int, list[str]], lines: tuple[int, int]) -> set[str]:
    return {test for line in range(lines[0], lines[1] + 1) for test in by_line.get(line, ()) if test}


def note(out: TextIO, entry: dict[str, Any], verdict: str) -> None:
    out.write(json.dumps({**entry, "verdict": verdict}, ensure_ascii=False) + "\n")
    out.flush()


def read_results(path: Path) -> dict[str, dict[str, Any]]:
    """What is known of each mutant, the last word on it."""
    lines = path.read_text("utf-8").splitlines() if path.exists() else []
    return {entry["id"]: entry for entry in map(json.loads, lines)}


def survived(entry: dict[str, Any]) -> bool:
    return entry["verdict"] in ("survived", "not reached", "error")


def summary(results: dict[str, dict[str, Any]], parts: list[str]) -> None:
    """Killed and all, by file; then what survived."""
    by_file: dict[str, list[bool]] = defaultdict(list)
    mine = [r for r in results.values() if r["id"].startswith(tuple(parts)) and r["verdict"] != "no change"]
    for entry in mine:
        by_file[entry["id"].partition(":")[0]].append(not survived(entry))
    dead = 0
    for file, found in sorted(by_file.items()):
        dead += sum(found)
        print(f"{sum(found):5} of {len(found):5}  {sum(found) / len(found):6.1%}  {file}")
    print(f"{dead:5} of {len(mine):5}  {dead / max(len(mine), 1):6.1%}  in all")
    for entry in mine:
        if survived(entry):
            print(f"{entry['verdict']}: {entry['id']}  [{entry['tests']} tests]")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("parts", nargs="+", help="folders or files below lint/lintarsia, as planning or rules/areas.py")
    parser.add_argument("--sample", type=int, help="only so many mutants, the first in the order of --seed")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--examples", type=int, default=25, help="of a property test; survivors deserve more: --again")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--minutes", type=float, default=1e6, help="begin no mutant after that")
    parser.add_argument("--results", type=Path, default=ROOT / "build" / "mutation.jsonl")
    parser.add_argument("--again", action="store_true", help="try again what survived, with the tests as they are now")
    parser.add_argument("--tests", nargs="+", default=TESTS, help="folders or files below tests/")
    parser.add_argument("--basetemp", help="pytest's folder for the tests' files")
    parser.add_argument("--survivors", action="store_true", help="run nothing; tell what FILE holds")
    asked = parser.parse_args()
    asked.results.parent.mkdir(parents=True, exist_ok=True)
    if not asked.survivors:
        folders = [str(ROOT / "tests" / name) for name in asked.tests]
        options = [
            "-q",
            "-s",
            "-p",
            "no:cacheprovider",
            "--no-header",
            "--tb=line",
            "-o",
            "tmp_path_retention_policy=none",
        ]
        options += [f"--ignore={ROOT / 'tests' / name}" for name in LEFT_OUT]
        options += [f"--basetemp={asked.basetemp}"] if asked.basetemp else []
        status = pytest.main([*options, "--rootdir", str(ROOT), *folders], plugins=[Plugin(asked)])
        if status not in (0, 1):
            return int(status)
    summary(read_results(asked.results), asked.parts)
    return 0


if __name__ == "__main__":
    sys.exit(main())
