"""The outline of a picture whose surroundings are clear: how its rows gain and lose stitches, and where it is parted.

What is clear around a picture is no stitch. Then every change of a row's width has to be said, and an opening between
two sides too. Rows here are as drawn, row 1 first; columns from 0 at the left; a stretch is (first, last + 1).
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

Stretch = tuple[int, int]
FEWEST_BOUND_OFF = 3  # fewer are decreased, at both inner edges (common practice)
_REAL = re.compile(r"[^.]+")


class UntoldError(Exception):
    """A row that needs a person to say how it is worked."""


@dataclass(slots=True)
class Outline:
    """`shaping` has for each row its edges and their change, as the file writes it; `divide` what it says of a row."""

    shaping: dict[int, dict[str, str]] = field(default_factory=dict)
    divide: dict[int, str] = field(default_factory=dict)
    sides: tuple[Stretch, Stretch] | None = None  # of the row below, where it is parted

    def lines(self) -> list[str]:
        """The sections of the file, like rows with equal steps in one line."""
        said = ["shaping:", *(f"  {rows}: {{{change}}}" for rows, change in _gathered(self.shaping))]
        parted = ["divide:", *(f"  {row}: {how}" for row, how in self.divide.items())]
        return (said if self.shaping else []) + (parted if self.divide else [])


def outline(rows: Sequence[str]) -> Outline:
    """How flat rows are shaped, a right-side row first. Raises UntoldError, with the row, where that is not plain."""
    made = Outline()
    below = _stretches(rows[0])
    if len(below) > 1:
        raise UntoldError("row 1 stands in several parts")
    for row, text in enumerate(rows[1:], 2):
        here = _stretches(text)
        if len(here) > 2:
            raise UntoldError(f"row {row} stands in {len(here)} parts")
        if made.sides:
            _parted(made, row, here)
        elif len(here) == 2:
            _divided(made, row, below, here, len(text))
        else:
            _whole(made, row, below, here)
        below = here
    return made


def _stretches(text: str) -> list[Stretch]:
    return [match.span() for match in _REAL.finditer(text)]


def _whole(made: Outline, row: int, below: list[Stretch], here: list[Stretch]) -> None:
    if not below:
        if here:
            raise UntoldError(f"row {row - 1} has no stitch, and row {row} has")
        return
    was = below[0]
    if not here:
        _say(made, row, _start(row), f"{{bind-off: {was[1] - was[0]}}}")
        return
    _outer(made, row, was, here[0])


def _divided(made: Outline, row: int, below: list[Stretch], here: list[Stretch], width: int) -> None:
    """The row that parts the work: what ends between the sides is bound off, or decreased where it is little."""
    left, right = here
    gap = (left[1], right[0])
    if len(below) != 1 or below[0][0] >= gap[0] or below[0][1] <= gap[1]:
        raise UntoldError(f"row {row} stands in two parts that are not both knitted on from row {row - 1}")
    gone = gap[1] - gap[0]
    if gone < FEWEST_BOUND_OFF:
        at_right = gone // 2
        made.divide[row] = f"{{by: nothing, sides: together, at: {width - gap[1] + at_right}}}"
        _number(made, row, "neck-left", at_right - gone)
        _number(made, row, "neck-right", -at_right)
    else:
        made.divide[row] = "{by: bind-off, sides: together}"
    _outer(made, row, below[0], (left[0], right[1]))
    made.sides = left, right


def _parted(made: Outline, row: int, here: list[Stretch]) -> None:
    assert made.sides is not None
    left, right = made.sides
    if len(here) == 1 and _meet(here[0], left) and _meet(here[0], right):
        raise UntoldError(f"the hole beneath row {row} is closed again")  # a hole to be filled, more often than not
    new_left = next((s for s in here if _meet(s, left)), (left[0], left[0]))
    new_right = next((s for s in here if _meet(s, right) and s != new_left), (right[1], right[1]))
    if len(here) > (new_left[0] < new_left[1]) + (new_right[0] < new_right[1]):
        raise UntoldError(f"row {row} has a part that is not knitted on from row {row - 1}")
    _side(made, row, left, new_left, ("left", "neck-left"))
    _side(made, row, right, new_right, ("neck-right", "right"))
    made.sides = new_left, new_right


def _side(made: Outline, row: int, was: Stretch, now: Stretch, edges: tuple[str, str]) -> None:
    """One side of the opening; `edges` are its left and its right one."""
    if was[0] == was[1]:
        return
    if now[0] == now[1]:
        _say(made, row, edges[_start(row) == "right"], f"{{bind-off: {was[1] - was[0]}}}")
        return
    _number(made, row, edges[0], was[0] - now[0])
    _number(made, row, edges[1], now[1] - was[1])


def _outer(made: Outline, row: int, was: Stretch, now: Stretch) -> None:
    if not _meet(was, now):
        raise UntoldError(f"row {row} has no stitch above one of row {row - 1}")
    _number(made, row, "left", was[0] - now[0])
    _number(made, row, "right", now[1] - was[1])


def _meet(one: Stretch, other: Stretch) -> bool:
    return one[0] < other[1] and other[0] < one[1]


def _start(row: int) -> str:
    """The edge where a row starts."""
    return "right" if row % 2 else "left"


def _number(made: Outline, row: int, edge: str, change: int) -> None:
    if change:
        _say(made, row, edge, str(change))


def _say(made: Outline, row: int, edge: str, change: str) -> None:
    made.shaping.setdefault(row, {})[edge] = change


def _gathered(shaping: dict[int, dict[str, str]]) -> Iterator[tuple[str, str]]:
    """Rows and what changes in them; at least three alike at equal steps are one: `43-47/2`."""
    told = {row: ", ".join(f"{edge}: {change}" for edge, change in made.items()) for row, made in shaping.items()}
    rows = list(told)
    while rows:
        first = rows.pop(0)
        best: list[int] = []
        for step in range(1, 9):
            run = [first]
            while run[-1] + step in rows and told[run[-1] + step] == told[first]:
                run.append(run[-1] + step)
            best = max(best, run, key=len)
        if len(best) < FEWEST_BOUND_OFF:
            yield str(first), told[first]
            continue
        rows = [row for row in rows if row not in best]
        step = best[1] - best[0]
        yield f"{first}-{best[-1]}" + (f"/{step}" if step > 1 else ""), told[first]
