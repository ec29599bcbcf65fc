"""The list of rows as a table, or, where it is long, as tables of some twenty lines that open one by one."""

from collections import Counter
from collections.abc import Iterator, Sequence

from lintarsia.publishing.pages.rowview import Line
from lintarsia.telling.languages import phrase, row_forms

LONGEST = 60  # lines that are listed without more ado
TOGETHER = 20  # rows that open at once where there are more


def rows_html(lines: Sequence[Line], word: str) -> str:
    """`word` is what a row is called, `row` or `round`."""
    if len(lines) <= LONGEST:
        return _table(lines, word)
    made, seen = [], Counter[int]()
    for first, last, part in _parts(lines):
        seen[first] += 1
        again = f"-{seen[first]}" if seen[first] > 1 else ""  # the other side of an opening, at the same rows
        head = f"<summary>{phrase('{Words} {first}–{last}', word, first=first, last=last)}</summary>"
        made.append(f'<details class="rows" id="{word}s-{first}{again}">{head}\n{_table(part, word)}</details>')
    return "\n".join(made)


def _table(lines: Sequence[Line], word: str) -> str:
    listed = "\n".join([line.html for line in lines])
    return (
        f'<table>\n<thead><tr><th scope="col">{row_forms(word)["Word"]}</th>'
        f'<th scope="col">{phrase("Stitches, in working order")}</th>'
        f'<th scope="col">{phrase("Yarns, in the order of use")}</th><th scope="col" class="n">{phrase("At work")}</th>'
        f'<th scope="col" class="n">{phrase("Twists")}</th></tr></thead>\n<tbody>\n'
        f"{listed}\n</tbody></table>"
    )


def _parts(lines: Sequence[Line]) -> Iterator[tuple[int, int, Sequence[Line]]]:
    """Lines together with the first and the last row of them. Where the work is parted the list goes back to rows that
    it has passed, and begins anew there."""
    start = 0
    for at, line in enumerate(lines):
        after = lines[at + 1] if at + 1 < len(lines) else None
        if after is None or (line.last - 1) // TOGETHER < (after.last - 1) // TOGETHER or after.first < line.first:
            yield lines[start].first, line.last, lines[start : at + 1]
            start = at + 1
