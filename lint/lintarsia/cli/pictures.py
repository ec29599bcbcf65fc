"""The pictures that `lintarsia draw` makes of a chart, as SVG."""

import os
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from lintarsia.chart import Chart, Reckoning
    from lintarsia.pattern.model import Pattern
    from lintarsia.planning.model import Plan
    from lintarsia.result import Result
    from lintarsia.settings import Settings


def lettered(chart: "Chart", ending: str, picture: str) -> bool:
    """Whether each stitch has its symbol; standard error hears where a page of PDF would have too many."""
    if ending != ".pdf" or picture != "chart":
        return True
    from lintarsia.drawing.export import MOST_LETTERS

    if chart.grid.width * chart.grid.height <= MOST_LETTERS:
        return True
    many = f"a page with more than {MOST_LETTERS:,} stitches has colours without symbols"
    click.echo(f"lintarsia: {many}; --as sheets has them, page by page", err=True)
    return False


def needs_plan(picture: str, layers: tuple[str, ...]) -> bool:
    return picture in ("back", "paths") or (picture == "chart" and bool(set(layers) - {"results"}))


def drawn(
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
    """`plan` is there where `needs_plan`; `stamp` says what state of the chart is drawn. `lettered`: with a symbol in
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


def stamp_of(chart: "Chart", pattern: "Pattern | None" = None) -> str:
    from lintarsia.chart.content import chart_fingerprint, stamp_words
    from lintarsia.engine.revision import revision_of

    files = [chart.path, *([pattern.path] if pattern else [])]
    states = [found for file in files if os.path.exists(file) and (found := revision_of(file))]
    state = min(states, key=lambda found: found.clean, default=None)  # what differs from its commit is told
    version = pattern.version if pattern else ""
    return stamp_words(chart_fingerprint(chart), version, state.words if state else "")


def plan_of(chart: "Chart", reckoning: "Reckoning") -> "Plan":
    from lintarsia.planning.planner import make_plan

    return make_plan(chart, reckoning)


def results_of(chart: "Chart", settings: "Settings") -> "tuple[Result, ...]":
    from lintarsia.engine import check_chart

    return check_chart(chart.path, None, settings).results
