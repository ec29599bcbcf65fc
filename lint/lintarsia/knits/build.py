"""Plain, checked data to a log. What is None was faulty, has been reported, and is left out."""

import os
from collections.abc import Mapping
from typing import Any

from lintarsia.chart import Places
from lintarsia.chart.measure import parse_length, parse_mass
from lintarsia.ground.kinds import Kind
from lintarsia.knits.model import AcceptedInLog, Amount, KnitLog, MeasuredGauge, Remark, RemarkKind, Used


def build_log(path: str, data: Mapping[str, Any], places: Places) -> KnitLog:
    """The log of a file. Who has no handle goes by the file's name."""
    get = data.get
    of = Kind.CHART if get("chart") and not get("pattern") else Kind.PATTERN
    size, hours = get("size"), get("hours")
    return KnitLog(
        path=path,
        names=get(str(of)) or "",
        of=of,
        size=None if size is None else str(size),
        fingerprint=get("fingerprint") or "",
        knitter=_line(get("knitter")) or os.path.basename(path).removesuffix(Kind.KNIT.suffix),
        gauge=_gauge(get("gauge") or {}),
        used={yarn: _used(said) for yarn, said in (get("used") or {}).items() if said},
        hours=None if hours is None else float(hours),
        finished=get("finished") or "",
        rows=tuple(remark for i, said in enumerate(get("rows") or ()) if (remark := _remark(said or {}, i, places))),
        remarks=_line(get("remarks")),
        site=get("site") is not False,
        suppressions=tuple(
            AcceptedInLog(said["rule"], str(said["justification"]).strip(), i)
            for i, said in enumerate(get("suppress") or ())
            if said and said.get("rule") and said.get("justification")
        ),
        places=places,
    )


def _line(said: Any) -> str:
    """Words in one line, without what would steer a terminal."""
    text = "" if said is None else str(said)
    return " ".join("".join(c if c.isprintable() else " " for c in text).split())


def _gauge(data: Mapping[str, Any]) -> MeasuredGauge | None:
    stitches, rows, over, needle = map(data.get, ("stitches", "rows", "over", "needle"))
    if not stitches or not rows or not over or not parse_length(over).mm:
        return None
    return MeasuredGauge(float(stitches), float(rows), parse_length(over), parse_length(needle) if needle else None)


def _used(said: Any) -> Used:
    if isinstance(said, Mapping):
        before, after = said.get("before"), said.get("after")
        return Used(before=_amount(before) if before else None, after=_amount(after) if after else None)
    return Used(_amount(said))


def _amount(said: str) -> Amount:
    return parse_mass(said) if said.endswith(("g", "oz")) else parse_length(said)


def _remark(data: Mapping[str, Any], index: int, places: Places) -> Remark | None:
    row, kind, said, stitches = map(data.get, ("row", "kind", "said", "stitches"))
    if not row or not kind or not said:
        return None
    low_high = None if not stitches or None in stitches else (int(min(stitches)), int(max(stitches)))
    return Remark(
        row=int(row),
        kind=RemarkKind(kind),
        said=_line(said),
        index=index,
        piece=None if data.get("piece") is None else str(data["piece"]),
        side=data.get("side"),
        stitches=low_high,
        answered=_line(data.get("answered")),
        region=places.value("rows", index),
    )
