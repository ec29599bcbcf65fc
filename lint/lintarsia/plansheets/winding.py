"""The winding list: one line a supply, with a box to tick for those to wind. The longest of each ball stays on it."""

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan, Supply
from lintarsia.plansheets.materials import strong, swatch
from lintarsia.reporting.screen import Screen
from lintarsia.telling.counts import count
from lintarsia.telling.languages import phrase
from lintarsia.telling.lengths import is_imperial, wound_length
from lintarsia.telling.names import row_word

PLURALS = {"butterfly": "butterflies"}
ON_BALL = "on the ball"
MANY = 60  # above this nobody ticks boxes on a screen: the list is gathered by colour and holder


def winding_list(chart: Chart, plan: Plan, screen: Screen, *, whole: bool, allowance: float) -> list[str]:
    if not plan.supplies:
        return []
    if len(plan.supplies) > MANY and not whole:
        return _gathered(chart, plan, screen, allowance)
    lines = [strong(f"To wind, tails and {allowance:.0%} to spare included", screen)]
    wide = max(len(supply.id) for supply in plan.supplies)
    ends = {end.supply: end.stitch for end in plan.ends if end.kind == "join"}
    imperial = is_imperial(chart)
    for supply in plan.supplies:
        colour = chart.colours.get(supply.colour)
        box, holder = ("[ ]", supply.holder) if supply.wound else ("   ", ON_BALL)
        lines.append(
            f"  {box} {swatch(colour.shade if colour else None, screen)}{supply.id:<{wide}}  "
            f"{wound_length(supply.metres * (1 + allowance), imperial):>8}  {holder:<12}  "
            f"{where(chart, supply, ends[supply.id])}"
        )
    return lines


def where(chart: Chart, supply: Supply, stitch: int) -> str:
    """`row 3 at stitch 14, to row 28`."""
    word = row_word(chart)
    if supply.first_row == supply.last_row:
        return phrase("{word} {row} at stitch {stitch} only", word, row=supply.first_row, stitch=stitch)
    last = supply.last_row
    return phrase(
        "{word} {row} at stitch {stitch}, to {word} {last}", word, row=supply.first_row, stitch=stitch, last=last
    )


def _gathered(chart: Chart, plan: Plan, screen: Screen, allowance: float) -> list[str]:
    groups: dict[tuple[str, str], list[float]] = {}
    order = list(plan.colours)
    for supply in plan.supplies:
        holder = supply.holder if supply.wound else ON_BALL
        groups.setdefault((supply.colour, holder), []).append(supply.metres * (1 + allowance))
    lines = [strong(f"To wind, tails and {allowance:.0%} to spare included", screen)]
    imperial = is_imperial(chart)
    for (symbol, holder), lengths in sorted(groups.items(), key=lambda g: (order.index(g[0][0]), max(g[1]))):
        colour = chart.colours.get(symbol)
        least, most = wound_length(min(lengths), imperial), wound_length(max(lengths), imperial)
        span = most if least == most else f"{least} to {most}"
        box = "   " if holder == ON_BALL else "[ ]"
        held = f"{len(lengths)} {holder}" if holder == ON_BALL else count(len(lengths), holder, PLURALS.get(holder, ""))
        lines.append(f"  {box} {swatch(colour.shade if colour else None, screen)}{symbol}  {held:<22}  {span}")
    lines.append(f"  {len(plan.supplies):,} supplies in all; --all lists each")
    return lines
