"""What a chart's page lists to do before and after the knitting, as table rows: supplies to wind, ends to weave in.

Put together here rather than in a template, like the rows of a chart: they are half of a page's small parts. Every text
that comes from the chart is escaped once, where its part is made.
"""

from collections.abc import Callable, Iterator, Sequence
from operator import attrgetter
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.drawing.svg import escape
from lintarsia.planning.model import Plan
from lintarsia.plansheets.winding import where
from lintarsia.publishing.pages.keyview import Key
from lintarsia.telling.counts import count
from lintarsia.telling.languages import marked, phrase
from lintarsia.telling.lengths import fabric_length, is_imperial, wound_length

# Above this nobody ticks boxes one by one: the winding list is gathered by colour and holder, and ends are left out.
MOST_SUPPLIES = 400
MOST_IN_TABLE = 120  # ends
KINDS = marked("join", "finish")


def winding_html(chart: Chart, plan: Plan, key: Key, chips: Sequence[str], allowance: float) -> str:
    """A `<tr>` for every supply to wind, or for every kind where there are too many to list."""
    wound = [number for number, supply in enumerate(plan.supplies) if supply.wound]
    list_them = _supplies if len(plan.supplies) <= MOST_SUPPLIES else _gathered
    return "\n".join(list_them(chart, plan, key, chips, allowance, wound))


def on_balls_html(chart: Chart, plan: Plan, key: Key, chips: Sequence[str], allowance: float) -> str:
    """A `<tr>` for every supply that is knitted from the ball itself."""
    on_balls = [number for number, supply in enumerate(plan.supplies) if not supply.wound]
    return "\n".join(_supplies(chart, plan, key, chips, allowance, on_balls))


def _supplies(
    chart: Chart, plan: Plan, key: Key, chips: Sequence[str], allowance: float, numbers: Sequence[int]
) -> Iterator[str]:
    imperial, names = is_imperial(chart), _names(key)
    for number in numbers:
        supply, join = plan.supplies[number], plan.ends[2 * number]
        known, name, holder = escape(supply.id), names[supply.colour], escape(phrase(supply.holder))
        length = wound_length(supply.metres * (1 + allowance), imperial)
        wound = f"<td>{holder}</td>" if supply.wound else ""
        yield (
            f'<tr data-supply="{known}">'
            f"{_tick(known, known, phrase('wound')) if supply.wound else ''}"
            f'<th scope="row">{known}</th><td>{chips[key.number[supply.colour]]} {name}</td>'
            f'<td class="n">{length}</td>{wound}<td>{where(chart, supply, join.stitch)}</td></tr>'
        )


def _gathered(
    chart: Chart, plan: Plan, key: Key, chips: Sequence[str], allowance: float, numbers: Sequence[int]
) -> Iterator[str]:
    """Supplies of one colour on like holders together."""
    imperial, names = is_imperial(chart), _names(key)
    alike: dict[tuple[str, str], list[float]] = {}
    for at in numbers:
        supply = plan.supplies[at]
        alike.setdefault((supply.colour, supply.holder), []).append(supply.metres * (1 + allowance))
    kinds = sorted(alike.items(), key=lambda item: (key.number[item[0][0]], max(item[1])))
    for number, ((symbol, holder), lengths) in enumerate(kinds, 1):
        least, most = wound_length(min(lengths), imperial), wound_length(max(lengths), imperial)
        length = most if least == most else phrase("{least} to {most}", least=least, most=most)
        yield (
            f"<tr>{_tick(str(number), names[symbol], phrase('wound'))}"
            f'<th scope="row">{count(len(lengths), "supply", "supplies")}</th>'
            f"<td>{chips[key.number[symbol]]} {names[symbol]}</td>"
            f'<td class="n">{length}</td><td>{escape(phrase(holder))}</td><td></td></tr>'
        )


def ends_html(chart: Chart, plan: Plan, key: Key, chips: Sequence[str]) -> str:
    """A `<tr>` for every end to weave in, two a supply, in the order of rows, or an `<li>` where there are many; ""
    where a page should not list them."""
    if len(plan.supplies) > MOST_SUPPLIES:
        return ""
    line = _end_in_table if ends_in_table(plan) else _end_in_words
    return "\n".join(_ends(chart, plan, key, chips, line))


def ends_in_table(plan: Plan) -> bool:
    """Whether ends are listed in a table: ten small elements a line are too many where there are hundreds."""
    return len(plan.ends) <= MOST_IN_TABLE


class _End(NamedTuple):
    """What is said of an end, as HTML."""

    tick: str  # what the page remembers it by
    supply: str
    kind: str  # "join" or "finish"
    chip: str
    row: int
    stitch: int
    what: str
    along: str
    room: str


def _ends(
    chart: Chart, plan: Plan, key: Key, chips: Sequence[str], line: Callable[[_End], str]
) -> Iterator[str]:  # fmt: skip
    imperial = is_imperial(chart)
    supplies = {supply.id: (escape(supply.id), chips[key.number[supply.colour]]) for supply in plan.supplies}
    edges = {symbol: phrase("the edge with {colour}", colour=name) for symbol, name in _names(key).items()}
    edges[""] = phrase("the edge of the piece")
    for end in sorted(plan.ends, key=attrgetter("row", "kind", "stitch")):  # in a row, finishes come first
        (supply, drawn), row = supplies[end.supply], end.row
        what = phrase("joined") if end.kind == "join" else phrase("finishes")
        what += phrase(", closes the gap") if end.closes_gap else ""
        room = fabric_length(end.room_mm, imperial)
        yield line(_End(f"{supply}-{end.kind}", supply, end.kind, drawn, row, end.stitch, what, edges[end.along], room))


def _end_in_table(end: _End) -> str:
    return (
        f"<tr>{_tick(end.tick, f'{end.supply}, {phrase(end.kind)}', phrase('woven in'))}"
        f'<th scope="row">{end.chip} {end.supply}</th><td class="n"><a href="#row-{end.row}">{end.row}</a></td>'
        f'<td class="n">{end.stitch}</td><td>{end.what}</td><td>{end.along}</td><td class="n">{end.room}</td></tr>'
    )


def _end_in_words(end: _End) -> str:
    said = phrase("row {row}, stitch {stitch}", row=end.row, stitch=end.stitch)
    place = f'<a href="#row-{end.row}-s{end.stitch}">{said}</a>'
    return (
        f'<li><label><input type="checkbox" data-tick="{end.tick}"> <b>{end.supply}</b></label> {end.what}, '
        f"{place}; {phrase('along {edge}', edge=end.along)}, {end.room}</li>"
    )


def _names(key: Key) -> dict[str, str]:
    return {symbol: escape(name) for symbol, name in key.name.items()}


def _tick(name: str, words: str, done: str) -> str:
    """A box to tick off a line; `name` is what the page remembers it by."""
    return (
        f'<td class="tick"><label><input type="checkbox" data-tick="{name}" aria-label="{done}: {words}"></label></td>'
    )
