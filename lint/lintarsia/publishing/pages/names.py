"""Names of colours and yarns where a page has no room, or no element, for each of them."""

import unicodedata

LONGEST = 40
_ISOLATE, _END = "\u2068", "\u2069"  # FIRST STRONG ISOLATE and POP DIRECTIONAL ISOLATE (Unicode, UAX #9)


def shortened(name: str) -> str:
    """A name cut to what a line has room for."""
    return name if len(name) <= LONGEST else f"{name[: LONGEST - 1].rstrip()}…"


def isolated(name: str) -> str:
    """A name that turns nothing around it: one with letters that are written from right to left is set apart, so that
    numbers beside it stay where they belong."""
    turns = any(unicodedata.bidirectional(letter) in ("R", "AL", "RLE", "RLO", "RLI") for letter in name)
    return f"{_ISOLATE}{name}{_END}" if turns else name
