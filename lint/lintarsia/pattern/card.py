"""What stands on a release card: what was checked, what was accepted and why, what comes out, what a person must do."""

from collections.abc import Iterable, Mapping, Sequence

from lintarsia.chart.content import chart_fingerprint, stamp_words
from lintarsia.ground.values import dataclass
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.duties import Duty, duties
from lintarsia.pattern.sizes import SizeSheet, size_sheets
from lintarsia.pattern.work import PatternWork
from lintarsia.result import Report, Result
from lintarsia.telling.counts import count, stitch_count


@dataclass(frozen=True, slots=True)
class CheckedChart:
    """A chart of the pattern; `size` is `68 stitches, 92 rows`, "" where the file holds no chart."""

    file: str
    title: str
    size: str


@dataclass(frozen=True, slots=True)
class Card:
    """`blocking` results keep the pattern from release; `standing` ones do not; `accepted` ones have a justification.

    `passed` maps a group of rules to the rules that looked and found nothing in any file; `idle` are groups that had
    nothing to look at; `off` are rules that the settings switch off. `stamp` says which state of the
    pattern it is of, `stamps` that of each chart by its file; `before` is the last version that went out with other
    content, "" where there is none.
    """

    title: str
    version: str
    file: str
    charts: tuple[CheckedChart, ...]
    blocking: tuple[Result, ...]
    standing: tuple[Result, ...]
    accepted: tuple[Result, ...]
    passed: Mapping[str, tuple[str, ...]]
    idle: tuple[str, ...]
    off: tuple[str, ...]
    sizes: tuple[SizeSheet, ...]
    duties: tuple[Duty, ...]
    tool: str
    stamp: str = ""
    stamps: tuple[tuple[str, str], ...] = ()
    fingerprint: str = ""
    before: str = ""
    knitted: tuple[str, ...] = ()  # by size, who has knitted it at which revision; empty where no test knit is known
    ticked: tuple[str, ...] = ()  # boxes that the test knits tick

    @property
    def ready(self) -> bool:
        """Whether nothing that a program can see keeps the pattern from release."""
        return not self.blocking

    @property
    def heading(self) -> str:
        return f"{self.title}, version {self.version}" if self.version else self.title

    @property
    def verdict(self) -> str:
        if self.ready:
            return "Nothing that can be checked by machine keeps this pattern from release."
        number = len(self.blocking)
        return f"Not ready: {count(number, 'result')} {'blocks' if number == 1 else 'block'} release."

    @property
    def acceptances(self) -> tuple[tuple[Result, ...], ...]:
        """The accepted results, those of one rule for one reason together."""
        groups: dict[tuple[str, str], list[Result]] = {}
        for result in self.accepted:
            groups.setdefault((result.rule, result.justification), []).append(result)
        return tuple(map(tuple, groups.values()))

    @property
    def rules_passed(self) -> int:
        return sum(map(len, self.passed.values()))


def make_card(
    work: PatternWork,
    report: Report,
    ran: Iterable[str],
    off: Sequence[str],
    *,
    revisions: Mapping[str, str] | None = None,
    before: str = "",
) -> Card:
    """The card of a pattern from the report on it and its charts. `ran` are the rules that looked at any of them;
    `revisions` has the commit of each file in words; `before` is the last version that went out with other content."""
    commits = revisions or {}
    live = [result for result in report.results if not result.suppressed]
    found = {result.rule for result in report.results}
    passed: dict[str, list[str]] = {}
    idle = set(_idle(work))
    for rule in sorted(set(ran) - found):
        group, _, name = rule.partition("/")
        if group not in idle:
            passed.setdefault(group, []).append(name)
    pattern = work.pattern
    return Card(
        title=pattern.title,
        version=pattern.version,
        file=pattern.path,
        charts=tuple(_charts(work)),
        blocking=tuple(result for result in live if report.blocks(result)),
        standing=tuple(result for result in live if not report.blocks(result)),
        accepted=tuple(result for result in report.results if result.suppressed),
        passed={group: tuple(names) for group, names in passed.items()},
        idle=tuple(sorted(idle)),
        off=tuple(sorted(off)),
        sizes=size_sheets(work),
        duties=(*_said_what_changed(before), *duties(work)),
        tool=f"lintarsia {report.version}",
        stamp=stamp_words(pattern_fingerprint(work), pattern.version, commits.get(pattern.path, "")),
        stamps=tuple(
            (file.path, stamp_words(chart_fingerprint(file.chart), revision=commits.get(file.path, "")))
            for file in work.charts.values()
            if file.chart is not None
        ),
        fingerprint=pattern_fingerprint(work),
        before=before,
    )


def _said_what_changed(before: str) -> Iterable[Duty]:
    if before:
        yield Duty(f"A line says what has changed since version {before} (lintarsia compare tells it).")


def _idle(work: PatternWork) -> Iterable[str]:
    """Groups of rules for things that nobody has declared: that they found nothing says nothing."""
    charts = [file.chart for file in work.charts.values() if file.chart is not None]
    declared = {
        "duplicate": any(chart.duplicate for chart in charts),
        "pieces": any(piece.mirror_of for piece in work.pattern.pieces.values()),
        "repeat": any(chart.repeat for chart in charts),
        "seam": bool(work.pattern.seams),
        "symmetry": any(chart.symmetry for chart in charts),
        "words": any(chart.in_words for chart in charts),
    }
    return (group for group, there in declared.items() if not there)


def _charts(work: PatternWork) -> Iterable[CheckedChart]:
    for file in work.charts.values():
        chart = file.chart
        size = "" if chart is None else f"{stitch_count(chart.grid.width)}, {count(chart.grid.height, 'row')}"
        yield CheckedChart(file.path, chart.title if chart else file.fault, size)
