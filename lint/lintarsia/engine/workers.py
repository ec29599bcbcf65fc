"""Many charts over the cores, in chunks, with answers in the order of the charts."""

import gc
import os
import signal
import sys
import warnings
from collections.abc import Callable, Iterator, Sequence

from lintarsia.engine.batches import check_charts
from lintarsia.engine.checking import Checked
from lintarsia.engine.targets import Target
from lintarsia.ground.orphans import end_with_parent

# Starting two processes costs about as much as checking this many bytes of charts (measured; benchmarks/CHECK.md).
PAYS_FROM_BYTES = 100_000
CHUNKS_A_WORKER = 8
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
    size = max(1, -(-len(targets) // (number * CHUNKS_A_WORKER)))
    chunks = [range(start, min(start + size, len(targets))) for start in range(0, len(targets), size)]
    gc.freeze()
    _targets = targets  # a forked worker finds the list in its own memory; a spawned one is sent it
    try:
        pool = ProcessPoolExecutor(number, context, _begin, (None if forking else targets,))
        try:
            with warnings.catch_warnings():
                # Python 3.12 and later warn when a process with threads forks. Ours are idle: those of numpy's linear
                # algebra, where somebody else has imported it first, which is made ready for that.
                warnings.simplefilter("ignore", DeprecationWarning)
                waiting = pool.map(_check, chunks)  # starts the processes
            done = 0
            for answers in waiting:
                yield from answers
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


def begin_quietly() -> None:
    """What a process that looks at charts does first."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # the parent ends the run, once
    end_with_parent()
    gc.disable()  # short-lived, and charts make no cycles worth the search


def _check(chunk: range) -> list[Checked]:
    return list(check_charts(_targets[chunk.start : chunk.stop]))
