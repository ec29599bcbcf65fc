"""Charts handed out to processes and taken in order: parcels, and how many processes there are. The processes are
played by this one; what a chart becomes is its number."""

import gc
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import pytest

from lintarsia.publishing.site import gather
from lintarsia.publishing.site.gather import SMALLEST_PARCEL, Gathering, _parcels


@pytest.mark.parametrize(
    ("jobs", "cores", "sizes"),
    [(0, 2, []), (3, 2, [3]), (4, 2, [4]), (5, 2, [4, 1]), (60, 2, [10, 8, 7, 5, 5, 4, 4, 4, 4, 4, 4, 1]),
     (60, 4, [5, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 4, 3])],
)  # fmt: skip
def test_large_parcels_come_first_and_every_chart_is_in_one(jobs: int, cores: int, sizes: list[int]) -> None:
    parcels: list[Any] = [list(parcel) for parcel in _parcels(range(jobs), cores)]  # type: ignore[arg-type]
    assert [len(parcel) for parcel in parcels] == sizes
    assert [job for parcel in parcels for job in parcel] == list(range(jobs))
    assert min(sizes[:-1], default=SMALLEST_PARCEL) >= SMALLEST_PARCEL


@dataclass
class Pool:
    """Stands for processes; notes how it was begun and ended."""

    cores: int
    begin: Callable[[], None]
    ended: tuple[bool, bool] | None = None

    def shutdown(self, *, wait: bool, cancel_futures: bool) -> None:
        self.ended = wait, cancel_futures


@pytest.fixture
def pools(monkeypatch: pytest.MonkeyPatch) -> list[Pool]:
    made: list[Pool] = []

    def pool(cores: int, begin: Callable[[], None]) -> Pool:
        made.append(Pool(cores, begin))
        return made[-1]

    def spread(pool: Pool, work: Callable[[Any], Any], parcels: Iterator[Sequence[int]]) -> Iterator[Any]:
        return map(work, parcels)

    monkeypatch.setattr(gather, "process_pool", pool)
    monkeypatch.setattr(gather, "spread", spread)
    monkeypatch.setattr(gather, "cores_here", lambda: 3)
    monkeypatch.setattr(gather, "publish", lambda jobs: [f"entry {job}" for job in jobs])
    monkeypatch.setattr(gather, "batches", lambda jobs, size: [jobs[:2], jobs[2:]])
    return made


@pytest.mark.parametrize(
    ("jobs", "cores", "processes"),
    [(23, None, 0), (24, None, 3), (5, 1, 0), (1, 4, 0), (2, 4, 4), (50, 2, 2)],
)
def test_processes_are_begun_where_they_pay_and_entries_keep_their_order(
    jobs: int, cores: int | None, processes: int, pools: list[Pool]
) -> None:
    gathering = Gathering(range(jobs), cores)  # type: ignore[arg-type]
    entries: list[Any] = list(gathering)
    assert entries == [f"entry {number}" for number in range(jobs)]
    assert [pool.cores for pool in pools] == ([processes] if processes else [])
    gathering.close()
    assert [pool.ended for pool in pools] == ([(True, True)] if processes else [])
    assert gathering.late == []


def test_with_a_time_each_chart_is_begun_by_itself_and_those_that_are_late_are_named(
    pools: list[Pool], monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[tuple[float, int]] = []
    closed: list[bool] = []

    def within(seconds: float, work: Any, late: Any, jobs: Sequence[int], cores: int) -> Iterator[Any]:
        asked.append((seconds, cores))
        try:
            for job in jobs:
                yield late(job) if job == 1 else work(job)
        finally:
            closed.append(True)

    class Late:
        def __init__(self, job: int, seconds: float) -> None:
            self.file, self.seconds = f"file {job}", seconds

    monkeypatch.setattr(gather, "within", within)
    monkeypatch.setattr(gather, "publish_late", Late)
    gathering = Gathering(range(3), None, 0.5)  # type: ignore[arg-type]
    made: Any = iter(gathering)
    first, second = next(made), next(made)
    assert (first, vars(second)) == ("entry 0", {"file": "file 1", "seconds": 0.5})
    assert gathering.late == ["file 1"]
    assert not closed
    gathering.close()
    assert (closed, asked, pools) == ([True], [(0.5, 3)], [])
    list(Gathering(range(3), 2, 7.0))  # type: ignore[arg-type]
    assert asked[-1] == (7.0, 2)


def test_a_process_looks_for_cycles_seldom(monkeypatch: pytest.MonkeyPatch) -> None:
    frozen: list[bool] = []
    limits: list[tuple[int, ...]] = []
    monkeypatch.setattr(gc, "freeze", lambda: frozen.append(True))
    monkeypatch.setattr(gc, "set_threshold", lambda *numbers: limits.append(numbers))
    gather._begin()
    assert frozen == [True]
    assert limits[0][0] >= 50_000  # Python's own is 700 or 2,000
