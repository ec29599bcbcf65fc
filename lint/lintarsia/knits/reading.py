"""The way from a log's file to a KnitLog, with every fault on the way reported and none raised."""

from collections.abc import Iterator, Mapping
from typing import Any

from lintarsia.ground.days import is_a_day
from lintarsia.ground.values import dataclass
from lintarsia.knits.build import build_log
from lintarsia.knits.model import KnitLog
from lintarsia.reading import read_document
from lintarsia.reading.source import MAX_BYTES, Read
from lintarsia.result import Finding


@dataclass(frozen=True, slots=True)
class KnitReading:
    """`log` is None where the file says of nothing that it was knitted. `problems` are (rule name, finding)."""

    file: str
    log: KnitLog | None
    problems: tuple[tuple[str, Finding], ...] = ()


def read_knit(
    path: str, data: bytes | None = None, *, max_bytes: int = MAX_BYTES, read: Read | None = None
) -> KnitReading:
    """The log in a file, or in `data` when given (then `path` only names it). Never raises for bad input.
    `read` as in `read_document`.
    """
    document = read_document(path, data, schema="knit.schema.json", max_bytes=max_bytes, read=read)
    log = None
    if document.data:  # nothing is left of a file with more faults than anybody mends
        log = build_log(path, document.data, document.places)
        document.add(*_cross_findings(log, document.data))
    return KnitReading(path, log if log is not None and log.names else None, document.sorted_problems())


def _cross_findings(log: KnitLog, data: Mapping[str, Any]) -> Iterator[Finding]:
    """What no schema can see."""
    places = log.places
    if "pattern" not in data and "chart" not in data:
        message = "the log says of nothing that it was knitted; expected `pattern` or `chart`"
        yield Finding("missing-key", message, places.key("lintarsia-knit"))
    if data.get("pattern") and data.get("chart"):
        message = "the log names a pattern and a chart; expected one of them"
        yield Finding("wrong-value", message, places.value("chart"))
    if log.finished and not is_a_day(log.finished):
        message = f"{log.finished} is no day of the calendar"
        yield Finding("wrong-value", message, places.value("finished"))
    for yarn, used in log.used.items():
        if used.before is not None and used.after is not None and used.spent is None:
            message = f"{yarn} was weighed before ({used.before}) and measured after ({used.after}), or the other way"
            remedy = "state both in grams, or both in metres"
            yield Finding("wrong-value", message, places.value("used", yarn), remedy=remedy)
