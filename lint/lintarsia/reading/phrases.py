"""Names, values and paths out of a file as messages speak of them: short, printable, in words."""

from typing import Any

from lintarsia.chart import Path


def path_words(path: Path) -> str:
    """A path as one would say it: `shade of B in colours`."""
    names = [f"entry {step + 1}" if isinstance(step, int) else said(step) for step in path]
    if len(names) <= 1:
        return names[0] if names else "the file"
    return " of ".join(reversed(names[1:])) + f" in {names[0]}"


def quoted(found: Any) -> str:
    """A value as it was found, short enough for a message."""
    if found is None:
        return "nothing"
    if isinstance(found, bool):
        return str(found).lower()
    if isinstance(found, dict):
        return "a group of keys" if found else "an empty group"
    if isinstance(found, list):
        return f"a list of {len(found)}"
    if isinstance(found, str):
        if not found:
            return "an empty text"
        return repr(found if len(found) <= 40 else found[:37] + "...")
    return str(found)


def said(name: str) -> str:
    """A name out of a file as it may stand in a message: itself, unless it is long or cannot be printed."""
    return name if name and len(name) <= 40 and name.isprintable() else quoted(name)
