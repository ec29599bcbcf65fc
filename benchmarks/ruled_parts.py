"""Parts of signs with even gaps, divided again and again: frames with bars, ladders on a stem, legs below them."""

from stitch_pen import Box, Pen


def ruled(pen: Pen, box: Box) -> None:
    if min(box.height, box.width) < 2:
        pen.line(*box)
        return
    kind = pen.dice.random()
    if kind < 0.26 and max(box.height, box.width) >= 6:
        _halved(pen, box)
        return
    if kind < 0.55:
        _window(pen, box)
    elif kind < 0.85:
        _ladder(pen, box)
    if pen.maybe(0.45):
        _legs(pen, box)
    if pen.maybe(0.15):
        pen.line(box.top, box.middle, box.top + 1, box.middle)


def _halved(pen: Pen, box: Box) -> None:
    low = box.width < 6 or (box.height >= 6 and pen.maybe(box.height / (box.height + box.width)))
    if low:
        cut = pen.dice.randint(box.top + 2, box.foot - 3)
        halves = box._replace(foot=cut), box._replace(top=cut + 2)
    else:
        cut = pen.dice.randint(box.left + 2, box.right - 3)
        halves = box._replace(right=cut), box._replace(left=cut + 2)
    for half in halves:
        ruled(pen, half)


def _window(pen: Pen, box: Box) -> None:
    top, left, foot, right = box
    pen.path((foot, left), (top, left), (top, right), (foot, right))
    if pen.maybe(0.8):
        pen.line(foot, left, foot, right)
    gap = pen.dice.choice((2, 2, 3, 4))
    for row in range(top + gap, foot - 1, gap):
        if pen.maybe(0.8):
            pen.line(row, left + (pen.dice.choice((0, 0, 2)) if box.width > 4 else 0), row, right)
    if pen.maybe(0.4):
        pen.line(top, box.middle, foot, box.middle)


def _ladder(pen: Pen, box: Box) -> None:
    row = box.top + pen.dice.choice((0, 0, 1))
    while row <= box.foot:
        left = pen.dice.choice((0, 0, 0, 1, 2))
        right = left if pen.maybe(0.7) else pen.dice.choice((0, 1, 2))
        if box.left + left < box.right - right:
            pen.line(row, box.left + left, row, box.right - right)
        row += pen.dice.choice((2, 2, 3, 3, 4))
    for chance, column in ((0.8, box.middle), (0.25, box.left + 1), (0.15, box.right - 1)):
        if pen.maybe(chance):
            pen.line(box.top if pen.maybe(0.7) else box.waist, column, box.foot, column)


def _legs(pen: Pen, box: Box) -> None:
    top, left, foot, right = box
    kind = pen.dice.random()
    if kind < 0.5:
        pen.path((foot, left), (box.waist, box.middle), (foot, right))
    elif kind < 0.7:
        pen.line(top, right, foot, left)
    elif kind < 0.8:
        pen.line(*box)
    else:
        pen.line(max(top, foot - 2), left + 1, foot, left)
        pen.line(max(top, foot - 2), right - 1, foot, right)
