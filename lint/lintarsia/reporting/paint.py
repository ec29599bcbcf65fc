"""Colour for a terminal, and text that cannot do anything to one."""

from collections.abc import Sequence

from lintarsia.reporting.screen import Screen
from lintarsia.result import Level

RESET = "\x1b[0m"
_SGR = {Level.ERROR: "1;31", Level.WARNING: "1;33", Level.NOTE: "1;36"}
_SHAPE = {Level.ERROR: "■", Level.WARNING: "▲", Level.NOTE: "●"}
_PLAIN_SHAPE = {Level.ERROR: "#", Level.WARNING: "!", Level.NOTE: "-"}


def level_mark(level: Level, screen: Screen) -> str:
    """The level as shape and word, in its colour where there is one: neither is ever told by colour alone."""
    shape = (_SHAPE if screen.unicode else _PLAIN_SHAPE)[level]
    return by_level(f"{shape} {level}", level, screen)


def by_level(text: str, level: Level, screen: Screen) -> str:
    """Text in a level's colour."""
    return f"\x1b[{_SGR[level]}m{text}{RESET}" if screen.colour else text


def quiet(text: str, screen: Screen) -> str:
    """Text that may step back."""
    return f"\x1b[2m{text}{RESET}" if screen.colour else text


def strong(text: str, screen: Screen) -> str:
    """Text that comes forward."""
    return f"\x1b[1m{text}{RESET}" if screen.colour else text


def shade_codes(shade: str) -> str:
    """`#27406b` as the colour parameters of a terminal's 24-bit sequence."""
    return ";".join(str(int(shade[i : i + 2], 16)) for i in (1, 3, 5))


def harmless(text: str) -> str:
    """Text without characters that steer a terminal or turn its writing round; they appear as escapes."""
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else c.encode("unicode_escape").decode("ascii") for c in text)


def plain_where_needed(text: str, screen: Screen) -> str:
    """Our own typography in ASCII where the screen has no more."""
    if screen.unicode:
        return text
    for fancy, plain in _TYPOGRAPHY:
        text = text.replace(fancy, plain)
    return text


_TYPOGRAPHY: Sequence[tuple[str, str]] = (
    ("–", "-"),
    ("−", "-"),
    ("—", "-"),
    ("…", "..."),
    ("×", "x"),
    ("·", ";"),
    ("’", "'"),
    ("“", '"'),
    ("”", '"'),
    ("→", "->"),
    ("←", "<-"),
    ("↔", "<->"),
    ("≤", "<="),
    ("≥", ">="),
    ("▸", ">"),
)
