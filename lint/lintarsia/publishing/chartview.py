"""What a chart's page lists to do before and after the knitting: supplies to wind, ends to weave in."""

from collections.abc import Mapping
from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.planning.model import End, Plan
from lintarsia.planreport.units import is_imperial, short_length, wound_length
from lintarsia.publishing.keyview import Key

# Above this nobody ticks boxes one by one: the winding list is gathered by colour and holder, and ends are left out.
MOST_SUPPLIES = 400


@dataclass(frozen=True, slots=True)
class WindLine:
    """One supply, or (with an empty `id`) `number` alike."""

    id: str
    key: int
    name: str
    holder: str
    length: str
    where: str
    number: int


@dataclass(frozen=True, slots=True)
class EndLine:
    supply: str
    key: int
    kind: str
    row: int
    stitch: int
    along: str
    room: str
    closes_gap: bool


def wind_lines(chart: Chart, plan: Plan, key: Key, allowance: float) -> list[WindLine]:
    imperial = is_imperial(chart)
    if len(plan.supplies) > MOST_SUPPLIES:
        return _gathered(chart, plan, key, allowance)
    joins = {end.supply: end.stitch for end in plan.ends if end.kind == "join"}
    return [
        WindLine(
            supply.id,
            key.number[supply.colour],
            key.name[supply.colour],
            supply.holder,
            wound_length(supply.metres * (1 + allowance), imperial),
            _span(supply.first_row, supply.last_row, joins[supply.id]),
            1,
        )
        for supply in plan.supplies
    ]


def _span(first: int, last: int, stitch: int) -> str:
    return (
        f"row {first} only, at stitch {stitch}" if first == last else f"row {first} at stitch {stitch}, to row {last}"
    )


def _gathered(chart: Chart, plan: Plan, key: Key, allowance: float) -> list[WindLine]:
    alike: dict[tuple[str, str], list[float]] = {}
    for supply in plan.supplies:
        alike.setdefault((supply.colour, supply.holder), []).append(supply.metres * (1 + allowance))
    lines = []
    for (symbol, holder), lengths in sorted(alike.items(), key=lambda item: (key.number[item[0][0]], max(item[1]))):
        least, most = (wound_length(f(lengths), is_imperial(chart)) for f in (min, max))
        length = most if least == most else f"{least} to {most}"
        lines.append(WindLine("", key.number[symbol], key.name[symbol], holder, length, "", len(lengths)))
    return lines


def end_lines(chart: Chart, plan: Plan, key: Key) -> list[EndLine]:
    """Two a supply, in the order of rows; none where there are more than a page should list."""
    if len(plan.supplies) > MOST_SUPPLIES:
        return []
    colours = {supply.id: supply.colour for supply in plan.supplies}
    ends = sorted(plan.ends, key=lambda end: (end.row, end.kind == "join", end.stitch))
    return [_end(chart, end, key, colours) for end in ends]


def _end(chart: Chart, end: End, key: Key, colours: Mapping[str, str]) -> EndLine:
    return EndLine(
        end.supply,
        key.number[colours[end.supply]],
        end.kind,
        end.row,
        end.stitch,
        key.name.get(end.along, end.along) if end.along else "",
        short_length(end.room_mm, is_imperial(chart)),
        end.closes_gap,
    )
