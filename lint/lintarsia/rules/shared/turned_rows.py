"""Rows of a motif that stand the other way round, within the columns of the motif or by themselves."""

from collections.abc import Iterator

from lintarsia.rules.shared.sizes_alike import Rows, start


def turned_within(was: Rows, now: Rows, ground: str) -> Iterator[int]:
    """The rows, from 0, between rows that are as they were."""
    others = {row for row in range(len(now)) if was[row] != now[row]}
    for row in sorted(others):
        if not others & {row - 1, row + 1} and _turned(was, now, row, ground):
            yield row


def _turned(was: Rows, now: Rows, row: int, ground: str) -> bool:
    old, new = was[row].strip(ground), now[row].strip(ground)
    if new != old[::-1]:
        return False
    if new != old:
        return True
    left = min(start(text, ground) for text in was)
    right = min(start(text[::-1], ground) for text in was)
    within = slice(left, len(now[row]) - right)
    return now[row][within] == was[row][within][::-1]
