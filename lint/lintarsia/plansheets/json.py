"""A plan as JSON, `lintarsia/plan/1`. Metres have two decimals; nothing inside is rounded."""

import json
from collections.abc import Sequence
from typing import Any

from lintarsia.chart import Begins, Chart, Ends, Yarn
from lintarsia.chart.content import chart_fingerprint
from lintarsia.chart.sides import Sides
from lintarsia.planning.edgework import EdgeRun
from lintarsia.planning.model import End, PartPlan, Plan, RowPlan, Supply, YarnNeed
from lintarsia.planning.rates import loop_mm
from lintarsia.planning.yarn import tex

SCHEMA = "lintarsia/plan/1"


def plan_json(chart: Chart, plan: Plan, **more: object) -> str:
    """The whole plan as a JSON text with a final newline; `more` are further top-level keys.

    A supply, a row, a yarn to a line: a photograph has tens of thousands, and so a difference between two plans can be
    read as well.
    """
    parts = [f"  {_line(key)}: {_value(value)}" for key, value in (plan_document(chart, plan) | more).items()]
    return "{\n" + ",\n".join(parts) + "\n}\n"


def _value(value: object) -> str:
    if isinstance(value, list) and value:
        return "[\n" + ",\n".join(f"    {_line(item)}" for item in value) + "\n  ]"
    if isinstance(value, dict) and any(isinstance(inner, dict) for inner in value.values()):
        return "{\n" + ",\n".join(f"    {_line(key)}: {_line(inner)}" for key, inner in value.items()) + "\n  }"
    return _line(value)


_line = json.JSONEncoder(ensure_ascii=False).encode  # made once: a photograph has tens of thousands of lines


def plan_document(chart: Chart, plan: Plan) -> dict[str, Any]:
    """The plan as plain values, in the order of the contract."""
    bounds, totals = plan.bounds, plan.totals
    return (
        {
            "schema": SCHEMA,
            "chart": plan.chart,
            "title": chart.title,
            "worked": plan.worked.value,
            "technique": plan.technique.value,
            "fingerprint": chart_fingerprint(chart),
            "limits": {
                "supplies": bounds.supplies,
                "strand": bounds.strand,
                "carry": bounds.carry,
                "idle": bounds.idle,
                "float_mm": round(bounds.float_mm, 2),
                "float_stitches": bounds.float_stitches,
                "caught": chart.caught_stitches,
            },
            "totals": {
                "continued": totals.continued,
                "supplies": totals.supplies,
                "ends": totals.ends,
                "carried": totals.carried,
                "idle": totals.idle,
                "stitches": totals.stitches,
                "metres": round(totals.metres, 2),
                "most_in_a_row": totals.most_in_a_row,
                "most_hanging": totals.most_hanging,
            },
            "colours": {
                symbol: {
                    "supplies": colour.supplies,
                    "stitches": colour.stitches,
                    "metres": round(colour.metres, 2),
                    "grams": _rounded(colour.grams, 1),
                    "balls": _rounded(colour.balls, 2),
                }
                for symbol, colour in plan.colours.items()
            },
            "floats": _floats(chart, plan),
            "reckoned": {
                "loop_mm": round(loop_mm(chart.gauge, chart.technique), 2),
                "from": "measured loop" if chart.gauge.loop else "gauge",
            }
            | ({} if chart.gauge.share == 1 else {"times_plain": chart.gauge.share}),
            "cast_on": [_edge(edge) for edge in plan.cast_on],
            "bind_off": [_edge(edge) for edge in plan.bind_off],
            "yarns": [_yarn(need, chart.yarns.get(need.yarn)) for need in plan.yarns],
            "supplies": [_supply(supply, plan.ends[2 * k : 2 * k + 2]) for k, supply in enumerate(plan.supplies)],
            "rows": [_row(row) for row in plan.rows],
        }
        | (_openings(chart) if chart.divide else {})
        | _unusual(chart)
    )


