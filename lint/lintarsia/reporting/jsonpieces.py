"""JSON made bit by bit, so that no memory is spent on the text of a million results, nor on the results themselves."""

import json
from collections.abc import Iterable, Iterator

NEW_LINE = "\n"  # JSON writes those of texts as two other characters
_LINE = json.JSONEncoder(ensure_ascii=False)


def list_pieces(items: Iterable[object], margin: str) -> Iterator[str]:
    """A list of JSON that stands `margin` deep, each of its items one piece; laid out as json.dumps has it."""
    before = f"[{NEW_LINE}{margin}  "
    for item in items:
        yield before + indented(item, f"{margin}  ")
        before = f",{NEW_LINE}{margin}  "
    yield "[]" if before.startswith("[") else f"{NEW_LINE}{margin}]"


def indented(value: object, margin: str) -> str:
    """As json.dumps with an indent of two, whose every call leaves a circle of functions for the garbage collection,
    which a short command does without: gigabytes, for a million results."""
    inner = f"{NEW_LINE}{margin}  "
    if isinstance(value, dict) and value:
        items = (f"{inner}{in_line(key)}: {indented(item, margin + '  ')}" for key, item in value.items())
        return f"{{{','.join(items)}{NEW_LINE}{margin}}}"
    if isinstance(value, list | tuple) and value:
        return f"[{','.join(f'{inner}{indented(item, inner[1:])}' for item in value)}{NEW_LINE}{margin}]"
    return in_line(value)


def in_line(value: object) -> str:
    """As json.dumps, on one line, in letters as they are."""
    return _LINE.encode(value)
