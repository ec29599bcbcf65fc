"""The smallest rows that a form of wording can be in, and how they are told here when they have been read.

`3kA 2pB 1ssk C`: three knit stitches in A, two purled in B, one made by ssk in C; without `k` or `p` the words do not
say how. Behind that what else the words came to: `left 2` on the needle, `uneven 2 after 1` stitches over when a repeat
had been worked once, `(5 sts)` said of the row, `shaped` somewhere, `row 7`, `RS`, `3 sizes`. Refused words are told as
`?? message @ words pointed at`.
"""

from collections.abc import Iterator
from itertools import groupby
from typing import Any

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.parser import parse_row
from lintarsia.written.spoken import Spoken
from lintarsia.written.working import Shown, WorkedOut, work_out

NAMES = {"A": "Dusk blue", "B": "Bone", "C": "Rust red"}
OTHERS = {"A": ["MC", "main", "D"], "B": ["CC"], "C": ["CC2"]}


def misread(text: str, symbols: str = "", **row: Any) -> list[str]:
    """What is read otherwise, of lines such as `5: k3 A, k2 B -> 3kA 2kB`: stitches on the needle, words, reading.

    `symbols` are of a key without names; else it has A, B and C, with names and others besides.
    """
    colours = Colours(symbols, {}) if symbols else Colours("ABC", NAMES, OTHERS)
    found = []
    for line in text.strip().splitlines():
        hanging, _, rest = line.partition(": ")
        words, _, reading = rest.rpartition(" ->")
        if (made := read(words, int(hanging), colours, **row)) != reading.strip():
            found.append(f"{words} -> {made}, not {reading.strip()}")
    return found


def read(
    words: str,
    hanging: int,
    colours: Colours,
    *,
    charted: str = "",
    below: str = "",
    only: str | None = None,
    size: int = 0,
) -> str:
    """The words as they are read, of a row whose charted stitches and those below are given in working order."""
    try:
        said = parse_row(words, colours, size)
        if said.as_rows:
            return " ".join(["as", *map(str, said.as_rows), *_around(said)])
        made = work_out(said.items, hanging, only, Shown(charted, below))
    except NotUnderstood as fault:
        return f"?? {fault.message} @ {words[fault.start : fault.end]}"
    return " ".join([*_stitches(made), *_around(said)])


def _stitches(made: WorkedOut) -> Iterator[str]:
    for (kind, symbol), run in groupby(zip(made.kinds, made.symbols, strict=True)):
        yield f"{sum(1 for _ in run)}{kind}{' ' if len(kind) > 1 else ''}{symbol}"
    if made.left:
        yield f"left {made.left}"
    yield from (f"uneven {uneven.over} after {uneven.times}" for uneven in made.uneven)


def _around(said: Spoken) -> Iterator[str]:
    if said.stated is not None:
        yield f"({said.stated} sts)"
    if said.shaped:
        yield "shaped"
    if said.label.rows:
        yield f"row {', '.join(map(str, said.label.rows))}"
    if said.label.side:
        yield said.label.side
    if said.sizes > 1:
        yield f"{said.sizes} sizes"
    if said.stated_after:
        yield "after several rows"
