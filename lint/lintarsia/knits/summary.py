"""All test knits of a pattern in one value: by size who knitted what, yarn against plan, what was said, the loop."""

from collections.abc import Iterator, Mapping, Sequence

from lintarsia.ground.values import dataclass
from lintarsia.knits.calibrate import Calibration, calibrate, outliers_among
from lintarsia.knits.model import MeasuredGauge, Remark
from lintarsia.knits.plannedyarn import balls_of, planned_metres
from lintarsia.knits.revisionmarks import same_stitches
from lintarsia.knits.work import KnitWork
from lintarsia.pattern.work import PatternWork

NOW, THEN, UNKNOWN, UNSAID = "now", "then", "unknown", "unsaid"
"""What a log's fingerprint is of: the files as they are, a commit before, nothing that is known, or it states none."""


@dataclass(frozen=True, slots=True)
class Source:
    """A log with what it is about. `work` is of the revision that was knitted, where that is known: `revision` is one
    of the four above, and `commit` names it in words where it is one before."""

    work: KnitWork
    revision: str
    commit: str = ""


@dataclass(frozen=True, slots=True)
class YarnUse:
    """A yarn of one knit. `metres` is None where grams cannot be told in metres, `ratio` while it is being knitted."""

    yarn: str
    said: str
    metres: float | None
    planned: float | None
    ratio: float | None


@dataclass(frozen=True, slots=True)
class Knit:
    """One log. `stated` is the gauge of the pattern's main chart, over the length that she measured over."""

    file: str
    knitter: str
    size: str
    fingerprint: str
    revision: str
    commit: str
    same_stitches: bool | None  # whether what she knitted has the stitches of now; None where that is not known
    finished: str
    gauge: MeasuredGauge | None
    stated: MeasuredGauge | None
    yarns: tuple[YarnUse, ...]
    hours: float | None
    rows: tuple[Remark, ...]
    remarks: str
    site: bool

    @property
    def open(self) -> int:
        """How many remarks wait for an answer."""
        return sum(remark.open for remark in self.rows)


@dataclass(frozen=True, slots=True)
class OddYarn:
    """A yarn of which one knitter used another part of the plan than the others: `times` theirs."""

    knitter: str
    yarn: str
    times: float
    file: str


@dataclass(frozen=True, slots=True)
class PatternKnits:
    """`sizes` are all that the pattern has, knitted or not, each with its knits. `of_charts` are those of its charts,
    which some log by themselves: what was said there is said of the pattern."""

    path: str
    title: str
    version: str
    fingerprint: str
    sizes: Mapping[str, tuple[Knit, ...]]
    calibration: Calibration | None
    odd: tuple[OddYarn, ...]
    of_charts: tuple["PatternKnits", ...] = ()

    @property
    def knits(self) -> tuple[Knit, ...]:
        return tuple(knit for knits in self.sizes.values() for knit in knits)


def summarize(now: PatternWork, fingerprint: str, sources: Sequence[Source]) -> PatternKnits:
    """The knits of one pattern, whose files say `now`, in the order of their logs."""
    sizes: dict[str, list[Knit]] = {size: [] for size in now.pattern.sizes}
    for source in sources:
        knit = _knit(source, now)
        sizes.setdefault(knit.size, []).append(knit)  # a size that a revision before had comes last
    found = tuple(knit for knits in sizes.values() for knit in knits)
    return PatternKnits(
        path=now.pattern.path,
        title=now.pattern.title,
        version=now.pattern.version,
        fingerprint=fingerprint,
        sizes={size: tuple(knits) for size, knits in sizes.items()},
        calibration=calibrate(now, [source.work for source in sources]),
        odd=tuple(_odd(found)),
    )


def _same(source: Source, now: PatternWork) -> bool | None:
    if source.revision in (UNKNOWN, UNSAID) or source.work.knitted is None:
        return None
    return source.revision == NOW or same_stitches(source.work.knitted, now, source.work.size or "")


def _knit(source: Source, now: PatternWork) -> Knit:
    work, log = source.work, source.work.log
    return Knit(
        file=log.path,
        knitter=log.knitter,
        size=work.size or log.size or "",
        fingerprint=log.fingerprint,
        revision=source.revision,
        commit=source.commit,
        same_stitches=_same(source, now),
        finished=log.finished,
        gauge=log.gauge,
        stated=_stated(work),
        yarns=tuple(_yarns(work)),
        hours=log.hours,
        rows=log.rows,
        remarks=log.remarks,
        site=log.site,
    )


def _stated(work: KnitWork) -> MeasuredGauge | None:
    gauge, main = work.log.gauge, work.main
    if main is None or "gauge" in main.assumed:
        return None
    over = gauge.over if gauge is not None else main.gauge.over
    return MeasuredGauge(over.mm / main.gauge.stitch_mm, over.mm / main.gauge.row_mm, over)


def _yarns(work: KnitWork) -> Iterator[YarnUse]:
    if work.knitted is None or work.size is None:
        return
    balls, planned = balls_of(work.knitted), planned_metres(work.knitted, work.size) if work.log.used else {}
    for yarn, used in work.log.used.items():
        metres = balls[yarn].metres(used.spent) if yarn in balls else None
        said, there = str(used.spent) if used.spent is not None else "", planned.get(yarn)
        ratio = metres / there if metres is not None and there and work.log.finished else None
        yield YarnUse(yarn, said, metres, there, ratio)


def _odd(knits: Sequence[Knit]) -> Iterator[OddYarn]:
    """A yarn at a time, over all sizes: as parts of the plan they can be compared."""
    for yarn in dict.fromkeys(used.yarn for knit in knits for used in knit.yarns):
        ratios = {knit.file: used.ratio for knit in knits for used in knit.yarns if used.yarn == yarn and used.ratio}
        names = {knit.file: knit.knitter for knit in knits}
        for file, times in outliers_among(ratios).items():
            yield OddYarn(names[file], yarn, times, file)
