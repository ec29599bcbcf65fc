"""The page of a pattern: its pieces and sizes with the charts they are knitted from, and the yarn for each size."""

import os
from collections.abc import Mapping
from dataclasses import dataclass

from lintarsia.knits.summary import PatternKnits
from lintarsia.pattern.buying import Need, needs_of
from lintarsia.pattern.model import Pattern, Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.publishing.pages.board import board
from lintarsia.publishing.pages.entry import Entry, PatternPart
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.templates import fill
from lintarsia.result import RuleInfo
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import yarn_length


@dataclass(frozen=True, slots=True)
class Cell:
    """A piece in a size: how often it is knitted, and the chart's title with its page ("" where it has none here)."""

    times: int
    title: str
    link: str


def summary(pattern: Pattern) -> str:
    """`pattern of 3 pieces in 2 sizes, version 1.0`"""
    told = f"pattern of {count(len(pattern.pieces), 'piece')}"
    if pattern.sized:
        told += f" in {count(len(pattern.sizes), 'size')}"
    return told + (f", version {pattern.version}" if pattern.version else "")


def cover(work: PatternWork, slugs: Mapping[str, str]) -> str:
    """The slug of the first of the pattern's charts that has a page here, "" where none has."""
    found = (slugs.get(os.path.realpath(file.path), "") for file in work.charts.values() if file.chart is not None)
    return next((slug for slug in found if slug), "")


def pattern_page(
    work: PatternWork,
    entry: Entry,
    layout: Layout,
    rules: Mapping[str, RuleInfo],
    slugs: Mapping[str, str],
    stamp: str = "",
    knits: PatternKnits | None = None,
    since: str = "",
) -> str:
    """The page's content as HTML. `slugs` is by the real path of a chart; `stamp` says what state it shows; `knits`
    are its test knits, where there are any; `since` is a revision that its page of changes begins with."""
    pattern, page = work.pattern, layout.chart(entry.slug)
    return fill(
        "pattern.html",
        pattern=pattern,
        entry=entry,
        slug=entry.slug,
        stamp=stamp,
        since=since,
        changes=layout.link(page, layout.changes(entry.slug)),
        home=layout.link(page, layout.overview),
        guide=lambda name: layout.link(page, layout.guide(name)),
        pieces=[
            (piece.name, [_cell(work, piece, size, page, layout, slugs) for size in pattern.sizes])
            for piece in pattern.pieces.values()
        ],
        yarns=_yarns(work),
        allowance=f"{work.allowance:.0%}",
        parts=[
            (part.title, layout.link(page, layout.chart(part.slug)) + "#results" if part.slug else "", _standing(part))
            for part in entry.parts
            if any(part.tally)
        ],
        board=None if knits is None else board(knits),
        results=results_html(None, entry, layout, rules),
    )


def _standing(part: PatternPart) -> tuple[str, str]:
    """The state of a chart and what stands in it, in words."""
    blocks, errors, warnings, notes = part.tally
    found = [(errors, "error"), (warnings, "warning"), (notes, "note")]
    told = ", ".join(count(number, word) for number, word in found if number)
    state = "blocks" if blocks else "warning" if errors or warnings else "note"
    return state, told + (
        f"; {count(blocks, 'result')} {'blocks' if blocks == 1 else 'block'} release" if blocks else ""
    )


def yarn_names(work: PatternWork) -> tuple[str, ...]:
    """Of all yarns that any of its sizes takes."""
    return tuple(dict.fromkeys(name for name, _ in _yarns(work)))


def _cell(
    work: PatternWork, piece: Piece, size: str, page: str, layout: Layout, slugs: Mapping[str, str]
) -> Cell | None:
    said = piece.charts.get(size)
    if said is None and piece.knitted(size) and (laid := work.laid(piece, size)) is not None:
        made = piece.stitch or "plain"
        return Cell(piece.knitted(size), f"{made}, {laid.cast_on} sts, {count(laid.chart.grid.height, 'row')}", "")
    if said is None or not piece.knitted(size):
        return None
    file = work.charts[said]
    # Only a chart that was found has a path; what a pattern states instead may be no file's name at all.
    slug = slugs.get(os.path.realpath(file.path), "") if file.key in ("", "unreadable") else ""
    title = file.chart.title if file.chart else said
    return Cell(piece.knitted(size), title, layout.link(page, layout.chart(slug)) if slug else "")


def _yarns(work: PatternWork) -> list[tuple[str, list[str]]]:
    """Each yarn with what each size takes of it: `3 balls (310 m)`."""
    sizes = [needs_of(work, size) for size in work.pattern.sizes]
    names = dict.fromkeys(yarn for needs in sizes for yarn in needs)
    imperial = any(file.chart.gauge.over.imperial for file in work.charts.values() if file.chart)
    lines = []
    for yarn in names:
        need = next(needs[yarn] for needs in sizes if yarn in needs)
        lines.append((need.name or yarn, [_amount(needs.get(yarn), imperial) for needs in sizes]))
    return lines


def _amount(need: Need | None, imperial: bool) -> str:
    if need is None:
        return "–"
    length = yarn_length(need.metres + need.allowance, imperial)
    return length if need.to_buy is None else f"{count(need.to_buy, 'ball')} ({length})"
