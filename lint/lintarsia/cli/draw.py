"""`lintarsia draw`: a chart as a picture, to print, to share, to knit from."""

import os
import re
from typing import TYPE_CHECKING

import click

from lintarsia.cli.exits import FOUND, OK
from lintarsia.cli.intime import within_seconds
from lintarsia.cli.ofpattern import Chosen, is_pattern, pieces_and_sizes, pieces_of
from lintarsia.cli.onechart import read_one, settings_for, size_of, the_chart
from lintarsia.cli.output import write_stdout
from lintarsia.cli.progress import watching
from lintarsia.cli.settings_option import allow_outside_rules
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from collections.abc import Sequence

    from lintarsia.chart import Chart, Reckoning
    from lintarsia.pattern.choosing import PieceInSize
    from lintarsia.pattern.model import Pattern
    from lintarsia.pattern.work import PatternWork
    from lintarsia.planning.model import Plan
    from lintarsia.result import Result
    from lintarsia.settings import Settings

PICTURES = ("chart", "fabric", "back", "paths", "sheets", "schematic")
LAYERS = ("results", "supplies", "floats", "ends")
ENDINGS = (".svg", ".png", ".pdf")
STITCH_PIXELS, LEAST_PIXELS, MOST_PIXELS = 24, 640, 4000


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
            return _draw_nested(found, output, ending, width)
        return FOUND if found is None else _draw_pieces(*found, picture, layers, paper, output, ending, width)
    settings = settings_for(chart_file, settings_file)
    # However faulty, as long as there is a chart: a fault is often what one wants to see.
    chart = read_one(chart_file, settings, "no picture can be made of this chart", faulty=True)
    if chart is None:
        return FOUND
    with watching(f"drawing {size_of(chart)}"):
        plan = _plan(chart, settings.reckoning) if _needs_plan(picture, layers) else None
        results = _results(chart, settings) if "results" in layers else ()
        lettered, told = _lettered(chart, ending, picture), settings.terms
        drawings = _draw(chart, picture, layers, paper, plan, _stamp(chart), results, told, lettered=lettered)
    if output is None:
        if len(drawings) > 1:
            raise Trouble(f"the chart takes {len(drawings)} sheets; say where to put them with --output")
        write_stdout(drawings[0] + "\n")
        return OK
    with watching(f"writing the picture of {size_of(chart)}"):
        _save(chart, drawings, output, ending, width, sheets=picture == "sheets")
    return OK


def _draw_pieces(
    settings: "Settings",
    work: "PatternWork",
    chosen: "Sequence[PieceInSize]",
    picture: str,
    layers: tuple[str, ...],
    paper: str,
    output: str | None,
    ending: str,
    width: int | None,
) -> int:
    """A file for each piece, its name and size behind the file's own; a PDF has them all."""
    made: list[tuple[PieceInSize, list[str]]] = []
    with watching(f"drawing {count(len(chosen), 'piece')}"):
        for one in chosen:
            plan = work.plan(one.piece, one.size) if _needs_plan(picture, layers) else None
            stamp = _stamp(one.chart, work.pattern)
            lettered, told = _lettered(one.chart, ending, picture), settings.terms
            made.append((one, _draw(one.chart, picture, layers, paper, plan, stamp, terms=told, lettered=lettered)))
    if output is None:
        if len(made) > 1 or len(made[0][1]) > 1:
            raise Trouble(f"{count(sum(len(d) for _, d in made), 'picture')}; say where to put them with --output")
        write_stdout(made[0][1][0] + "\n")
    elif ending == ".pdf" or len(made) == 1:
        every = [drawing for _, drawings in made for drawing in drawings]
        _save(made[0][0].chart, every, output, ending, width, sheets=picture == "sheets")
    else:
        stem = output[: -len(ending)]
        for one, drawings in made:
            _save(one.chart, drawings, f"{stem}-{_file_name(one.name)}{output[len(stem) :]}", ending, width)
    return OK


def _draw_nested(found: "Chosen", output: str | None, ending: str, width: int | None) -> int:
    """Each piece once; a file for each, its name behind the file's own, or a page of a PDF."""
    from lintarsia.cli.nesteddrawing import nested_drawings
    from lintarsia.drawing.stamp import stamped

    with watching(f"drawing {count(len(found.pieces), 'piece')}"):
        made = [
            (name, chart, stamped(svg, _stamp(chart, found.work.pattern)))
            for name, chart, svg in nested_drawings(found)
        ]
    if output is None:
        if len(made) > 1:
            raise Trouble(f"{count(len(made), 'picture')}; say where to put them with --output")
        write_stdout(made[0][2] + "\n")
    elif ending == ".pdf" or len(made) == 1:
        _save(made[0][1], [svg for _, _, svg in made], output, ending, width)
    else:
        stem = output[: -len(ending)]
        for name, chart, svg in made:
            _save(chart, [svg], f"{stem}-{_file_name(name)}{output[len(stem) :]}", ending, width)
    return OK


