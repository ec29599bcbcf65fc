"""Signs of single stitches, made up by random numbers: lines, corners, boxes, combs and bowls, put side by side.

They are to be as varied as letters, emblems and small figures drawn stitch by stitch are. No sign of any script is
copied; what a part looks like is our own.
"""

import random

from ruled_parts import ruled
from sign_parts import divided, part
from stitch_pen import Box, Pen, Picture

SIZES = ((16, 16), (16, 16), (16, 16), (16, 16), (14, 14), (12, 12), (20, 20), (16, 8), (16, 8), (16, 8), (12, 8))


def sign(dice: random.Random) -> Picture:
    """One to four parts, side by side or one above the other, in a field with a margin."""
    height, width = dice.choice(SIZES)
    pen = Pen(height, width, dice)
    box = Box(
        dice.choice((0, 1, 1, 2)),
        dice.choice((0, 1, 1)),
        height - 1 - dice.choice((0, 1, 1, 2)),
        width - 1 - dice.choice((0, 1, 1, 2)),
    )
    if pen.maybe(0.25):
        box = box._replace(top=dice.randint(0, height // 3), foot=height - 1 - dice.randint(0, height // 3))
    if pen.maybe(0.6) and min(height, width) >= 12:
        divided(pen, box, pen.maybe(0.65))
    else:
        part(pen, box)
    if pen.maybe(0.06):
        pen.made[:, 1:] |= pen.made[:, :-1]
    return 1 - pen.made if pen.maybe(0.05) else pen.made


def dense(dice: random.Random) -> Picture:
    """Ruled parts close together, with even gaps: frames with bars, ladders on a stem, and legs."""
    height, width = dice.choice(((16, 16), (16, 16), (16, 16), (14, 14), (12, 12), (20, 20), (16, 12)))
    pen, margins = Pen(height, width, dice), [dice.choice((0, 1, 1)) for _ in range(4)]
    ruled(pen, Box(margins[0], margins[1], height - 1 - margins[2], width - 1 - margins[3]))
    return pen.made


def letter(dice: random.Random) -> Picture:
    """Stems, bars, slants and bowls at three heights, as capitals and small letters are built."""
    height, width = dice.choice(((16, 8), (16, 8), (16, 8), (16, 16), (12, 8), (10, 8), (20, 12), (24, 16)))
    pen = Pen(height, width, dice)
    top, foot = dice.randint(1, height // 4), height - 1 - dice.randint(1, height // 4)
    box = Box(top, dice.choice((0, 1, 1)), foot, width - 1 - dice.choice((0, 1, 1, 2)))
    for _ in range(dice.randint(2, 5)):
        _stroke_of_letter(pen, box)
    if pen.maybe(0.25):
        pen.made[:, 1:] |= pen.made[:, :-1]
    return pen.made


def _stroke_of_letter(pen: Pen, box: Box) -> None:
    dice = pen.dice
    columns, rows = (box.left, box.middle, box.right), (box.top, box.waist, box.foot)
    column, row, kind = dice.choice(columns), dice.choice(rows), dice.random()
    if kind < 0.3:
        ends = sorted(dice.sample(range(box.top, box.foot + 1), 2)) if pen.maybe(0.3) else (box.top, box.foot)
        pen.line(ends[0], column, ends[1], column)
    elif kind < 0.5:
        pen.line(row, box.left, row, box.right)
    elif kind < 0.65:
        pen.line(row, column, dice.choice(rows), dice.choice(columns))
    elif kind < 0.95:
        top, foot = dice.choice(((box.top, box.foot), (box.top, box.waist), (box.waist, box.foot)))
        left = dice.choice((box.left, box.left, box.middle))
        sides = dice.choice(("both", "both", "right", "left", "top"))
        pen.bowl(Box(top, left, foot, box.right), dice.randint(1, 2), sides)
    else:
        pen.made[max(0, row - 1) : row + 1, column : column + 2] = 1
