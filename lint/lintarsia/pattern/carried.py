"""What a chart says of its rows and stitches, said of the piece that it is laid out as."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from lintarsia.chart import Chart, Divide, DuplicateStitch, Shaping, Side, Worked
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.chart.shaping import Change, ChangeKind
from lintarsia.ground.values import dataclass
from lintarsia.pattern.pieceoutline import OTHER_ORDER
from lintarsia.pattern.weave import Weave


@dataclass(frozen=True, slots=True)
class Carried:
    """Shaping, partings and duplicate stitch of a piece, and the side that its first row shows."""

    shaping: dict[int, Shaping]
    divide: dict[int, Divide]
    duplicate: tuple[DuplicateStitch, ...]
    first_row: Side


def carried(chart: Chart, weave: Weave, rows: list[str]) -> Carried:
    """What the chart says, for the piece with these rows (bottom-up). A motif on plain knitting shapes nothing."""
    shaped = {} if weave.beside else {at: _shaping(chart, weave, rows, at) for at in range(1, len(rows) + 1)}
    parted = {} if weave.beside else chart.divide
    return Carried(
        shaping={row: made for row, made in shaped.items() if made is not None},
        divide={at: _divide(said, at, weave) for row, said in parted.items() for at in weave.rows_from(row)},
        duplicate=tuple(_duplicate(chart, weave)),
        first_row=_first_row(chart, weave),
    )


def _shaping(chart: Chart, weave: Weave, rows: list[str], row: int) -> Shaping | None:
    source = weave.chart_row(row)
    said = chart.shaping.get(source) if source is not None else None
    if said is None:
        return None
    said = turned(said) if weave.mirrored else said
    made = _stitches(rows[row - 1]) - _stitches(rows[row - 2]) if row > 1 else said.net
    if made in (0, said.net):
        return said
    # Worked as often as the repeat is: decreases or increases spread over the row, at no edge of it.
    spread = Change(ChangeKind.INCREASE if made > 0 else ChangeKind.DECREASE, abs(made))
    return Shaping(made, 0, 0, stated=(spread,))


def _stitches(row: str) -> int:
    return len(row) - row.count(NO_STITCH_SYMBOL)


def turned(said: Shaping) -> Shaping:
    """The shaping of a row in a mirror."""
    stated = tuple(replace(c, edge=c.edge.mirrored) if c.edge is not None else c for c in said.stated)
    return Shaping(said.net, said.right, said.left, said.neck_right, said.neck_left, stated)


def _divide(said: Divide, row: int, weave: Weave) -> Divide:
    to = None if said.to is None else said.to + row - said.row
    if not weave.mirrored:
        return replace(said, row=row, to=to)
    at = None if said.at is None else len(weave.columns) - said.at
    return Divide(row, said.by, OTHER_ORDER.get(said.sides, said.sides), at, to)


def _duplicate(chart: Chart, weave: Weave) -> Iterator[DuplicateStitch]:
    """Each patch wherever its stitches are worked, as stretches of neighbouring ones."""
    width, wide = chart.grid.width, len(weave.columns)
    for patch in chart.duplicate:
        low, high = sorted(patch.stitches)
        wanted = range(width - high, width - low + 1)
        stretches = list(_stretches([source in wanted for source in weave.columns]))
        for row in weave.rows_from(patch.row):
            for first, end in stretches:
                yield DuplicateStitch(patch.colour, row, (wide - end + 1, wide - first))


def _stretches(wanted: list[bool]) -> Iterator[tuple[int, int]]:
    """Where neighbouring entries hold, (first, last + 1)."""
    start = None
    for at, holds in enumerate([*wanted, False]):
        if holds and start is None:
            start = at
        elif not holds and start is not None:
            yield start, at
            start = None


def _first_row(chart: Chart, weave: Weave) -> Side:
    """A mirrored piece whose stitches are bound off or cast on at an edge is begun on the other side: in the mirror a
    row starts at its other edge, and only where it starts can stitches be bound off.
    """
    bound = chart.divide or binds(chart.shaping.values())
    turn = weave.mirrored and chart.worked is not Worked.ROUND and bound
    return chart.first_row.other if turn else chart.first_row


def binds(shaping: Iterable[Shaping]) -> bool:
    """Whether stitches are bound off or cast on at an edge, which only the start of a row can."""
    return any(change.kind in (ChangeKind.BIND_OFF, ChangeKind.CAST_ON) for said in shaping for change in said.changes)
