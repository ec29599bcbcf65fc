"""`lintarsia write`: a chart's rows in words."""

import re

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.onechart import read_one, settings_for, the_chart
from lintarsia.cli.output import write_file, write_stdout
from lintarsia.cli.settings_option import allow_outside_rules
from lintarsia.ground.trouble import Trouble


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
    "--format", "format", type=click.Choice(["text", "markdown", "html"]), default="text", show_default=True,
    help="How to write them.",
)  # fmt: skip
@click.option("--supplies", is_flag=True, help="Name each supply (A1, A2), and say where it is joined and cut.")
@click.option("--rows", callback=_rows, metavar="N[-M]", help="Only these rows: 12, 1-20, or 20- for all from there.")
@click.option("--in-full", is_flag=True, help="Fold no repeats and merge no rows.")
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file.")
@allow_outside_rules
def command(
    chart_file: str,
    format: str,
    supplies: bool,
    rows: tuple[int, int | None],
    in_full: bool,
    output: str | None,
    settings_file: str | None,
) -> int:
    """Write the rows of CHART in standard abbreviations, in the order in which they are worked.

    Repeats are folded where that is shorter and like rows are merged where the order of working stays plain. What is
    written here can be put under `written:` in a chart file, and `lintarsia check` compares it with the chart.
    Exit status: 0 written, 1 the chart cannot be written as it stands, 2 the command could not run.

    \b
    Examples:
      lintarsia write fox.chart.yaml
      lintarsia write fox.chart.yaml --rows 12-20
      lintarsia write fox.chart.yaml --supplies
      lintarsia write fox.chart.yaml --format html -o f.html
    """
    chart_file = the_chart(chart_file)
    settings = settings_for(chart_file, settings_file)
    chart = read_one(chart_file, settings, "the rows cannot be written")
    if chart is None:
        return FOUND
    unknown = chart.grid.symbols[chart.grid.known :]
    if unknown:
        click.echo(f"lintarsia: the key has no {', '.join(unknown)}; the rows name them all the same", err=True)
    if rows[0] > chart.grid.height or (rows[1] or 0) > chart.grid.height:
        beyond = f"row {rows[0]}" if rows[1] in (None, rows[0]) else f"{rows[0]} to {rows[1]}"
        from lintarsia.telling.counts import count

        raise Trouble(f"the chart has {count(chart.grid.height, 'row')}; asked for {beyond}")
    from lintarsia.written.answer import rows_in_words

    told = settings.reckoning if supplies else None
    text = rows_in_words(
        chart, format, terms=settings.terms, supplies=told, first=rows[0], last=rows[1], in_full=in_full
    )
    if output is None:
        write_stdout(text)
    else:
        write_file(output, text)
    return OK
