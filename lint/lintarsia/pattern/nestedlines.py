"""The pages of a piece in several sizes put into one, where they say the same but for numbers: `k108 (120, 132) N`."""

import re
from collections.abc import Sequence
from dataclasses import replace

from lintarsia.pattern.nested import nested, sizes_line
from lintarsia.written.page import RowsPage
from lintarsia.written.rowwords import RowWords

_NUMBER = re.compile(r"[0-9]+(?:,[0-9]{3})*(?![0-9])")


def nested_lines(pages: Sequence[RowsPage], sizes: Sequence[str], title: str) -> RowsPage | None:
    """The page for all sizes; None where they differ in more than numbers, or where supplies are named. One page has
    nothing to nest."""
    first = pages[0]
    alike = len({len(page.rows) for page in pages}) == len({(page.key, page.sewn) for page in pages}) == 1
    if len(pages) < 2 or not alike or first.supplies or len({len(page.reading) for page in pages}) > 1:
        return None
    reading = [_said(lines) for lines in zip(*(page.reading for page in pages), strict=True)]
    rows = [_row(lines) for lines in zip(*(page.rows for page in pages), strict=True)]
    if None in reading or None in rows:
        return None
    told = (sizes_line(sizes), *(line for line in reading if line))
    return replace(first, title=title, reading=told, rows=tuple(row for row in rows if row is not None))


def _row(rows: tuple[RowWords, ...]) -> RowWords | None:
    """One line of all sizes, each number nested where it differs."""
    first = rows[0]
    kinds = {(row.side, row.round, row.joins, row.finishes, row.before, row.behind) for row in rows}
    label, words, shaping, counts = (
        _said(texts)
        for texts in (
            tuple(row.label for row in rows),
            tuple(row.words for row in rows),
            tuple(row.shaping for row in rows),
            tuple(row.counts or _count(row.stitches) for row in rows),
        )
    )
    if len(kinds) > 1 or label is None or words is None or shaping is None or counts is None:
        return None
    return replace(first, words=words, shaping=shaping, counts=counts, named=label)


def _count(stitches: int) -> str:
    return f"{stitches:,} sts"


def _said(texts: tuple[str, ...]) -> str | None:
    """`66 (72, 78) sts` of `66 sts`, `72 sts` and `78 sts`; None where more than the numbers differ."""
    if len({_NUMBER.sub("#", text) for text in texts}) > 1:
        return None
    numbers = zip(*([int(n.replace(",", "")) for n in _NUMBER.findall(text)] for text in texts), strict=True)
    told = iter([nested(each) for each in numbers])
    return _NUMBER.sub(lambda _: next(told), texts[0])
