"""Figures as a soft pen writes them, made up by random numbers: bowls, loops, stems and slants from top to bottom, in
one or two shades; and loose strokes. No letter or digit is copied; which strokes follow each other is chance.
"""

import math
import random
from collections.abc import Callable, Sequence
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

FINE = 8  # points of the pen's picture to a stitch
Picture = NDArray[np.uint8]
Point = tuple[float, float]  # across and down
Stroke = list[Point]
SIZES = ((8, 8), (8, 8), (8, 8), (8, 8), (8, 8), (8, 8), (10, 10), (12, 12), (10, 14), (16, 16), (14, 18))
LOOSE_SIZES = ((8, 8), (8, 8), (8, 8), (10, 12), (16, 16), (8, 16), (12, 16), (20, 24))


def figure(dice: random.Random) -> Picture:
    """A figure as high as its field (width and height from SIZES), written in one go or with a second stroke."""
    width, height = dice.choice(SIZES)
    strokes = [_chain(dice)]
    if dice.random() < 0.35:
        strokes.append(_second(dice))
    if dice.random() < 0.5:
        strokes = [_smooth(stroke) if len(stroke) >= 3 else stroke for stroke in strokes]
    thick = dice.uniform(0.11, 0.25) * min(width, height)
    return _shaded(_fitted(_leaning(strokes, dice), width, height, thick, dice), width, height, thick, _levels(dice))


def loose(dice: random.Random) -> Picture:
    """One to three strokes anywhere in the field."""
    width, height = dice.choice(LOOSE_SIZES)
    kinds: Sequence[Callable[[random.Random], Stroke]] = (_curve, _curve, _arc, _straight)
    strokes = [dice.choice(kinds)(dice) for _ in range(dice.choice((1, 1, 1, 2, 2, 3)))]
    thick = dice.uniform(0.1, 0.2) * min(width, height) if dice.random() < 0.7 else dice.uniform(1, 2.2)
    spread = [[(x * width, y * height) for x, y in stroke] for stroke in strokes]
    return _shaded(spread, width, height, thick, _levels(dice))


def _levels(dice: random.Random) -> tuple[float, ...]:
    """How much of a stitch the pen has to cover for each shade."""
    if dice.random() < 0.7:
        return dice.uniform(0.25, 0.38), dice.uniform(0.6, 0.75)
    return (dice.uniform(0.35, 0.55),)


def _chain(dice: random.Random) -> Stroke:
    """One to three bowls, loops, stems, slants or bars, each below the last, in a square of 1 by 1."""
    cuts = [0.0, *sorted(dice.uniform(0.25, 0.75) for _ in range(dice.randint(0, 2))), 1.0]
    points: Stroke = []
    for top, foot in pairwise(cuts):
        points += dice.choices((_bowl, _loop, _stem, _slant, _bar), (6, 4, 3, 4, 3))[0](dice, top, foot)
    return points


def _bowl(dice: random.Random, top: float, foot: float) -> Stroke:
    side, wide = dice.choice((-1, 1)), dice.uniform(0.25, 0.5)
    centre, ends = 0.5 - side * dice.uniform(0, 0.3), (-dice.uniform(0.3, 0.75), dice.uniform(0.3, 0.75))
    return [
        (centre + side * wide * math.cos(turn), (top + foot) / 2 + (foot - top) / 2 * math.sin(turn))
        for turn in (math.pi * at for at in np.linspace(*ends, 14).tolist())
    ]


def _loop(dice: random.Random, top: float, foot: float) -> Stroke:
    wide, centre, way = dice.uniform(0.2, 0.45), dice.uniform(0.4, 0.6), dice.choice((-1, 1))
    start, whole = dice.uniform(0, math.tau), math.tau * dice.uniform(0.85, 1.02)
    return [
        (centre + wide * math.cos(turn), (top + foot) / 2 + (foot - top) / 2 * math.sin(turn))
        for turn in (start + way * at for at in np.linspace(0, whole, 22).tolist())
    ]


def _stem(dice: random.Random, top: float, foot: float) -> Stroke:
    at, lean = dice.uniform(0.2, 0.8), dice.uniform(-0.12, 0.12)
    return [(at - lean, top), (at + lean, foot)]


def _slant(dice: random.Random, top: float, foot: float) -> Stroke:
    ends = [dice.uniform(0, 0.3), dice.uniform(0.7, 1)]
    if dice.random() < 0.6:
        ends.reverse()
    return [(ends[0], top), (ends[1], foot)]


def _bar(dice: random.Random, top: float, foot: float) -> Stroke:
    ends, at = [dice.uniform(0, 0.25), dice.uniform(0.75, 1)], dice.choice((top, foot))
    if dice.random() < 0.5:
        ends.reverse()
    return [(ends[0], at), (ends[1], at)]


