"""The schematic of a piece: its outline to scale, with its measures along the edges in centimetres and inches.

Several sizes are drawn within one another from one foot, and their measures stand in the usual nested form.
"""

from collections.abc import Mapping, Sequence

from lintarsia.drawing.dimensions import Dimension, Measured, dimensions
from lintarsia.drawing.shades import INK, MUTED, PAPER
from lintarsia.drawing.silhouette import Point, Silhouette
from lintarsia.drawing.svg import FONT, document, escape, num
from lintarsia.ground.values import dataclass
from lintarsia.telling.bothunits import both_units
from lintarsia.telling.languages import phrase

SMALL, LETTER = 12.5, 0.56  # px: height of a label, and the usual width of its letters as a share of that
LINE = 15.0  # px between two lines of a label
AWAY, TICK, AIR = 16.0, 4.0, 7.0  # px: a measure's line from the outline, half its ticks, to its label
TIER = 2 * LINE + 8  # px: a measure above another
LARGEST = 360.0  # px: the longer side of the largest piece of a pattern


@dataclass(frozen=True, slots=True)
class Label:
    """A measure as it is drawn: `lines` are its words in both units, for all sizes."""

    dimension: Dimension
    lines: tuple[str, str]

    @property
    def wide(self) -> float:
        return max(map(len, self.lines)) * SMALL * LETTER


def scale_for(shapes: Sequence[Silhouette]) -> float:
    """px a millimetre, so that all pieces of a pattern are drawn to one scale."""
    longest = max((max(shape.height, _right(shape) - _left(shape)) for shape in shapes), default=1.0)
    return LARGEST / max(longest, 1.0)


Stated = Mapping[Measured, Sequence[tuple[float, float]]]
"""What a pattern states of a piece, for every size: mm to be told in centimetres, and mm to be told in inches."""


def labels(shapes: Sequence[Silhouette], stated: Stated | None = None) -> tuple[Label, ...]:
    """The measures that a piece has in all its sizes, as they are stated, else as stitches and rows make them."""
    by_size = [{d.what: d for d in dimensions(shape)} for shape in shapes]
    largest = by_size[_largest(shapes)]
    made = []
    for what in dict.fromkeys(what for found in by_size for what in found):
        if what in largest and all(what in found for found in by_size):
            said = (stated or {}).get(what) or [(found[what].mm, found[what].mm) for found in by_size]
            lines = both_units([cm for cm, _ in said], shapes[0].imperial, [inch for _, inch in said])
            made.append(Label(largest[what], lines))
    return tuple(made)


def told(shapes: Sequence[Silhouette], stated: Stated | None = None) -> tuple[tuple[str, str], ...]:
    """The measures in words: `("armhole depth", "20 (21) cm / 7¾ (8¼) in")`."""
    return tuple((str(label.dimension.what), " / ".join(label.lines)) for label in labels(shapes, stated))


def schematic_svg(
    title: str,
    shapes: Sequence[Silhouette],
    scale: float,
    *,
    prefix: str = "",
    background: bool = False,
    stated: Stated | None = None,
) -> str:
    """The drawing of a piece in the sizes that `shapes` are of, in their order, `scale` px a millimetre."""
    drawn = _Drawing(shapes, scale, stated)
    paper = f'<rect class="lx-paper" width="100%" height="100%" fill="{PAPER}"/>' if background else ""
    said = "; ".join(f"{phrase(what)} {words}" for what, words in told(shapes, stated))
    return document(
        paper + drawn.body(),
        kind="schematic",
        width=drawn.wide,
        height=drawn.high,
        title=phrase("Schematic of {piece}", piece=title),
        desc=said,
        prefix=prefix,
    )


def _largest(shapes: Sequence[Silhouette]) -> int:
    areas = [shape.height * (_right(shape) - _left(shape)) for shape in shapes]
    return areas.index(max(areas))


def _left(shape: Silhouette) -> float:
    return min(x for x, _ in shape.outline)


def _right(shape: Silhouette) -> float:
    return max(x for x, _ in shape.outline)


