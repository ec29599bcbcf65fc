"""One chart planned under several settings, side by side."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from lintarsia.chart import Chart, Limits
from lintarsia.chart.measure import StitchCount, parse_reach
from lintarsia.ground.values import dataclass
from lintarsia.planning.model import Plan
from lintarsia.plansheets.materials import clip, strong
from lintarsia.reporting.screen import Screen
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.lengths import fabric_length, is_imperial, yarn_length
from lintarsia.telling.names import row_word

SETTINGS = ("supplies", "strand", "carry", "idle", "float")
REACHES = ("carry", "float")  # as a length, or in stitches


@dataclass(frozen=True)
class Try:
    """A column: its name ("as stated" or "strand 3"), what it changes, and the plan that comes of it."""

    name: str
    changes: Mapping[str, int | str]
    plan: Plan
    longest_float: int
    float_mm: float


def parse_try(text: str) -> Limits:
    """`strand=3` or `strand=3,carry=5` as limits. Raises ValueError that says what was expected."""
    limits = Limits()
    for part in text.split(","):
        name, equals, value = (piece.strip() for piece in part.partition("="))
        if name not in SETTINGS:
            known = did_you_mean(name, SETTINGS) or f"; there are {', '.join(SETTINGS)}"
            raise ValueError(f"{name!r} is no limit{known}")
        if not equals or not value:
            raise ValueError(f"{part.strip()!r} gives no value; write {name}=3")
        if name in REACHES:
            reaches: dict[str, Any] = {name: StitchCount(int(value)) if _whole(value) else parse_reach(value)}
            limits = replace(limits, **reaches)
        elif not _whole(value):
            raise ValueError(f"{name} takes a whole number of 0 or more; found {value!r}")
        elif name == "supplies" and not int(value):
            raise ValueError("supplies takes a whole number of 1 or more; found '0'")
        else:
            counts: dict[str, Any] = {name: int(value)}
            limits = replace(limits, **counts)
    return limits


def _whole(value: str) -> bool:
    return value.isascii() and value.isdigit() and len(value) < 7


def stated_changes(limits: Limits) -> dict[str, int | str]:
    """The limits that are set, by name, as one writes them."""
    found = {name: getattr(limits, name) for name in SETTINGS if getattr(limits, name) is not None}
    if isinstance(found.get("carry"), StitchCount):
        found["carry"] = found["carry"].count
    return {name: value if isinstance(value, int) else str(value) for name, value in found.items()}


def try_limits(chart: Chart, tries: Sequence[Limits], plan: Callable[[Chart], Plan]) -> list[Try]:
    """The chart as it stands, then once for each of `tries`; `plan` makes a plan of a chart."""
    columns = [_try(chart, "as stated", {}, plan(chart))]
    for limits in tries:
        changes = stated_changes(limits)
        own = replace(chart.limits, **{name: getattr(limits, name) for name in changes})
        name = ", ".join(f"{key} {value}" for key, value in changes.items())
        columns.append(_try(chart, name, changes, plan(replace(chart, limits=own))))
    return columns


def _try(chart: Chart, name: str, changes: Mapping[str, int | str], plan: Plan) -> Try:
    longest = plan.threads.longest_float
    return Try(name, changes, plan, longest, longest * chart.gauge.float_stitch_mm)


def compare_text(chart: Chart, columns: Sequence[Try], screen: Screen) -> str:
    """A table with a column for each try; as many tables below each other as the width asks for."""
    imperial = is_imperial(chart)
    label, wide = 20, 14
    first, rest = columns[0], list(columns[1:])
    fits = max(1, (screen.width - label) // wide - 1)
    lines = [chart.title, ""]
    for start in range(0, len(rest), fits):
        shown = [first, *rest[start : start + fits]]
        lines += [strong(" " * label + line, screen) for line in _heads([c.name for c in shown], wide)]
        for name, values in _figures(chart, shown, imperial):
            lines.append(f"{name:<{label}}" + "".join(value.rjust(wide) for value in values))
        lines.append("")
    return "\n".join(line.rstrip() for line in lines[:-1]) + "\n"


def _heads(names: Sequence[str], wide: int) -> list[str]:
    """The columns' names, each limit on a line of its own, the last ones level."""
    stacks = [name.split(", ") for name in names]
    deep = max(map(len, stacks))
    stacks = [[""] * (deep - len(stack)) + stack for stack in stacks]
    return ["".join(clip(part, wide - 1).strip().rjust(wide) for part in level) for level in zip(*stacks, strict=True)]


def _figures(chart: Chart, shown: Sequence[Try], imperial: bool) -> list[tuple[str, list[str]]]:
    totals = [column.plan.totals for column in shown]
    figures = [
        ("supplies", [f"{t.supplies:,}" for t in totals]),
        ("ends to weave in", [f"{t.ends:,}" for t in totals]),
        (f"fullest {row_word(chart)}", [f"{t.most_in_a_row}" for t in totals]),
        ("most hanging", [f"{t.most_hanging}" for t in totals]),
        ("longest float", [fabric_length(c.float_mm, imperial) if c.longest_float else "–" for c in shown]),
        ("stitches carried", [f"{t.carried:,}" for t in totals]),
        (f"{row_word(chart)}s waited", [f"{t.idle:,}" for t in totals]),
        ("yarn", [yarn_length(t.metres, imperial) for t in totals]),
    ]
    for symbol in shown[0].plan.colours:
        colour = chart.colours.get(symbol)
        name = clip(f"  {symbol} {colour.name if colour else ''}", 19).rstrip()
        figures.append((name, [f"{c.plan.colours[symbol].supplies:,}" for c in shown]))
    return figures


def compare_documents(columns: Sequence[Try]) -> list[dict[str, Any]]:
    """Each try but the first as plain values, for the plan's JSON."""
    return [
        {
            "settings": dict(column.changes),
            "totals": {
                "continued": column.plan.totals.continued,
                "supplies": column.plan.totals.supplies,
                "ends": column.plan.totals.ends,
                "carried": column.plan.totals.carried,
                "idle": column.plan.totals.idle,
                "stitches": column.plan.totals.stitches,
                "metres": round(column.plan.totals.metres, 2),
                "most_in_a_row": column.plan.totals.most_in_a_row,
                "most_hanging": column.plan.totals.most_hanging,
            },
            "longest_float": column.longest_float,
            "longest_float_mm": round(column.float_mm, 2),
            "colours": {symbol: colour.supplies for symbol, colour in column.plan.colours.items()},
        }
        for column in columns[1:]
    ]
