"""A slip of one row told by the other sizes of a piece: the same motif stands in several charts, and one differs from
the others in a row that is theirs shifted, mirrored, exchanged, doubled or left out.

Of three and more, those that are right outnumber the one that is not. Of two the one is told whose stitches would be
more usual by the other's row. What else differs in more than a few rows is a motif drawn anew, and is not set beside
the others.
"""

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from lintarsia.ground.values import dataclass
from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.rows_before import SlipSince, slip_since, slips_in_place
from lintarsia.rules.shared.sizes_alike import (
    Placing,
    Rows,
    SizePicture,
    cells_of,
    evident,
    ground_of,
    in_place,
    one_row_apart,
    placing,
    plain,
    shared,
)
from lintarsia.rules.shared.turned_rows import turned_within
from lintarsia.rules.shared.usual import gained

COUNTED = ("doubled", "left-out")
MOST_OTHERS = 2  # rows that differ otherwise; where there are more the motif has been drawn anew (house value)


@dataclass(frozen=True, slots=True)
class SlipInSize:
    """`slip` of the picture `at` (from 0). `like` has the pictures that agree on what was there, with the row of theirs
    (the knitter's) that it was. `gained` is None where they outnumber those that have it as it is; else by how much
    stitches become more usual with the slip undone, a logarithm of odds."""

    at: int
    slip: SlipSince
    like: Mapping[int, int]
    gained: float | None = None


class _Seen(NamedTuple):
    """What another picture says of one: its rows in this one's place (None where they are not alike so), which begin
    at row `up`, and the slips."""

    was: Rows | None = None
    up: int = 0
    slips: tuple[SlipSince, ...] = ()

    def agrees(self, now: Rows, slip: SlipSince) -> bool:
        """Whether the other has the same rows there."""
        if self.was is None or slip in self.slips:
            return False
        return slip.kind in COUNTED or all(self.was[row] == now[row] for row in _rows_of(slip))


def _rows_of(slip: SlipSince) -> range:
    """The rows, from 0, that are others than they were."""
    return range(slip.row - 1, slip.row + (slip.kind == "swapped"))


def slips_in_sizes(cells: Sequence[Cells]) -> list[SlipInSize]:
    """At most one for each picture, in their order. `cells` are those of each size, as numbers that mean the same
    colour in all of them, without squares that have no stitch."""
    ground = ground_of(cells)
    pictures = [SizePicture(each, ground) for each in cells]
    seen = dict(_all_seen(pictures, ground))
    found = (_of(pictures, at, {other: seen[at, other] for other in range(len(pictures)) if other != at})
             for at in range(len(pictures)))  # fmt: skip
    return [slip for slip in found if slip is not None]


def _all_seen(pictures: Sequence[SizePicture], ground: str) -> Iterator[tuple[tuple[int, int], _Seen]]:
    """What each picture (first of the key) is by each other."""
    for at, one in enumerate(pictures):
        for beyond, other in enumerate(pictures[at + 1 :], at + 1):
            place = Placing(0, 0) if one.rows == other.rows else placing(one, other)
            if place is None:
                yield from (((at, beyond), _Seen()), ((beyond, at), _Seen()))
                continue
            seen = _seen(one, other, place, ground)
            yield (at, beyond), seen
            same = seen.was == one.rows
            back = _Seen(other.rows, -place.up) if same else _seen(other, one, place.reversed, ground)
            yield (beyond, at), back


def _of(pictures: Sequence[SizePicture], at: int, seen: Mapping[int, _Seen]) -> SlipInSize | None:
    now = pictures[at].rows
    for slip in dict.fromkeys(slip for each in seen.values() for slip in each.slips):
        like = {other: slip.row - each.up for other, each in seen.items() if slip in each.slips}
        alike = 1 + sum(each.agrees(now, slip) for each in seen.values())
        if len(like) > max(1, alike):
            return SlipInSize(at, slip, like)
        if len(like) == alike and slip.kind not in COUNTED:
            was = seen[min(like)].was
            assert was is not None
            by = _gained(now, was, slip)
            if (by, min(like)) > (0, at):  # where neither is more usual, the first of them is told
                return SlipInSize(at, slip, like, by)
    return None


def _seen(one: SizePicture, other: SizePicture, place: Placing, ground: str) -> _Seen:
    now, theirs = one.rows, other.within(place, one.cells.shape[1])
    was, both = in_place(now, theirs, place.up), shared(now, theirs, place.up)
    alike = evident(was[both], now[both])
    slips = tuple(_in_place(was, now, ground)) if alike and was != now else ()
    left = _unexplained(was, now, slips)
    if left and (counted := _counted(now, theirs, place.up)):
        return counted._replace(was=was if alike else None)
    return _Seen(was if alike else None, place.up, slips if left <= MOST_OTHERS else ())


def _unexplained(was: Rows, now: Rows, slips: Sequence[SlipSince]) -> int:
    """How many rows are others that no slip has changed."""
    others = {row for row in range(len(now)) if was[row] != now[row]}
    return len(others - {row for slip in slips for row in _rows_of(slip)})


def _in_place(was: Rows, now: Rows, ground: str) -> Iterator[SlipSince]:
    """Those of rows that are more than plain: by a plain one parts of the motif may stand further apart."""
    told: set[int] = set()
    for slip in slips_in_place(was, now):
        if not any(plain(now[row]) for row in _rows_of(slip)):
            told.update(_rows_of(slip))
            yield slip
    yield from (SlipSince("mirrored", row + 1) for row in turned_within(was, now, ground) if row not in told)


def _counted(now: Rows, theirs: Rows, up: int) -> _Seen | None:
    """A row more or fewer, where it is more than plain ground and all other rows are the same."""
    for low, was in one_row_apart(now, theirs, up):
        slip = slip_since(was, now) if len(was) != len(now) else None
        if slip is not None and not plain((now if slip.kind == "doubled" else was)[slip.row - 1]):
            return _Seen(None, low + (slip.kind == "doubled"), (slip,))
    return None


def _gained(now: Rows, was: Rows, slip: SlipSince) -> float:
    undone = list(now)
    for row in _rows_of(slip):
        undone[row] = was[row]
    return gained(cells_of(now), cells_of(undone), slip.row - 1)
