"""`lintarsia plan`: the supplies of a chart, to read, to knit from, to compare, or written into the file."""

import sys
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import within_seconds
from lintarsia.cli.ofpattern import is_pattern, pieces_and_sizes, pieces_of
from lintarsia.cli.onechart import read_one, settings_for, size_of, the_chart
from lintarsia.cli.output import screen_of, write_answer, write_stdout
from lintarsia.cli.progress import watching
from lintarsia.cli.settings_option import allow_outside_rules
from lintarsia.reporting.fitting import fitted
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.chart import Chart, Limits
    from lintarsia.plansheets.answer import Question
    from lintarsia.settings import Settings

FORMATS = ("text", "json", "csv", "csv-rows")
SMALL = 6  # stitches; the same house value as in planning/what_if.py, which is too heavy to import for a help text


def _tries(ctx: click.Context, param: click.Parameter, values: tuple[str, ...]) -> tuple["Limits", ...]:
    if not values:
        return ()
    from lintarsia.plansheets.sidebyside import parse_try

    try:
        return tuple(parse_try(value) for value in values)
    except ValueError as failure:
        raise click.BadParameter(str(failure)) from None


def _window(ctx: click.Context, param: click.Parameter, value: str | None) -> tuple[int, int] | None:
    if value is None:
        return None
    first, _, last = value.replace("–", "-").partition("-")
    ends = [part.strip() for part in (first, last or first)]
    if not all(part.isascii() and part.isdigit() and len(part) < 7 for part in ends) or not 0 < int(ends[0]) <= int(
        ends[1]
    ):
        raise click.BadParameter(f"expected a row such as 12, or a first and a last row such as 7-16; found {value!r}")
    return int(ends[0]), int(ends[1])


@click.command(short_help="Work out the supplies of a chart.")
@click.argument("chart_file", metavar="CHART", type=click.Path())
@click.option(
    "--format",
    "format",
    type=click.Choice(FORMATS),
    default="text",
    show_default=True,
    help="csv has a line for each supply, csv-rows one for each row.",
)
@click.option("--output", "-o", type=click.Path(), metavar="FILE", help="Write to FILE instead of the screen.")
@click.option(
    "--try",
    "tries",
    multiple=True,
    metavar="LIMIT=N[,…]",
    callback=_tries,
    help="Compare with another strand, carry, idle, float or supplies. May be given several times.",
)
@click.option("--what-if", is_flag=True, help="Weigh the ways to work each small area.")
@click.option(
    "--largest",
    type=click.IntRange(1),
    metavar="STITCHES",
    help=f"What --what-if takes for a small area.  [default: {SMALL}]",
)
@pieces_and_sizes
@click.option("--write", is_flag=True, help="Put the supplies: section into the chart file.")
@click.option(
    "--all", "whole", is_flag=True, help="List every supply and every row, and weigh every small area, however many."
)
@click.option(
    "--rows",
    "window",
    metavar="FIRST-LAST",
    callback=_window,
    help="The table of these rows alone, such as 7-16, or of one row.",
)
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file.")
@allow_outside_rules
@click.option(
    "--color",
    "colour",
    type=click.Choice(["auto", "always", "never"]),
    default="auto",
    show_default=True,
    help="Colour in the text.",
)
@within_seconds
def command(
    chart_file: str,
    format: str,
    output: str | None,
    tries: tuple["Limits", ...],
    what_if: bool,
    largest: int | None,
    write: bool,
    whole: bool,
    window: tuple[int, int] | None,
    piece: str | None,
    size: str | None,
    settings_file: str | None,
    colour: str,
) -> int:
    """Work out how many separate yarns CHART needs, how long each is, and how they hang in every row.

    CHART is a file, a folder with one chart in it, or - for standard input. Of a pattern file the pieces are laid out
    in full and planned, all of them in all sizes or those that --piece and --size name, and each size has its yarn.

    The plan goes on with as many blocks of colour as the limits allow; of those plans it has the fewest supplies, then
    the fewest rows waited, then the fewest carried stitches. Exit status: 0 planned, 1 the chart cannot be planned as
    it stands or in the time given, 2 the command could not run.

    \b
    Examples:
      lintarsia plan fox.chart.yaml
      lintarsia plan fox.chart.yaml --write
      lintarsia plan fox.chart.yaml --try strand=3
      lintarsia plan fox.chart.yaml --what-if --largest 4
      lintarsia plan fox.chart.yaml --rows 7-16
      lintarsia plan fox.chart.yaml --format csv -o fox.csv
      lintarsia plan fox.pattern.yaml --size small
    """
    what_if = what_if or largest is not None
    _refuse_mixtures(format, bool(tries), what_if)
    if window and (tries or what_if or write or format not in ("text", "csv-rows")):
        raise click.UsageError("--rows shows a part of the row table: use it with --format text or csv-rows alone")
    if write and (chart_file == "-" or format != "text" or output is not None or tries or what_if):
        raise click.UsageError("--write changes the chart file; it takes a file, and goes with --settings alone")

    def asked(settings: "Settings | None") -> "Question":
        from lintarsia.plansheets.answer import Question

        reckoned = (settings.reckoning,) if settings else ()
        return Question(format, tries, (largest or SMALL) if what_if else None, whole, window, *reckoned)

    chart_file = the_chart(chart_file)
    if is_pattern(chart_file, piece, size):
        if write:
            raise click.UsageError("--write changes a chart file; name the chart instead of the pattern")
        return _pattern(chart_file, settings_file, piece, size, asked(None), output, colour)
    settings = settings_for(chart_file, settings_file)
    chart = read_one(chart_file, settings, "no plan can be made of this chart")
    if chart is None:
        return FOUND
    if window and window[1] > chart.grid.height:
        raise click.BadParameter(
            f"the chart has {count(chart.grid.height, 'row')}; asked for up to {window[1]}", param_hint="--rows"
        )
    if not chart.grid.regular:
        message = "the rows differ in length; the plan takes them as lined up at the right"
        click.echo(f"lintarsia: {message} (lintarsia check says which)", err=True)
    if write:
        return _write(chart_file, chart, asked(settings))
    from lintarsia.plansheets.answer import answer

    screen = screen_of(sys.stdout, colour) if output is None else PLAIN
    doing = f"weighing areas of {size_of(chart)}" if what_if else f"planning {size_of(chart)}"
    with watching(doing) as progress:
        text = answer(chart, asked(settings), screen, progress)
    _deliver(chart_file, text, format, screen, output)
    return OK


