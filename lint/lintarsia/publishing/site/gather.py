"""All charts of a site to entries, over the cores, in the order of the charts."""

import gc
import os
from collections.abc import Generator, Iterator, Sequence
from concurrent.futures import Executor
from itertools import chain
from typing import NamedTuple

from lintarsia.engine.batches import batches
from lintarsia.engine.checking import shown
from lintarsia.engine.naming import logs_beside
from lintarsia.engine.revision import Revisions
from lintarsia.engine.subjects import subject_of
from lintarsia.engine.targets import Target, find_targets, refuse_others
from lintarsia.ground.deadlines import within
from lintarsia.ground.kinds import kind_of
from lintarsia.ground.pools import cores as cores_here
from lintarsia.ground.pools import process_pool, spread
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.frame import Frame
from lintarsia.publishing.pages.layout import Layout, slugs
from lintarsia.publishing.pages.said import Said
from lintarsia.publishing.site.makers import kinds_with_pages, maker_of
from lintarsia.publishing.site.publish import publish, publish_late
from lintarsia.publishing.site.task import Task
from lintarsia.settings import SettingsFinder
from lintarsia.telling.languages import ENGLISH

# A chart takes a few milliseconds, and starting processes a dozen or two.
PAYS_FROM_CHARTS = 24
SMALLEST_PARCEL = 4  # charts


def tasks(
    paths: Sequence[str],
    finder: SettingsFinder,
    layout: Layout,
    site: str,
    scratch: str,
    *,
    cards: bool = False,
    frame: Frame | None = None,
    public: bool = False,
    language: str = ENGLISH,
) -> list[Task]:
    """A task for each file with a page that `paths` name; on a `public` site, patterns stand for their charts. Raises
    Trouble for a path that is not there, and where only files without pages are named."""
    refuse_others(paths, kinds_with_pages())
    targets = find_targets(paths, finder, kinds_with_pages())
    holders = [os.path.join(os.path.abspath(path), "") for path in paths if os.path.isdir(path)]
    inner = [_inner(target, holders) for target in targets]
    names = slugs(zip(inner, (target.path for target in targets), strict=True))
    revisions = Revisions()
    gathered = _parts(targets, names)
    belongs = [gathered.get(os.path.realpath(target.path), ()) for target in targets]
    pages: dict[str, str] = {}  # a pattern finds the pages of its charts here
    if any(not kind_of(target.path).whole for target in targets):
        pages = dict(zip((os.path.realpath(target.path) for target in targets), names, strict=True))
    heard = () if public else _heard(targets, finder)
    return [
        Task(
            number,
            slug,
            target,
            layout,
            site,
            scratch,
            {} if kind_of(target.path).whole else pages,
            cards,
            frame,
            shown(below) if os.path.isabs(target.path) else "",
            found.words if (found := revisions.of(target.path)) else "",
            public,
            tuple((one.slug, one.title) for one in wholes if one.read),
            heard if not kind_of(target.path).whole else _of_chart(heard, target.path),
            _versions(wholes),
            language=language,
        )
        for number, (slug, target, below, wholes) in enumerate(
            each
            for each in zip(names, targets, inner, belongs, strict=True)
            if not (public and any(one.read for one in each[3]))
        )
    ]


def _heard(targets: Sequence[Target], finder: SettingsFinder) -> tuple[Said, ...]:
    """What test knitters have said of anything."""
    logs = logs_beside(targets, finder)
    if not logs:
        return ()
    from lintarsia.publishing.site.hearing import said_in  # few sites have logs, and all wait for what is loaded

    return said_in(logs)


def _of_chart(heard: Sequence[Said], path: str) -> tuple[Said, ...]:
    real = os.path.realpath(path) if heard else ""
    return tuple(one for one in heard if one.chart == real)


class _PartOf(NamedTuple):
    """What a chart is a part of: its page, its title, its version; and whether the chart could be read from there."""

    slug: str
    title: str
    version: str
    read: bool


