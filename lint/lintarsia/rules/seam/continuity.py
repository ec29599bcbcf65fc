"""seam/continuity: colours that meet at a seam."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.pattern.model import Seam
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
INFO = RuleInfo(
    name="seam/continuity",
    level=Level.WARNING,
    summary="colours that should meet at a seam do not",
    why=(
        "A stripe or horizon that jumps at the side seam is seen before anything else of the garment, and only when "
        "both pieces are finished."
    ),
    remedy=(
        "move the colours of one piece by the rows they are off, say in `rows` where along the seam they meet, "
        "or take `match` out"
    ),
    keys={
        "colours-differ": "the two edges have different colours along some rows or stitches",
        "lengths-differ": "the two edges have different numbers of rows or stitches",
    },
    subjects=(Kind.PATTERN,),
)
MOST_TOLD = 8  # stretches of one seam; more say nothing new


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for edges of different length; where the pattern asks for colours to match, one for each stretch
    along which they differ.

    Sizes that are told the same are told together. Colours are the same where their names are.
    """
    from lintarsia.pattern.work import About

    for seam in work.pattern.seams:
        found: dict[tuple[str, str], list[str]] = {}
        for size in work.pattern.sizes:
            for said in _seam(work, seam, size):
                found.setdefault(said, []).append(size)
        region = work.place("seams", seam.index, "join")
        for (key, words), sizes in found.items():
            which = "" if tuple(sizes) == work.pattern.sizes else f" ({', '.join(sizes)})"
            message = f"{seam.first} to {seam.second}{which}: {words}"
            yield About(Finding(key, message, region, pattern=message), seam.first.piece, tuple(sizes))


def _seam(work: "PatternWork", seam: "Seam", size: str) -> Iterator[tuple[str, str]]:
    from lintarsia.pattern.seamedges import differing, edge_of, turned

    charts = []
    for side in (seam.first, seam.second):
        piece = work.pattern.pieces.get(side.piece)
        laid = work.laid(piece, size) if piece else None
        if laid is None:
            return
        charts.append(laid.chart)
    edge, other_edge = seam.first.edge, seam.second.edge
    if edge.upright != other_edge.upright:
        return  # the reader has said that these cannot be compared
    one, other = edge_of(charts[0], edge, seam.rows), edge_of(charts[1], other_edge, seam.rows)
    if turned(edge, other_edge):
        other.reverse()
    unit = "row" if edge.upright else "stitch"
    if len(one) != len(other):
        yield "lengths-differ", f"{count(len(one), unit)} meet {count(len(other), unit)}"
        if not edge.upright:
            return  # without a common beginning there is nothing to compare
    for told, (first, last) in enumerate(differing(one, other) if seam.match else ()):
        if told == MOST_TOLD:
            yield "colours-differ", "and so on along the seam"
            return
        here, there = (
            _along(unit, one[first].number, one[last].number),
            _along(unit, other[first].number, other[last].number),
        )
        at = here if here == there else f"{here} and {there}"
        yield "colours-differ", f"{at}: {one[first].colour} meets {other[first].colour}"


def _along(unit: str, one: int, other: int) -> str:
    """A stretch by its numbers, in their own order: of two edges that run against each other, one is gone along
    backwards."""
    first, last = sorted((one, other))
    many = "rows" if unit == "row" else "stitches"
    return f"{unit} {first}" if first == last else f"{many} {first}–{last}"
