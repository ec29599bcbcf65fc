"""Drawings of what hands do with yarn: joining it, winding it, carrying it, parting at a neck, turning a tube.

The gold yarn is always the one to look at.
"""

from collections.abc import Callable

from lintarsia.chart import Chart, Colour, Gauge
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.drawing.geometry import Geometry
from lintarsia.drawing.guideparts import BLUE, GOLD, OAT, SCALE, arrow, drawn, way
from lintarsia.drawing.holders import cord, draw_holder
from lintarsia.drawing.shades import ACCENT, INK, PAPER
from lintarsia.drawing.svg import document, num
from lintarsia.drawing.yarn_paths import yarn_paths_svg
from lintarsia.planning.planner import make_plan

WOOD = "#b98f5f"


@drawn(
    "join",
    "Joining a yarn",
    "From the wrong side: the new yarn begins its block with a tail of some 15 cm that hangs down, and goes on to "
    "what it is wound on. The tail hangs; the other end knits.",
    (
        "BBBBBBBBB",
        "BBBGGGBBB",
        "BBBBBBBBB",
    ),
    back=True,
)
def join_svg(at: Geometry) -> str:
    """A new yarn with its tail."""
    tail = way(at, "M", 3.4, 1.5, "C", 2.7, 1.3, 2.5, 0.4, 2.75, -0.5, "S", 2.4, -1.3, 2.6, -1.7)
    onward = way(at, "M", 5.7, 1.5, "C", 6.6, 1.4, 7.1, 0.9, 7.1, 0.2)
    hung = f'<g transform="translate({num(at.x(7.1))} {num(at.y(0.2))})scale(.8)">{draw_holder("butterfly", GOLD)}</g>'
    return cord(tail, GOLD, 3.6) + cord(onward, GOLD, 3.6) + hung


@drawn(
    "twist-forgotten",
    "Mending a forgotten twist",
    "From the wrong side: an end, or a short length of the same yarn, goes to and fro across the slit through the "
    "loops beside it, as a lace does, and is drawn up until the edges lie side by side.",
    (
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
        "OOOOBBBB",
    ),
    back=True,
)
def twist_forgotten_svg(at: Geometry) -> str:
    """A slit where a twist was forgotten, laced with an end."""
    hole = way(at, "M", 4, 3.5, "C", 4.25, 3, 4.25, 2, 4, 1.5, "C", 3.75, 2, 3.75, 3, 4, 3.5) + "z"
    lace: list[str | float] = [
        "M",
        4.6,
        0.9,
        "C",
        4.2,
        1,
        3.6,
        1.2,
        3.4,
        1.6,
        "S",
        4.4,
        2,
        4.6,
        2.3,
        "S",
        3.6,
        2.7,
        3.4,
        3,
    ]
    lace += ["S", 4.4, 3.5, 4.6, 3.8]
    return (
        f'<path fill="{INK}" stroke="{PAPER}" stroke-width="1.4" d="{hole}"/>{cord(way(at, *lace), GOLD, 3.4)}'
        f"{arrow(at, 4.68, 3.9, -40)}"
    )


@drawn(
    "slant",
    "Carrying over a slant",
    "From the wrong side: the block goes on several stitches further, so its yarn runs along the back to the "
    "stitch where it is needed. A long way is caught once under the other yarn.",
    (
        "OOBBBBBBB",
        "OOBBBBBBB",
        "OOOOOOBBB",
        "OOOOOOBBB",
    ),
    back=True,
)
def slant_svg(at: Geometry) -> str:
    """A yarn carried over to where its block goes on."""
    carried = way(at, "M", 6.2, 1.6, "C", 5.7, 1.5, 5.4, 1.7, 5, 2.05, "C", 4.2, 2.5, 3.2, 2.3, 2.4, 2.5)
    catch = way(at, "M", 3.55, 2.05, "C", 3.6, 2.95, 4.05, 2.95, 4.1, 2.1)
    return cord(carried, GOLD, 3.6) + cord(catch, OAT, 4.4) + arrow(at, 2.2, 2.52, 180)


@drawn(
    "neck",
    "Parting at a neck",
    "The right-hand side goes on by itself: to the neck, turn, and back. The stitches of the neck wait on one "
    "holder, those of the left-hand side on another, until a yarn is joined there.",
    (
        ".........BBBBB",
        "BBBBBBBBBBBBBB",
        "BBBBBBBBBBBBBB",
        "BBBBBBBBBBBBBB",
    ),
    back=False,
)
def neck_svg(at: Geometry) -> str:
    """Work parted at a neck."""
    hung = way(at, "M", 9, 3.6, "C", 8.2, 3.9, 7.6, 3.3, 7, 3.9, "S", 5.9, 4.5, 5.4, 4.1)
    return _pin(at, 0, 4) + _pin(at, 4, 9) + cord(hung, GOLD, 3.6) + arrow(at, 12.6, 4.6, 180) + _line(at, 12.6, 14)


def _pin(at: Geometry, first: float, last: float) -> str:
    """A holder through the heads of a row of stitches."""
    bar = way(at, "M", first + 0.15, 3.12, "L", last - 0.15, 3.12)
    return (
        f'<path stroke="{PAPER}" stroke-width="6" d="{bar}"/><path stroke="{INK}" stroke-width="4.4" d="{bar}"/>'
        f'<path stroke="{WOOD}" stroke-width="3" d="{bar}"/>'
    )


