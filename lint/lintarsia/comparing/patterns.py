"""Two states of a pattern compared: what it says, its pieces in their sizes laid out, and the yarn of each size."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import replace

from lintarsia.chart.content import plain
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import Bought, Fact, PatternChange, PieceChange, State
from lintarsia.comparing.motifs import motif_moved
from lintarsia.pattern.buying import Need, needs_of
from lintarsia.pattern.content import piece_fingerprint
from lintarsia.pattern.model import ONE_SIZE, Piece
from lintarsia.pattern.work import PatternWork
from lintarsia.telling.counts import one_and_all
from lintarsia.telling.terms import Terms

_OF_PIECES = {
    "times": "knitted so many times", "cast_on": "stitches cast on", "rows": "rows", "repeats": "repeats across",
    "row_repeats": "repeats upwards", "edge": "edge stitches", "at_stitch": "first stitch of the motif",
    "at_row": "first row of the motif",
}  # fmt: skip
"""Fields of a piece that have a number for each size, and what they are called."""

_OF_MOTIF = (_OF_PIECES["at_stitch"], _OF_PIECES["at_row"])
_Differing = tuple[str, str, str | None, str | None]
"""The piece ("" for yarn), what is said, was and now."""


def compare_patterns(was: PatternWork, now: PatternWork, terms: Terms = Terms.AMERICAN) -> PatternChange:
    """All that differs. Pieces in a size that are the same are left out."""
    pieces = tuple(piece for piece in _pieces(was, now, terms) if piece.state is not State.SAME)
    old, new = was.pattern, now.pattern
    by_size, sizes = _by_size(was, now), _sizes(was, now)
    moved = {(piece.piece, piece.size) for piece in pieces if piece.change is not None and piece.change.motif}
    by_size = {one: left for one, own in by_size.items() if (left := _not_told(one, own, moved))}
    facts = (*_facts(was, now), *(_in_its_sizes(one, own) for one, own in by_size.items()))
    return PatternChange(
        facts, pieces, _yarns(was, now), old.version, new.version, sizes=sizes, stated=_stated(by_size)
    )


def _sizes(was: PatternWork, now: PatternWork) -> tuple[str, ...]:
    return tuple(dict.fromkeys([*now.pattern.sizes, *was.pattern.sizes]))


def _pieces(was: PatternWork, now: PatternWork, terms: Terms) -> Iterator[PieceChange]:
    sizes = _sizes(was, now)
    for name in dict.fromkeys([*now.pattern.pieces, *was.pattern.pieces]):
        for size in sizes:
            yield from _piece(was, now, name, size, terms)


def _piece(was: PatternWork, now: PatternWork, name: str, size: str, terms: Terms) -> Iterator[PieceChange]:
    old, new = _knitted(was, name, size), _knitted(now, name, size)
    if (old is None and new is None) or _told_by_numbers(old, new, size):
        return
    marks = [None if p is None else piece_fingerprint(w, p, size) for w, p in ((was, old), (now, new))]
    state = State.ADDED if old is None else State.REMOVED if new is None else State.CHANGED
    chart = (new or old or Piece("", {})).charts.get(size, "")
    change = None
    if old is not None and new is not None:
        if marks[0] == marks[1]:
            return
        before, after = was.laid(old, size), now.laid(new, size)
        if before is not None and after is not None:
            whole = compare_charts(before.chart, after.chart, terms)
            whole = motif_moved(was, old, new, size, whole, terms)
            change = replace(whole, facts=tuple(fact for fact in whole.facts if fact.what != "the title"))
            if not change.anything:
                return  # only the pattern's title, of which the pieces have theirs
    yield PieceChange(name, size, state, marks[0], marks[1], chart, change)


def _knitted(work: PatternWork, name: str, size: str) -> Piece | None:
    piece = work.pattern.pieces.get(name)
    known = piece is not None and size in work.pattern.sizes and (size in piece.charts or piece.colour is not None)
    return piece if piece is not None and known and piece.knitted(size) else None


def _told_by_numbers(old: Piece | None, new: Piece | None, size: str) -> bool:
    """Whether all there is to tell of a piece without a chart is its numbers, which are told as such: it is new, or
    gone, or larger. What is left is its shaping, which is told by rows."""
    plain = [piece is not None and size not in piece.charts for piece in (old, new)]
    if not any(plain):
        return False
    if old is None or new is None or not all(plain):
        return True
    return any(getattr(old, name).get(size) != getattr(new, name).get(size) for name in _OF_PIECES)


def _facts(was: PatternWork, now: PatternWork) -> Iterator[Fact]:
    old, new = _said(was), _said(now)
    for what in dict.fromkeys([*old, *new]):
        if old.get(what) != new.get(what):
            yield Fact(what, old.get(what), new.get(what))


def _said(work: PatternWork) -> Mapping[str, str]:
    pattern = work.pattern
    said = {
        "the title": str(plain(pattern.title)),
        "the version": pattern.version or "none",
        "sizes": ", ".join(pattern.sizes),
        "seams": "; ".join(sorted(f"{seam.first} to {seam.second}{_rows(seam.rows)}" for seam in pattern.seams)),
    }
    if pattern.summary:
        said["what it is"] = pattern.summary
    said |= {f"note {number}": note for number, note in enumerate(pattern.notes, 1)}
    if pattern.wearer:
        said["the wearer"] = pattern.wearer.value
    if pattern.allowance is not None:
        said["the allowance of yarn"] = f"{pattern.allowance:.0%}"
    if pattern.swatch is not None:
        said["the swatch"] = str(pattern.swatch)
    for symbol, colour in pattern.colours.items():
        said[f"colour {symbol}"] = f"{colour.name}, {colour.shade}"
    for yarn in pattern.yarns.values():
        said[f"the yarn {yarn.id}"] = yarn.name or yarn.id
        if yarn.length:
            said[f"length of a ball of {yarn.id}"] = str(yarn.length)
        if yarn.mass:
            said[f"mass of a ball of {yarn.id}"] = str(yarn.mass)
    for piece in pattern.pieces.values():
        said |= _of_piece(piece)
    return said


def in_sizes(piece: str, sizes: Sequence[str]) -> str:
    """`front, small and large`; of a pattern without sizes just `front`."""
    return piece if tuple(sizes) == (ONE_SIZE,) else f"{piece}, {one_and_all(sizes)}"


def _rows(rows: tuple[int, int] | None) -> str:
    return f", rows {rows[0]}–{rows[1]}" if rows else ""


def _of_piece(piece: Piece) -> dict[str, str]:
    said: dict[str, str] = {f"the piece {piece.name}": ""}
    if piece.plain:
        said[f"{piece.name}: plain knitting in"] = piece.plain
    if piece.mirror_of:
        said[f"{piece.name}: mirrors"] = piece.mirror_of
    return said


def _numbers(work: PatternWork) -> dict[tuple[str, str, str], str]:
    """What is said of each size: by piece ("" for yarn), what it is, and size."""
    said: dict[tuple[str, str, str], str] = {}
    for yarn in work.pattern.yarns.values():
        said |= {("", f"balls of {yarn.id}", size): f"{balls:g}" for size, balls in yarn.balls.items()}
    for name, listed in (*work.pattern.notions.items(), *work.pattern.tools.items()):
        said |= {("", name, size): value for size, value in listed.items()}
    for piece in work.pattern.pieces.values():
        for name, what in _OF_PIECES.items():
            said |= {(piece.name, what, size): str(value) for size, value in getattr(piece, name).items()}
        for what, by_size in piece.measures.items():
            said |= {(piece.name, what, size): str(value) for size, value in by_size.items()}
    return said


def _by_size(was: PatternWork, now: PatternWork) -> dict[_Differing, list[str]]:
    """The sizes for which the same is said otherwise in the same way."""
    old, new = _numbers(was), _numbers(now)
    found: dict[_Differing, list[str]] = {}
    for key in dict.fromkeys([*old, *new]):
        if old.get(key) != new.get(key):
            piece, what, size = key
            found.setdefault((piece, what, old.get(key), new.get(key)), []).append(size)
    return found


def _not_told(one: _Differing, sizes: Sequence[str], moved: Collection[tuple[str, str]]) -> list[str]:
    """The sizes for which it is said: where the motif has moved, that is told of the piece."""
    piece, what, *_ = one
    return [size for size in sizes if what not in _OF_MOTIF or (piece, size) not in moved]


def _in_its_sizes(one: _Differing, sizes: Sequence[str]) -> Fact:
    piece, what, old, new = one
    if not piece and tuple(sizes) == (ONE_SIZE,):
        return Fact(what, old, new)
    return Fact(f"{in_sizes(piece, sizes) if piece else one_and_all(sizes)}: {what}", old, new)


def _stated(by_size: Mapping[_Differing, Sequence[str]]) -> dict[str, tuple[str, ...]]:
    """The sizes of each piece in which other numbers are knitted; a measure is only what they come to."""
    found: dict[str, tuple[str, ...]] = {}
    for (piece, what, *_), sizes in by_size.items():
        if piece and what in _OF_PIECES.values():
            found[piece] = tuple(dict.fromkeys([*found.get(piece, ()), *sizes]))
    return found


def _yarns(was: PatternWork, now: PatternWork) -> dict[str, dict[str, tuple[Bought | None, Bought | None]]]:
    found: dict[str, dict[str, tuple[Bought | None, Bought | None]]] = {}
    for size in dict.fromkeys([*now.pattern.sizes, *was.pattern.sizes]):
        old, new = (needs_of(work, size) if size in work.pattern.sizes else {} for work in (was, now))
        for yarn in dict.fromkeys([*new, *old]):
            found.setdefault(yarn, {})[size] = (_bought(old.get(yarn)), _bought(new.get(yarn)))
    return found


def _bought(need: Need | None) -> Bought | None:
    return None if need is None else Bought(need.name or need.yarn, need.to_buy, round(need.whole, 2))
