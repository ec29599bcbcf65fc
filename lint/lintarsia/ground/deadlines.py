"""Pieces of work each within a time: one that takes longer is ended.

Only another process can be ended whatever it is about, in a loop of Python's as in the middle of numpy, and on every
system; so the work is done in a few that are fed piece by piece. Answers are packed until they are taken: while one
piece takes its time, those of a thousand others wait for their turn.
"""

import gc
import multiprocessing
import time
from collections.abc import Callable, Generator, Sequence
from multiprocessing.connection import Connection, wait
from multiprocessing.context import BaseContext
from typing import Any, Generic, TypeVar

from lintarsia.ground.packing import packed, unpacked
from lintarsia.ground.pools import begin_quietly, start

Piece = TypeVar("Piece")
Answer = TypeVar("Answer")


def within(
    seconds: float,
    work: Callable[[Piece], Answer],
    late: Callable[[Piece], Answer],
    pieces: Sequence[Piece],
    number: int = 1,
) -> Generator[Answer]:
    """The answers of `work`, in the order of the pieces, `number` at a time; for a piece that takes more than `seconds`
    that of `late`, which is asked in this process.

    Pieces and answers are pickled, `work` too where systems cannot fork. The clock runs from when a process has begun
    with a piece, so that starting one costs nobody's time. Raises RuntimeError where a process dies by itself.
    """
    workers = [_Worker(multiprocessing.get_context(start()), work) for _ in range(max(1, min(number, len(pieces))))]
    try:
        answers: dict[int, bytes] = {}
        done = given = 0
        while done < len(pieces):
            for worker in workers:
                if worker.at is None and given < len(pieces):
                    worker.give(given, pieces[given])
                    given += 1
            for worker in _stirring(workers):
                at, answer = worker.at, worker.answer(seconds)
                if at is not None and answer is not None:
                    answers[at] = answer
            while done in answers:
                told = answers.pop(done)
                yield unpacked(told) if told else late(pieces[done])
                done += 1
    finally:
        for worker in workers:
            worker.end()


def _stirring(workers: Sequence["_Worker[Any, Any]"]) -> list["_Worker[Any, Any]"]:
    """Those that have said something or are out of time; waits until there is one."""
    busy = [worker for worker in workers if worker.at is not None]
    ends = [worker.deadline for worker in busy if worker.deadline is not None]
    said = wait([worker.line for worker in busy], max(0.0, min(ends) - time.monotonic()) if ends else None)
    return [worker for worker in busy if worker.line in said or worker.late]


class _Worker(Generic[Piece, Answer]):
    """One process, and the piece that it is about."""

    def __init__(self, context: BaseContext, work: Callable[[Piece], Answer]) -> None:
        self._context, self._work = context, work
        self.at: int | None = None
        self.deadline: float | None = None
        self._start()

    def _start(self) -> None:
        self.line, other = self._context.Pipe()
        self._process: Any = self._context.Process(target=_serve, args=(other, self._work), daemon=True)  # type: ignore[attr-defined]
        self._process.start()
        other.close()  # so that the line breaks when the process dies

    @property
    def late(self) -> bool:
        return self.deadline is not None and time.monotonic() >= self.deadline

    def give(self, at: int, piece: Piece) -> None:
        self.at, self.deadline = at, None
        self.line.send_bytes(packed(piece))

    def answer(self, seconds: float) -> bytes | None:
        """What came of its piece, packed, or b"" where it was out of time; None while it has only begun."""
        if self.line.poll():
            answer = self._said()
            if not answer:
                self.deadline = time.monotonic() + seconds
                return None
        else:
            answer = b""
            self.end()
            self._start()
        self.at = self.deadline = None
        return answer

    def _said(self) -> bytes:
        try:
            return self.line.recv_bytes()
        except EOFError:
            raise RuntimeError("a process that was looking at a chart died") from None

    def end(self) -> None:
        self._process.kill()
        self._process.join()
        self.line.close()


def _serve(line: "Connection[Any, Any]", work: Callable[[Any], Any]) -> None:
    """In the other process: pieces in, first a sign that one has begun and then its answer out."""
    begin_quietly()
    gc.disable()  # charts make no cycles worth the search
    while True:
        try:
            piece = unpacked(line.recv_bytes())
        except (EOFError, OSError):
            return
        line.send_bytes(b"")
        line.send_bytes(packed(work(piece)))
