"""The rows of a chart as its page tells them: shaping, the stitches run by run, and the yarns in the order of use.

Yarns are listed and not drawn here: a list in the order of use reads like the runs beside it and can be wrapped, while
a drawing of what hangs says something false as soon as it is cut in two. They are drawn on the card of one row.

A page has thousands of these small parts, so they are put together here rather than in a template; every text that
comes from the chart is escaped once, where its part is made.
"""

from collections.abc import Mapping, Sequence
from itertools import chain

from lintarsia.chart import Chart
from lintarsia.chart.sides import Sides
from lintarsia.drawing.svg import escape
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.publishing.pages.keyview import Key, chip
from lintarsia.publishing.pages.steps import Step, steps
from lintarsia.publishing.pages.words import side_words
from lintarsia.telling.terms import Terms
from lintarsia.written.kindwords import kind_words
from lintarsia.written.motif import motif

# Above this, a page that drew a key beside every run would weigh megabytes: runs are then told in symbols alone.
MOST_DRAWN_RUNS = 12_000
LONG = 8  # runs that the card of a row can tell with their names before it is full


def rows_html(chart: Chart, plan: Plan, key: Key, terms: Terms = Terms.AMERICAN) -> str:
    """A `<tr>` for every row, from row 1 up, and for each side's part of one where the work is parted, in the order of
    working; ids are `row-N`, and `row-N-left` or `row-N-right` for the part that is worked later.

    Rows that say what the one before says are marked, and the first says how far that goes: on paper they are one line.
    """
    drawn = len(plan.runs) <= MOST_DRAWN_RUNS
    names = {supply.id: escape(supply.id) for supply in plan.supplies}
    run_by = {supply.id: _run(key, supply.colour, names[supply.id], drawn) for supply in plan.supplies}
    hang = _Hanging(key.hang, names, drawn)
    ways = {direction: _Way(chart, direction) for direction in ("right-to-left", "left-to-right")}
    by = chain.from_iterable([row.by for row in plan.rows])
    runs = [f'<span class="run"><b>{run.stitches}{run_by[supply]}' for run, supply in zip(plan.runs, by, strict=True)]
    listed = steps(chart, plan, terms)
    worked = _stitches(chart, listed)
    told = [_cells(step, runs, hang, worked.get(step.name, "")) for step in listed]
    last = _last_alike(told, listed)
    again = _Again(plan)
    return "\n".join(
        [
            _row(step, ways[step.row.direction], cells, last[i], again(step.row), _goes_on(listed, last, i))
            for i, (step, cells) in enumerate(zip(listed, told, strict=True))
        ]
    )


def _last_alike(told: Sequence[str], listed: Sequence[Step]) -> list[int]:
    """For each step the last row of the stretch of those that say the same.

    Shaped rows stand alone: `5–8: decrease 1` would leave open how often. So does each side of an opening.
    """
    last = [step.row.row for step in listed]
    for i in reversed(range(len(told) - 1)):
        step, after = listed[i], listed[i + 1]
        if told[i] == told[i + 1] and not step.shaped and step.half is after.half and step.row.row + 1 == after.row.row:
            last[i] = last[i + 1]
    return last


def _goes_on(listed: Sequence[Step], last: Sequence[int], at: int) -> bool:
    """Whether a step is one of the stretch before it; the other side of the same row never is."""
    return at > 0 and last[at - 1] == last[at] and listed[at - 1].row.row + 1 == listed[at].row.row


def _row(step: Step, way: "_Way", cells: str, last: int, repeat: str, again: bool) -> str:
    number, half = step.row.row, ""
    first_of = f' data-to="{last}"' if last > number and not again else ""
    if step.half and step.columns:
        half = f' data-half="{step.half}" data-cells="{step.columns[0]} {step.columns[1]}"'
    named = f" {_kind('span', 'half', f'{step.half}-hand side')}" if step.half else ""
    return (
        f'<tr id="row-{step.name}" class="{way.kind}{" same" if again else ""}" data-way="{way.to}"{half}{repeat}>'
        '<th scope="row">'
        f'<a href="#row-{step.name}"{first_of}>{number}</a>{way.after}{named}</th>{cells}</tr>'
    )


def _run(key: Key, symbol: str, supply: str, drawn: bool) -> str:
    """A run that a supply works, from its number of stitches on: alike in all runs of the supply."""
    colour = f"{chip(key.number[symbol])}<span>{escape(key.name[symbol])}" if drawn else f" <span>{escape(symbol)}"
    return f"</b>{colour}</span> <em>{supply}</em></span> "


