"""What a supply is called: its colour's symbol, and its place among the supplies of that colour, as joined.

`A2` is the second of colour A. Where the symbol is a digit the place is a letter, `7b`: nobody could tell the second of
colour 7 from colour 72.
"""

import string

_LETTERS = string.ascii_lowercase


def supply_name(symbol: str, number: int) -> str:
    """`A2`; `7b` of a colour whose symbol is a digit, and `7aa` after `7z`. `number` counts from 1."""
    if not symbol.isdigit():
        return f"{symbol}{number}"
    letters = ""
    while number:
        number, at = divmod(number - 1, len(_LETTERS))
        letters = _LETTERS[at] + letters
    return symbol + letters


def supply_number(symbol: str, said: str) -> int | None:
    """The number of the supply that is called `said`, which begins with its colour's symbol; None where it is none."""
    place = said[len(symbol) :]
    if not symbol.isdigit():
        return int(place) if place.isascii() and place.isdigit() else None
    number = 0
    for letter in place:
        if letter not in _LETTERS:
            return None
        number = number * len(_LETTERS) + _LETTERS.index(letter) + 1
    return number or None
