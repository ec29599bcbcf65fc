"""The test knits as CSV: a line for each knit and yarn, so that a sheet can sum them up."""

import csv
from collections.abc import Iterator, Sequence
from io import StringIO

from lintarsia.knits.summary import Knit, PatternKnits

HEAD = (
    "pattern", "size", "knitter", "revision", "fingerprint", "finished", "hours", "stitches", "stated_stitches", "rows",
    "stated_rows", "over", "yarn", "used", "metres", "planned_metres", "ratio", "open_remarks", "file",
)  # fmt: skip


def knits_csv(patterns: Sequence[PatternKnits]) -> str:
    """A knit that weighed nothing has one line, without a yarn."""
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(HEAD)
    for one in patterns:
        for knit in one.knits:
            writer.writerows([_plain(cell) for cell in line] for line in _lines(one, knit))
    return out.getvalue()


def _lines(one: PatternKnits, knit: Knit) -> Iterator[tuple[object, ...]]:
    gauge, stated = knit.gauge, knit.stated
    what = (one.path, knit.size, knit.knitter, knit.revision, knit.fingerprint, knit.finished, _figure(knit.hours))
    measured = (_figure(gauge.stitches), _figure(gauge.rows)) if gauge else ("", "")
    wanted = (_figure(stated.stitches), _figure(stated.rows)) if stated else ("", "")
    over = str(gauge.over) if gauge else ""
    head = (*what, measured[0], wanted[0], measured[1], wanted[1], over)
    for used in knit.yarns:
        figures = (_figure(used.metres), _figure(used.planned), _figure(used.ratio))
        yield (*head, used.yarn, used.said, *figures, knit.open, knit.file)
    if not knit.yarns:
        yield (*head, "", "", "", "", "", knit.open, knit.file)


def _figure(value: float | None) -> str:
    return "" if value is None else f"{value:.4g}"


def _plain(cell: object) -> str:
    """What a sheet would take for a formula is told to be text: logs come from anywhere."""
    text = str(cell)
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text
