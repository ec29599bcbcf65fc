"""What of a knit has changed since it was knitted, row by row, in a few words."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.chart.aligning import align
from lintarsia.chart.content import row_marks
from lintarsia.knits.work import KnitWork
from lintarsia.telling.names import row_word
from lintarsia.telling.spans import span, stretches

MOST = 6  # stretches that are told; whoever has more of them reads the comparison


def since_words(then: KnitWork, now: KnitWork) -> str:
    """`side: row 25 is another; rows 30–31 are new`, "" where no row is. Rows are those of the pieces."""
    told = list(_pieces(then, now))
    return "; ".join(told[:MOST]) + ("; and more" if len(told) > MOST else "")


def _pieces(then: KnitWork, now: KnitWork) -> Iterator[str]:
    if then.knitted is None or now.knitted is None or now.size is None:
        return
    was, own = then.knitted.pattern.pieces, now.knitted.pattern.pieces
    for name in dict.fromkeys((*own, *was)):
        old = then.laid(was[name]) if name in was else None
        new = now.laid(own[name]) if name in own else None
        label = f"{name}: " if len(own) > 1 or len(was) > 1 else ""
        if old is not None and new is not None:
            for words in _rows(old.chart, new.chart):
                yield label + words
        elif old is not None or new is not None:
            yield f"{name} is {'new' if old is None else 'gone'}"


def _rows(was: Chart, now: Chart) -> Iterator[str]:
    """New rows and other ones by the numbers of now, those that are gone by the numbers of before."""
    old, new, word = row_marks(was), row_marks(now), row_word(now)
    pairs = align(was.grid.rows, now.grid.rows)
    other = [p.now for p in pairs if p.was and p.now and old[p.was - 1] != new[p.now - 1]]
    sewn = _embroidered(was) != _embroidered(now)
    for rows, one, many in (
        (other, "is another", "are others"),
        ([p.now for p in pairs if p.now and not p.was], "is new", "are new"),
        ([p.was for p in pairs if p.was and not p.now], "of before is gone", "of before are gone"),
    ):
        for first, last in stretches((row, row) for row in rows if row):
            yield f"{word}{'s' if last > first else ''} {span(first, last)} {many if last > first else one}"
    if sewn:
        rows = sorted({patch.row for patch in {*was.duplicate} ^ {*now.duplicate}})
        for first, last in stretches((row, row) for row in rows):
            which = f"{word}s {span(first, last)} have" if last > first else f"{word} {first} has"
            yield f"{which} other duplicate stitch"


def _embroidered(chart: Chart) -> frozenset[object]:
    return frozenset(chart.duplicate)
