"""Counts and lists in words, in the language that is spoken. Numbers are grouped everywhere that people read, in
English by commas."""

from collections.abc import Sequence

from lintarsia.telling.languages import counted, is_english, phrase


def count(number: int, one: str, many: str = "") -> str:
    """`1 row`, `1,204 stitches`, `2 supplies`: the plural where it is not the usual one is `many`."""
    if is_english():  # which checks have a hundred thousand times
        return f"1 {one}" if number == 1 else f"{number:,} {many or one + ('es' if one.endswith('ch') else 's')}"
    singular, plural = f"{{n}} {one}", f"{{n}} {many or one + ('es' if one.endswith('ch') else 's')}"
    return counted(number, singular, plural)


def stitch_count(number: int) -> str:
    """`1 stitch`, `1,204 stitches`."""
    return count(number, "stitch")


def one_and_all(words: Sequence[str]) -> str:
    """`a`, `a and b`, `a, b and c`."""
    return words[0] if len(words) == 1 else phrase("{list} and {last}", list=", ".join(words[:-1]), last=words[-1])


def one_of(words: Sequence[str]) -> str:
    """`a`, `a or b`, `a, b or c`."""
    return words[0] if len(words) == 1 else phrase("{list} or {last}", list=", ".join(words[:-1]), last=words[-1])
