"""A comparison as JSON, `lintarsia/compare/1`."""

import json
from collections.abc import Mapping
from typing import Any

from lintarsia.comparing.model import (
    Bought,
    ChartChange,
    Comparison,
    Fact,
    FileChange,
    How,
    Numbers,
    PatternChange,
    RowChange,
    State,
)
from lintarsia.comparing.telling import safe_words, told
from lintarsia.reporting.json import result_document
from lintarsia.result import Result

SCHEMA = "lintarsia/compare/1"
_LEFT_OUT = ("remedy", "justification", "baseline")
Json = dict[str, Any]


def comparison_json(comparison: Comparison) -> str:
    """The whole comparison with a final newline. Keys that have nothing to say are null or empty, never left out."""
    return json.dumps(comparison_document(comparison), ensure_ascii=False, indent=2) + "\n"


def comparison_document(comparison: Comparison) -> Json:
    return {
        "schema": SCHEMA,
        "from": comparison.old,
        "to": comparison.new,
        "differs": comparison.differs,
        "files": [_file(file) for file in comparison.files],
    }


def _file(file: FileChange) -> Json:
    was, now = file.was_numbers, file.now_numbers
    made: Json = {
        "file": file.file,
        "was": None if file.state is State.ADDED else file.was_file,
        "state": file.state.value,
        "fingerprint": {"was": file.was_fingerprint, "now": file.now_fingerprint},
        "unreadable": list(file.unreadable),
    }
    if file.pattern is not None:
        made |= _pattern(file.pattern)
    else:
        made |= change_document(file.chart)
        made |= {name: _both(was, now, name) for name in ("supplies", "ends", "most_in_a_row", "stitches", "metres")}
        made["yarns"] = _yarns(was.yarns if was else {}, now.yarns if now else {})
    return made | {
        "results": {"new": [_result(r) for r in file.new_results], "gone": [_result(r) for r in file.gone_results]}
    }


def change_document(change: ChartChange | None) -> Json:
    """What has changed in a chart, or in a piece laid out."""
    if change is None:
        return {
            "same_to_row": None,
            "safe": None,
            "rows": [],
            "turned": [],
            "facts": [],
            "recolourings": [],
            "told": [],
        }
    return {
        "same_to_row": change.same_to_row,
        "safe": safe_words(change),
        "rows": [_row(row) for row in (change.motif.rows if change.motif else change.rows)],  # every one, moved or not
        "turned": [list(part) for part in change.turned],
        "facts": [_fact(fact) for fact in change.facts],
        "recolourings": [
            {"was": one.was, "now": one.now, "was_name": one.was_name, "now_name": one.now_name, "renamed": one.renamed}
            for one in change.recolourings
        ],
        "told": [
            {
                "words": one.words,
                "means": one.means or None,
                "rows": [row.row for row in one.rows if row.row is not None],
                "was_rows": [row.was_row for row in one.rows if row.was_row is not None],
            }
            for one in told(change)
        ],
    }


def _row(row: RowChange) -> Json:
    made: Json = {"row": row.row, "was_row": row.was_row, "state": row.state.value, "how": row.how.value}
    if row.stitches:
        made["stitches"] = [list(part) for part in row.stitches]
    if row.how is How.SHIFTED:
        made["moved"] = {"stitches": abs(row.left), "to": "left" if row.left > 0 else "right"}
    if row.twin is not None:
        made["like_row"] = row.twin
    return made | {"was_words": row.was_words or None, "now_words": row.now_words or None}


def _fact(fact: Fact) -> Json:
    return {"what": fact.what, "was": fact.was, "now": fact.now}


def _both(was: Numbers | None, now: Numbers | None, name: str) -> Json:
    return {"was": getattr(was, name, None), "now": getattr(now, name, None)}


def _yarns(was: Mapping[str, Bought], now: Mapping[str, Bought]) -> Json:
    return {yarn: _yarn(was.get(yarn), now.get(yarn)) for yarn in dict.fromkeys([*now, *was])}


def _yarn(was: Bought | None, now: Bought | None) -> Json:
    return {
        "name": (now or was or Bought("", None, 0.0)).name,
        "balls": {"was": was and was.balls, "now": now and now.balls},
        "metres": {"was": was and was.metres, "now": now and now.metres},
    }


def _pattern(pattern: PatternChange) -> Json:
    return {
        "version": {"was": pattern.was_version or None, "now": pattern.now_version or None},
        "facts": [_fact(fact) for fact in pattern.facts],
        "pieces": [
            {
                "piece": piece.piece,
                "size": piece.size,
                "state": piece.state.value,
                "chart": piece.chart or None,
                "fingerprint": {"was": piece.was_fingerprint, "now": piece.now_fingerprint},
            }
            | change_document(piece.change)
            for piece in pattern.pieces
        ],
        "yarns": {yarn: {size: _yarn(*both) for size, both in sizes.items()} for yarn, sizes in pattern.yarns.items()},
    }


def _result(result: Result) -> Json:
    """What a check says of it, but for what is to be done: that is no part of a comparison."""
    return {name: said for name, said in result_document(result).items() if name not in _LEFT_OUT}
