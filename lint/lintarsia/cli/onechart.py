"""What the commands that take one chart share: its settings, and the chart itself or why there is none."""

import os
import sys
from typing import TYPE_CHECKING

import click

from lintarsia.cli.settings_option import distrust_settings, named_settings
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.trouble import Trouble

if TYPE_CHECKING:
    from lintarsia.chart import Chart
    from lintarsia.settings import Settings

STDIN_NAME = "stdin.chart.yaml"


MOST_NAMED = 5  # charts of a folder; more would hide the sentence that names them


def the_chart(path: str) -> str:
    """`path`, or for a folder the one chart below it. Raises Trouble for a folder with none, or with several."""
    if not path:
        raise Trouble("the chart's path is empty (perhaps a variable that is not set)")
    if not os.path.isdir(path):
        return path
    from lintarsia.engine.targets import find_targets
    from lintarsia.settings.finding import SettingsFinder

    charts = [target.path for target in find_targets([path], SettingsFinder())]
    if len(charts) == 1:
        return charts[0]
    if not charts:
        raise Trouble(f"{path!r} is a folder without charts; expected one chart")
    more = f" and {len(charts) - MOST_NAMED} more" if len(charts) > MOST_NAMED else ""
    raise Trouble(
        f"{path!r} is a folder; this command takes one chart at a time: {', '.join(charts[:MOST_NAMED])}{more}"
    )


def settings_for(chart_file: str, settings_file: str | None) -> "Settings":
    """The settings named, or those found above the chart (`-`: above the current folder).

    Raises Trouble for a file that is not there and for one that is no single chart.
    """
    from lintarsia.settings import find_settings

    if chart_file == "-":
        distrust_settings()
        chart_file = os.curdir
    elif not os.path.exists(chart_file):
        raise Trouble(f"there is no file {chart_file!r}")
    elif (kind := kind_of(chart_file)) is not Kind.CHART:
        expected = "this command takes one chart at a time" if kind is Kind.PATTERN else "expected a chart"
        raise Trouble(f"{chart_file!r} is {kind.what}; {expected}")
    return named_settings(settings_file) or find_settings(chart_file)


def read_one(chart_file: str, settings: "Settings", cannot: str, *, faulty: bool = False) -> "Chart | None":
    """The chart (of standard input for `-`), or None where the command cannot go on.

    What stands in the way goes to standard error, each fault with its place, and `cannot` after it. With `faulty` any
    chart will do that could be read at all; without it an error of the file stands in the way.
    """
    from lintarsia.reading import read_chart
    from lintarsia.result import Level

    data = None
    if chart_file == "-":
        chart_file, data = STDIN_NAME, _standard_input(settings.max_bytes)
    reading = read_chart(chart_file, data, max_bytes=settings.max_bytes, max_stitches=settings.max_stitches)
    errors = [(rule, finding) for rule, finding in reading.problems if finding.level in (None, Level.ERROR)]
    if reading.chart is not None and (faulty or not errors):
        return reading.chart
    for rule, finding in errors:
        place = f"{chart_file}:{finding.region.line}:{finding.region.column}"
        click.echo(f"{place}: {finding.message} [{rule}]", err=True)
        if finding.key == "too-many-stitches":  # what to do is not in the message, and nobody would guess it
            click.echo(f"  mend  {finding.remedy}", err=True)
    click.echo(f"lintarsia: {cannot} until that is mended", err=True)
    return None


def _standard_input(most: int) -> bytes:
    """No more than a chart may have and a byte, by which its reader sees that it is too large."""
    if sys.stdin is None:
        raise Trouble("there is no standard input to read a chart from")
    try:
        return sys.stdin.buffer.read(most + 1)
    except OSError as failure:
        raise Trouble(f"standard input cannot be read ({failure.strerror or failure})") from None


def size_of(chart: "Chart") -> str:
    """What of it decides how long something takes: `a chart of 512 by 512 stitches`."""
    return f"a chart of {chart.grid.width:,} by {chart.grid.height:,} stitches"
