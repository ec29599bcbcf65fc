"""What grid/row-slip tells of a piece whose sizes have charts of their own: a row that has slipped in one of them."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import partial
from typing import Any, NamedTuple

import numpy as np

from lintarsia.chart import Chart
from lintarsia.chart.grid import MISSING
from lintarsia.pattern.model import Piece
from lintarsia.pattern.work import About, PatternWork, SizeFault
from lintarsia.result import Finding, Level
from lintarsia.rules.base import Work
from lintarsia.rules.shared.colour_numbers import cells_by_name
from lintarsia.rules.shared.lanes import Cells
from lintarsia.rules.shared.pieces import Check
from lintarsia.rules.shared.rows_in_sizes import COUNTED, SlipInSize, slips_in_sizes
from lintarsia.rules.shared.slip_in_size_words import KEYS, Other, said_of

REMEDY = "set the row beside that of the other sizes; if it is meant, accept it in the pattern with a reason"
SURE = 3.0  # of what two sizes differ in, by how much one has to be more usual before it is a warning


class _Sized(NamedTuple):
    """A chart file of a piece, with the sizes that are knitted from it."""

    said: str
    sizes: tuple[str, ...]
    chart: Chart


class Asked(NamedTuple):
    """A rule with its check of a chart by itself, and the options that the pattern's settings give it."""

    rule: str
    check: Check
    options: Any


def told_by_sizes(work: PatternWork, asked: Asked) -> Iterator[About]:
    """At most one finding for each chart; pieces with the same charts are told once."""
    done = set()
    for piece in work.pattern.pieces.values():
        drawn = tuple(each for each in _charts(work, piece) if each.chart.grid.cells.min() > MISSING)
        files = frozenset(each.said for each in drawn)
        if len(files) > 1 and files not in done:
            done.add(files)
            for slip in slips_in_sizes(_pictures([each.chart for each in drawn])):
                yield from _told(work, piece, drawn, slip, asked)


def _told(work: PatternWork, piece: Piece, drawn: Sequence[_Sized], slip: SlipInSize, asked: Asked) -> Iterator[About]:
    """The finding, with the level that holds for the chart; none where the rule is off for it."""
    own = drawn[slip.at]
    held = work.held(piece, own.sizes[0])
    options = asked.options if held is None else held.rules.get(asked.rule)
    about = _about(work, piece, drawn, slip)
    if options is None or _known(work, piece, own, about.finding, asked._replace(options=options)):
        return
    stated = held.levels.get(asked.rule) if held is not None else None
    yield about._replace(finding=replace(about.finding, level=stated or about.finding.level))


def _charts(work: PatternWork, piece: Piece) -> Iterator[_Sized]:
    sizes: dict[str, list[str]] = {}
    for size in work.pattern.sizes:
        if size in piece.charts and piece.knitted(size):
            sizes.setdefault(piece.charts[size], []).append(size)
    for said, those in sizes.items():
        chart = work.charts[said].chart
        if chart is not None:
            yield _Sized(said, tuple(those), chart)


def _pictures(charts: Sequence[Chart]) -> list[Cells]:
    names: dict[str, int] = {}
    return [_filled(cells_by_name(chart, names)).astype(np.int16) for chart in charts]


def _filled(cells: "np.ndarray[tuple[int, ...], np.dtype[np.int64]]") -> "np.ndarray[Any, np.dtype[np.int64]]":
    """Squares without a stitch taken to be as the stitch to their left, or the first of their row: where a piece is
    shaped or parted its ground goes on."""
    if cells.min() >= 0:
        return cells
    there = cells >= 0
    at = np.maximum.accumulate(np.where(there, np.arange(cells.shape[1]), -1), axis=1)
    at = np.where(at < 0, there.argmax(axis=1)[:, None], at)
    filled = np.take_along_axis(cells, at, axis=1)
    return np.where(filled < 0, cells[there].min(initial=0), filled)


def _known(work: PatternWork, piece: Piece, own: _Sized, finding: Finding, asked: Asked) -> bool:
    """Whether the chart accepts it, or tells it by itself, no less gravely."""
    if any(accepted.rule == asked.rule and accepted.row in (None, finding.row) for accepted in own.chart.suppressions):
        return True
    alone = Work(own.chart, work.reckoning_of(piece, own.sizes[0]), partial(work.committed, own.said))
    note = finding.level is Level.NOTE
    return any(
        (told.key, told.row) == (finding.key, finding.row) and (note or told.level is not Level.NOTE)
        for told in asked.check(alone, asked.options)
    )


def _about(work: PatternWork, piece: Piece, drawn: Sequence[_Sized], slip: SlipInSize) -> About:
    own = drawn[slip.at]
    others = [Other(drawn[at].sizes, row) for at, row in slip.like.items()]
    sure = slip.gained is None or slip.gained >= SURE
    level = Level.WARNING if sure and slip.slip.kind not in COUNTED else Level.NOTE
    row, key = slip.slip.row, KEYS.get(slip.slip.kind, slip.slip.kind)
    region, text = own.chart.places.row(row), own.chart.grid.rows[row - 1]
    words = SizeFault(key, said_of(own.chart, slip, others, sure), region, level, remedy=REMEDY)
    about = work.about(words, piece.name, own.sizes)
    here = replace(
        about.finding,
        file=work.charts[own.said].path,
        row=row,
        stitches=(1, len(text)),
        pattern=f"{piece.name} {key} {text}",
    )
    return about._replace(finding=here)
