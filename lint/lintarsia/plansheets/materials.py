"""The materials list: each colour with what it takes, each yarn with what to buy."""

from lintarsia.chart import Chart
from lintarsia.chart.measure import GRAMS_PER
from lintarsia.planning.model import Plan, YarnNeed
from lintarsia.reporting.screen import Screen
from lintarsia.telling.counts import count
from lintarsia.telling.languages import in_figures
from lintarsia.telling.lengths import is_imperial, yarn_length


def swatch(shade: str | None, screen: Screen) -> str:
    """Two blanks in the shade, where the screen can show it; else nothing. A blank follows."""
    if not screen.true_colour or not shade:
        return ""
    red, green, blue = (int(shade[i : i + 2], 16) for i in (1, 3, 5))
    return f"\x1b[48;2;{red};{green};{blue}m  \x1b[0m "


def strong(text: str, screen: Screen) -> str:
    """A heading, in bold where the screen has it."""
    return f"\x1b[1m{text}\x1b[0m" if screen.colour else text


def clip(text: str, width: int) -> str:
    """`text` in exactly `width` columns."""
    return text.ljust(width) if len(text) <= width else text[: width - 1] + "…"


def materials(chart: Chart, plan: Plan, screen: Screen, allowance: float, *, buying: bool = True) -> list[str]:
    """The colours; then, with `buying`, the yarns. A chart with a repeat is part of something larger: what to buy for
    it as drawn would mislead whoever buys, so that list is left out."""
    imperial = is_imperial(chart)
    lines = [strong("Colours", screen)]
    for symbol, totals in plan.colours.items():
        colour = chart.colours.get(symbol)
        lines.append(
            f"  {swatch(colour.shade if colour else None, screen)}{symbol}  "
            f"{clip(colour.name if colour else 'not in the key', 26)} "
            f"{count(totals.supplies, 'supply  ', 'supplies'):>14}  "
            f"{count(totals.stitches, 'stitch  ', 'stitches'):>16}  {yarn_length(totals.metres, imperial):>9}"
        )
    needs = [need for need in plan.yarns if need.yarn]
    if needs and buying and chart.repeat is None:
        lines += ["", strong(f"To buy, with {allowance:.0%} to spare", screen)]
        for need in needs:
            lines += _need(chart, need, imperial)
    return lines


def mass_to_buy(chart: Chart, need: YarnNeed, *, small: str = "") -> str:
    """What the metres to buy weigh, in the unit that the file weighs its balls in. `small` is said instead of less than
    a gram."""
    mass = chart.yarns[need.yarn].mass if need.yarn in chart.yarns else None
    if need.grams is None or mass is None:
        return ""
    grams = need.grams * need.buy_metres / need.metres
    if small and grams < 1:
        return small
    if mass.unit == "g":
        return in_figures(f"{grams:,.0f}" if grams >= 9.95 else f"{grams:.1f}") + " g"
    return in_figures(f"{grams / GRAMS_PER[mass.unit]:,.1f}") + f" {mass.unit}"


def _need(chart: Chart, need: YarnNeed, imperial: bool) -> list[str]:
    buy = f"{yarn_length(need.metres, imperial)} + {yarn_length(need.allowance_metres, imperial)}"
    balls = "" if need.to_buy is None else count(need.to_buy, "ball")
    colours = " ".join(need.colours) if len(need.colours) <= 8 else count(len(need.colours), "colour")
    name = clip(need.name, 34 - max(6, len(colours)))
    lines = [f"  {name} {colours:<6} {buy:>19}  {mass_to_buy(chart, need):>7}  {balls:>8}"]
    notes = []
    if need.to_buy is not None and need.stated is not None and need.stated + 1e-9 < need.to_buy:
        notes.append(f"the file has {need.stated:g}")
    if need.duplicate_metres:
        notes.append(f"{yarn_length(need.duplicate_metres, imperial)} of it for duplicate stitch")
    if notes:
        lines.append("    " + "; ".join(notes))
    return lines
