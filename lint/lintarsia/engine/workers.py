"""Many charts over the cores, in chunks, with answers in the order of the charts."""

import gc
import os
from collections.abc import Callable, Iterator, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from lintarsia.engine.batches import MOST, batches, check_charts
from lintarsia.engine.checking import Checked
from lintarsia.engine.targets import Target
from lintarsia.ground.packing import packed, unpacked
from lintarsia.ground.pools import cores, process_pool, spread
from lintarsia.settings.model import Settings

if TYPE_CHECKING:
    from concurrent.futures import Executor

# Starting two processes costs about as much as checking this many bytes of charts (measured; benchmarks/CHECK.md).
PAYS_FROM_BYTES = 100_000
CHUNKS_A_WORKER = 8
AHEAD = 3  # chunks begun or waiting for each process

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
    done = 0
    for answers in spread(executor, _check, _chunks(targets, number), AHEAD * number):
        yield from map(unpacked, answers)
        done += len(answers)
        if progress:
            progress(done, len(targets))


class _Chunk(NamedTuple):
    """Files for one process: their paths and sizes, and which of `settings` hold for each."""

    files: tuple[tuple[str, int, int], ...]
    settings: tuple[bytes, ...]


def _chunks(targets: Sequence[Target], number: int) -> Iterator[_Chunk]:
    """A few charts, and few bytes of them: the answers of one chunk are in memory at a time, in each process."""
    run = os.urandom(8)  # a process that outlives this run must not take what was sent for another
    sent: dict[int, bytes] = {}
    most = max(1, -(-len(targets) // (number * CHUNKS_A_WORKER)))
    for batch in batches(targets, lambda target: target.size, min(most, MOST)):
        for target in batch:
            if id(target.settings) not in sent:
                sent[id(target.settings)] = run + packed(target.settings)
        own = list(dict.fromkeys(id(target.settings) for target in batch))
        files = tuple((target.path, own.index(id(target.settings)), target.size) for target in batch)
        yield _Chunk(files, tuple(sent[one] for one in own))


def _check(chunk: _Chunk) -> list[bytes]:
    settings = [_settings(data) for data in chunk.settings]
    targets = [Target(path, settings[which], size) for path, which, size in chunk.files]
    return list(map(packed, check_charts(targets)))


@lru_cache(64)
def _settings(data: bytes) -> Settings:
    """Settings as they were sent, made once: rules are loaded for them, and armed."""
    settings: Settings = unpacked(data[8:])
    return settings
