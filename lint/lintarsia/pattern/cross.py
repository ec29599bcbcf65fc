"""What no schema can see: whether a pattern file's parts name sizes and pieces that it has."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from lintarsia.chart import Path
from lintarsia.ground.days import is_a_day
from lintarsia.pattern.build import MEASURES, read_edge
from lintarsia.pattern.model import Pattern
from lintarsia.pattern.shaping import PARTING, faulty_partings, faulty_rows, names_sizes
from lintarsia.result import Finding
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.guessing import did_you_mean

PER_SIZE = ("chart", "times", "cast-on", "rows", "repeats", "row-repeats", "edge")


def cross_findings(pattern: Pattern, data: Mapping[str, Any]) -> Iterator[Finding]:
    """Faults between parts that are each well formed. `data` is what the pattern was built from."""
    sizes = [size for size in data.get("sizes") or () if size]
    for index, size in enumerate(sizes):
        if size in sizes[:index]:
            yield Finding("wrong-value", f"the size {size!r} stands here twice", pattern.places.value("sizes", index))
    for path, said in _sized(data):
        yield from _sizes(pattern, path, said)
    for name, piece in pattern.pieces.items():
        if piece.mirror_of is not None:
            at: Path = ("pieces", name, "mirror-of")
            yield from _known("a piece", piece.mirror_of, [n for n in pattern.pieces if n != name], pattern, at)
        if piece.continues is not None:
            below: Path = ("pieces", name, "continues")
            if piece.continues == name:
                message = f"{name} goes on from itself; expected another piece, or no such key where it is cast on"
                yield Finding("wrong-value", message, pattern.places.value(*below))
                continue
            yield from _known("a piece", piece.continues, [n for n in pattern.pieces if n != name], pattern, below)
            yield from _in_a_circle(pattern, name, below)
    if pattern.until and not is_a_day(pattern.until):
        day = pattern.places.value("test-knit", "until")
        yield Finding("wrong-value", f"{pattern.until} is no day of the calendar", day)
    yield from _chartless(pattern)
    yield from _shaping(pattern, data)
    yield from _seams(pattern, data)
    for accepted in pattern.suppressions:
        here = ("suppress", accepted.index)
        if accepted.piece is not None:
            yield from _known("a piece", accepted.piece, pattern.pieces, pattern, (*here, "piece"))
        if accepted.size is not None:
            yield from _known("a size", accepted.size, pattern.sizes, pattern, (*here, "size"))


def _in_a_circle(pattern: Pattern, name: str, path: Path) -> Iterator[Finding]:
    """Pieces that go on from one another, so that none of them is ever begun."""
    way, at = [name], pattern.pieces[name].continues
    while at is not None and at in pattern.pieces and at not in way:
        way.append(at)
        at = pattern.pieces[at].continues
    if at == name and len(way) > 1:
        message = f"{name} goes on from {one_and_all(way[1:])}, which goes on from it; expected one that is cast on"
        yield Finding("wrong-value", message, pattern.places.value(*path))


def _sized(data: Mapping[str, Any]) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """Every place that gives a value for each size."""
    for name, piece in (data.get("pieces") or {}).items():
        for holder, keys in (((), PER_SIZE), (("at",), ("stitch", "row")), (("measures",), MEASURES)):
            inside = piece or {}
            for step in holder:
                inside = inside.get(step) or {}
            for key in keys:
                if isinstance(inside.get(key), dict):
                    yield ("pieces", name, *holder, key), inside[key]
    for key in ("notions", "tools"):
        for name, said in (data.get(key) or {}).items():
            if isinstance(said, dict):
                yield (key, name), said
    for name, yarn in (data.get("yarns") or {}).items():
        if isinstance((yarn or {}).get("balls"), dict):
            yield ("yarns", name, "balls"), yarn["balls"]


def _sizes(pattern: Pattern, path: Path, said: Mapping[str, Any]) -> Iterator[Finding]:
    for size in said:
        if size not in pattern.sizes:
            known = did_you_mean(size, pattern.sizes) or f"; it has {', '.join(pattern.sizes)}"
            message = f"the pattern has no size {size!r}{known}"
            yield Finding("wrong-name", message, pattern.places.key(*path, size))


def _shaping(pattern: Pattern, data: Mapping[str, Any]) -> Iterator[Finding]:
    for name, piece in (data.get("pieces") or {}).items():
        said = (piece or {}).get("shaping")
        for path in faulty_rows(said, pattern.sizes):
            message = f"{path[-1]!r} in shaping of {name}: expected rows such as 12 or 31-59/2, with left or right"
            yield Finding("wrong-value", message, pattern.places.key("pieces", name, "shaping", *path))
        if said and names_sizes(said, pattern.sizes):
            yield from _sizes(pattern, ("pieces", name, "shaping"), said)
        yield from _partings(pattern, name, (piece or {}).get("divide"))


def _partings(pattern: Pattern, name: str, said: Mapping[str, Any] | None) -> Iterator[Finding]:
    for path in faulty_partings(said, pattern.sizes):
        message = (
            f"{path[-1]!r} in divide of {name}: expected a row with {{by: bind-off, stitches: 12}} or {{by: hold, "
            "stitches: 12}, or with {by: nothing} for a slit"
        )
        yield Finding("wrong-value", message, pattern.places.key("pieces", name, "divide", *path))
    if said and names_sizes(said, pattern.sizes, PARTING):
        yield from _sizes(pattern, ("pieces", name, "divide"), said)


def _chartless(pattern: Pattern) -> Iterator[Finding]:
    """A piece has a chart, or a colour with stitches and rows."""
    for name, piece in pattern.pieces.items():
        at = pattern.places.key("pieces", name)
        if not piece.charts and piece.colour is None:
            message = f"{name} has neither a chart nor a colour; expected `chart`, or `colour`, `cast-on` and `rows`"
            yield Finding("missing-key", message, at)
        elif piece.charts and piece.colour is not None:
            message = f"{name} has a chart and a colour; the colour around a chart is `plain`"
            yield Finding("wrong-value", message, pattern.places.key("pieces", name, "colour"))
        elif not piece.charts and not (piece.cast_on and piece.rows):
            missing = "cast-on" if not piece.cast_on else "rows"
            yield Finding("missing-key", f"{name} has no chart and no '{missing}'; expected its number", at)


def _known(what: str, name: str, known: Iterable[str], pattern: Pattern, path: Path) -> Iterator[Finding]:
    names = list(known)
    if name not in names:
        hint = did_you_mean(name, names) or (f"; expected {', '.join(names)}" if names else "")
        yield Finding("wrong-value", f"{name!r} is not {what} of the pattern{hint}", pattern.places.value(*path))


def _seams(pattern: Pattern, data: Mapping[str, Any]) -> Iterator[Finding]:
    for index, seam in enumerate(data.get("seams") or ()):
        join = (seam or {}).get("join") or ()
        edges = [read_edge(text) for text in join]
        for end, (text, edge) in enumerate(zip(join, edges, strict=True)):
            path = ("seams", index, "join", end)
            if text is not None and edge is None:
                message = f"{text!r} is no edge; expected a piece and left, right, top or bottom"
                yield Finding("wrong-value", message, pattern.places.value(*path))
            elif edge is not None:
                yield from _known("a piece", edge.piece, pattern.pieces, pattern, path)
        upright = {edge.edge.upright for edge in edges if edge}
        if len(upright) > 1:
            message = "a side is joined to a top or a bottom; their colours cannot be compared row by row"
            yield Finding("wrong-value", message, pattern.places.value("seams", index, "join"))
