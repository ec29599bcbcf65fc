"""The plans of a whole pattern as JSON, `lintarsia/pattern-plan/1`; of one piece in one size, that plan."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from lintarsia.pattern.buying import Need, Part, needs_of
from lintarsia.pattern.choosing import PieceInSize
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.work import PatternWork
from lintarsia.plansheets.json import plan_document, plan_json

SCHEMA = "lintarsia/pattern-plan/1"


def piece_plan_json(work: PatternWork, one: PieceInSize) -> str:
    """The plan of one piece in one size, `lintarsia/plan/1`, with both named."""
    plan, reckoned = work.plan(one.piece, one.size), work.reckoning_of(one.piece, one.size)
    more = {"piece": one.piece.name, "size": one.size, "times": one.times}
    return plan_json(one.chart, plan, allowance=reckoned.allowance, tail_mm=reckoned.tail_mm, **more)


def pattern_plan_json(work: PatternWork, chosen: Sequence[PieceInSize]) -> str:
    """Every chosen piece with its plan, a line each, and what each size takes of each yarn."""
    yarns = yarns_document(work, dict.fromkeys(one.size for one in chosen))
    parts = {
        "schema": json.dumps(SCHEMA),
        "pattern": json.dumps(work.pattern.path, ensure_ascii=False),
        "title": json.dumps(work.pattern.title, ensure_ascii=False),
        "fingerprint": json.dumps(pattern_fingerprint(work)),
        "pieces": "[\n" + ",\n".join(f"    {_line(_piece(work, one))}" for one in chosen) + "\n  ]",
        "yarns": "{" + ",".join(f"\n    {_line(yarn)}: {_line(sizes)}" for yarn, sizes in yarns.items()) + "\n  }",
    }
    return "{\n" + ",\n".join(f'  "{key}": {value}' for key, value in parts.items()) + "\n}\n"


_line = json.JSONEncoder(ensure_ascii=False).encode


def _piece(work: PatternWork, one: PieceInSize) -> dict[str, Any]:
    return {
        "piece": one.piece.name,
        "size": one.size,
        "times": one.times,
        "stitches": one.laid.cast_on,
        "rows": one.chart.grid.height,
        "plan": plan_document(one.chart, work.plan(one.piece, one.size)),
    }


def yarns_document(work: PatternWork, sizes: Mapping[str, object]) -> dict[str, dict[str, Any]]:
    """By yarn and size what all pieces take together, each counted as often as it is knitted."""
    found: dict[str, dict[str, Any]] = {}
    for size in sizes:
        for yarn, need in needs_of(work, size).items():
            found.setdefault(yarn, {})[size] = _need(need)
    return found


def _need(need: Need) -> dict[str, Any]:
    return {
        "metres": round(need.metres, 2),
        "besides_metres": round(need.besides, 2),
        "parts": [_part(part) for part in need.parts],
        "allowance_metres": round(need.allowance, 2),
        "balls": need.to_buy,
        "pieces": list(need.pieces),
        "divide": [{"piece": p.piece, "supply": p.supply, "metres": round(p.metres, 2)} for p in need.parted],
    }


def _part(part: Part) -> dict[str, Any]:
    said = {"for": part.what.value, "piece": part.piece or None, "metres": round(part.metres, 2)}
    return said if part.times_plain == 1 else said | {"times_plain": part.times_plain}
