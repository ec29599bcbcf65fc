"""The small areas of a chart, with what each way to work them costs the whole plan. Costs are shown, none decreed."""

from collections.abc import Sequence
from textwrap import wrap
from typing import Any

from lintarsia.chart import Chart, Wearer
from lintarsia.planning.model import Plan
from lintarsia.planning.what_if import Costs, SmallArea, plan_costs
from lintarsia.plansheets.caution import CAUTION
from lintarsia.plansheets.materials import strong, swatch
from lintarsia.reporting.screen import Screen
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import fabric_length, is_imperial, yarn_length

LABEL = 22
MOST_WEIGHED = 100  # areas, unless all are asked for: a house value; in noise weighing so many takes half a minute
STRANDING = (
    "Costs are those of the whole plan. Teachers disagree on stranding a few stitches in intarsia: it saves ends, and "
    "makes the fabric thicker and less elastic there."
)


def choices_text(chart: Chart, plan: Plan, areas: Sequence[SmallArea], screen: Screen, left_out: int = 0) -> str:
    """A block for each small area, at most as wide as the screen, with a final newline. `left_out` were not weighed."""
    base = plan_costs(plan)
    lines = [chart.title, ""]
    if not areas:
        return "\n".join([*lines, "no area is so small that there is a choice to make"]) + "\n"
    head = f"{'':<{LABEL}}{'supplies':>10}{'ends':>7}{'yarn':>11}{'longest float':>15}{'fullest row':>13}"
    lines += [strong(head, screen), _line(chart, "as planned", base, None), ""]
    for area in areas:
        lines.append(where(chart, area, screen))
        ways = (("own supply", area.own), ("stranded behind it", area.stranded), ("duplicate stitch", area.duplicate))
        lines += [_line(chart, name, costs, base) for name, costs in ways if costs]
        lines.append("")
    if left_out:
        were = f"{left_out:,} more {'was' if left_out == 1 else 'were'} not weighed"
        said = f"these are the first {count(len(areas), 'area')} from row 1 up; {were} (--all weighs every one)"
        lines += [*wrap(said, screen.width), ""]
    if any(area.stranded for area in areas):
        lines += wrap(STRANDING, screen.width)
        if chart.wearer in (Wearer.INFANT, Wearer.CHILD):
            lines += wrap(CAUTION, screen.width)
    return "\n".join(line.rstrip() for line in lines) + "\n"


def where(chart: Chart, area: SmallArea, screen: Screen) -> str:
    """`W  rows 14–15, stitches 7–8: 3 stitches in B`."""
    colour = chart.colours.get(area.colour)
    first, last = area.rows
    rows = f"row {first}" if first == last else f"rows {first}–{last}"
    low, high = area.stitches
    stitches = f"stitch {low}" if low == high else f"stitches {low}–{high}"
    size = count(area.size, "stitch", "stitches")
    shade = swatch(colour.shade if colour else None, screen)
    return f"{shade}{strong(area.colour, screen)}  {rows}, {stitches}: {size} in {area.around}"


def _line(chart: Chart, name: str, costs: Costs, base: Costs | None) -> str:
    imperial = is_imperial(chart)
    longest = fabric_length(costs.longest_float * chart.gauge.float_stitch_mm, imperial) if costs.longest_float else "–"
    more = f" ({costs.supplies - base.supplies:+d})" if base and costs.supplies != base.supplies else ""
    return (
        f"  {name:<{LABEL - 2}}{f'{costs.supplies}{more}':>10}{costs.ends:>7}"
        f"{yarn_length(costs.metres, imperial):>11}{longest:>15}{costs.most_in_a_row:>13}"
    )


def choices_documents(areas: Sequence[SmallArea]) -> list[dict[str, Any]]:
    """The same as plain values, for the plan's JSON."""
    return [
        {
            "colour": area.colour,
            "around": area.around,
            "size": area.size,
            "rows": list(area.rows),
            "stitches": list(area.stitches),
            "own_supply": _costs(area.own),
            "stranded": _costs(area.stranded),
            "duplicate_stitch": _costs(area.duplicate),
        }
        for area in areas
    ]


def _costs(costs: Costs | None) -> dict[str, Any] | None:
    if costs is None:
        return None
    return {
        "supplies": costs.supplies,
        "ends": costs.ends,
        "metres": round(costs.metres, 2),
        "longest_float": costs.longest_float,
        "most_in_a_row": costs.most_in_a_row,
    }
