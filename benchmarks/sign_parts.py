"""The parts that signs.py puts together: frames, bars, corners, bowls, legs, dots, zigzags and the like."""

from collections.abc import Callable, Sequence

from stitch_pen import Box, Pen


def divided(pen: Pen, box: Box, aside: bool) -> None:
    dice, gap = pen.dice, pen.dice.choice((1, 2, 2))
    if aside:
        cut = box.left + pen.among(box.width // 4, box.width * 2 // 3)
        halves = box._replace(right=cut), box._replace(left=min(box.right, cut + gap))
    else:
        cut = box.top + dice.randint(box.height // 4, box.height * 3 // 4)
        halves = box._replace(foot=cut), box._replace(top=min(box.foot, cut + gap))
    for half in halves:
        part(pen, half)


def part(pen: Pen, box: Box) -> None:
    if box.height <= 0 or box.width <= 0:
        pen.line(*box)
    elif max(box.height, box.width) >= 6 and pen.maybe(0.22):
        low = box.width < 5 or (box.height >= 5 and pen.maybe(box.height / (box.height + box.width)))
        divided(pen, box, not low)
    else:
        kinds, weights = zip(*PARTS, strict=True)
        pen.dice.choices(kinds, weights)[0](pen, box)


def _framed(pen: Pen, box: Box) -> None:
    top, left, foot, right = box
    pen.path((foot, left), (top, left), (top, right), (foot, right))
    if pen.maybe(0.8):
        low = foot - pen.maybe(0.2)
        pen.line(low, left, low, right)
    if min(box.height, box.width) >= 4 and pen.maybe(0.5):
        part(pen, Box(top + 2, left + 2, foot - pen.dice.choice((0, 2)), right - 2))
    elif pen.maybe(0.6):
        for row in range(top + 2, foot, pen.dice.choice((2, 2, 3))):
            pen.line(row, left, row, right)
    if pen.maybe(0.25):
        pen.line(top - pen.maybe(0.4), box.middle, foot, box.middle)


def _barred(pen: Pen, box: Box) -> None:
    """Level bars, most of them on a stem, which may stand on legs."""
    row = box.top
    while row <= box.foot:
        left, right = box.left + pen.dice.choice((0, 0, 1, 2)), box.right - pen.dice.choice((0, 0, 1, 2))
        if left < right:
            pen.line(row, left, row, right)
        row += pen.dice.choice((2, 2, 3, 4))
    if pen.maybe(0.7):
        stem = pen.dice.choice((box.middle, box.middle, box.middle, box.middle + 1, box.left + 1, box.right - 1))
        pen.line(box.top, stem, box.foot, stem)
    if pen.maybe(0.2):
        pen.path((box.foot, box.left), (box.waist, box.middle), (box.foot, box.right))


def _stemmed(pen: Pen, box: Box) -> None:
    stem = pen.dice.choice((box.left, box.middle, box.middle, box.right))
    pen.line(box.top, stem, box.foot, stem)
    if pen.maybe(0.6):
        row = pen.among(box.top + 1, box.foot)
        pen.line(row, box.left, row, box.right)
    if pen.maybe(0.3):
        pen.dot(box.foot, stem - 1)
    if pen.maybe(0.5) and stem <= box.middle and stem + 2 < box.right:
        part(pen, Box(pen.among(box.top, box.waist), stem + 2, box.foot, box.right))


def _cornered(pen: Pen, box: Box) -> None:
    top, left, foot, right = box
    shapes = (
        ((top, left), (top, right), (foot, right)),
        ((top, left), (foot, left), (foot, right)),
        ((top, left), (top, right), (box.waist, right), (box.waist, left), (foot, left), (foot, right)),
        ((foot, left), (top, left), (top, right)),
    )
    pen.path(*pen.dice.choices(shapes, (7, 7, 3, 3))[0])
    if pen.maybe(0.3):
        pen.line(box.waist, left, box.waist, right)
    if pen.maybe(0.2):
        pen.dot(foot, right - 1)


def _ringed(pen: Pen, box: Box) -> None:
    pen.bowl(box, pen.dice.choice((1, 1, 2)), pen.dice.choice(("both", "both", "both", "left", "right", "top")))


def _legged(pen: Pen, box: Box) -> None:
    """Strokes that fall to the sides, bent on the way."""
    bend, kind = box.width // 2 // 3, pen.dice.random()
    if kind < 0.45:
        pen.path((box.top, box.middle), (box.waist, box.middle - bend), (box.foot, box.left))
        pen.path((pen.among(box.top, box.waist), box.middle), (box.waist, box.middle + bend), (box.foot, box.right))
    elif kind < 0.7:
        pen.path((box.top, box.middle + pen.among(0, 1)), (box.waist, box.middle), (box.foot, box.left))
    else:
        pen.line(box.top, box.right, box.foot, box.left)
    if pen.maybe(0.4):
        row = pen.among(box.top, box.waist)
        pen.line(row, box.left, row, box.right)


def _dotted(pen: Pen, box: Box) -> None:
    for _ in range(pen.dice.randint(1, 4)):
        row, column = pen.among(box.top, box.foot), pen.among(box.left, box.right)
        pen.dot(row, column)
        if pen.maybe(0.6) and row < box.foot:
            pen.dot(row + 1, column + pen.dice.choice((-1, 0, 1)))


def _crossed(pen: Pen, box: Box) -> None:
    pen.line(*box)
    pen.line(box.top, box.right, box.foot, box.left)


def _slanted(pen: Pen, box: Box) -> None:
    """Short slants one above the other."""
    up = pen.dice.choice((-1, 1, 1))
    for row in range(box.top, box.foot + 1, pen.dice.choice((2, 3, 3, 4))):
        long, left = pen.dice.randint(1, max(1, min(3, box.width))), max(box.left, box.middle - pen.among(0, 2))
        end = max(box.top, min(box.foot, row + up * long))
        pen.line(row, left, end, min(box.right, left + long))


def _bent(pen: Pen, box: Box) -> None:
    """Down, then aside, perhaps with a bar that ends in a hook."""
    row, column = pen.among(box.waist, box.foot), pen.among(box.left, box.right)
    pen.path((box.top, column), (row, column), (box.foot, pen.dice.choice((box.left, box.right))))
    if pen.maybe(0.5):
        bar = pen.among(box.top, box.foot)
        pen.path((bar, box.left), (bar, box.right), (min(box.foot, bar + 2), max(box.left, box.right - 1)))


def _zigzag(pen: Pen, box: Box) -> None:
    turns = pen.dice.choice((2, 3, 3, 4))
    sides: Sequence[int] = pen.dice.sample((box.left, box.right), 2)
    rows = [box.top + round(box.height * at / turns) for at in range(turns + 1)]
    pen.path(*((row, sides[at % 2]) for at, row in enumerate(rows)))


def _combed(pen: Pen, box: Box) -> None:
    long = box.height if box.height < 5 else pen.dice.randint(1, 3)
    for column in range(box.left, box.right + 1, pen.dice.choice((2, 2, 3))):
        pen.line(box.top + pen.maybe(0.2), column, box.top + long, column)
    if pen.maybe(0.5):
        pen.line(box.top, box.left, box.top, box.right)


def _sprouting(pen: Pen, box: Box) -> None:
    """A bar with short strokes up and down from it."""
    row = pen.among(box.top + 1, box.foot)
    pen.line(row, box.left, row, box.right)
    columns = range(box.left, box.right + 1)
    for column in pen.dice.sample(columns, min(box.width, pen.dice.randint(1, 3))):
        pen.line(row - pen.dice.choice((1, 1, 2)), column, min(box.foot, row + pen.dice.choice((0, 0, 1, 2))), column)
    if box.foot - row >= 3:
        part(pen, box._replace(top=row + 2))


PARTS: Sequence[tuple[Callable[[Pen, Box], None], float]] = (
    (_framed, 3),
    (_barred, 3),
    (_stemmed, 2),
    (_cornered, 2.5),
    (_ringed, 1.5),
    (_legged, 3),
    (_dotted, 2),
    (_crossed, 1.3),
    (_slanted, 1.5),
    (_bent, 3),
    (_zigzag, 1),
    (_combed, 0.7),
    (_sprouting, 1),
)
