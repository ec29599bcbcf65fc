"""The test knits as JSON, `lintarsia/knits/1`. Lengths are in the unit that the key ends in; shares are of 1."""

import json
from collections.abc import Sequence
from typing import Any

from lintarsia.knits.calibrate import Calibration, NewLoop
from lintarsia.knits.model import MeasuredGauge, Remark
from lintarsia.knits.summary import Knit, PatternKnits, YarnUse

SCHEMA = "lintarsia/knits/1"


def knits_json(patterns: Sequence[PatternKnits], left_out: Sequence[tuple[str, str]] = ()) -> str:
    """All of it; `left_out` are (file, why)."""
    document = {
        "schema": SCHEMA,
        "patterns": [pattern_document(one) for one in patterns],
        "left_out": [{"file": file, "why": why} for file, why in left_out],
    }
    return json.dumps(document, ensure_ascii=False, indent=2) + "\n"


def pattern_document(one: PatternKnits) -> dict[str, Any]:
    """One pattern; pages are made of it too."""
    return {
        "pattern": one.path,
        "title": one.title,
        "version": one.version,
        "fingerprint": one.fingerprint,
        "sizes": [{"size": size, "knits": [_knit(knit) for knit in knits]} for size, knits in one.sizes.items()],
        "odd": [{"knitter": odd.knitter, "yarn": odd.yarn, "times": _round(odd.times)} for odd in one.odd],
        "calibration": _calibration(one.calibration),
    }


def _knit(knit: Knit) -> dict[str, Any]:
    return {
        "file": knit.file,
        "knitter": knit.knitter,
        "fingerprint": knit.fingerprint or None,
        "revision": knit.revision,
        "commit": knit.commit or None,
        "same_stitches": knit.same_stitches,
        "finished": knit.finished or None,
        "gauge": {"measured": _gauge(knit.gauge), "stated": _gauge(knit.stated)},
        "yarns": [_yarn(used) for used in knit.yarns],
        "hours": knit.hours,
        "rows": [_remark(remark) for remark in knit.rows],
        "remarks": knit.remarks or None,
        "site": knit.site,
    }


def _gauge(gauge: MeasuredGauge | None) -> dict[str, Any] | None:
    if gauge is None:
        return None
    return {"stitches": _round(gauge.stitches), "rows": _round(gauge.rows), "over": str(gauge.over)}


def _yarn(used: YarnUse) -> dict[str, Any]:
    return {
        "yarn": used.yarn,
        "used": used.said,
        "metres": _round(used.metres),
        "planned_metres": _round(used.planned),
        "ratio": _round(used.ratio),
    }


def _remark(remark: Remark) -> dict[str, Any]:
    return {
        "piece": remark.piece,
        "row": remark.row,
        "side": remark.side,
        "stitches": list(remark.stitches) if remark.stitches else None,
        "kind": str(remark.kind),
        "said": remark.said,
        "answered": remark.answered or None,
        "open": remark.open,
    }


def _calibration(one: Calibration | None) -> dict[str, Any] | None:
    if one is None:
        return None
    return {
        "knitters": [m.knitter for m in one.measured],
        "without_gauge": [m.knitter for m in one.measured if not m.gauge],
        "outliers": [{"knitter": far.knitter, "times": _round(far.times)} for far in one.outliers],
        "constant": _round(one.constant),
        "loops": [_loop(loop) for loop in one.loops],
        "off": {"before": _round(one.off_before), "after": _round(one.off_after)},
    }


def _loop(loop: NewLoop) -> dict[str, Any]:
    return {
        "chart": loop.chart,
        "stated": loop.stated,
        "was_mm": _round(loop.was_mm),
        "mm": _round(loop.mm),
        "spread_mm": _round(loop.spread_mm),
    }


def _round(value: float | None) -> float | None:
    return None if value is None else round(value, 3)
