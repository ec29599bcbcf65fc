"""`lintarsia draw`: a chart as a picture, to print, to share, to knit from."""

import os

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import within_seconds
from lintarsia.cli.ofpattern import Chosen, is_pattern, pieces_and_sizes, pieces_of
from lintarsia.cli.onechart import read_one, settings_for, size_of, the_chart
from lintarsia.cli.output import write_stdout
from lintarsia.cli.picturefiles import Made, put, save
from lintarsia.cli.pictures import drawn, lettered, needs_plan, plan_of, results_of, stamp_of
from lintarsia.cli.progress import watching
from lintarsia.cli.settings_option import allow_outside_rules
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count

PICTURES = ("chart", "fabric", "back", "paths", "sheets", "schematic")
LAYERS = ("results", "supplies", "floats", "ends")
ENDINGS = (".svg", ".png", ".pdf")


@click.command(short_help="Draw a chart, its fabric or the paths of its yarns.")
@click.argument("chart_file", metavar="CHART", type=click.Path())
@click.option(
    "--as",
    "picture",
    type=click.Choice(PICTURES),
    default="chart",
    show_default=True,
    help="The flat chart with its key; the fabric; its wrong side; each supply as one line; print sheets; the outline "
    "with its measures.",
)
@click.option(
    "--output",
    "-o",
    metavar="FILE",
    type=click.Path(),
    help="A .svg, .png or .pdf file; without it, SVG to the screen.",
)
@click.option(
    "--over",
    "layers",
    multiple=True,
    type=click.Choice(LAYERS),
    help="Lay this over the chart. May be given several times.",
)
@click.option(
    "--paper", type=click.Choice(["A4", "Letter"]), default="A4", show_default=True, help="The paper of print sheets."
)
@click.option("--width", type=click.IntRange(16, 8000), metavar="PIXELS", help="Width of a PNG. [default: 24 a stitch]")
@pieces_and_sizes
@click.option("--nested", is_flag=True, help="Of a pattern, each piece once, the outlines of all its sizes on it.")
@click.option("--settings", "settings_file", type=click.Path(), help="Use this settings file.")
@allow_outside_rules
@within_seconds
def command(
    chart_file: str,
    picture: str,
    output: str | None,
    layers: tuple[str, ...],
    paper: str,
    width: int | None,
    piece: str | None,
    size: str | None,
    nested: bool,
    settings_file: str | None,
) -> int:
    """Draw CHART as a picture; of a pattern file its pieces laid out in full, each a picture or a page of a PDF.

    Sheets that do not fit into one SVG or PNG are numbered: FILE-1.svg, FILE-2.svg and so on; a PDF holds them all.
    Exit status: 0 drawn, 1 the chart cannot be read, or not drawn in the time given, 2 the command could not run.

    \b
    Examples:
      lintarsia draw fox.chart.yaml -o fox.svg
      lintarsia draw fox.chart.yaml --as fabric -o fox.png
      lintarsia draw fox.chart.yaml --over supplies -o f.pdf
      lintarsia draw fox.chart.yaml --as sheets -o fox.pdf
      lintarsia draw fox.pattern.yaml --size small -o fox.pdf
      lintarsia draw fox.pattern.yaml --nested -o fox.svg
    """
    ending = os.path.splitext(output)[1].lower() if output else ".svg"
    if ending not in ENDINGS:
        raise click.UsageError(f"{output!r} ends in {ending or 'nothing'}; expected .svg, .png or .pdf")
    if layers and picture != "chart":
        raise click.UsageError(f"--over lays things over the chart; it has no meaning with --as {picture}")
    chart_file = the_chart(chart_file)
    if nested and (size is not None or layers or picture != "chart"):
        raise click.UsageError("--nested has all sizes on one chart; it goes without --size, --over and --as")
    if nested and not is_pattern(chart_file, piece, size):
        raise click.UsageError("--nested is of a pattern; a chart has one size")
    if is_pattern(chart_file, piece, size):
        if "results" in layers:
            raise click.UsageError("--over results goes with a chart file, where the results stand")
        found = pieces_of(chart_file, settings_file, piece, size, "no picture can be made of this pattern")
        if found is not None and nested:
            put(_nested(found), output, ending, width)
        elif found is not None:
            put(_pieces(found, picture, layers, paper, ending), output, ending, width)
        return FOUND if found is None else OK
    settings = settings_for(chart_file, settings_file)
    # However faulty, as long as there is a chart: a fault is often what one wants to see.
    chart = read_one(chart_file, settings, "no picture can be made of this chart", faulty=True)
    if chart is None:
        return FOUND
    with watching(f"drawing {size_of(chart)}"):
        plan = plan_of(chart, settings.reckoning) if needs_plan(picture, layers) else None
        results = results_of(chart, settings) if "results" in layers else ()
        letters, told = lettered(chart, ending, picture), settings.terms
        drawings = drawn(chart, picture, layers, paper, plan, stamp_of(chart), results, told, lettered=letters)
    if output is None:
        if len(drawings) > 1:
            raise Trouble(f"the chart takes {len(drawings)} sheets; say where to put them with --output")
        write_stdout(drawings[0] + "\n")
        return OK
    with watching(f"writing the picture of {size_of(chart)}"):
        save(chart, drawings, output, ending, width)
    return OK


def _pieces(found: Chosen, picture: str, layers: tuple[str, ...], paper: str, ending: str) -> list[Made]:
    """Each piece that is chosen, laid out in its size."""
    settings, work, chosen = found
    made = []
    with watching(f"drawing {count(len(chosen), 'piece')}"):
        for one in chosen:
            plan = work.plan(one.piece, one.size) if needs_plan(picture, layers) else None
            stamp = stamp_of(one.chart, work.pattern)
            letters, told = lettered(one.chart, ending, picture), settings.terms
            drawings = drawn(one.chart, picture, layers, paper, plan, stamp, terms=told, lettered=letters)
            made.append(Made(one.name, one.chart, drawings))
    return made


def _nested(found: Chosen) -> list[Made]:
    """Each piece once, all its sizes on it."""
    from lintarsia.cli.nesteddrawing import nested_drawings
    from lintarsia.drawing.stamp import stamped

    with watching(f"drawing {count(len(found.pieces), 'piece')}"):
        return [
            Made(name, chart, [stamped(svg, stamp_of(chart, found.work.pattern))])
            for name, chart, svg in nested_drawings(found)
        ]
