"""`lintarsia write`: a chart's rows in words."""

import re
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from lintarsia.cli.documents import To, WrittenPiece, document, refuse_pdf
from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import within_seconds
from lintarsia.cli.ofpattern import Chosen, is_pattern, one_alone, pieces_and_sizes, pieces_of
from lintarsia.cli.onechart import read_one, settings_for, the_chart
from lintarsia.cli.output import write_answer, write_stdout
from lintarsia.cli.settings_option import allow_outside_rules
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.chart import Chart, Reckoning
    from lintarsia.pattern.choosing import PieceInSize
    from lintarsia.settings import Settings
    from lintarsia.written.page import RowsPage
    from lintarsia.written.style import Style

Rows = tuple[int, int | None]
ALL_ROWS: Rows = (1, None)


def _rows(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[int, int | None]:
    """`12`, `1-20`, `20-`."""
    if value is None:
        return 1, None
    match = re.fullmatch(r"([0-9]{1,6})(?:([-–])([0-9]{1,6})?)?", value.strip())
    if not match or int(match[1]) < 1:
        raise click.BadParameter(f"{value!r} is not a row or a range of rows; expected 12, 1-20 or 20-")
    first = int(match[1])
    last = int(match[3]) if match[3] else None if match[2] else first
    if last is not None and last < first:
        raise click.BadParameter(f"{value!r} runs backwards; expected the lower row first")
    return first, last


@click.command(short_help="Write a chart's rows in words.")
@click.argument("chart_file", metavar="CHART", type=click.Path())
@click.option(
    "--format", "format", type=click.Choice(["text", "markdown", "html", "pdf"]), default="text", show_default=True,
    help="How to write them.",
)  # fmt: skip
@click.option("--supplies", is_flag=True, help="Name each supply (A1, A2), and say where it is joined and cut.")
@click.option("--rows", callback=_rows, metavar="N[-M]", help="Only these rows: 12, 1-20, or 20- for all from there.")
@click.option("--in-full", is_flag=True, help="Fold no repeats and merge no rows.")
@click.option(
    "--paper", type=click.Choice(["A4", "Letter"]), default="A4", show_default=True, help="The paper of a PDF."
)
@pieces_and_sizes
@click.option("--nested", is_flag=True, help="Of a pattern, all sizes in one text: 66 (72, 78) sts.")
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file.")
@allow_outside_rules
@within_seconds
def command(
    chart_file: str,
    format: str,
    supplies: bool,
    rows: tuple[int, int | None],
    in_full: bool,
    paper: str,
    piece: str | None,
    size: str | None,
    nested: bool,
    output: str | None,
    settings_file: str | None,
) -> int:
    """Write the rows of CHART in standard abbreviations, in the order in which they are worked.

    Repeats are folded where that is shorter and like rows are merged where the order of working stays plain. What is
    written here can be put under `written:` in a chart file, and `lintarsia check` compares it with the chart. Of a
    pattern file the pieces are laid out in full and written, all of them or those that --piece and --size name; the
    whole of it, as html, markdown or pdf, is a document to publish, with charts, schematics and finishing. Pictures
    of a markdown document lie in a folder beside FILE.
    Exit status: 0 written, 1 the chart cannot be written as it stands or in the time given, 2 the command could not
    run.

    \b
    Examples:
      lintarsia write fox.chart.yaml
      lintarsia write fox.chart.yaml --rows 12-20
      lintarsia write fox.chart.yaml --supplies
      lintarsia write fox.chart.yaml --format html -o f.html
      lintarsia write fox.pattern.yaml --size large
      lintarsia write fox.pattern.yaml --nested
      lintarsia write fox.pattern.yaml --format pdf -o f.pdf
    """
    chart_file, to = the_chart(chart_file), To(format, output, paper)
    refuse_pdf(chart_file, to, rows != ALL_ROWS)
    text: str | bytes | None
    if nested and (size is not None or supplies or rows != ALL_ROWS):
        raise click.UsageError("--nested has all sizes and all rows in one text, and names no supplies")
    if is_pattern(chart_file, piece, size) and nested:
        found = pieces_of(chart_file, settings_file, piece, size, NO_WORDS)
        text = None if found is None else _nested(found, to, in_full)
    elif is_pattern(chart_file, piece, size):
        text = _pieces(pieces_of(chart_file, settings_file, piece, size, NO_WORDS), to, rows, supplies, in_full)
    else:
        text = _chart(chart_file, settings_file, format, rows, supplies, in_full)
    if text is None:
        return FOUND
    if output is not None:
        write_answer(output, text, [chart_file])
    else:
        assert isinstance(text, str)  # a PDF is refused without a file
        write_stdout(text)
    return OK


NO_WORDS = "the rows cannot be written"


def _chart(
    chart_file: str, settings_file: str | None, format: str, rows: Rows, supplies: bool, in_full: bool
) -> str | None:
    settings = settings_for(chart_file, settings_file)
    chart = read_one(chart_file, settings, NO_WORDS)
    if chart is None:
        return None
    unknown = chart.grid.symbols[chart.grid.known :]
    if unknown:
        click.echo(f"lintarsia: the key has no {', '.join(unknown)}; the rows name them all the same", err=True)
    _refuse_beyond(chart, rows)
    return _rows_in_words(chart, settings, format, rows, settings.reckoning, supplies, in_full)


def _pieces(found: Chosen | None, to: To, rows: Rows, supplies: bool, in_full: bool) -> str | bytes | None:
    if found is None:
        return None
    if rows != ALL_ROWS:
        one = one_alone(found.pieces, "--rows")
        _refuse_beyond(one.chart, rows)
        reckoning = found.work.reckoning_of(one.piece, one.size)
        return _rows_in_words(one.chart, found.settings, to.format, rows, reckoning, supplies, in_full)
    from lintarsia.pattern.inwords import pages_of

    pages = pages_of(found.work, found.pieces, found.settings.terms, supplies=supplies, in_full=in_full)
    return document(found, [WrittenPiece(page, (one,)) for page, one in zip(pages, found.pieces, strict=True)], to)


def _nested(found: Chosen, to: To, in_full: bool) -> str | bytes:
    """Pieces that cannot be said for all sizes at once are written size by size, and that is said."""
    from lintarsia.pattern.edgewords import begins, with_edges
    from lintarsia.pattern.nested import nested_page, nests
    from lintarsia.pattern.nestedlines import nested_lines
    from lintarsia.written.answer import style_of

    style, pattern = style_of(found.settings.terms, in_full=in_full), found.work.pattern
    pages: list[WrittenPiece] = []
    for name in dict.fromkeys(one.piece.name for one in found.pieces):
        sizes = [one for one in found.pieces if one.piece.name == name]
        chart = found.work.chart(sizes[0].piece, sizes[0].size)
        if chart is not None and nests(chart, sizes):
            page = nested_page(chart, sizes, f"{pattern.title}: {name}", style, begins(found.work, sizes))
            page = with_edges(found.work, page, sizes, style.terms)
            pages.append(WrittenPiece(page, tuple(sizes), as_charted=True))
            continue
        alone = [_alone(found, one, style) for one in sizes]
        nested = nested_lines(alone, [one.size for one in sizes], f"{pattern.title}: {name}")
        if nested is not None:
            pages.append(WrittenPiece(with_edges(found.work, nested, sizes, style.terms), tuple(sizes)))
            continue
        if len(sizes) > 1:
            click.echo(f"lintarsia: the rows of {name} differ in more than numbers; each size has its own", err=True)
        pages += [
            WrittenPiece(with_edges(found.work, page, (one,), style.terms), (one,))
            for page, one in zip(alone, sizes, strict=True)
        ]
    return document(found, pages, to)


def _alone(found: Chosen, one: "PieceInSize", style: "Style") -> "RowsPage":
    """A piece's page in one size, its yarns planned as the settings say."""
    from lintarsia.pattern.stitchpage import in_its_stitch
    from lintarsia.written.page import rows_page

    own = replace(style, reckoning=found.work.reckoning_of(one.piece, one.size))
    return in_its_stitch(rows_page(one.chart, style=own), one, own)


def _refuse_beyond(chart: "Chart", rows: Rows) -> None:
    if rows[0] > chart.grid.height or (rows[1] or 0) > chart.grid.height:
        beyond = f"row {rows[0]}" if rows[1] in (None, rows[0]) else f"{rows[0]} to {rows[1]}"
        from lintarsia.telling.counts import count

        raise Trouble(f"the chart has {count(chart.grid.height, 'row')}; asked for {beyond}")


def _rows_in_words(
    chart: "Chart", settings: "Settings", format: str, rows: Rows, own: "Reckoning", supplies: bool, in_full: bool
) -> str:
    from lintarsia.written.answer import rows_in_words

    told, (first, last) = own if supplies else None, rows
    terms = settings.terms
    return rows_in_words(
        chart, format, terms=terms, supplies=told, first=first, last=last, in_full=in_full, reckoning=own
    )
