"""What has become of one row: which stitches differ, and whether it has moved or been mirrored as a whole."""

from collections.abc import Iterator

from lintarsia.chart.aligning import FURTHEST
from lintarsia.chart.grid import NO_STITCH_SYMBOL
from lintarsia.comparing.model import How, Stitches

FAR = 3  # stitches; a lone row that seems to have moved further, and could be mirrored, is mirrored


def how_changed(was: str, now: str) -> tuple[How, int]:
    """How a row of as many squares came from another, and by how many stitches it has moved to the left."""
    if [s == NO_STITCH_SYMBOL for s in was] != [s == NO_STITCH_SYMBOL for s in now]:
        mirrored = now == was[::-1] and now.strip(NO_STITCH_SYMBOL) != was.strip(NO_STITCH_SYMBOL)
        return (How.MIRRORED if mirrored else How.COUNT), 0
    left = moved_left(was, now)
    if now == was[::-1] and (not left or abs(left) > FAR or not _all_moved(was, now, left)):
        return How.MIRRORED, 0
    return (How.SHIFTED, left) if left else (How.STITCHES, 0)


def _all_moved(was: str, now: str, left: int) -> bool:
    """Whether moving leaves nothing open: what has left at one side, and come in at the other, is the row's edge."""
    step = abs(left)
    gone, come = (was[:step], now[-step:]) if left > 0 else (was[-step:], now[:step])
    edge = come[0]
    return gone == come == edge * step


def moved_left(was: str, now: str) -> int:
    """By how many stitches a motif, or the whole row, stands further to the left now; negative to the right, 0 where
    neither is so."""
    columns = [k for k, (a, b) in enumerate(zip(was, now, strict=True)) if a != b]
    first, end = columns[0], columns[-1] + 1
    for step in range(1, min(end - first, FURTHEST + 1)):
        around = {was[first - 1] if first else "", was[end] if end < len(was) else ""} - {""}
        if _motif_moved(was[first:end], now[first:end], step, around):
            return -step
        if _motif_moved(now[first:end], was[first:end], step, around):
            return step
    for step in range(1, len(was) // 3 + 1):
        if len(columns) <= 2 * step:
            break
        if now[step:] == was[:-step]:
            return -step
        if was[step:] == now[:-step]:
            return step
    return 0


def _motif_moved(was: str, now: str, step: int, around: set[str]) -> bool:
    """Whether all between the outermost stitches that differ stands `step` further to the right, on the ground that is
    `around` it."""
    ground = was[-1]
    plain = was[-step:] == ground * step == now[:step] and around <= {ground}
    return plain and was[:-step] == now[step:] and ground != NO_STITCH_SYMBOL


def differing(was: str, now: str) -> tuple[Stitches, ...]:
    """Stretches of stitches of now (right to left from 1) that are not what they were; rows are lined up at the right,
    and a stitch that is no more is named where it was."""
    wide = max(len(was), len(now))
    pairs = zip(was.rjust(wide, NO_STITCH_SYMBOL)[::-1], now.rjust(wide, NO_STITCH_SYMBOL)[::-1], strict=True)
    return tuple(_stretches([stitch for stitch, (a, b) in enumerate(pairs, 1) if a != b]))


def _stretches(numbers: list[int]) -> Iterator[Stitches]:
    start = 0
    for at, number in enumerate(numbers):
        if at + 1 == len(numbers) or numbers[at + 1] != number + 1:
            yield numbers[start], number
            start = at + 1
