"""Many charts over the cores, in chunks, with answers in the order of the charts."""

import gc
import os
import signal
import sys
import warnings
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from itertools import islice

from lintarsia.engine.batches import MOST, batches, check_charts
from lintarsia.engine.checking import Checked
from lintarsia.engine.targets import Target
from lintarsia.ground.orphans import end_with_parent
from lintarsia.result.packing import packed, unpacked

# Starting two processes costs about as much as checking this many bytes of charts (measured; benchmarks/CHECK.md).
PAYS_FROM_BYTES = 100_000
CHUNKS_A_WORKER = 8
AHEAD = 3  # chunks begun or waiting for each process
START = "fork" if sys.platform == "linux" else "spawn"

_targets: Sequence[Target] = ()


def workers_for(targets: Sequence[Target], jobs: int | None) -> int:
    """How many processes to use: 1 means none beside this one."""
    if jobs is None:
        if sum(target.size for target in targets) < PAYS_FROM_BYTES:
            return 1
        jobs = cores()
    return max(1, min(jobs, len(targets)))


def cores() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


def check_over_cores(
    targets: Sequence[Target], number: int, progress: Callable[[int, int], None] | None
) -> Iterator[Checked]:
    """Each chart's answer, in order. Where a process dies the run ends with an error rather than a wait without end."""
    global _targets
    import multiprocessing  # 30 ms that a single chart need not wait for
    from concurrent.futures import ProcessPoolExecutor

    forking = START == "fork"
    context = multiprocessing.get_context(START)
    chunks = _chunks(targets, number)
    gc.freeze()
    _targets = targets  # a forked worker finds the list in its own memory; a spawned one is sent it
    try:
        pool = ProcessPoolExecutor(number, context, _begin, (None if forking else targets,))
        try:
            with warnings.catch_warnings():
                # Python 3.12 and later warn when a process with threads forks. Ours are idle: those of numpy's linear
                # algebra, where somebody else has imported it first, which is made ready for that.
                warnings.simplefilter("ignore", DeprecationWarning)
                first = islice(chunks, AHEAD * number)
                waiting = deque([pool.submit(_check, chunk) for chunk in first])  # starts the processes
            done = 0
            while waiting:
                answers = waiting.popleft().result()
                # One for each that is had: whoever takes the answers is not overrun by them.
                waiting += [pool.submit(_check, chunk) for chunk in islice(chunks, 1)]
                yield from map(unpacked, answers)
                done += len(answers)
                if progress:
                    progress(done, len(targets))
        finally:
            pool.shutdown(wait=True, cancel_futures=True)
    finally:
        _targets = ()


def _begin(targets: Sequence[Target] | None) -> None:
    global _targets
    begin_quietly()
    if targets is not None:
        _targets = targets


def _chunks(targets: Sequence[Target], number: int) -> Iterator[range]:
    """A few charts, and few bytes of them: the answers of one chunk are in memory at a time, in each process."""
    most = max(1, -(-len(targets) // (number * CHUNKS_A_WORKER)))
    start = 0
    for batch in batches(targets, lambda target: target.size, min(most, MOST)):
        yield range(start, start + len(batch))
        start += len(batch)


def begin_quietly() -> None:
    """What a process that looks at charts does first."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends the run, once
    end_with_parent()
    gc.disable()  # short-lived, and charts make no cycles worth the search


def _check(chunk: range) -> list[bytes]:
    return list(map(packed, check_charts(_targets[chunk.start : chunk.stop])))
