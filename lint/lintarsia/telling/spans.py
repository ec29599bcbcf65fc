"""Numbers of rows or stitches gathered into stretches, for whoever tells of them in few words."""

from collections.abc import Iterable


def stretches(ranges: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Ranges (first and last, both inside) in order, those that overlap or touch made one."""
    merged: list[tuple[int, int]] = []
    for first, last in sorted(ranges):
        if merged and first <= merged[-1][1] + 1:
            merged[-1] = (merged[-1][0], max(last, merged[-1][1]))
        else:
            merged.append((first, last))
    return merged
