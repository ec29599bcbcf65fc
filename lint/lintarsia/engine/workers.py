"""Many charts over the cores, in chunks, with answers in the order of the charts."""

import gc
from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from lintarsia.engine.batches import check_charts
from lintarsia.engine.checking import Checked
from lintarsia.engine.targets import Target
from lintarsia.ground.pools import cores, process_pool, spread

if TYPE_CHECKING:
    from concurrent.futures import Executor

# Starting two processes costs about as much as checking this many bytes of charts (measured; benchmarks/CHECK.md).
PAYS_FROM_BYTES = 100_000
CHUNKS_A_WORKER = 8
LARGEST_CHUNK = 256  # charts: so that the last worker of many is not left alone with what the others have had

Progress = Callable[[int, int], None]


def workers_for(targets: Sequence[Target], jobs: int | None) -> int:
    """How many processes to use: 1 means none beside this one."""
    if jobs is None:
        if sum(target.size for target in targets) < PAYS_FROM_BYTES:
            return 1
        jobs = cores()
    return max(1, min(jobs, len(targets)))


def check_over_cores(targets: Sequence[Target], number: int, progress: Progress | None) -> Iterator[Checked]:
    """Each file's answer, in order, by so many processes of our own."""
    gc.freeze()
    pool = process_pool(number, gc.disable)  # short-lived, and charts make no cycles worth the search
    try:
        yield from check_over(pool, targets, number, progress)
    finally:
        pool.shutdown(wait=True, cancel_futures=True)


def check_over(
    executor: "Executor", targets: Sequence[Target], number: int, progress: Progress | None
) -> Iterator[Checked]:
    """Each file's answer, in order, by an executor that does about `number` things at once."""
    size = min(LARGEST_CHUNK, max(1, -(-len(targets) // (number * CHUNKS_A_WORKER))))
    done = 0
    for answers in spread(executor, _check, [targets[i : i + size] for i in range(0, len(targets), size)]):
        yield from answers
        done += len(answers)
        if progress:
            progress(done, len(targets))


def _check(chunk: Sequence[Target]) -> list[Checked]:
    return list(check_charts(chunk))
