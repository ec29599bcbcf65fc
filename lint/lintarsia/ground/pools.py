"""Work spread over the cores, by processes of our own or by whatever else can take it."""

import os
import signal
import sys
import threading
import warnings
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from itertools import islice
from typing import TYPE_CHECKING, TypeVar

from lintarsia.ground.orphans import end_with_parent

if TYPE_CHECKING:
    from concurrent.futures import Executor, Future, ProcessPoolExecutor

Part = TypeVar("Part")
Answer = TypeVar("Answer")

# Forked processes are there at once, with all that this one has loaded; elsewhere systems fork badly or not at all.
START = "fork" if sys.platform == "linux" else "spawn"


def start() -> str:
    """How a process is to be started here and now.

    Forking one with threads (a server that builds anew, a notebook) is asking for a lock that nobody gives back.
    """
    return START if threading.active_count() == 1 else "spawn"


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def process_pool(number: int, begin: Callable[[], None]) -> "ProcessPoolExecutor":
    """That many processes, each of which calls `begin_quietly` and `begin` first; to be shut down by whoever has it."""
    import multiprocessing  # 30 ms that a single chart need not wait for
    from concurrent.futures import ProcessPoolExecutor

    return ProcessPoolExecutor(number, multiprocessing.get_context(start()), _begin, (begin,))


def _begin(further: Callable[[], None]) -> None:
    begin_quietly()
    further()


def begin_quietly() -> None:
    """What a process that helps this one does first."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends the run, once
    end_with_parent()


def spread(
    executor: "Executor", work: Callable[[Part], Answer], parts: Iterable[Part], ahead: int | None = None
) -> Iterator[Answer]:
    """The answers in the order of the parts, of which `ahead` are handed over at once (None: all) and one more for each
    answer taken: so whoever takes them is not overrun. Where a process dies this raises, rather than wait without end.
    """
    rest = iter(parts)
    with warnings.catch_warnings():
        # Python 3.12 and later warn when a process with threads forks. Ours are idle: those of numpy's linear algebra,
        # where somebody else has imported it first, which is made ready for that.
        warnings.simplefilter("ignore", DeprecationWarning)
        waiting = deque([executor.submit(work, part) for part in islice(rest, ahead)])  # starts the processes
    return _taken(executor, work, rest, waiting)


def _taken(
    executor: "Executor", work: Callable[[Part], Answer], rest: Iterator[Part], waiting: "deque[Future[Answer]]"
) -> Iterator[Answer]:
    try:
        while waiting:
            answer = waiting.popleft().result()
            waiting += [executor.submit(work, part) for part in islice(rest, 1)]
            yield answer
    finally:
        for future in waiting:
            future.cancel()
