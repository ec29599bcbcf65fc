"""Words that stand for several rows have one result, however many of the rows it is true of."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import TYPE_CHECKING

from lintarsia.result import Edit, Finding, Fix
from lintarsia.rules.base import Work
from lintarsia.telling.counts import one_and_all

if TYPE_CHECKING:
    from lintarsia.written.row import WrittenRow

NAMED = 6  # rows that a message names before it says `others`


def once(found: "Iterable[tuple[WrittenRow, Finding]]") -> Iterator[Finding]:
    """The findings, of those alike in one entry's words the first, which names the other rows."""
    groups: dict[object, list[tuple[WrittenRow, Finding]]] = {}
    for row, finding in found:
        groups.setdefault((finding.key, row.region, row.rows), []).append((row, finding))
    for group in groups.values():
        finding = group[0][1]
        yield replace(finding, message=f"{finding.message}{_also([row.row for row, _ in group[1:]])}")


def as_charted(work: Work, row: "WrittenRow") -> tuple[Fix, ...]:
    """The row from the chart, in quotes that YAML needs none of the row's own for. No fix where the words are for
    several rows, or are a line of a printed page.
    """
    if row.region.line != row.region.end_line or len(row.rows) > 1 or row.of_page:
        return ()
    import json

    from lintarsia.written.writer import write_rows

    lines = write_rows(work.chart, first=row.row, last=row.row)
    own = [line for line in lines if line.half.lower().startswith(row.half)] if row.half else lines
    # A row whose sides are worked one after the other has a line for each.
    text = own[0].text if len(own) == 1 else " ".join(f"{line.half}: {line.text}" for line in own)
    quoted = json.dumps(text, ensure_ascii=False) if "'" in text or not text.isprintable() else f"'{text}'"
    return (Fix("write the row as the chart has it", (Edit(row.region, quoted),), safe=False),)


def _also(rows: list[int]) -> str:
    if not rows:
        return ""
    numbers = [str(row) for row in rows[:NAMED]] + (["others"] if len(rows) > NAMED else [])
    return f"; so in {'row' if len(rows) == 1 else 'rows'} {one_and_all(numbers)}, which the words are for too"
