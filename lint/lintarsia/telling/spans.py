"""Numbers of rows or stitches gathered into stretches, and said in few words."""

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


def span(first: int, last: int) -> str:
    """`3`, `3–9`."""
    return str(first) if first == last else f"{first}–{last}"


def spans(numbers: Iterable[int]) -> str:
    """`3–9, 12`."""
    return ", ".join(span(first, last) for first, last in stretches((n, n) for n in numbers))
