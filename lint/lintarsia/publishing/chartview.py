"""Everything a chart's page tells besides its rows and results: yarn to buy, supplies to wind, ends to weave in."""

from collections.abc import Mapping
from dataclasses import dataclass

from lintarsia.chart import Chart
from lintarsia.planning.model import End, Plan
from lintarsia.planreport.materials import mass_to_buy
from lintarsia.planreport.units import is_imperial, short_length, wound_length, yarn_length
from lintarsia.publishing.keyview import Key
from lintarsia.publishing.sewnview import sewn_stitches, sewn_totals
from lintarsia.publishing.words import count

# Above this nobody ticks boxes one by one: the winding list is gathered by colour and holder, and ends are left out.
MOST_SUPPLIES = 400


@dataclass(frozen=True, slots=True)
class ColourLine:
    key: int
    symbol: str
    name: str
    shade: str
    yarn: str
    supplies: int
    stitches: int
    sewn: int  # stitches in duplicate stitch
    length: str


@dataclass(frozen=True, slots=True)
class YarnLine:
    name: str
    keys: tuple[int, ...]
    fibre: str
    length: str
    mass: str
    to_buy: str
    short: str  # "" or what the file states where that is too little
    duplicate: str


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


def colour_lines(chart: Chart, plan: Plan, key: Key) -> list[ColourLine]:
    """The key, in its own order, then symbols that it lacks."""
    imperial, sewn = is_imperial(chart), sewn_totals(sewn_stitches(chart))
    lines = []
    for symbol, number in key.number.items():
        colour, totals = chart.colours.get(symbol), plan.colours.get(symbol)
        yarn = chart.yarns.get(colour.yarn) if colour and colour.yarn else None
        lines.append(
            ColourLine(
                number,
                symbol,
                key.name[symbol],
                colour.shade if colour else "",
                (yarn.name or yarn.id) if yarn else "",
                totals.supplies if totals else 0,
                totals.stitches if totals else 0,
                sewn.get(symbol, 0),
                yarn_length(totals.metres, imperial) if totals else "",
            )
        )
    return lines


def yarn_lines(chart: Chart, plan: Plan, key: Key) -> list[YarnLine]:
    imperial = is_imperial(chart)
    lines = []
    for need in plan.yarns:
        yarn = chart.yarns.get(need.yarn)
        short = need.to_buy is not None and need.stated is not None and need.stated + 1e-9 < need.to_buy
        lines.append(
            YarnLine(
                need.name or "no yarn named",
                tuple(key.number[symbol] for symbol in need.colours if symbol in key.number),
                yarn.fibre if yarn else "",
                yarn_length(need.buy_metres, imperial),
                mass_to_buy(chart, need, small="under 1 g"),
                "" if need.to_buy is None else count(need.to_buy, "ball"),
                f"the file has {need.stated:g}" if short else "",
                yarn_length(need.duplicate_metres, imperial) if need.duplicate_metres else "",
            )
        )
    return lines


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
