"""Every kind of drawing of every kind of chart: the standard knows all that is in it, and it lies inside its frame."""

import math
from collections.abc import Iterator
from itertools import pairwise

from drawers import DRAWERS, SMALL, charts

from folding import each
from soundness import faults, pieces

NO_PLACE_IN_SCHEMATICS = {"round", "ragged", "odd"}


def drawings() -> Iterator[tuple[str, str]]:
    for kind in DRAWERS:
        for name in ("moon", "neck", "round", "turned", "ragged", "tall", "odd"):
            if kind != "schematic" or name not in NO_PLACE_IN_SCHEMATICS:
                yield kind, name


def beyond(svg: str, room: float) -> list[object]:
    """What is painted further outside the frame than `room`."""
    _, _, wide, high = map(float, svg.partition('viewBox="')[2].partition('"')[0].split())
    found: list[object] = []
    for piece in pieces(svg):
        left, top, right, foot = piece.box
        if left < -room or top < -room or right > wide + room or foot > high + room:
            found.append((piece.kind, piece.within, piece.box, (wide, high)))
    return found


@each("kind, name", drawings)
def test_it_is_sound_and_lies_in_its_frame(kind: str, name: str) -> None:
    svg = DRAWERS[kind](charts()[name])
    if not svg:
        return
    assert faults(svg) == []
    assert beyond(svg, 1.0 if kind not in ("back", "both sides", "fabric") else 60) == []


@each("name", SMALL)
def test_a_small_drawing_is_sound_and_lies_in_its_frame(name: str) -> None:
    svg = SMALL[name]()
    assert faults(svg) == []
    assert beyond(svg, 0.5) == []


def kink(line: list[tuple[float, float]]) -> float:
    """The sharpest bend of a line of points, in degrees."""
    points = [line[0]]
    for point in line[1:]:
        if math.dist(point, points[-1]) > 0.05:
            points.append(point)
    ways = [math.atan2(b[1] - a[1], b[0] - a[0]) for a, b in pairwise(points)]
    bends = [abs((b - a + math.pi) % (2 * math.pi) - math.pi) for a, b in pairwise(ways)]
    return math.degrees(max(bends, default=0.0))


@each("name", SMALL)
def test_yarn_has_no_kinks(name: str) -> None:
    """Only arrow heads, of three points, have corners."""
    yarns = [piece for piece in pieces(SMALL[name]()) if piece.fill == "none" and piece.stroke != "none"]
    curved = [line for piece in yarns for line in piece.lines if len(line) > 3]
    assert all(kink(line) < 46 for line in curved)
