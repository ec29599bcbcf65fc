"""The test knits below some paths, gathered by what was knitted, each held against the revision that it was knitted
from."""

import os
from collections.abc import Iterable, Sequence

from lintarsia.engine.checking import shown
from lintarsia.engine.knithistory import History
from lintarsia.engine.knitted import knit_work
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.engine.targets import Target, find_targets
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.values import dataclass
from lintarsia.knits.reading import KnitReading, read_knit
from lintarsia.knits.summary import NOW, THEN, UNKNOWN, UNSAID, PatternKnits, Source, summarize
from lintarsia.knits.work import KnitWork
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import Settings, SettingsFinder


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A log that counts for nothing, and why in words."""

    file: str
    why: str


@dataclass(frozen=True, slots=True)
class Gathered:
    """`patterns` in the order of their paths, those that nobody has knitted among them where they were named."""

    patterns: tuple[PatternKnits, ...]
    left_out: tuple[LeftOut, ...]


def gather_knits(paths: Sequence[str], settings: Settings | None = None) -> Gathered:
    """Every log that `paths` name, files or folders and all below them, and every pattern.

    `settings` hold for all where given. Raises Trouble for a path that is not there.
    """
    targets = find_targets(paths, SettingsFinder(settings), (Kind.KNIT, Kind.PATTERN))
    logs, left_out = _read([target for target in targets if kind_of(target.path) is Kind.KNIT])
    groups: dict[str, list[tuple[KnitWork, Settings]]] = {}
    nows: dict[str, PatternWork] = {}
    for target in targets:
        if kind_of(target.path) is Kind.PATTERN:
            pattern = read_pattern(target.path, max_bytes=target.settings.max_bytes).pattern
            if pattern is not None:
                nows[os.path.realpath(target.path)] = work_on(pattern, target.settings)
    for work, held in logs:
        assert work.knitted is not None
        real = os.path.realpath(work.knitted.pattern.path)
        nows.setdefault(real, work.knitted)
        groups.setdefault(real, []).append((work, held))
    found = []
    for real, now in nows.items():
        sources = _sources(now, groups.get(real, []))
        left_out += [_sizeless(one.work) for one in sources if one.work.size is None]
        found.append(summarize(now, pattern_fingerprint(now), [one for one in sources if one.work.size is not None]))
    return Gathered(tuple(sorted(found, key=lambda one: one.path)), tuple(left_out))


def _read(targets: Iterable[Target]) -> tuple[list[tuple[KnitWork, Settings]], list[LeftOut]]:
    found, left_out = [], []
    for target in targets:
        reading = read_knit(target.path, max_bytes=target.settings.max_bytes)
        work = knit_work(reading.log, target.settings) if reading.log is not None else None
        if work is None:
            why = reading.problems[0][1].message if reading.problems else "it says of nothing that it was knitted"
            left_out.append(LeftOut(shown(target.path), why))
        elif impossible := _impossible(reading, work):
            left_out.append(LeftOut(shown(target.path), impossible))
        elif work.knitted is None:
            left_out.append(LeftOut(shown(target.path), work.fault + work.hint))
        else:
            found.append((work, target.settings))
    return found, left_out


def _impossible(reading: KnitReading, work: KnitWork) -> str:
    """What the log states and cannot have been, such as the 30th of February or more yarn left than there was; ""
    where there is nothing of the kind."""
    values = [finding.message for _, finding in reading.problems if finding.key in ("wrong-value", "wrong-type")]
    left = [
        f"{yarn}: {used.after} are left of {used.before}"
        for yarn, used in work.log.used.items()
        if used.spent is not None and used.spent.value < 0
    ]
    return next(iter((*values, *left)), "")


def _sources(now: PatternWork, logs: Sequence[tuple[KnitWork, Settings]]) -> list[Source]:
    history = History(now.pattern.path)
    return [_source(work, held, history) for work, held in logs]


def _sizeless(work: KnitWork) -> LeftOut:
    said = "it states no size" if work.log.size is None else f"the {work.log.of} has no size {work.log.size!r}"
    return LeftOut(shown(work.log.path), said)


def _source(work: KnitWork, settings: Settings, history: History) -> Source:
    if not work.log.fingerprint:
        return Source(work, UNSAID)
    if work.current:
        return Source(work, NOW)
    then = history.of(work.log, settings)
    return Source(work, UNKNOWN) if then is None else Source(then.work, THEN, then.commit)
