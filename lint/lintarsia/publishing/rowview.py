"""The rows of a chart as its page tells them: the stitches run by run, and how the yarns hang.

A page has thousands of these small parts, so they are put together here rather than in a template; every text that
comes from the chart is escaped once, where its part is made.
"""

from collections.abc import Iterator, Mapping
from functools import cache

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.publishing.drawing.svg import escape
from lintarsia.publishing.keyview import Key, chip
from lintarsia.publishing.words import side_words

# Above this, a page that drew a key beside every run would weigh megabytes: runs are then told in symbols alone.
MOST_DRAWN_RUNS = 12_000


def rows_html(chart: Chart, plan: Plan, key: Key) -> str:
    """A `<tr>` for every row, from row 1 up; ids are `row-N`."""
    drawn = len(plan.runs) <= MOST_DRAWN_RUNS
    tails = {symbol: _tail(key, symbol, drawn) for symbol in key.number}
    names = {supply.id: escape(supply.id) for supply in plan.supplies}
    hang = _Hanging(key.hang, names, drawn)
    return "\n".join(_row(chart, plan, row, tails, hang) for row in plan.rows)


def _tail(key: Key, symbol: str, drawn: bool) -> str:
    """What stands after the number of stitches of a run."""
    if drawn:
        return f"</b>{chip(key.number[symbol])}<span>{escape(key.name[symbol])}</span>"
    return f"</b> <span>{escape(symbol)}</span>"


class _Hanging:
    """Yarns as list items, made once for each way that a yarn appears."""

    def __init__(self, hang: Mapping[str, int], names: Mapping[str, str], drawn: bool) -> None:
        self.names = names
        self._drawn = drawn
        self._hang = hang
        self.item = cache(self._item)

    def _item(self, supply: str, new: bool, last: bool) -> str:
        kinds = " ".join(word for word, is_so in (("new", new), ("last", last)) if is_so)
        marked = f' class="{kinds}"' if kinds else ""
        notes = (" <i>new</i>" if new else "") + (" <i>last row</i>" if last else "")
        if not self._drawn:
            return f'<li{marked} data-supply="{self.names[supply]}"><b>{self.names[supply]}</b>{notes}</li>'
        return (
            f'<li{marked} data-supply="{self.names[supply]}">'
            f'<svg class="hang" viewBox="0 0 52 92" aria-hidden="true"><use href="#hang-{self._hang[supply]}"/></svg>'
            f"<b>{self.names[supply]}</b>{notes}</li>"
        )


def _kind(element: str, kind: str, content: str) -> str:
    """An element of a class, or nothing where there is no content."""
    return f'<{element} class="{kind}">{content}</{element}>' if content else ""


def _row(chart: Chart, plan: Plan, row: RowPlan, tails: Mapping[str, str], hang: _Hanging) -> str:
    leftward = row.direction == "right-to-left"
    side = side_words(chart, row.row)
    arrow, words = ("←", "right to left") if leftward else ("→", "left to right")
    joins, finishes = set(row.joins), set(row.finishes)
    runs = "".join(_runs(plan, row, tails, hang.names)) or "no stitches"
    yarns = "".join([hang.item(name, name in joins, name in finishes) for name in row.line_up])
    crossings = f"{row.crossings} to cross" if row.crossings else ""
    rests = ", ".join(hang.names[name] for name in row.waiting)
    return (
        f'<tr id="row-{row.row}" class="{"rtl" if leftward else "ltr"}">'
        f'<th scope="row"><a href="#row-{row.row}">{row.row}</a> {_kind("span", "side", side)}'
        f' <span class="way">{arrow}<span class="aside"> {words}</span></span></th>'
        f'<td class="runs">{runs}</td>'
        f"<td>{_kind('ol', 'hangs', yarns) or '–'}{_kind('p', 'rests', rests and f'Resting: {rests}')}</td>"
        f'<td class="n">{row.interlocks or "–"}{_kind("span", "crossings", crossings)}</td></tr>'
    )


def _runs(plan: Plan, row: RowPlan, tails: Mapping[str, str], names: Mapping[str, str]) -> Iterator[str]:
    """Each run with the yarn that works it."""
    for number, supply in zip(row.runs, row.by, strict=True):
        run = plan.runs[number]
        yield f'<span class="run"><b>{run.stitches}{tails[run.colour]} <em>{names[supply]}</em></span> '
