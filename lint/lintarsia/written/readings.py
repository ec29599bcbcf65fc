"""What else a row's words may mean: habits that differ from designer to designer, each tried where the plain reading is
not the charted row. Common practice."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from lintarsia.written.order import ColourSupply
from lintarsia.written.spoken import Item, StitchWork, TakeUp


def other_readings(items: Sequence[Item]) -> Iterator[tuple[Item, ...]]:
    """The same words read by other habits."""
    if (made := _made_between(items)) != tuple(items):
        yield made
    if (behind := _coloured_behind(items)) != tuple(items):
        yield behind


def _made_between(items: Sequence[Item]) -> tuple[Item, ...]:
    """`k1, inc 1, k4`: an increase that is made between two stitches, and takes neither."""
    return tuple(
        replace(item, takes=0, makes=1) if isinstance(item, StitchWork) and item.stitch == "inc" else item
        for item in items
    )


def _coloured_behind(items: Sequence[Item]) -> tuple[Item, ...]:
    """`k1, M1, k3 in A`: the colour named last is that of all that stand before it without one."""
    found: list[Item] = []
    yarn: ColourSupply | None = None
    for item in reversed(items):
        if isinstance(item, StitchWork) and not item.follows:
            yarn = item.yarn or yarn
            item = replace(item, yarn=yarn)
        elif not isinstance(item, StitchWork) or isinstance(item, TakeUp):
            yarn = None
        found.append(item)
    return tuple(found[::-1])