class _Hanging:
    """Yarns as list items, the same in most rows; `data-hang` names the yarn's drawing."""

    def __init__(self, hang: Mapping[str, int], names: Mapping[str, str], drawn: bool) -> None:
        self.names = names
        drawing = {supply: f' data-hang="{hang[supply]}"' if drawn else "" for supply in names}
        self._yarn = {supply: f"{drawing[supply]}><b>{name}</b>" for supply, name in names.items()}
        self._usual = {supply: f"<li{yarn}</li>" for supply, yarn in self._yarn.items()}

    def items(self, row: RowPlan) -> str:
        """The yarns that a row works with, in the order of use."""
        joins, finishes = row.joins, row.finishes
        if not joins and not finishes:
            return "".join([self._usual[supply] for supply in row.line_up])
        return "".join([self._item(supply, supply in joins, supply in finishes) for supply in row.line_up])

    def _item(self, supply: str, new: bool, last: bool) -> str:
        kind, notes = _HANGS[new, last]
        return f"<li{kind}{self._yarn[supply]}{notes}</li>"


# Attributes and notes of a yarn, by whether it is new in a row and whether the row is its last.
_HANGS = {
    (False, False): ("", ""),
    (True, False): (' class="new" data-when="new"', " <i>new</i>"),
    (False, True): (' class="last" data-when="last"', " <i>last row</i>"),
    (True, True): (' class="new last" data-when="new last"', " <i>new</i> <i>last row</i>"),
}


class _Again:
    """`data-again`: a long row that is one stretch over and over, worked by the same yarns, as `wide times`."""

    def __init__(self, plan: Plan) -> None:
        self._runs = plan.runs
        self._known: dict[tuple[tuple[int, ...], tuple[str, ...]], str] = {}

    def __call__(self, row: RowPlan) -> str:
        if len(row.runs) <= LONG:
            return ""
        worked = tuple([self._runs[run].stitches for run in row.runs])
        told = self._known.get((worked, row.by))
        if told is None:
            self._known[worked, row.by] = told = self._told(worked, row.by)
        return told

    @staticmethod
    def _told(worked: Sequence[int], by: Sequence[str]) -> str:
        stitches = [supply for supply, number in zip(by, worked, strict=True) for _ in range(number)]
        found = motif(stitches)
        return f' data-again="{found} {len(stitches) // found}"' if found else ""


class _Way:
    """What stands around a row's number, alike in all rows of one direction: they show one side, or are all rounds."""

    def __init__(self, chart: Chart, direction: str) -> None:
        leftward = direction == "right-to-left"
        arrow, words = ("←", "right to left") if leftward else ("→", "left to right")
        rows = next((row for row in (1, 2) if chart.leftward(row) is leftward), 1)
        self.kind, self.to = ("rtl", "left") if leftward else ("ltr", "right")
        self.after = (
            f" {_kind('span', 'side', side_words(chart, rows))}"
            f' <span class="way">{arrow}<span class="aside"> {words}</span></span>'
        )


def _kind(element: str, kind: str, content: str) -> str:
    """An element that tells one thing of a row, or nothing where there is no content."""
    return f'<{element} class="{kind}" data-told="{kind}">{content}</{element}>' if content else ""


def _stitches(chart: Chart, listed: Sequence[Step]) -> dict[str, str]:
    """By step, knit and purl in words where they are not those of stocking stitch."""
    if chart.texture is None:
        return {}
    sides = Sides(chart)
    pieces = {(piece.row, piece.half): piece for piece in sides.in_order}
    return {step.name: kind_words(chart, pieces[step.row.row, step.half]) for step in listed}


def _cells(step: Step, runs: Sequence[str], hang: _Hanging, stitches: str = "") -> str:
    """What a row says, without its number and its way. In working order, so it holds for rows in either direction."""
    row = step.row
    worked = "".join([runs[run] for run in row.runs]) or ("" if step.shaped else "no stitches")
    yarns = f'<ol class="hangs" data-told="yarns">{hang.items(row)}</ol>' if row.line_up else "–"
    aside = [f"Resting: {', '.join([hang.names[name] for name in row.waiting])}"] if row.waiting else []
    if step.held:
        aside.append(f"Left hanging on the other side: {', '.join([hang.names[name] for name in step.held])}")
    if aside:
        yarns += f'<p class="rests" data-told="rests">{". ".join(aside)}</p>'
    crossings = (
        f'<span class="crossings" data-told="crossings">{row.crossings} to cross</span>' if row.crossings else ""
    )
    said = "; ".join(filter(None, [step.shaped, stitches and f"knit and purl {stitches}"]))
    hanging = f" <small>of {row.hangs} hanging</small>" if row.hangs > row.needs else ""
    return (
        f'<td class="runs" data-told="runs">{_kind("p", "shaped", said)}{worked}</td><td>{yarns}</td>'
        f'<td class="n" data-told="count">{row.needs or "–"}{hanging}</td>'
        f'<td class="n">{row.interlocks or "–"}{crossings}</td>'
    )
