"""The stitches of a stint in words: decreases by name where they are worked, new stitches behind the last."""

from dataclasses import replace

from lintarsia.chart.shaping import Change, ChangeKind
from lintarsia.telling.terms import Terms
from lintarsia.written.folding import fold
from lintarsia.written.order import YarnStretch
from lintarsia.written.rowphrase import row_phrase
from lintarsia.written.shapingphrases import Named, last_phrase
from lintarsia.written.style import Style
from lintarsia.written.symbols import written_yarn


def worked_words(
    runs: list[YarnStretch], stitch: str, style: Style, ends: tuple[Named | None, Named | None], *, shaped: bool
) -> str:
    """The stitches of a stint; decreases that have a name where they are worked, the rest folded between them."""
    before, runs = _taken(runs, ends[0], stitch) if ends[0] else ([], runs)
    behind, runs = _taken(runs[::-1], ends[1], stitch) if ends[1] else ([], runs)
    runs = runs[::-1] if ends[1] else runs
    # `to end` counts what hangs on the needle, which in a shaped row is not what the chart shows: brackets only.
    stars = style.stars and not shaped and not before and not behind
    middle = row_phrase(fold(runs) if style.fold else runs, stitch, stars=stars)
    return ", ".join([*before, *([middle] if middle else []), *behind[::-1]])


def _taken(runs: list[YarnStretch], made: Named, stitch: str) -> tuple[list[str], list[YarnStretch]]:
    """The words of the stitches from an edge to its decreases, and the stretches that are left."""
    words: list[str] = []
    edge, left = split(runs, made.after)
    words += [f"{stretch.stitch or stitch}{stretch.count} {written_yarn(stretch.yarn)}" for stretch in edge]
    ends, left = split(left, made.times)
    words += [f"{made.name} {written_yarn(stretch.yarn)}" for stretch in ends for _ in range(stretch.count)]
    return words, left


def split(runs: list[YarnStretch], stitches: int) -> tuple[list[YarnStretch], list[YarnStretch]]:
    """So many stitches from the front, and the rest."""
    taken: list[YarnStretch] = []
    for at, stretch in enumerate(runs):
        if not stitches:
            return taken, runs[at:]
        part = min(stitches, stretch.count)
        taken.append(YarnStretch(stretch.yarn, part, stretch.stitch))
        stitches -= part
        if part < stretch.count:
            return taken, [YarnStretch(stretch.yarn, stretch.count - part, stretch.stitch), *runs[at + 1 :]]
    return taken, []


def words_behind(changes: list[Change], worked: list[YarnStretch], added: list[YarnStretch], terms: Terms) -> list[str]:
    """What is done behind the last stitch; new stitches by yarn, where it is not the one that ends the stint."""
    said = []
    for change in changes:
        plain = change.kind is ChangeKind.HOLD or {stretch.yarn for stretch in added} == {worked[-1].yarn}
        if plain:
            said.append(last_phrase(change, terms))
        else:
            parts = [(replace(change, stitches=stretch.count), written_yarn(stretch.yarn)) for stretch in added]
            said.append(", ".join(last_phrase(part, terms, yarn) for part, yarn in parts))
    return said
