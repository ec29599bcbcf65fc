"""Like results gathered, so that a hundred of them read as one, and their places said in few words."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from lintarsia.result import Result
from lintarsia.telling.names import rows_words
from lintarsia.telling.spans import span, stretches

Group = tuple[Result, ...]

# From here on, like results that have a row become one entry.
GATHER_FROM = 3


def by_file(results: Iterable[Result]) -> Iterator[list[Result]]:
    """The results of each file, as they come: a report has them sorted by file."""
    for _, own in groupby(results, lambda result: result.file):
        yield list(own)


def groups(results: Iterable[Result]) -> list[Group]:
    """Standing results by file, rule, key and level, in the order of their first places.

    One or two like results that have a row of their own stay single, so that each shows its picture.
    """
    gathered: dict[tuple[str, ...], list[Result]] = {}
    for result in results:
        if not result.suppressed:
            gathered.setdefault((result.file, result.rule, result.key, result.level), []).append(result)
    entries: list[Group] = []
    for alike in gathered.values():
        if len(alike) < GATHER_FROM and all(result.row is not None for result in alike):
            entries += [(result,) for result in alike]
        else:
            entries.append(tuple(alike))
    return sorted(entries, key=lambda group: group[0].order)


def places(group: Sequence[Result], word: str = "row") -> list[str]:
    """Rows and stitches of a group in few words: `rows 5–9: stitches 3, 7–9`. Rows that agree and touch are one."""
    by_row: dict[int, list[tuple[int, int]]] = {}
    for result in group:
        if result.row is not None:
            by_row.setdefault(result.row, []).extend([result.stitches] if result.stitches else [])
    told: list[str] = []
    block: list[int] = []
    block_text = ""
    for row in sorted(by_row):
        text = _stitches(by_row[row])
        if block and (text != block_text or row != block[-1] + 1):
            told.append(_rows(block, block_text, word))
            block = []
        block, block_text = [*block, row], text
    if block:
        told.append(_rows(block, block_text, word))
    return told


def _rows(rows: Sequence[int], stitches: str, word: str) -> str:
    name = rows_words(word, rows)
    return f"{name}: {stitches}" if stitches else name


def _stitches(ranges: Iterable[tuple[int, int]]) -> str:
    merged = stretches(ranges)
    if not merged:
        return ""
    one = len(merged) == 1 and merged[0][0] == merged[0][1]
    return ("stitch " if one else "stitches ") + ", ".join(span(first, last) for first, last in merged)
