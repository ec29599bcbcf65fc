"""Counts and lists in words. Numbers are grouped by commas everywhere that people read."""

from collections.abc import Sequence


def count(number: int, one: str, many: str = "") -> str:
    """`1 row`, `1,204 stitches`, `2 supplies`: the plural where it is not the usual one is `many`."""
    if number == 1:
        return f"1 {one}"
    return f"{number:,} {many or one + ('es' if one.endswith('ch') else 's')}"


def stitch_count(number: int) -> str:
    """`1 stitch`, `1,204 stitches`."""
    return count(number, "stitch")


def one_and_all(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"


def one_of(words: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} or {words[-1]}"
