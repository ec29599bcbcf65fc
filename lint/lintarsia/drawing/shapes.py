"""Stretches of a yarn as path data, in steps from where they begin: each shape is worked out once, wherever it lies.

Lengths along a row are whole units of the drawing, negative leftward. Heights are whole tenths of a unit, positive
downward: finer than any screen shows, and equal shapes are equal to the last digit.
"""

from functools import lru_cache

from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.svg import num

EASE = CELL * 4 // 5  # the length in which a yarn moves from the middle of its row to where it clasps, or back
REACH = 0.52 * CELL  # control length of a turn; the yarn itself reaches three quarters of it


@lru_cache(maxsize=1 << 12)
def along(length: int, rise: int, fall: int) -> tuple[str, str]:
    """Along a row, begun `rise` above its middle and ended `fall` below it; and the step past all that, not drawn."""
    return _along(length, rise, fall), step(length, rise + fall)


def _along(length: int, rise: int, fall: int) -> str:
    way, size = (1 if length > 0 else -1), abs(length)
    if rise and fall and size < 2 * EASE:
        return _glide(length, rise + fall)
    ease = way * min(EASE, size)
    straight = length - (ease if rise else 0) - (ease if fall else 0)
    level = f"h{straight}" if straight or not (rise or fall) else ""
    return f"{_glide(ease, rise) if rise else ''}{level}{_glide(ease, fall) if fall else ''}"


@lru_cache(maxsize=1 << 12)
def turn(across: int, down: int, way: int, after: int) -> tuple[str, str]:
    """From a run worked in direction `way` (-1 leftward, 1 rightward) round to the beginning of one worked `after`;
    and the step past the turn, not drawn. It is wider where the yarn is carried further."""
    reach = REACH + 0.3 * abs(across)
    drawn = curve((way * reach, 0), (across - after * reach, down / 10), (across, down / 10))
    return drawn, step(across, down)


def step(across: int, down: int) -> str:
    """On to where something else begins."""
    far = num(down / 10)
    return f"m{across}{far}" if far[0] == "-" else f"m{across} {far}"


@lru_cache(maxsize=1 << 12)
def slack(across: int, down: int, sag: int) -> str:
    """A yarn that lies loose and hangs `sag` lower than its lower end."""
    low = (max(0, down) + sag) / 10
    return curve((across / 4, low), (across * 3 / 4, low), (across, down / 10))


def _glide(across: int, down: int) -> str:
    """From one height to another, level at both ends."""
    return curve((across / 2, 0), (across / 2, down / 10), (across, down / 10))


def curve(*points: tuple[float, float]) -> str:
    """A curve in steps: two control points and the end."""
    text = "c"
    for value in (value for point in points for value in point):
        written = num(value)
        text += written if text == "c" or written[0] == "-" else f" {written}"
    return text