def _line(at: Geometry, first: float, last: float) -> str:
    return f'<path stroke="{ACCENT}" stroke-width="2.4" d="{way(at, "M", first, 4.6, "L", last, 4.6)}"/>'


def butterfly_svg(*, prefix: str = "") -> str:
    """Winding a figure of eight, tying its waist, drawing from it."""
    fingers = "".join(
        f'<rect x="{x}" y="20" width="13" height="78" rx="6.5" fill="#ecd9bd" stroke="{INK}" stroke-width="1.2"/>'
        for x in (22, 65)
    )
    eights = "".join(cord(_eight(50, 52 + 7 * turn, 29), GOLD, 3.2) for turn in range(3))
    waist = "".join(cord(f"M155 {y}q5 3 10 0", GOLD, 3) for y in (54, 59, 64))
    wound = "".join(cord(_eight(160, 59, spread), GOLD, 3.2) for spread in (30, 23))
    tail = cord("M50 52C46 40 54 30 50 14", GOLD, 3)
    last = cord("M165 64C176 74 168 92 176 100", GOLD, 3)
    hung = f'<g transform="translate(268 30)scale(1.5)">{draw_holder("butterfly", GOLD)}</g>'
    drawn = cord("M268 34C270 24 266 14 268 6", GOLD, 3.6)
    return _panels(
        "butterfly",
        "A butterfly",
        "Left: wind the yarn to and fro around thumb and little finger, crossing in the middle; let the first end be. "
        "Middle: take it off and wrap the last end around the waist a few times. Right: draw from the first end, in "
        "the middle, as much as a row needs.",
        f"{fingers}{eights}{tail}{wound}{waist}{last}{hung}{drawn}{_head(268, 3, -90)}",
        (320, 120),
        prefix,
    )


def _eight(x: float, y: float, spread: float) -> str:
    """A figure of eight that lies on its side."""
    a, b = num(spread * 0.5), num(spread * 1.35)
    return (
        f"M{num(x)} {num(y)}c-{a}-14-{b}-14-{b} 0s{num(spread * 0.85)} 14 {b} 0"
        f"c{a}-14 {b}-14 {b} 0s-{num(spread * 0.85)} 14-{b} 0z"
    )


def turned_svg(*, prefix: str = "") -> str:
    """A tube from above: to and fro, joined at the turn."""
    ring = cord("M86 106A48 48 0 1 0 74 106", BLUE, 8)
    out = f'<path fill="none" stroke="{ACCENT}" stroke-width="2.2" d="M96 117A60 60 0 1 0 40 104"/>'
    dashed = f'<path fill="none" stroke="{ACCENT}" stroke-width="2.2" stroke-dasharray="5 3.5" '
    back = f'{dashed}d="M66 92A35 35 0 1 1 94 92"/>'
    knot = cord("M74 107C77 116 84 98 87 106", GOLD, 4)
    right = cord("M190 60H232", BLUE, 8) + cord("M256 60H298", BLUE, 8)
    link = cord("M298 84C270 84 262 84 256 72S246 44 240 50 236 74 250 78", GOLD, 4)
    return _panels(
        "turned",
        "Turning a tube",
        "A tube seen from above. A row goes all the way round; there you turn, and the next goes back the same way "
        "(dashed). At every turn, right, the yarn takes hold of the loop its row began with, and the edges close.",
        f"{ring}{out}{_head(40, 104, -140)}{back}{_head(94, 92, 130)}{knot}{right}{link}{_head(252, 79, 20)}",
        (320, 136),
        prefix,
    )


def _head(x: float, y: float, turn: float) -> str:
    return (
        f'<path fill="none" stroke="{ACCENT}" stroke-width="2.4" d="M-5-4L0 0L-5 4" '
        f'transform="translate({num(x)} {num(y)})rotate({num(turn)})"/>'
    )


def _panels(kind: str, title: str, desc: str, body: str, size: tuple[float, float], prefix: str) -> str:
    wide, high = size
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    return document(
        f'<rect class="lx-sheet" width="100%" height="100%" rx="10" fill="{PAPER}"/><g {look}>{body}</g>',
        kind=kind,
        width=wide,
        height=high,
        title=title,
        desc=desc,
        prefix=prefix,
        size=(num(wide * SCALE), num(high * SCALE)),
    )


PRACTICE = ("NNNNNNNNNNNNNNNNNNNN",) * 3 + ("NNNNNNGGGGGGGGNNNNNN",) * 10 + ("NNNNNNNNNNNNNNNNNNNN",) * 3


def practice_svg(*, prefix: str = "") -> str:
    """The paths of the yarns in a square within a field."""
    colours = {"N": Colour("N", "Field", BLUE), "G": Colour("G", "Square", GOLD)}
    chart = Chart(
        "", "A square to practise", Gauge(22, 30, Length(10, "cm")), colours, build_grid(PRACTICE, ["N", "G"])
    )
    return yarn_paths_svg(chart, make_plan(chart), prefix=prefix)


HANDWORK: dict[str, Callable[..., str]] = {
    "join": join_svg,
    "butterfly": butterfly_svg,
    "twist-forgotten": twist_forgotten_svg,
    "slant": slant_svg,
    "neck": neck_svg,
    "turned": turned_svg,
    "practice": practice_svg,
}