class _Drawing:
    """Where things lie on the sheet. Millimetres of the silhouettes are turned into px here and nowhere else."""

    def __init__(self, shapes: Sequence[Silhouette], scale: float, stated: Stated | None) -> None:
        self.shapes, self.scale = shapes, scale
        self.main = shapes[_largest(shapes)]
        self.labels = labels(shapes, stated)
        lowest, highest = min(map(_left, shapes)), max(map(_right, shapes))
        of = {kind: [one for one in self.labels if self._place(one) == kind] for kind in _PLACES}
        self.of = of
        room = {side: max((one.wide for one in of[side]), default=0.0) + AWAY + AIR + 4 for side in ("left", "right")}
        inner = max((one.wide for kind in ("below", "inside", "neck", "above") for one in of[kind]), default=0.0)
        across = (highest - lowest) * scale
        spare = max(0.0, (inner - across) / 2)  # a narrow piece has a label wider than itself
        self.left = (room["left"] if of["left"] else 6.0) + spare - lowest * scale
        self.wide = self.left + highest * scale + (room["right"] if of["right"] else 6.0) + spare
        self.tiers = 2 if len(of["above"]) > 1 else 1  # neck and shoulder, side by side, have labels of any width
        self.top = (AWAY + self.tiers * TIER if of["above"] else 8.0) + max(shape.height for shape in shapes) * scale
        self.high = self.top + AWAY + AIR + 2 * LINE + 4

    def x(self, mm: float) -> float:
        return self.left + mm * self.scale

    def y(self, mm: float) -> float:
        return self.top - mm * self.scale

    def _place(self, label: Label) -> str:
        what = label.dimension.what
        if what in (Measured.CAST_ON, Measured.AROUND):
            return "below"
        if what in (Measured.WIDEST, Measured.WIDEST_AROUND):
            return "inside"
        if what is Measured.NECK_DEPTH:
            return "neck"
        if label.dimension.across:
            return "above"
        return "left" if what is Measured.HEIGHT else "right"

    def body(self) -> str:
        others = [shape for shape in self.shapes if shape is not self.main]
        outlines = "".join(
            f'<path class="lx-outline" d="{self._way(shape)}" fill="none" stroke="{INK}" stroke-width="0.9" '
            f'stroke-dasharray="3 3"/>'
            for shape in others
        )
        main = (
            f'<path class="lx-piece" d="{self._way(self.main)}" fill="{PAPER}" fill-rule="evenodd"/>'
            f'<path class="lx-outline" d="{self._way(self.main)}" fill="none" stroke="{INK}" stroke-width="1.8" '
            f'stroke-linejoin="round"/>'
        )
        words = "".join(self._label(place, one) for place in _PLACES for one in self.of[place])
        return (
            f"{main}{outlines}{self._arrow()}"
            f'<g font-family="{FONT}" font-size="{num(SMALL)}" fill="{INK}" class="lx-ink">{words}</g>'
        )

    def _way(self, shape: Silhouette) -> str:
        return "".join(self._ring(ring) for ring in (shape.outline, *shape.holes))

    def _ring(self, points: Sequence[Point]) -> str:
        return "M" + "L".join(f"{num(self.x(x))} {num(self.y(y))}" for x, y in points) + "Z"

    def _arrow(self) -> str:
        """Which way the piece is knitted."""
        x, foot = self.x(0), self.y(0) - 10
        high = min(26.0, self.main.height * self.scale / 4)
        way = f"M{num(x)} {num(foot)}v-{num(high)}m-4 6l4 -6l4 6"
        return f'<path class="lx-way" d="{way}" fill="none" stroke="{MUTED}" stroke-width="1.4"/>'

    def _label(self, place: str, label: Label) -> str:
        return (self._upright if place in ("left", "right", "neck") else self._level)(place, label)

    def _level(self, place: str, label: Label) -> str:
        one = label.dimension
        start, end = self.x(one.start), self.x(one.end)
        y = self.y(one.at) + {"below": AWAY, "above": -AWAY, "inside": 0.0}[place]
        if one.what is Measured.SHOULDER and self.tiers > 1:
            y -= TIER
        line = f"M{num(start)} {num(y)}H{num(end)}" + "".join(
            f"M{num(x)} {num(y - TICK)}v{num(2 * TICK)}" for x in (start, end)
        )
        at = y + AIR + SMALL * 0.8 if place == "below" else y - AIR - LINE
        return self._drawn(line, (start + end) / 2, at, "middle", label.lines)

    def _upright(self, place: str, label: Label) -> str:
        one = label.dimension
        low, high = self.y(one.start), self.y(one.end)
        x = {
            "left": self.x(min(map(_left, self.shapes))) - AWAY,
            "right": self.x(max(map(_right, self.shapes))) + AWAY,
            "neck": self.x(one.at),
        }[place]
        line = f"M{num(x)} {num(high)}V{num(low)}" + "".join(
            f"M{num(x - TICK)} {num(y)}h{num(2 * TICK)}" for y in (low, high)
        )
        if place == "neck":
            lowest = max(low, *(self.y(_top_at(shape, one.at)) for shape in self.shapes))  # no neck runs through it
            return self._drawn(line, x, lowest + AIR + SMALL * 0.8, "middle", label.lines)
        away, anchor = (-AIR, "end") if place == "left" else (AIR, "start")
        return self._drawn(line, x + away, (low + high) / 2 - LINE / 2 + SMALL * 0.35, anchor, label.lines)

    def _drawn(self, line: str, x: float, y: float, anchor: str, lines: Sequence[str]) -> str:
        """A measure's line and its two lines of words, the first at `y`."""
        words = "".join(
            f'<text x="{num(x)}" y="{num(y + number * LINE)}" text-anchor="{anchor}">{escape(text)}</text>'
            for number, text in enumerate(lines)
        )
        return f'<path class="lx-measure" d="{line}" fill="none" stroke="{MUTED}" stroke-width="1"/>{words}'


def _top_at(shape: Silhouette, across: float) -> float:
    """How high a piece is at a place of its width; 0 beside it."""
    points = shape.outline
    heights = [
        one[1] + (other[1] - one[1]) * (across - one[0]) / (other[0] - one[0])
        for one, other in zip(points, (*points[1:], points[0]), strict=True)
        if one[0] != other[0] and min(one[0], other[0]) <= across <= max(one[0], other[0])
    ]
    return max(heights, default=0.0)


_PLACES = ("below", "inside", "above", "neck", "left", "right")
