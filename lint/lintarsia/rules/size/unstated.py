"""size/unstated: a value that is said for some sizes and not for all."""

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import one_and_all

if TYPE_CHECKING:
    from lintarsia.chart import Path
    from lintarsia.pattern.model import Pattern
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
INFO = RuleInfo(
    name="size/unstated",
    level=Level.ERROR,
    summary="a value names some sizes and forgets one",
    why=(
        "What is said for small and medium and not for large is not said at all to the knitter of the large: she "
        "works another size's number, or the chart's own, and finds out at the seams."
    ),
    remedy="state the value for every size, or once for all of them; 0 where a size has none",
    keys={"forgotten": "a value is stated for other sizes, and not for one that is knitted"},
    sources=("common practice of technical editing: every number stands for every size",),
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each value. Sizes in which a piece is not knitted need none of its values."""
    from lintarsia.pattern.work import About

    pattern = work.pattern
    for path, said, piece in _values(pattern):
        knitted = pattern.sizes if piece is None or path[-1] == "times" else _sizes_of(pattern, piece)
        forgotten = tuple(size for size in knitted if not _stated(pattern, path, said, size))
        if said and forgotten:
            name = " ".join(str(step) for step in path[2:]) or f"its entry in {path[0]}"
            message = f"{path[1]}: {name} is stated for {one_and_all(list(said))} and not for {one_and_all(forgotten)}"
            region = pattern.places.key(*path)
            yield About(Finding("forgotten", message, region, pattern=message), piece, forgotten)


def _values(pattern: "Pattern") -> "Iterator[tuple[Path, Mapping[str, object], str | None]]":
    """Everything that may differ by size: its path in the file, what is said, and whose it is."""
    for name, piece in pattern.pieces.items():
        for key, said in piece.by_size.items():
            yield ("pieces", name, *key), said, name
    for name, yarn in pattern.yarns.items():
        yield ("yarns", name, "balls"), yarn.balls, None
    for kind, listed in (("notions", pattern.notions), ("tools", pattern.tools)):
        for name, amounts in listed.items():
            yield (kind, name), amounts, None


def _sizes_of(pattern: "Pattern", piece: str) -> tuple[str, ...]:
    return tuple(size for size in pattern.sizes if pattern.pieces[piece].knitted(size))


def _stated(pattern: "Pattern", path: "Path", said: Mapping[str, object], size: str) -> bool:
    """Also where it is stated wrongly, which the reader has told of."""
    return size in said or pattern.places.value(*path, size) != pattern.places.value(*path)
