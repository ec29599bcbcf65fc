"""Lines of a sheet made for eighty columns, on a screen that has fewer."""

import re
from collections.abc import Iterator

from lintarsia.reporting.screen import Screen

_PAINT = re.compile(r"\x1b\[[0-9;]*m")
_GAP = re.compile(r"(?<=\S) {3,}(?=\S)")  # between two columns; two blanks still part them
HANGING = 4


def fitted(text: str, screen: Screen) -> str:
    """`text` with no line wider than the screen, as far as words can be parted. Colours take no room.

    A line that is too wide first gives up the blanks between its columns, then goes on below, further in.
    """
    return "".join(f"{part}\n" for line in text.splitlines() for part in _fit(line, screen.width))


def _fit(line: str, width: int) -> Iterator[str]:
    if _wide(line) <= width:
        yield line
        return
    close = _GAP.sub("  ", line)
    if _wide(close) <= width:
        yield close
        return
    indent = len(line) - len(line.lstrip())
    now = " " * indent
    for word in _parts(close.lstrip(), width - indent - HANGING):
        if now.strip() and _wide(now + word) > width:
            yield now
            now = " " * (indent + HANGING) + word.lstrip()
        else:
            now += word
    yield now


def _parts(line: str, room: int) -> Iterator[str]:
    """What stays together: a column, or a word where a column is wider than `room`. Blanks lead each part."""
    for column in re.split(r"(?<=\S)(?=  +\S)", line):
        yield from [column] if _wide(column) <= room else re.split(r"(?<=\S)(?= \S)", column)


def _wide(text: str) -> int:
    return len(_PAINT.sub("", text))
