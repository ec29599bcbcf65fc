"""The way from a pattern file to a Pattern, with every fault on the way reported and none raised."""

from lintarsia.ground.values import dataclass
from lintarsia.pattern.build import build_pattern
from lintarsia.pattern.cross import cross_findings
from lintarsia.pattern.model import Pattern
from lintarsia.reading import read_document
from lintarsia.reading.source import MAX_BYTES, Read
from lintarsia.result import Finding


@dataclass(frozen=True, slots=True)
class PatternReading:
    """`pattern` is None where there are no pieces to speak of. `problems` are (rule name, finding), by place."""

    file: str
    pattern: Pattern | None
    problems: tuple[tuple[str, Finding], ...] = ()


def read_pattern(
    path: str, data: bytes | None = None, *, max_bytes: int = MAX_BYTES, read: Read | None = None
) -> PatternReading:
    """The pattern in a file, or in `data` when given (then `path` only names it). Never raises for bad input.
    `read` as in `read_document`.
    """
    document = read_document(path, data, schema="pattern.schema.json", max_bytes=max_bytes, read=read)
    pattern = None
    if document.data is not None and any((document.data.get("pieces") or {}).values()):
        pattern = build_pattern(path, document.data, document.places)
        document.add(*cross_findings(pattern, document.data))
    return PatternReading(path, pattern, document.sorted_problems())