def _deliver(file: str, text: str, format: str, screen: Screen, output: str | None) -> None:
    if output is None:
        write_stdout(fitted(text, screen) if format == "text" else text)
    else:
        write_answer(output, text, [file])


def _pattern(
    file: str,
    settings_file: str | None,
    piece: str | None,
    size: str | None,
    asked: "Question",
    output: str | None,
    colour: str,
) -> int:
    found = pieces_of(file, settings_file, piece, size, "no plan can be made of this pattern")
    if found is None:
        return FOUND
    from lintarsia.cli.patternplan import pattern_answer

    _, work, chosen = found
    screen = screen_of(sys.stdout, colour) if output is None else PLAIN
    named = piece is not None and (size is not None or not work.pattern.sized)
    _deliver(file, pattern_answer(work, chosen, asked, screen, named=named), asked.format, screen, output)
    return OK


def _refuse_mixtures(format: str, tries: bool, what_if: bool) -> None:
    if tries and what_if:
        raise click.UsageError("--try and --what-if answer different questions; ask one at a time")
    if format.startswith("csv") and (tries or what_if):
        raise click.UsageError(f"--format {format} has the plan alone; use text or json with --try and --what-if")


def _write(chart_file: str, chart: "Chart", asked: "Question") -> int:
    if not chart.grid.regular or len(chart.grid.symbols) > chart.grid.known:
        reason = "its rows differ in length" if not chart.grid.regular else "its grid uses symbols that the key lacks"
        click.echo(f"lintarsia: {chart_file} was left as it is: {reason} (lintarsia check says where)", err=True)
        return FOUND
    from lintarsia.plansheets.intochart import write_supplies

    with watching(f"planning {size_of(chart)}"):
        plan = asked.plan(chart)
    click.echo(f"{chart_file}: {write_supplies(chart_file, chart, plan)}")
    return OK