def _unusual(chart: Chart) -> dict[str, Any]:
    """What most charts have no need to say: where the first stitches come from, what becomes of the last, and that all
    figures are for a repeat worked once."""
    begins, ends = chart.begins.value, chart.ends.value
    said = {"begins": begins if chart.begins is not Begins.CAST_ON else None, "as_drawn": chart.repeat is not None}
    said["ends"] = ends if chart.ends is not Ends.BOUND_OFF else None
    return {key: value for key, value in said.items() if value}


def _rounded(value: float | None, decimals: int) -> float | None:
    return None if value is None else round(value, decimals)


def _floats(chart: Chart, plan: Plan) -> dict[str, Any]:
    lengths = plan.threads.float_lengths
    return {
        "count": len(lengths),
        "longest": plan.threads.longest_float,
        "longest_mm": round(plan.threads.longest_float * chart.gauge.float_stitch_mm, 2),
        "over_limit": int((lengths > plan.bounds.float_stitches).sum()),
    }


def _yarn(need: YarnNeed, yarn: Yarn | None) -> dict[str, Any]:
    return {
        "yarn": need.yarn or None,
        "name": need.name,
        "colours": list(need.colours),
        "metres": round(need.metres, 2),
        "duplicate_metres": round(need.duplicate_metres, 2),
        "allowance_metres": round(need.allowance_metres, 2),
        "tex": _rounded(tex(yarn) if yarn else None, 1),
        "grams": _rounded(need.grams, 1),
        "balls": _rounded(need.balls, 2),
        "to_buy": need.to_buy,
        "stated": need.stated,
    }


def _supply(supply: Supply, ends: Sequence[End]) -> dict[str, Any]:
    return {
        "id": supply.id,
        "colour": supply.colour,
        "first_row": supply.first_row,
        "last_row": supply.last_row,
        "stitches": supply.stitches,
        "carried": supply.carried,
        "idle": supply.idle,
        "metres": round(supply.metres, 2),
        "holder": supply.holder,
        "wound": supply.wound,
        "ends": [
            {
                "kind": end.kind,
                "row": end.row,
                "stitch": end.stitch,
                "along": end.along or None,
                "room_mm": round(end.room_mm, 1),
                "closes_gap": end.closes_gap,
            }
            for end in ends
        ],
    }


def _edge(edge: EdgeRun) -> dict[str, Any]:
    return {"colour": edge.colour, "stitches": edge.stitches, "by": edge.by}


def _openings(chart: Chart) -> dict[str, Any]:
    """Where the work is in two sides, and the order in which the pieces of those rows are worked."""
    sides = Sides(chart)
    return {
        "openings": [
            {
                "row": opening.first_row,
                "last_row": opening.last_row,
                "by": opening.divide.by.value,
                "sides": opening.divide.sides.value,
                "stitches": opening.stitches,
            }
            for opening in sides.openings
        ],
        "order": [[piece.row, piece.half.value] for piece in sides.in_order if piece.half],
    }


def _row(row: RowPlan) -> dict[str, Any]:
    made = _whole_row(row)
    if row.parts:
        made["sides"] = [_part(part) for part in row.parts]
    return made


def _part(part: PartPlan) -> dict[str, Any]:
    return {
        "side": part.side,
        "line_up": list(part.line_up),
        "joins": list(part.joins),
        "finishes": list(part.finishes),
        "waiting": list(part.waiting),
        "held": list(part.held),
        "interlocks": part.interlocks,
        "crossings": part.crossings,
        "needs": part.needs,
    }


def _whole_row(row: RowPlan) -> dict[str, Any]:
    return {
        "row": row.row,
        "side": row.side.value,
        "direction": row.direction,
        "line_up": list(row.line_up),
        "joins": list(row.joins),
        "finishes": list(row.finishes),
        "waiting": list(row.waiting),
        "interlocks": row.interlocks,
        "crossings": row.crossings,
        "needs": row.needs,
        "hangs": row.hangs,
    }