def _parts(targets: Sequence[Target], names: Sequence[str]) -> dict[str, list[_PartOf]]:
    """What of the site gathers a chart, such as its patterns, by the chart's real path."""
    found: dict[str, list[_PartOf]] = {}
    for slug, target in zip(names, targets, strict=True):
        made = maker_of(target.path).gathers(target)
        if made is None:
            continue
        for path in made.named:
            found.setdefault(path, []).append(_PartOf(slug, made.title, made.version, path in made.read))
    return found


def _versions(wholes: Sequence[_PartOf]) -> str:
    """The version that a chart goes out with; with the titles of what it is a part of, where that is several."""
    told = [one for one in wholes if one.version]
    return ", ".join(one.version if len(told) == 1 else f"{one.version} of {one.title}" for one in told)


def files_read(task: Task) -> Iterator[str]:
    """The files that a page is made from: its own, its settings, those that it names, and logs that name it."""
    path, settings = task.target.path, task.target.settings
    yield path
    yield from (file for file in (settings.file, settings.baseline) if file is not None)
    if not kind_of(path).whole:
        subject = subject_of(path, None, settings)
        subject.read()
        yield from subject.named()
        from lintarsia.engine.gating import logs_of

        yield from logs_of(path, SettingsFinder(settings))


def _inner(target: Target, holders: Sequence[str]) -> str:
    """The chart's path below the folder that was named; its bare name where it was named itself."""
    full = os.path.abspath(target.path)
    inside = [full[len(holder) :] for holder in holders if full.startswith(holder)]
    name = min(inside, key=len) if inside else os.path.basename(full)
    return name.replace(os.sep, "/")


class Gathering:
    """Entries in the order of their tasks. The work is begun at once, in as many processes as pay or `cores` allows,
    and goes on while this one does something else; without other processes, it is done as entries are asked for.

    With `most_seconds` each is begun by itself, in processes that can be ended; `late` has the files whose time was up.
    """

    def __init__(self, jobs: Sequence[Task], cores: int | None = None, most_seconds: float | None = None) -> None:
        self.late: list[str] = []
        self._made: Iterator[Entry]
        self._pool: Executor | None = None
        self._timed: Generator[Entry] | None = None
        if most_seconds is not None:
            self._seconds = most_seconds
            self._timed = within(most_seconds, _publish_one, self._late, jobs, cores or cores_here())
            self._made = self._timed
            return
        if cores is None:
            cores = 1 if len(jobs) < PAYS_FROM_CHARTS else cores_here()
        if cores <= 1 or len(jobs) <= 1:
            self._made = _published(jobs)
            return
        first, jobs = publish(jobs[:1]), jobs[1:]  # what this loads and keeps, the processes are born with
        self._pool = process_pool(cores, _begin)
        self._made = chain(first, chain.from_iterable(spread(self._pool, _publish_all, _parcels(jobs, cores))))

    def __iter__(self) -> Iterator[Entry]:
        return self._made

    def close(self) -> None:
        """Nothing is written any more once this returns."""
        if self._timed is not None:
            self._timed.close()
        if self._pool is not None:
            self._pool.shutdown(wait=True, cancel_futures=True)

    def _late(self, task: Task) -> Entry:
        entry = publish_late(task, self._seconds)
        self.late.append(entry.file)
        return entry


def _publish_one(task: Task) -> Entry:
    (entry,) = publish([task])
    return entry


def _parcels(jobs: Sequence[Task], cores: int) -> Iterator[Sequence[Task]]:
    """Large parcels first, since handing one over costs as much as a third of a chart; small ones last, so that nobody
    waits long for whoever has the last."""
    start = 0
    while start < len(jobs):
        size = max(SMALLEST_PARCEL, (len(jobs) - start) // (3 * cores))
        yield jobs[start : start + size]
        start += size


def _begin() -> None:
    gc.freeze()
    gc.set_threshold(100_000, 20, 50)  # a chart leaves few cycles, and looking for them often costs a tenth of the time


def _publish_all(jobs: Sequence[Task]) -> list[Entry]:
    return list(_published(jobs))


def _published(jobs: Sequence[Task]) -> Iterator[Entry]:
    return chain.from_iterable(map(publish, batches(jobs, lambda job: job.target.size)))