def _file_name(name: str) -> str:
    """A piece's name and size as part of a file's name."""
    return "-".join(re.findall(r"[^\W_]+", name.casefold()))


def _lettered(chart: "Chart", ending: str, picture: str) -> bool:
    """Whether each stitch has its symbol; standard error hears where a page of PDF would have too many."""
    if ending != ".pdf" or picture != "chart":
        return True
    from lintarsia.drawing.export import MOST_LETTERS

    if chart.grid.width * chart.grid.height <= MOST_LETTERS:
        return True
    many = f"a page with more than {MOST_LETTERS:,} stitches has colours without symbols"
    click.echo(f"lintarsia: {many}; --as sheets has them, page by page", err=True)
    return False


def _needs_plan(picture: str, layers: tuple[str, ...]) -> bool:
    return picture in ("back", "paths") or (picture == "chart" and bool(set(layers) - {"results"}))


def _draw(
    chart: "Chart",
    picture: str,
    layers: tuple[str, ...],
    paper: str,
    plan: "Plan | None",
    stamp: str,
    results: "tuple[Result, ...]" = (),
    terms: str = "american",
    *,
    lettered: bool = True,
) -> list[str]:
    """`plan` is there where `_needs_plan`; `stamp` says what state of the chart is drawn. `lettered`: with a symbol in
    each stitch of a flat chart."""
    from lintarsia import drawing
    from lintarsia.drawing.stamp import stamped
    from lintarsia.telling.terms import Terms

    if picture == "sheets":
        made = drawing.sheets(chart, paper, stamp, Terms(terms))
    elif picture in ("fabric", "back"):
        made = [drawing.fabric_svg(chart, back=picture == "back", plan=plan)]
    elif picture == "schematic":
        made = [_schematic(chart)]
    elif picture == "paths":
        assert plan is not None
        made = [drawing.yarn_paths_svg(chart, plan)]
    else:
        svg = drawing.chart_svg(
            chart,
            results=results,
            plan=plan,
            layers=layers,
            shown=layers,
            whole=not lettered,
            background=True,
            key=True,
            terms=Terms(terms),
        )
        made = [svg]
    return [stamped(svg, stamp) for svg in made]


def _schematic(chart: "Chart") -> str:
    from lintarsia.drawing import schematic_svg
    from lintarsia.drawing.schematic import scale_for
    from lintarsia.drawing.silhouette import silhouette

    shape = silhouette(chart)
    return schematic_svg(chart.title, [shape], scale_for([shape]), background=True)


def _stamp(chart: "Chart", pattern: "Pattern | None" = None) -> str:
    from lintarsia.chart.content import chart_fingerprint, stamp_words
    from lintarsia.engine.revision import revision_of

    files = [chart.path, *([pattern.path] if pattern else [])]
    states = [found for file in files if os.path.exists(file) and (found := revision_of(file))]
    state = min(states, key=lambda found: found.clean, default=None)  # what differs from its commit is told
    version = pattern.version if pattern else ""
    return stamp_words(chart_fingerprint(chart), version, state.words if state else "")


def _plan(chart: "Chart", reckoning: "Reckoning") -> "Plan":
    from lintarsia.planning.planner import make_plan

    return make_plan(chart, reckoning)


def _results(chart: "Chart", settings: "Settings") -> "tuple[Result, ...]":
    from lintarsia.engine import check_chart

    return check_chart(chart.path, None, settings).results


def _save(
    chart: "Chart", drawings: list[str], output: str, ending: str, width: int | None, *, sheets: bool = False
) -> None:
    """One file, or several numbered behind its name: of SVG and PNG one a drawing, of PDF one for so many sheets."""
    from lintarsia.drawing.export import MOST_SHEETS, letters_drawn, to_pdf, to_pdfs, to_png

    stem = output[: -len(ending)]
    if ending == ".pdf" and sheets and len(drawings) > MOST_SHEETS:
        for number, made in enumerate(to_pdfs(drawings, MOST_SHEETS), 1):
            replace_file(f"{stem}-{number}{output[len(stem) :]}", made)
        last = f"{stem}-{number}{output[len(stem) :]}"
        click.echo(f"lintarsia: {len(drawings)} sheets, {MOST_SHEETS} to a file at most: up to {last}", err=True)
        return
    if ending == ".pdf":
        replace_file(output, to_pdf(drawings))
        return
    usual = min(MOST_PIXELS, max(LEAST_PIXELS, STITCH_PIXELS * chart.grid.width))
    for number, drawing in enumerate(drawings, 1):
        name = output if len(drawings) == 1 else f"{stem}-{number}{output[len(stem) :]}"
        replace_file(name, to_png(drawing, width or usual) if ending == ".png" else drawing.encode())
    if ending == ".png" and not letters_drawn():
        click.echo("lintarsia: this machine has no font that PNG can use, so the picture has no letters", err=True)
