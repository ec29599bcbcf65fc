"""Charts, plans and reports in notebooks, as SVG and plain HTML: no scripts, and every word of a file is escaped."""

from collections.abc import Iterator, Sequence
from html import escape
from itertools import count as numbers
from weakref import WeakKeyDictionary

from lintarsia.chart import Chart
from lintarsia.ground.notebooks import show_by
from lintarsia.planning.model import Plan
from lintarsia.reporting.screen import PLAIN
from lintarsia.reporting.text import summary
from lintarsia.result import Report, Result
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import yarn_length

MOST = 200  # lines of a table: more would bury a notebook
_charts: "WeakKeyDictionary[Plan, Chart]" = WeakKeyDictionary()
_numbers = numbers(1)


def begin() -> None:
    """From now on, notebooks show charts, plans and reports."""
    show_by(Chart, chart_svg)
    show_by(Plan, plan_html)
    show_by(Report, report_html)


def remember(plan: Plan, chart: Chart) -> None:
    """Which chart a plan is of, so that its yarns can be drawn and named."""
    _charts[plan] = chart


def chart_svg(chart: Chart) -> str:
    """The chart with its key."""
    from lintarsia import drawing

    return drawing.chart_svg(chart, background=True, key=True, prefix=_prefix())


def plan_html(plan: Plan) -> str:
    """The plan in a sentence, the paths of its yarns, and a line for each."""
    chart, totals = _charts.get(plan), plan.totals
    imperial = bool(chart and chart.gauge.over.imperial)
    needs = count(totals.supplies, "supply", "supplies")
    yarn = yarn_length(totals.metres, imperial)
    head = (
        f"{needs}, {count(totals.ends, 'end')}, at most {totals.most_in_a_row} in a row; {yarn}, allowance not included"
    )
    picture = ""
    if chart is not None:
        from lintarsia import drawing

        picture = drawing.yarn_paths_svg(chart, plan, prefix=_prefix())
    names = {symbol: colour.name for symbol, colour in chart.colours.items()} if chart else {}
    lines = [
        (s.id, names.get(s.colour, s.colour), s.first_row, s.last_row, s.stitches, length, s.holder)
        for s in plan.supplies[:MOST]
        for length in [yarn_length(s.metres, imperial)]
    ]
    heads = ("supply", "colour", "first row", "last row", "stitches", "yarn", "wind as")
    return f"<p>{escape(head)}</p>{picture}{_table(heads, lines, len(plan.supplies) - len(lines))}"


def report_html(report: Report) -> str:
    """What the command ends with, and a line for each result that stands."""
    standing = [result for result in report.results if not result.suppressed]
    lines = [_line(result) for result in standing[:MOST]]
    table = _table(("level", "where", "what", "mend", "rule"), lines, len(standing) - len(lines)) if lines else ""
    return f"<p>{escape(summary(report, PLAIN))}</p>{table}"


def _line(result: Result) -> tuple[object, ...]:
    place = f"{result.file}:{result.region.line}" if result.region.line else result.file
    return str(result.level), place, result.message, result.remedy, result.rule


def _table(heads: tuple[str, ...], lines: Sequence[tuple[object, ...]], left_out: int) -> str:
    more = f"<p>and {left_out:,} more</p>" if left_out > 0 else ""
    head = "".join(f"<th>{escape(word)}</th>" for word in heads)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{''.join(_rows(lines))}</tbody></table>{more}"


def _rows(lines: Sequence[tuple[object, ...]]) -> Iterator[str]:
    for line in lines:
        yield f"<tr>{''.join(f'<td>{escape(str(cell))}</td>' for cell in line)}</tr>"


def _prefix() -> str:
    """Ids must be unique in a notebook, which shows many drawings in one page."""
    return f"lx{next(_numbers)}-"
