"""The test knits of a pattern as its page shows them: sizes and who has taken them, and what was said by row.

Handles and what was measured, no more; a log that says `site: false` is left out altogether.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from lintarsia.knits.model import Remark, RemarkKind
from lintarsia.knits.summary import NOW, THEN, Knit, PatternKnits
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.telling.counts import count
from lintarsia.telling.spans import span


@dataclass(frozen=True, slots=True)
class Taken:
    """A size and one who has taken it; all but the size "" where nobody has. `size` is "" below the first of a size."""

    size: str
    knitter: str = ""
    state: str = ""
    revision: str = ""
    gauge: str = ""
    yarn: str = ""


@dataclass(frozen=True, slots=True)
class SpotLine:
    """A remark: where, what was said and by whom; `state` picks its mark."""

    state: str
    place: str
    said: str
    by: str
    answered: str


@dataclass(frozen=True, slots=True)
class Board:
    lede: str
    taken: tuple[Taken, ...]
    spots: tuple[SpotLine, ...]


def board(one: PatternKnits) -> Board | None:
    """None where no log may be shown."""
    sizes = {size: [knit for knit in knits if knit.site] for size, knits in one.sizes.items()}
    shown = [knit for knits in sizes.values() for knit in knits]
    if not shown:
        return None
    taken = tuple(line for size, knits in sizes.items() for line in _taken("" if size == ONE_SIZE else size, knits))
    free = [size for size, knits in sizes.items() if not knits and size != ONE_SIZE]
    return Board(_lede(shown, free), taken, tuple(_spots(shown)))


def _lede(shown: list[Knit], free: list[str]) -> str:
    done, waiting = sum(bool(knit.finished) for knit in shown), sum(knit.open for knit in shown)
    told = f"{count(len(shown), 'test knit')}, {done} finished"
    told += f"; {count(waiting, 'remark')} without an answer" if waiting else ""
    return f"{told}. Nobody has taken {', '.join(free)}." if free else f"{told}."


def _taken(size: str, knits: list[Knit]) -> Iterator[Taken]:
    if not knits:
        yield Taken(size)
    for number, knit in enumerate(knits):
        gauge = f"{knit.gauge.stitches:g} × {knit.gauge.rows:g} to {knit.gauge.over}" if knit.gauge else ""
        yarn = ", ".join(f"{used.yarn} {used.ratio:.2f}" for used in knit.yarns if used.ratio is not None)
        state = f"finished {knit.finished}" if knit.finished else "still knitting"
        yield Taken("" if number else size, knit.knitter, state, _revision(knit), gauge, yarn)


def _revision(knit: Knit) -> str:
    if knit.revision == NOW or (knit.revision == THEN and knit.same_stitches):
        return "as it is now"
    return knit.commit or "not known"


def _spots(shown: list[Knit]) -> Iterator[SpotLine]:
    remarks = [(knit, remark) for knit in shown for remark in knit.rows]
    for knit, remark in sorted(remarks, key=lambda pair: (pair[1].piece or "", pair[1].row, pair[0].file)):
        by = f"{knit.knitter}, {knit.size}" if knit.size != ONE_SIZE else knit.knitter
        yield SpotLine(_state(remark), _place(remark), remark.said, by, remark.answered)


def _state(remark: Remark) -> str:
    if not remark.open:
        return "clear"
    return "warning" if remark.kind is RemarkKind.TROUBLE else "note"


def _place(remark: Remark) -> str:
    piece = f"{remark.piece}, " if remark.piece else ""
    if remark.stitches is None:
        return f"{piece}row {remark.row}"
    word = "stitch" if remark.stitches[0] == remark.stitches[1] else "stitches"
    return f"{piece}row {remark.row}, {word} {span(*remark.stitches)}"
