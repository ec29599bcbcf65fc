"""What no program can check before a pattern is released. Common practice of technical editing unless said."""

from collections.abc import Iterator

from lintarsia.chart import Wearer
from lintarsia.ground.values import dataclass
from lintarsia.pattern.work import PatternWork


@dataclass(frozen=True, slots=True)
class Duty:
    """`task` is what to do; `why` says what went before, where it is not plain."""

    task: str
    why: str = ""


EVERY_SIZE = Duty("Every size has been knitted by somebody, or the pattern says which have not.")
GENERAL = (
    Duty("The photographs show this version: its colours, its charts, its finishing."),
    Duty("The schematic shows the finished measurements of every size, and they are those of the pattern."),
    Duty(
        "The layout is right: no row of a chart or line of words is cut, and chart, key and rows can be read in grey."
    ),
    EVERY_SIZE,
    Duty("Test knitters met the gauge after washing, and their yarn left over agrees with the amounts."),
    Duty("The yarns and shades can still be bought under these names."),
    Duty("Every abbreviation and technique is explained, and finishing is described step by step."),
    Duty("Everyone whose work or picture is used has agreed and is named."),
)

CAUTIONS = (
    Duty(
        "Buttons, beads, pompoms and other small parts: decide whether a small child could pull them off.",
        "16 CFR 1501 speaks of toys for children under 3 and exempts clothing; local rules may ask more",
    ),
    Duty(
        "Cords and drawstrings at neck, hood and waist: compare them with the rules where the garment will be worn.",
        "EN 14682:2014 for clothing to age 14; 16 CFR 1120 and ASTM F1816 for drawstrings",
    ),
    Duty("Flammability of the yarn: ask its maker.", "16 CFR 1610, where clothing is sold"),
    Duty(
        "What is to be sold, or given to a child, is assessed by somebody qualified under local rules.",
        "this card points to questions; it certifies nothing",
    ),
)


def duties(work: PatternWork) -> tuple[Duty, ...]:
    """Everything that a person must check for this pattern, general things last."""
    return (*_own(work), *GENERAL, *_cautions(work))


def _own(work: PatternWork) -> Iterator[Duty]:
    pattern = work.pattern
    charts = [file.chart for file in work.charts.values() if file.chart is not None]
    written = [chart.title for chart in charts if chart.in_words]
    if written:
        yield Duty(f"The written rows read well: {', '.join(written)}.", "their stitches were compared with the charts")
    laid = [work.laid(piece, size) for piece in pattern.pieces.values() for size in pattern.sizes]
    if any(one is not None and one.motif for one in laid):
        yield Duty("Each motif sits where it should on the finished piece.", "its place was only computed")
    derived = [chart.title for chart in charts if chart.gauge.loop is None]
    if derived:
        yield Duty(
            "Weigh the test knits: their yarn agrees with the amounts.",
            f"yarn in a stitch was derived from the gauge, not measured, for {', '.join(derived)}",
        )


def wearer_of(work: PatternWork) -> Wearer | None:
    """The youngest wearer that the pattern or one of its charts names."""
    named = {file.chart.wearer for file in work.charts.values() if file.chart} | {work.pattern.wearer}
    return next((wearer for wearer in (Wearer.INFANT, Wearer.CHILD, Wearer.ADULT) if wearer in named), None)


def _cautions(work: PatternWork) -> Iterator[Duty]:
    wearer = wearer_of(work)
    if wearer is Wearer.INFANT:
        yield Duty(
            "Turn every piece inside out and pull at floats and ends with one finger: line it, or shorten the floats.",
            "fingers and toes catch in loose strands; there are case reports of thread tourniquets",
        )
    if wearer in (Wearer.INFANT, Wearer.CHILD):
        yield from CAUTIONS
