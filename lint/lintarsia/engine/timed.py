"""Charts each within a time: one that takes longer is ended, and that is its result.

Only another process can be ended whatever it is about, in a loop of Python's as in the middle of numpy, and on every
system; so each chart is looked at in one of a few that are fed chart by chart.
"""

import gc
import multiprocessing
import os
import time
from collections.abc import Callable, Iterator, Sequence
from multiprocessing.connection import Connection, wait
from multiprocessing.context import BaseContext
from typing import Any

from lintarsia.engine.checking import Checked, check_chart, shown
from lintarsia.engine.completing import complete
from lintarsia.engine.subjects import Found, subject_of
from lintarsia.ground.pools import begin_quietly, start
from lintarsia.ground.values import dataclass
from lintarsia.result import NOWHERE, Finding
from lintarsia.settings import Settings

RULE = "engine/out-of-time"


@dataclass(frozen=True, slots=True)
class Job:
    """A chart or pattern to look at: its file, and its content where that comes from elsewhere."""

    file: str
    data: bytes | None
    settings: Settings


def check_in_time(
    jobs: Sequence[Job], seconds: float, number: int, progress: Callable[[int, int], None] | None = None
) -> Iterator[Checked]:
    """Each chart's answer, in order, `number` at a time. A chart that takes more than `seconds` has one result.

    The clock runs from when a process has begun with the chart, so that starting one costs nobody's time. Raises
    RuntimeError where a process dies by itself.
    """
    workers = [_Worker(multiprocessing.get_context(start())) for _ in range(max(1, min(number, len(jobs))))]
    try:
        answers: dict[int, Checked] = {}
        done = given = 0
        while done < len(jobs):
            for worker in workers:
                if worker.at is None and given < len(jobs):
                    worker.give(given, jobs[given])
                    given += 1
            for worker in _stirring(workers):
                at = worker.at
                answer = worker.answer(jobs, seconds)
                if at is not None and answer is not None:
                    answers[at] = answer
            while done in answers:
                yield answers.pop(done)
                done += 1
                if progress:
                    progress(done, len(jobs))
    finally:
        for worker in workers:
            worker.end()


def _stirring(workers: Sequence["_Worker"]) -> list["_Worker"]:
    """Those that have said something or are out of time; waits until there is one."""
    busy = [worker for worker in workers if worker.at is not None]
    ends = [worker.deadline for worker in busy if worker.deadline is not None]
    said = wait([worker.line for worker in busy], max(0.0, min(ends) - time.monotonic()) if ends else None)
    return [worker for worker in busy if worker.line in said or worker.late]


class _Worker:
    """One process, and the chart that it is about."""

    def __init__(self, context: BaseContext) -> None:
        self._context = context
        self.at: int | None = None
        self.deadline: float | None = None
        self._start()

    def _start(self) -> None:
        self.line, other = self._context.Pipe()
        self._process: Any = self._context.Process(target=_serve, args=(other,), daemon=True)  # type: ignore[attr-defined]
        self._process.start()
        other.close()  # so that the line breaks when the process dies

    @property
    def late(self) -> bool:
        return self.deadline is not None and time.monotonic() >= self.deadline

    def give(self, at: int, job: Job) -> None:
        self.at, self.deadline = at, None
        self.line.send((job.file, job.data, job.settings))

    def answer(self, jobs: Sequence[Job], seconds: float) -> Checked | None:
        """What came of its chart; None while it has only begun."""
        assert self.at is not None
        answer: Checked | None
        if self.line.poll():
            answer = self._said()
            if answer is None:
                self.deadline = time.monotonic() + seconds
                return None
        else:
            answer = _out_of_time(jobs[self.at], seconds)
            self.end()
            self._start()
        self.at = self.deadline = None
        return answer

    def _said(self) -> Checked | None:
        try:
            return self.line.recv()  # type: ignore[no-any-return]
        except EOFError:
            raise RuntimeError("a process that was looking at a chart died") from None

    def end(self) -> None:
        self._process.kill()
        self._process.join()
        self.line.close()


def _serve(line: "Connection[Any, Any]") -> None:
    """In the other process: charts in, first a sign that one has begun and then its answer out."""
    begin_quietly()
    gc.disable()  # charts make no cycles worth the search
    while True:
        try:
            file, data, settings = line.recv()
        except (EOFError, OSError):
            return
        line.send(None)
        line.send(check_chart(file, data, settings))


def _out_of_time(job: Job, seconds: float) -> Checked:
    subject = subject_of(job.file, job.data, job.settings)
    what = f"looking at this {subject.kind} took longer than {seconds:g} s and was ended"
    message = f"{what}; nothing else is known of it"
    found = [Found(RULE, Finding("out-of-time", message, NOWHERE, pattern="out of time"))]
    armed = job.settings.armed(os.path.abspath(job.file))
    return Checked(complete(shown(job.file), found, (), subject, armed, job.settings.rulebook), None)
