"""`lintarsia plan`: the supplies of a chart, to read, to knit from, to compare, or written into the file."""

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, Any

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.output import screen_of, write_file, write_stdout
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.chart import Chart, Limits
    from lintarsia.settings import Settings

FORMATS = ("text", "json", "csv", "csv-rows")


def _tries(ctx: click.Context, param: click.Parameter, values: tuple[str, ...]) -> tuple["Limits", ...]:
    if not values:
        return ()
    from lintarsia.planreport.compare import parse_try

    try:
        return tuple(parse_try(value) for value in values)
    except ValueError as failure:
        raise click.BadParameter(str(failure)) from None


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
@click.option("--what-if", "what_if", is_flag=True, help="Weigh the ways to work each small area.")
@click.option("--write", "write", is_flag=True, help="Put the supplies: section into the chart file.")
@click.option("--all", "whole", is_flag=True, help="List every supply and every row, however many.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file.")
@click.option(
    "--color",
    "colour",
    type=click.Choice(["auto", "always", "never"]),
    default="auto",
    show_default=True,
    help="Colour in the text.",
)
def command(
    chart_file: str,
    format: str,
    output: str | None,
    tries: tuple["Limits", ...],
    what_if: bool,
    write: bool,
    whole: bool,
    settings_file: str | None,
    colour: str,
) -> int:
    """Work out how many separate yarns CHART needs, how long each is, and how they hang in every row.

    CHART is a file, or - for standard input.

    The plan has the fewest supplies that the limits allow, then the fewest carried stitches, then the fewest rows
    waited. Exit status: 0 planned, 1 the chart cannot be planned as it stands, 2 the command could not run.
    """
    _refuse_mixtures(chart_file, format, output, tries, what_if, write)
    settings = _settings(chart_file, settings_file)
    chart = _read(chart_file, settings)
    if chart is None:
        return FOUND
    planning: dict[str, Any] = {
        "tail_mm": settings.tail_mm,
        "allowance": settings.allowance,
        "holders": settings.holders,
    }
    if write:
        return _write(chart_file, chart, settings, planning)
    screen = screen_of(sys.stdout, colour) if output is None else PLAIN
    text = _renderer(format, tries, what_if, whole)(chart, settings, planning, screen)
    if output is None:
        write_stdout(text)
    else:
        write_file(output, text)
    return OK


def _refuse_mixtures(
    chart_file: str, format: str, output: str | None, tries: tuple["Limits", ...], what_if: bool, write: bool
) -> None:
    if write and chart_file == "-":
        raise click.UsageError("there is no file to write into when the chart comes from standard input")
    if write and (format != "text" or output is not None or tries or what_if):
        raise click.UsageError("--write changes the chart file and goes with none of --format, --output and the like")
    if tries and what_if:
        raise click.UsageError("--try and --what-if answer different questions; ask one at a time")
    if format.startswith("csv") and (tries or what_if):
        raise click.UsageError(f"--format {format} has the plan alone; use text or json with --try and --what-if")


def _settings(chart_file: str, settings_file: str | None) -> "Settings":
    from lintarsia.settings import find_settings, read_settings

    if chart_file == "-":
        chart_file = os.curdir
    elif not os.path.exists(chart_file):
        raise Trouble(f"there is no file {chart_file!r}")
    return read_settings(settings_file, root=os.getcwd()) if settings_file else find_settings(chart_file)


def _read(chart_file: str, settings: "Settings") -> "Chart | None":
    """The chart, or None where it cannot be planned; what stands in the way goes to standard error."""
    from lintarsia.reading import read_chart
    from lintarsia.result import Level

    data = None
    if chart_file == "-":
        chart_file, data = "stdin.chart.yaml", sys.stdin.buffer.read()
    reading = read_chart(chart_file, data, max_bytes=settings.max_bytes)
    chart = reading.chart
    blocking = [(rule, finding) for rule, finding in reading.problems if finding.level in (None, Level.ERROR)]
    for rule, finding in blocking:
        place = f"{chart_file}:{finding.region.line}:{finding.region.column}"
        click.echo(f"{place}: {finding.message} [{rule}]", err=True)
    if chart is None or blocking:
        click.echo("lintarsia: no plan can be made of this chart until that is mended", err=True)
        return None
    if not chart.grid.regular:
        message = "the rows differ in length; the plan takes them as lined up at the right"
        click.echo(f"lintarsia: {message} (lintarsia check says which)", err=True)
    return chart


def _renderer(
    format: str, tries: tuple["Limits", ...], what_if: bool, whole: bool
) -> Callable[["Chart", "Settings", dict[str, Any], Screen], str]:
    """What to write, as one function of the chart; each format is imported only when it is asked for."""

    def render(chart: "Chart", settings: "Settings", planning: dict[str, Any], screen: Screen) -> str:
        if tries:
            from lintarsia.planreport.compare import compare_documents, compare_text, try_limits

            columns = try_limits(chart, tries, settings.limits, **planning)
            if format == "text":
                return compare_text(chart, columns, screen)
            return _json(chart, columns[0].plan, settings, tries=compare_documents(columns))
        from lintarsia.planning.planner import make_plan

        plan = make_plan(chart, settings.limits, **planning)
        if what_if:
            from lintarsia.planning.what_if import weigh_areas
            from lintarsia.planreport.choices import choices_documents, choices_text

            areas = weigh_areas(chart, plan, tail_mm=settings.tail_mm)
            if format == "text":
                return choices_text(chart, plan, areas, screen)
            return _json(chart, plan, settings, what_if=choices_documents(areas))
        if format == "json":
            return _json(chart, plan, settings)
        if format == "csv" or format == "csv-rows":
            from lintarsia.planreport.csv import rows_csv, supplies_csv

            return (supplies_csv if format == "csv" else rows_csv)(chart, plan)
        from lintarsia.planreport.text import plan_text

        return plan_text(chart, plan, screen, whole=whole, allowance=settings.allowance)

    return render


def _json(chart: "Chart", plan: Any, settings: "Settings", **more: object) -> str:
    from lintarsia.planreport.json import plan_json

    return plan_json(chart, plan, allowance=settings.allowance, tail_mm=settings.tail_mm, **more)


def _write(chart_file: str, chart: "Chart", settings: "Settings", planning: dict[str, Any]) -> int:
    if not chart.grid.regular or len(chart.grid.symbols) > chart.grid.known:
        reason = "its rows differ in length" if not chart.grid.regular else "its grid uses symbols that the key lacks"
        click.echo(f"lintarsia: {chart_file} was left as it is: {reason} (lintarsia check says where)", err=True)
        return FOUND
    from lintarsia.planning.planner import make_plan
    from lintarsia.planreport.writing import write_supplies

    written = write_supplies(chart_file, chart, make_plan(chart, settings.limits, **planning))
    click.echo(f"{chart_file}: {written}")
    return OK
