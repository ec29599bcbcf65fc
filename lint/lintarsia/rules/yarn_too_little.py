"""yarn/too-little: the balls that the file states against the metres that the chart needs."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.planning.model import YarnNeed
from lintarsia.result import Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.planned import yarn_words
from lintarsia.rules.telling import count

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
    },
    sources=(
        "D. L. Munden, J. Textile Institute 50 (1959) T448: loop length from stitch width",
        "the allowance, 10 %, is a house value, a setting",
    ),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each yarn that says how many balls there are and how long one is. A chart may be one piece of
    several: then this is the least that can be wrong.
    """
    chart = work.chart
    if not any(yarn.balls is not None and yarn.length for yarn in chart.yarns.values()):
        return
    for need in work.plan.yarns:
        if need.stated is not None and need.balls is not None and need.stated + 1e-9 < need.balls * _spare(need):
            yield _finding(chart, need)


def _spare(need: YarnNeed) -> float:
    return need.buy_metres / need.metres if need.metres else 1.0


def _finding(chart: Chart, need: YarnNeed) -> Finding:
    yarn = chart.yarns[need.yarn]
    assert yarn.length is not None
    assert need.stated is not None
    assert need.balls is not None
    assert need.to_buy is not None
    has, needs = yarn_words(chart, need.stated * yarn.length.metres), yarn_words(chart, need.metres)
    name = yarn.name or yarn.id
    hold = "holds" if need.stated == 1 else "hold"
    enough = need.balls <= need.stated + 1e-9
    message = f"{name}: {_balls(need.stated)} of {yarn.length} {hold} {has}; the chart needs {needs}"
    if enough:
        message += f", {yarn_words(chart, need.buy_metres)} with the allowance"
    region = chart.places.value("yarns", need.yarn, "balls")
    fix = Fix(f"state {_balls(need.to_buy)}", (Edit(region, str(need.to_buy)),), safe=False)
    return Finding(
        "nothing-to-spare" if enough else "too-little",
        message,
        region,
        level=Level.WARNING if enough else None,
        fixes=(fix,),
        pattern=need.yarn,
    )


def _balls(number: float) -> str:
    return count(int(number), "ball") if number == int(number) else f"{number:g} balls"
