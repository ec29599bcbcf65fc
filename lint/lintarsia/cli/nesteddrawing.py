"""The pieces of a pattern drawn once for all their sizes: nested outlines, or the chart with its repeat box."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from lintarsia.chart import Chart
    from lintarsia.cli.ofpattern import Chosen
    from lintarsia.pattern.choosing import PieceInSize


def nested_drawings(found: "Chosen") -> "Iterator[tuple[str, Chart, str]]":
    """Of each piece its name, the chart drawn and the drawing. A piece whose sizes have charts of their own is drawn
    size by size, and that is said."""
    for name in dict.fromkeys(one.piece.name for one in found.pieces):
        sizes = [one for one in found.pieces if one.piece.name == name]
        if len({one.piece.charts.get(one.size) for one in sizes}) > 1:
            click.echo(f"lintarsia: {name} has a chart for each size; each is drawn by itself", err=True)
            yield from (_drawn(found, [one], one.name) for one in sizes)
        else:
            yield _drawn(found, sizes, name)


def _drawn(found: "Chosen", sizes: "Sequence[PieceInSize]", name: str) -> "tuple[str, Chart, str]":
    from lintarsia.drawing import chart_svg, nested_svg
    from lintarsia.pattern.allsizes import all_sizes
    from lintarsia.telling.terms import Terms

    terms = Terms(found.settings.terms)
    title = f"{found.work.pattern.title}: {name}"
    repeated = _repeats(sizes)
    if repeated:
        chart = replace(sizes[0].laid.source, title=f"{title}, repeat {repeated}")
        return name, chart, chart_svg(chart, background=True, key=True, terms=terms)
    whole = all_sizes(sizes, title)
    return name, whole.chart, nested_svg(whole, terms)


def _repeats(sizes: "Sequence[PieceInSize]") -> str:
    """How often the box is worked, `9 (10, 11) times`; "" where the chart has none, or is laid on plain knitting."""
    if sizes[0].laid.source.repeat is None or any(one.laid.motif for one in sizes):
        return ""
    across = [one.laid.fit.repeats for one in sizes]
    up = [one.laid.fit.row_repeats for one in sizes]
    return _times(across) + (f", rows {_times(up)}" if set(up) != {1} else "")


def _times(numbers: "Sequence[int]") -> str:
    from lintarsia.pattern.nested import nested

    return f"{nested(numbers)} {'time' if set(numbers) == {1} else 'times'}"
