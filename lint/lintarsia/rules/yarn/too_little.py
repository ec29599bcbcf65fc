"""yarn/too-little: the balls that the file states against the metres that the chart needs."""

from collections.abc import Iterator
from math import ceil
from typing import TYPE_CHECKING

from lintarsia.chart import Chart
from lintarsia.planning.edgework import edge_work
from lintarsia.planning.model import YarnNeed
from lintarsia.planning.rates import rates_of
from lintarsia.planning.yarn import duplicate_mm
from lintarsia.result import Basis, Edit, Finding, Fix, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import LOOP_SOURCES
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.lengths import ball_count, is_imperial, yarn_in, yarn_length, yarn_lengths

if TYPE_CHECKING:
    from lintarsia.pattern.buying import Need
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
INFO = RuleInfo(
    name="yarn/too-little",
    level=Level.ERROR,
    summary="the balls stated do not hold the yarn that the chart needs",
    why=(
        "Whoever buys what the pattern says runs out before the last row, and the same dye lot may be gone by then. "
        "The need counts stitches, carries, tails and duplicate stitch; an allowance is kept for swatch and slips."
    ),
    remedy="state more balls; a measured `gauge.loop` makes the need surer than the gauge can",
    keys={
        "too-little": "less yarn than the chart needs",
        "nothing-to-spare": "enough for the chart, but not with the allowance",
        "not-listed": "a yarn that a piece is worked in is not among those the pattern says to buy",
    },
    sources=(
        *LOOP_SOURCES,
        "the allowance, 10 %, is a house value, a setting",
    ),
    subjects=(Kind.CHART, Kind.PATTERN),
    judges_by=frozenset({Basis.GAUGE, Basis.COLOURS}),
    fix_from_plan=True,
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each yarn that says how many balls there are and how long one is. A chart may be one piece of
    several: then this is the least that can be wrong.
    """
    chart = work.chart
    held = [yarn.balls * yarn.length.mm for yarn in chart.yarns.values() if yarn.balls is not None and yarn.length]
    if not held or _is_plenty(work, min(held)):
        return
    for need in work.plan.yarns:
        if need.stated is not None and need.balls is not None and need.stated + 1e-9 < need.balls * _spare(need):
            yield _finding(chart, need)


def _is_plenty(work: Work, mm: float) -> bool:
    """Whether so much yarn would do for all of the chart together, and so for any one yarn: most need less than a ball.
    The edges are counted only where it would not do if every stitch were cast on and bound off."""
    chart, threads = work.chart, work.plan.threads
    per, cover, stitches = rates_of(chart, work.reckoning), threads.cover, int(threads.runs.stitches.sum())
    own = stitches * per.loop + cover.supplies * 2 * per.tail + int(threads.needs.max(initial=0)) * per.spare
    way = int(cover.carried.sum()) * max(per.carry, per.floating) + int(cover.idle.sum()) * per.row
    inside = own + way + sum(duplicate_mm(chart, per).values()) + 1  # a millimetre for rounding
    if (inside + stitches * (per.cast_on + per.bind_off)) * (1 + work.allowance) < mm:
        return True
    ends = edge_work(chart, threads)
    edges = int(ends.cast_on.sum()) * per.cast_on + int(ends.bind_off.sum()) * per.bind_off
    return (inside + edges) * (1 + work.allowance) < mm


def _spare(need: YarnNeed) -> float:
    return need.buy_metres / need.metres if need.metres else 1.0


def _finding(chart: Chart, need: YarnNeed) -> Finding:
    yarn = chart.yarns[need.yarn]
    assert yarn.length is not None
    assert need.stated is not None
    assert need.balls is not None
    has, needs = yarn_lengths((need.stated * yarn.length.metres, need.metres), is_imperial(chart))
    name = yarn.name or yarn.id
    hold = "holds" if need.stated == 1 else "hold"
    enough = need.balls <= need.stated + 1e-9
    message = f"{name}: {ball_count(need.stated)} of {yarn.length} {hold} {has}; the chart needs {needs}"
    if enough:
        message += f", {yarn_in(chart, need.buy_metres)} with the allowance"
    region = chart.places.value("yarns", need.yarn, "balls")
    enough_balls = ceil(need.buy_metres / yarn.length.metres - 1e-9)  # of a chart with a repeat the least that can be
    fix = Fix(f"state {ball_count(enough_balls)}", (Edit(region, str(enough_balls)),), safe=False)
    return Finding(
        "nothing-to-spare" if enough else "too-little",
        message,
        region,
        level=Level.WARNING if enough else None,
        fixes=(fix,),
        pattern=need.yarn,
    )


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each yarn and size whose balls do not last for all pieces, each counted as often as knitted."""
    from lintarsia.pattern.buying import needs_of

    pattern = work.pattern
    if not pattern.yarns:
        return
    missing: dict[str, list[str]] = {}
    for size in pattern.sizes:
        for need in needs_of(work, size).values():
            if need.yarn not in pattern.yarns:
                missing.setdefault(need.yarn, []).extend(p for p in need.pieces if p not in missing.get(need.yarn, ()))
            elif size in pattern.yarns[need.yarn].balls:
                yield from _short(work, need, size)
    for yarn, pieces in missing.items():
        message = f"the pattern's yarns have no {yarn!r}; {one_and_all(pieces)} {_verb(len(pieces))} it"
        remedy = "add it to the pattern's `yarns` with the balls that each size takes"
        region = pattern.places.key("yarns")
        yield about(Finding("not-listed", message, region, level=Level.WARNING, remedy=remedy, pattern=yarn))


def _verb(number: int) -> str:
    return "needs" if number == 1 else "need"


def _short(work: "PatternWork", need: "Need", size: str) -> "Iterator[About]":
    stated = float(work.pattern.yarns[need.yarn].balls[size])
    if need.balls is None or need.ball is None or need.to_buy is None:
        return
    if stated + 1e-9 >= need.balls * (1 + work.allowance):
        return
    imperial = need.ball.imperial
    has, needs = yarn_lengths((stated * need.ball.metres, need.whole), imperial)
    enough = need.balls <= stated + 1e-9
    which = f" in {size}" if work.pattern.sized else ""
    hold = "holds" if stated == 1 else "hold"
    message = f"{need.name}: {ball_count(stated)} of {need.ball} {hold} {has}; all pieces{which} need {needs}"
    if enough:
        message += f", {yarn_length(need.buy_metres, imperial)} with the allowance"
    finding = Finding(
        "nothing-to-spare" if enough else "too-little",
        message,
        work.place("yarns", need.yarn, "balls", size),
        level=Level.WARNING if enough else None,
        remedy=f"state {ball_count(need.to_buy)}{which}",
        pattern=f"{need.yarn} {size}",
    )
    yield about(finding, size)


def about(finding: Finding, *sizes: str) -> "About":
    """A finding on a whole pattern, for some sizes of it."""
    from lintarsia.pattern.work import About

    return About(finding, None, sizes)
