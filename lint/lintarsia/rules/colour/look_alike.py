"""colour/look-alike: colours that touch and cannot well be told apart."""

from collections.abc import Iterable, Iterator
from dataclasses import field
from functools import lru_cache
from itertools import combinations

from lintarsia.chart import Chart, Colour
from lintarsia.ground.values import dataclass
from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import Work
from lintarsia.rules.shared.sight import BLINDNESS, Lab, Seen, difference, farther, seen
from lintarsia.rules.shared.touching import Touch, first_touches, touching_pairs
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.names import colour_and_symbol

INFO = RuleInfo(
    name="colour/look-alike",
    level=Level.WARNING,
    summary="two colours that touch are hard to tell apart",
    why=(
        "Where two colours meet, the knitter reads the edge from the chart and the wearer reads the picture from the "
        "fabric. If the shades are too near, on paper, on a grey print or to a colour-blind reader, the edge is lost."
    ),
    remedy=(
        "move one of the shades lighter or darker; where the yarn is bought, put a row or an outline of another colour "
        "between the two. Symbols tell colours apart on paper, but not in the fabric"
    ),
    keys={
        "too-close": "two shades that touch are nearly the same",
        "same-grey": "two shades that touch come out as the same grey in black-and-white print",
        "colour-blind": "two shades that touch are nearly the same to a colour-blind reader",
    },
    sources=(
        "CIEDE2000: G. Sharma, W. Wu, E. N. Dalal, “The CIEDE2000 Color-Difference Formula: Implementation Notes, "
        "Supplementary Test Data, and Mathematical Observations”, Color Res. Appl. 30 (2005) 21",
        "colour blindness: G. M. Machado, M. M. Oliveira, L. A. F. Fernandes, “A Physiologically-based Model for "
        "Simulation of Color Vision Deficiency”, IEEE Trans. Vis. Comput. Graph. 15 (2009) 1291",
        "tritanopia: H. Brettel, F. Viénot, J. D. Mollon, “Computerized Simulation of Color Appearance for "
        "Dichromats”, J. Opt. Soc. Am. A 14 (1997) 2647",
        "never colour alone: “Web Content Accessibility Guidelines 2.2”, 1.4.1, W3C, 2023",
        "the thresholds are house values",
    ),
    once_a_pattern=True,
    judges_by=frozenset({Basis.COLOURS}),
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
    """One finding for each pair that touches, with all the ways in which it is too near; the plainest hides the others.

    Places: the shade of the colour that comes later in the key; row and stitches are where the two first touch.
    """
    chart = work.chart
    if "colours" in chart.assumed:
        return
    colours = list(chart.colours.values())
    for (one, two), touch in first_touches(work, _near_pairs(work, colours, options)).items():
        pair = colours[one], colours[two]
        if pair[0].shade_assumed or pair[1].shade_assumed:
            continue
        told = _told(*pair, options)
        if told:
            keys, reasons = zip(*told, strict=True)
            level = Level.NOTE if keys == ("same-grey",) else None
            yield _finding(keys[-1], one_and_all(reasons), chart, pair, touch, level)


def _told(one: Colour, other: Colour, options: Options) -> list[tuple[str, str]]:
    """Key and reason for each way in which two shades are too near, the graver ones last."""
    a, b = seen(one.shade), seen(other.shade)
    if _less(a.plain, b.plain, options.difference):
        apart = _short_of(difference(a.plain, b.plain), options.difference)
        return [("too-close", f"differ by only {apart} (CIEDE2000; expected at least {options.difference:g})")]
    told = []
    grey = abs(a.plain.l - b.plain.l)
    if grey < options.grey:
        apart = _short_of(grey, options.grey)
        expected = f"expected at least {options.grey:g}"
        told.append(("same-grey", f"print as the same grey, {apart} apart in lightness ({expected})"))
    what = _blind(a, b, options.colour_blind)
    if what:
        told.append(("colour-blind", what))
    return told


def _near_pairs(work: Work, colours: list[Colour], options: Options) -> set[tuple[int, int]]:
    """The pairs of colours, as places in the key, lower first, that are too near in some way, if they touch."""
    limits = (options.difference, options.grey, options.colour_blind)
    pairs: Iterable[tuple[int, int]]
    if len(colours) > FEW:
        pairs = (pair for pair in touching_pairs(work) if pair[1] < len(colours))
    else:  # hardly any key of few colours has two that are near, and that is known without a look at the grid
        pairs = combinations(range(len(colours)), 2)
    return {(one, two) for one, two in pairs if _near(colours[one].shade, colours[two].shade, *limits)}


@lru_cache(maxsize=65536)
def _near(first: str, second: str, least: float, grey: float, blind: float) -> bool:
    a, b = seen(first), seen(second)
    if abs(a.plain.l - b.plain.l) < grey or _less(a.plain, b.plain, least):
        return True
    return any(_less(getattr(a, kind), getattr(b, kind), blind) for kind in BLINDNESS)


def _less(a: Lab, b: Lab, least: float) -> bool:
    return not farther(a, b, least) and difference(a, b) < least


def _blind(a: Seen, b: Seen, least: float) -> str:
    """What two shades lack to colour-blind readers; nothing where they are far enough apart to all."""
    near = {}
    for kind, words in BLINDNESS.items():
        x, y = getattr(a, kind), getattr(b, kind)
        if _less(x, y, least):
            near[words] = difference(x, y)
    if not near:
        return ""
    apart = _short_of(min(near.values()), least)
    return f"differ by only {apart} (CIEDE2000) to a {one_and_all(list(near))} reader (expected at least {least:g})"


def _short_of(found: float, least: float) -> str:
    """One decimal, or as many as it takes to see that the least was not reached."""
    decimals = next((n for n in (1, 2, 3) if float(f"{found:.{n}f}") < least), 4)
    return f"{found:.{decimals}f}"


def _finding(
    key: str, what: str, chart: Chart, pair: tuple[Colour, Colour], touch: Touch | None, level: Level | None = None
) -> Finding:
    first, second = pair
    message = f"{colour_and_symbol(chart, first.symbol)} and {colour_and_symbol(chart, second.symbol)} touch and {what}"
    row, stitches = touch or (None, None)
    region = chart.places.value("colours", second.symbol, "shade")
    return Finding(key, message, region, row, stitches, level, pattern=f"{first.shade} {second.shade}")
