"""What the words say of the two sides of an opening: what is bound off or held between them, and what then waits."""

from collections.abc import Callable

from lintarsia.chart.shaping import ChangeKind, Order, Parting
from lintarsia.chart.sides import Half, Sides, Stint
from lintarsia.ground.values import dataclass
from lintarsia.telling.terms import Terms
from lintarsia.written.shapingphrases import change_phrase, sts

HANGS = "take up the yarn that hangs there"


@dataclass(frozen=True, slots=True)
class WordsAround:
    """Words before a stint's own and behind its count; "" and () where there are none."""

    before: tuple[str, ...] = ()
    behind: str = ""


def side_name(sides: Sides, stint: Stint) -> str:
    """`Right neck side`, `Left side of the slit`; "" for a row that is whole. Right and left are the chart's."""
    opening = sides.opening(stint.row)
    if stint.half is None or opening is None:
        return ""
    slit = opening.divide.by is Parting.NOTHING and all(first == end for first, end in opening.gaps)
    return f"{stint.half.capitalize()} side of the slit" if slit else f"{stint.half.capitalize()} neck side"


def around(sides: Sides, stint: Stint, terms: Terms, *, joins: bool, hangs: Callable[[Stint], bool]) -> WordsAround:
    """What goes with a stint of parted work. `joins`: the words name yarns, and say themselves which are joined.
    `hangs`: whether the yarn that a side begins with hangs on the work already."""
    opening = sides.opening(stint.row)
    if stint.half is None or opening is None:
        return WordsAround(_taken_back(sides, stint.row))
    own = [p for p in sides.in_order if opening.first_row <= p.row <= opening.last_row]
    at = own.index(stint)
    before: list[str] = []
    begins = stint.row == opening.first_row and any(p.row == stint.row and p.half is not stint.half for p in own[:at])
    if begins and stint.opening is not None and stint.opening.kind is ChangeKind.HOLD:
        before.append(f"place next {sts(stint.opening.stitches)} on a holder")
    if begins and not joins:
        before.append(HANGS if hangs(stint) else _joined(own, at))
    if begins and stint.opening is not None and stint.opening.kind is ChangeKind.BIND_OFF:
        before.append(change_phrase(stint.opening, terms))
    if not begins and not joins and _taken_up(own, at):
        before.append(HANGS)
    closed = opening.last_row < sides.chart.grid.height
    behind = _behind(opening.divide.sides, own, at) or _at_top(own, at, opening.divide.sides, terms, closed=closed)
    return WordsAround(tuple(before), behind)


def _joined(own: list[Stint], at: int) -> str:
    return "join a second ball" if own[at - 1].row == own[at].row else "rejoin the yarn at the neck edge"


def _taken_back(sides: Sides, row: int) -> tuple[str, ...]:
    """Before the row that closes an opening whose sides were worked in turn: the side that waited goes on with it."""
    below = sides.opening(row - 1) if row > 1 else None
    held = below is not None and below.divide.sides is not Order.TOGETHER and below.last_row == row - 1
    return ("place the sts of the side that waits back on the needle",) if held else ()


def _at_top(own: list[Stint], at: int, order: Order, terms: Terms, *, closed: bool) -> str:
    """What becomes of the stitches that a side ends with; the file does not say whether they are bound off. Where a
    whole row closes the opening, the side worked first waits for it, and the row is worked over the other one's."""
    stint = own[at]
    if any(other.half is stint.half for other in own[at + 1 :]):
        return ""
    ends = [p for p in own[: at + 1] if p.row == stint.row and p.columns[0] < p.columns[1]]
    if order is not Order.TOGETHER:
        ends = [p for p in ends if p is stint]
    elif at + 1 < len(own):
        return ""
    if not ends or (closed and at + 1 == len(own)):
        return ""
    left = f"rem {sts(ends[0].columns[1] - ends[0].columns[0])}" if len(ends) == 1 else "rem sts of each side"
    return f"Leave {left} on a holder." if closed else f"Leave {left} on a holder or {terms.bind_off}."


def _taken_up(own: list[Stint], at: int) -> bool:
    """Whether a side goes on that has waited since the row that divides the work."""
    return at > 0 and own[at - 1].half is not own[at].half and own[at - 1].row > own[at].row


def _behind(order: Order, own: list[Stint], at: int) -> str:
    """What is done before the next stint, where that is not simply to go on."""
    stint, after = own[at], own[at + 1] if at + 1 < len(own) else None
    if order is Order.TOGETHER:
        last = stint.row == own[0].row and after is not None and after.row > stint.row
        return "Work both sides at once with separate balls." if last else ""
    first = Half.RIGHT if order is Order.RIGHT_FIRST else Half.LEFT
    waits = after is not None and stint.row == own[0].row and after.row > stint.row and after.half is first
    if waits and not any(p.half is first.other and p.row > stint.row for p in own[:at]):
        return f"Leave the {first.other} side on a holder; work the {first} side to its top."
    return ""