def _second(dice: random.Random) -> Stroke:
    """A bar through the figure, a stem beside it, or another figure over it."""
    kind, x, y = dice.random(), dice.uniform(0.3, 0.8), dice.uniform(0.3, 0.9)
    if kind < 0.5:
        return [(dice.uniform(0, 0.3), y), (dice.uniform(0.7, 1), y + dice.uniform(-0.1, 0.1))]
    if kind < 0.8:
        return [(x, dice.uniform(0, 0.5)), (x + dice.uniform(-0.2, 0.1), dice.uniform(0.8, 1))]
    return _chain(dice)


def _curve(dice: random.Random) -> Stroke:
    points = [(dice.uniform(0.1, 0.9), dice.uniform(0.08, 0.92)) for _ in range(dice.randint(3, 6))]
    if dice.random() < 0.5:
        points.sort(key=lambda point: point[1])
    return _smooth(points, closed=dice.random() < 0.3)


def _arc(dice: random.Random) -> Stroke:
    x, y, wide, high = (dice.uniform(*ends) for ends in ((0.3, 0.7), (0.3, 0.7), (0.15, 0.45), (0.15, 0.45)))
    start = dice.uniform(0, math.tau)
    turns = np.linspace(start, start + dice.uniform(0.4, 1) * math.tau, 30).tolist()
    return [(x + wide * math.cos(turn), y + high * math.sin(turn)) for turn in turns]


def _straight(dice: random.Random) -> Stroke:
    x, y, kind = dice.uniform(0.1, 0.9), dice.uniform(0.1, 0.9), dice.random()
    if kind < 0.4:
        return [(x, dice.uniform(0, 0.4)), (x + dice.uniform(-0.1, 0.1), dice.uniform(0.6, 1))]
    if kind < 0.7:
        return [(dice.uniform(0, 0.4), y), (dice.uniform(0.6, 1), y + dice.uniform(-0.1, 0.1))]
    return [(dice.random(), dice.random()), (dice.random(), dice.random())]


def _smooth(points: Stroke, closed: bool = False) -> Stroke:
    """A curve through all points (Catmull and Rom's: each part leaves a point toward the one after the next)."""
    through = [points[-1], *points, points[0], points[1]] if closed else [points[0], *points, points[-1]]
    made: Stroke = []
    for at in range(1, len(through) - 2):
        a, b, c, d = np.array(through[at - 1 : at + 3])
        t = np.linspace(0, 1, 12)[:, None]
        curve = b + 0.5 * ((c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
        made += [(float(x), float(y)) for x, y in curve]
    return made


def _leaning(strokes: list[Stroke], dice: random.Random) -> list[Stroke]:
    shear, turn = dice.uniform(-0.1, 0.25), dice.uniform(-0.15, 0.15)
    return [[(x + (shear + turn) * (1 - y), y + turn * x) for x, y in stroke] for stroke in strokes]


def _fitted(strokes: list[Stroke], width: int, height: int, thick: float, dice: random.Random) -> list[Stroke]:
    """From top to foot of the field, and somewhere about its middle."""
    across, down = zip(*(point for stroke in strokes for point in stroke), strict=True)
    wide, high = max(across) - min(across), max(down) - min(down)
    wished = dice.uniform(0.4, 0.9) * width
    long = min(width - thick, wished) if wide > 0.25 else wide * wished
    left = (width - long) / 2 + dice.uniform(-0.5, 0.5) * min(1.5, (width - long) / 2)
    x_by, y_by = long / max(wide, 0.01), (height - thick) / max(high, 0.01)
    return [
        [(left + (x - min(across)) * x_by, thick / 2 + (y - min(down)) * y_by) for x, y in stroke] for stroke in strokes
    ]


def _shaded(strokes: list[Stroke], width: int, height: int, thick: float, levels: Sequence[float]) -> Picture:
    image = Image.new("L", (width * FINE, height * FINE), 0)
    pen, round_end = ImageDraw.Draw(image), thick * FINE / 2
    for stroke in strokes:
        fine = [(x * FINE, y * FINE) for x, y in stroke]
        pen.line(fine, fill=255, width=max(1, round(thick * FINE)), joint="curve")
        for x, y in (fine[0], fine[-1]):
            pen.ellipse((x - round_end, y - round_end, x + round_end, y + round_end), fill=255)
    covered = np.asarray(image, np.float64).reshape(height, FINE, width, FINE).mean((1, 3)) / 255
    return np.digitize(covered, levels).astype(np.uint8)
