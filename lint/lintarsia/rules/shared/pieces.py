"""A rule on charts, on a pattern's pieces laid out as well: what a piece shows in a size and its chart alone does not.

What is found is told of the piece in its own rows, and stands at the place of the chart file that causes it.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING, Any, NamedTuple

from lintarsia.result import Finding
from lintarsia.rules.base import Work

if TYPE_CHECKING:
    from lintarsia.chart import Chart, Reckoning
    from lintarsia.pattern.model import Piece
    from lintarsia.pattern.weave import Weave
    from lintarsia.pattern.work import About, PatternWork

Check = Callable[[Work, Any], Iterator[Finding]]
_NUMBERED = r"\b(rows?|rounds?|stitch|stitches) \d+(?:(?:–|-| to | and |, )\d+)*"


class _Told(NamedTuple):
    """What sizes of a piece are told together by: where in the chart, and in which words."""

    key: str
    row: int | None
    stitches: tuple[int, int] | None
    message: str


def on_pieces(
    rule: str, check: Check, *, numbers: bool = False, outline: bool = False
) -> "Callable[[PatternWork, Any], Iterator[About]]":
    """The check of `rule` for a pattern: of every piece that is more than its chart, what `check` finds in it and not
    in the same row of the chart. With `numbers` a row is told of again where the words, such as a count, differ; with
    `outline` it is told at the piece's own shaping, where it has any.
    """

    def check_pattern(work: "PatternWork", options: Any) -> "Iterator[About]":
        """The same of every piece laid out in its sizes, where the chart by itself does not show it."""
        for piece in work.pattern.pieces.values():
            yield from _piece(work, piece, _Asked(rule, check, options, numbers, outline))

    return check_pattern


class _Asked(NamedTuple):
    """A rule with its check, and the options that the pattern's settings give it."""

    rule: str
    check: Check
    options: Any
    numbers: bool
    outline: bool

    def options_for(self, work: "PatternWork", piece: "Piece", size: str) -> Any:
        """Those that hold for the piece's chart; None where the rule is off for it."""
        held = work.held(piece, size)
        return self.options if held is None else held.rules.get(self.rule)


def _piece(work: "PatternWork", piece: "Piece", asked: _Asked) -> "Iterator[About]":
    found: dict[_Told, tuple[Finding, list[str]]] = {}
    for size in work.pattern.sizes:
        for told, finding in _in_size(work, piece, size, asked).items():
            found.setdefault(told, (finding, []))[1].append(size)
    for told, (finding, sizes) in found.items():
        held = work.held(piece, sizes[0])
        stated = held.levels.get(asked.rule) if held is not None else None
        yield _about(work, piece, told, replace(finding, level=stated or finding.level), sizes, asked.outline)


def _in_size(work: "PatternWork", piece: "Piece", size: str, asked: _Asked) -> dict[_Told, Finding]:
    """What the piece laid out shows, a fault that comes back with each repeat once."""
    laid, chart = work.laid(piece, size), work.chart(piece, size)
    options = asked.options_for(work, piece, size)
    if laid is None or chart is None or options is None:
        return {}
    if laid.weave.as_drawn and size not in piece.shaping and size not in piece.divide:
        return {}
    reckoning = work.reckoning_of(piece, size)
    known = {
        _known(finding, finding.row, asked.numbers) for finding in asked.check(_work(work, chart, reckoning), options)
    }
    found: dict[tuple[str, int | None, tuple[int, int] | None], Finding] = {}
    for finding in asked.check(_work(work, laid.chart, reckoning), options):
        row = laid.weave.chart_row(finding.row) if finding.row is not None else None
        if _known(finding, row, asked.numbers) not in known:
            found.setdefault((finding.key, row, _stitches(chart, laid.weave, finding)), finding)
    return {_Told(*place, finding.message): finding for place, finding in found.items()}


def _work(work: "PatternWork", chart: "Chart", reckoning: "Reckoning") -> Work:
    """The chart for the rules, once for all of them."""
    made: Work = work.kept.setdefault(id(chart), Work(chart, reckoning))
    return made


def _known(finding: Finding, row: int | None, numbers: bool) -> tuple[int | None, str]:
    return row, re.sub(_NUMBERED, r"\1", finding.message) if numbers else ""


def _stitches(chart: "Chart", weave: "Weave", finding: Finding) -> tuple[int, int] | None:
    """The chart's stitches that the finding's are; None where they are all of plain knitting."""
    if finding.stitches is None:
        return None
    first, last = finding.stitches
    wide = len(weave.columns)
    columns = [c for c in weave.columns[max(0, wide - last) : wide - first + 1] if c >= 0]
    return (chart.grid.stitch(max(columns)), chart.grid.stitch(min(columns))) if columns else None


def _about(
    work: "PatternWork", piece: "Piece", told: _Told, finding: Finding, sizes: list[str], outline: bool
) -> "About":
    """The finding at its place in the chart's file; in the pattern's, where it lies in plain knitting alone."""
    from lintarsia.pattern.entries import entry_of
    from lintarsia.pattern.work import SizeFault

    own = _own(piece, sizes[0], finding.row) if outline or not piece.charts else ""
    region = work.place("pieces", piece.name, "chart")
    if own:
        region = entry_of(work.pattern, own, piece.name, sizes[0], finding.row or 0)
    words = SizeFault(told.key, told.message, region)
    about = work.about(words, piece.name, sizes)
    made = replace(about.finding, level=finding.level, remedy=finding.remedy)
    said, chart = piece.charts.get(sizes[0]), work.chart(piece, sizes[0])
    if told.row is None or chart is None or said is None or own:
        return about._replace(finding=made)
    region = chart.places.cells(told.row, *told.stitches) if told.stitches else chart.places.row(told.row)
    here = replace(made, file=work.charts[said].path, region=region, row=told.row, stitches=told.stitches)
    return about._replace(finding=here)


def _own(piece: "Piece", size: str, row: int | None) -> str:
    """The section of the piece that shapes it in a size: the one that names the row, where either does."""
    stated = [(key, said[size]) for key, said in (("shaping", piece.shaping), ("divide", piece.divide)) if size in said]
    naming = [key for key, said in stated if row in said]
    return next(iter((*naming, *(key for key, _ in stated))), "")
