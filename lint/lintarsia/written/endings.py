"""Repeats whose end is said by what follows them: `rep from *, end k1 B`."""

from collections.abc import Sequence
from dataclasses import replace

from lintarsia.written.lexer import NotUnderstood
from lintarsia.written.spoken import Again, Item, StitchWork, TakeUp, Times, Until

ENDING = -1  # stitches left: as many as the words after the repeat take


def ended(items: Sequence[Item]) -> list[Item]:
    """The items with such repeats told how many stitches to leave. Raises NotUnderstood where it cannot be counted."""
    return [
        replace(item, often=Until(_taken(items[at + 1 :], item)))
        if isinstance(item, Again) and item.often == Until(ENDING)
        else item
        for at, item in enumerate(items)
    ]


def unheaded(items: Sequence[Item]) -> list[Item]:
    """`work back: p2 A, p4 B`: words for the whole row that stand before its stitches only head them."""
    first = next((at for at, item in enumerate(items) if not isinstance(item, TakeUp)), len(items))
    more = any(not isinstance(item, TakeUp) for item in items[first + 1 :])
    heads = more and isinstance(item := items[first], StitchWork) and item.follows and item.often == Until(0)
    return [*items[:first], *items[first + 1 :]] if heads else list(items)


def _taken(items: Sequence[Item], repeat: Again) -> int:
    total = 0
    for item in items:
        if isinstance(item, TakeUp):
            continue
        if not isinstance(item.often, Times):
            raise NotUnderstood(
                "the row's end does not say its stitches; expected `end k1` or the like", repeat.start, repeat.end
            )
        total += item.often.number * (item.takes if isinstance(item, StitchWork) else _taken(item.items, repeat))
    return total
