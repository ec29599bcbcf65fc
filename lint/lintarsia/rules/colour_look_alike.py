"""colour/look-alike: colours that touch and cannot well be told apart."""

from collections.abc import Iterable, Iterator
from dataclasses import field
from functools import lru_cache
from itertools import combinations

from lintarsia.chart import Chart, Colour
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.sight import BLINDNESS, Lab, Seen, difference, farther, seen
from lintarsia.rules.telling import colour_name, one_and_all
from lintarsia.rules.touching import first_touch, touching_pairs
from lintarsia.values import dataclass

INFO = RuleInfo(
    name="colour/look-alike",
    level=Level.WARNING,
    summary="two colours that touch are hard to tell apart",
    why=(
        "Where two colours meet, the knitter reads the edge from the chart and the wearer reads the picture from the "
        "fabric. If the shades are too near, on paper, on a grey print or to a colour-blind reader, the edge is lost."
    ),
    remedy="move one of the shades lighter or darker; the symbols tell colours apart on paper, but not in the fabric",
    keys={
        "too-close": "two shades that touch are nearly the same",
        "same-grey": "two shades that touch come out as the same grey in black-and-white print",
        "colour-blind": "two shades that touch are nearly the same to a colour-blind reader",
    },
    sources=(
        "CIEDE2000: G. Sharma, W. Wu, E. N. Dalal, Color Res. Appl. 30 (2005) 21",
        "colour blindness: G. M. Machado et al., IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291; "
        "H. Brettel et al., J. Opt. Soc. Am. A 14 (1997) 2647",
        "never colour alone: WCAG 2.2, 1.4.1",
        "the thresholds are house values",
    ),
)


@dataclass(frozen=True, slots=True)
class Options:
    difference: float = field(default=10.0, metadata={"help": "least difference (CIEDE2000) of colours that touch"})
    grey: float = field(default=5.0, metadata={"help": "least difference in lightness (L*, 0 to 100) of such colours"})
    colour_blind: float = field(
        default=7.0, metadata={"help": "least difference (CIEDE2000) of such colours to a colour-blind reader"}
    )


FEW = 24  # colours whose pairs are fewer to look at than the grid's cells


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each pair that touches and each way in which it is too near; the plainest way hides the others.

    Places: the shade of the colour that comes later in the key; row and stitches are where the two first touch.
    """
    chart = work.chart
    if "colours" in chart.assumed:
        return
    colours = list(chart.colours.values())
    for one, two in _near_pairs(work, colours, options):
        if colours[one].shade_assumed or colours[two].shade_assumed:
            continue
        a, b = seen(colours[one].shade), seen(colours[two].shade)
        if _less(a.plain, b.plain, options.difference):
            apart = _short_of(difference(a.plain, b.plain), options.difference)
            what = f"differ by only {apart} (CIEDE2000); expected at least {options.difference:g}"
            yield _finding("too-close", what, chart, colours, one, two)
            continue
        grey = abs(a.plain.l - b.plain.l)
        if grey < options.grey:
            apart = _short_of(grey, options.grey)
            what = f"print as the same grey, {apart} apart in lightness; expected at least {options.grey:g}"
            yield _finding("same-grey", what, chart, colours, one, two, Level.NOTE)
        yield from _blind(a, b, options.colour_blind, chart, colours, one, two)


def _near_pairs(work: Work, colours: list[Colour], options: Options) -> list[tuple[int, int]]:
    """The pairs of colours, as places in the key, lower first, that touch and are too near in some way."""
    limits = (options.difference, options.grey, options.colour_blind)

    def near(pairs: Iterable[tuple[int, int]]) -> set[tuple[int, int]]:
        return {(one, two) for one, two in pairs if _near(colours[one].shade, colours[two].shade, *limits)}

    if len(colours) > FEW:
        return sorted(near(pair for pair in touching_pairs(work) if pair[1] < len(colours)))
    # Hardly any key of few colours has two that are near, and that is known without a look at the grid.
    found = near(combinations(range(len(colours)), 2))
    return sorted(found & touching_pairs(work)) if found else []


@lru_cache(maxsize=65536)
def _near(first: str, second: str, least: float, grey: float, blind: float) -> bool:
    a, b = seen(first), seen(second)
    if abs(a.plain.l - b.plain.l) < grey or _less(a.plain, b.plain, least):
        return True
    return any(_less(getattr(a, kind), getattr(b, kind), blind) for kind in BLINDNESS)


def _less(a: Lab, b: Lab, least: float) -> bool:
    return not farther(a, b, least) and difference(a, b) < least


def _blind(
    a: Seen, b: Seen, least: float, chart: Chart, colours: list[Colour], one: int, two: int
) -> Iterator[Finding]:
    near = {}
    for kind, words in BLINDNESS.items():
        x, y = getattr(a, kind), getattr(b, kind)
        if _less(x, y, least):
            near[words] = difference(x, y)
    if near:
        reader = one_and_all(list(near))
        apart = _short_of(min(near.values()), least)
        what = f"differ by only {apart} (CIEDE2000) to a {reader} reader; expected at least {least:g}"
        yield _finding("colour-blind", what, chart, colours, one, two)


def _short_of(found: float, least: float) -> str:
    """One decimal, or as many as it takes to see that the least was not reached."""
    decimals = next((n for n in (1, 2, 3) if float(f"{found:.{n}f}") < least), 4)
    return f"{found:.{decimals}f}"


def _finding(
    key: str, what: str, chart: Chart, colours: list[Colour], one: int, two: int, level: Level | None = None
) -> Finding:
    first, second = colours[one], colours[two]
    message = f"{colour_name(chart, first.symbol)} and {colour_name(chart, second.symbol)} touch and {what}"
    row, stitches = first_touch(chart, one, two) or (None, None)
    region = chart.places.value("colours", second.symbol, "shade")
    return Finding(key, message, region, row, stitches, level, pattern=f"{first.shade} {second.shade}")
