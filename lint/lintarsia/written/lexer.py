"""A written row cut into tokens: words, numbers, quoted names, marks. Each knows where it stands."""

import re
from collections.abc import Callable
from enum import Enum

from lintarsia.ground.values import dataclass

MOST_DIGITS = 6
STARS = "*†‡"
QUOTES = {'"': '"', "'": "'", "“": "”", "‘": "’", "«": "»"}

# Stitches whose names have a digit, a space or a comma inside, which would fall apart otherwise.
_AND = r"[ ,–-]+"
_PASSED = r"(?:psso|p\.s\.s\.o\.?|pass (?:the )?(?:sl|slip|slipped) st(?:itch)? over)"
_NAMED = re.compile(
    rf"(?:sl? ?1{_AND}k ?[12](?: ?tog)?{_AND}{_PASSED}|sl ?2(?: tog)?{_AND}k ?1{_AND}p2sso|"
    r"[kp] ?[23] ?tog(?:ether)?(?:[ -]?tbl)?|s2kp2?|sk2po?|sssk|ssk|ssp|skpo?|"
    r"[kp] ?1 ?f ?& ?b|[kp]1fb|[kp]f ?& ?b|kfb|pfb|m1[lrp]?|yo|yfwd|yrn)"
    r"(?![^\W_]{2}|[0-9]|(?<!tog)(?<!tbl)(?<!ssk)(?<!ssp)(?<!skp)(?<!kfb)[^\W_])",
    re.IGNORECASE,
)
_LOWERED = str.maketrans("₀₁₂₃₄₅₆₇₈₉", "0123456789")
_OVER = re.compile(_PASSED)
_SPELT = re.compile(r"[ ,–-]|ether")
_ABBREVIATED = {"b.o.": "bo", "b.o": "bo", "b/o": "bo", "c/o": "castoff"}


class TokenKind(Enum):
    WORD = "word"
    NUMBER = "number"
    QUOTED = "quoted"
    STITCH = "stitch"  # a named one, such as k2tog
    MARK = "mark"
    END = "end"


@dataclass(frozen=True, slots=True)
class Token:
    """`start` and `end` index the text; `glued` says that no space stands before it."""

    kind: TokenKind
    text: str
    start: int
    end: int
    glued: bool

    @property
    def word(self) -> str:
        """The text in lower case where it is a word, else ""."""
        return self.text.lower() if self.kind is TokenKind.WORD else ""

    def is_mark(self, marks: str) -> bool:
        return self.kind is TokenKind.MARK and self.text[0] in marks


class NotUnderstood(Exception):  # noqa: N818 - what a person wrote is not a programming error
    """A word that says nothing to a knitter here, and what was expected; `start` and `end` index the row's text."""

    def __init__(self, message: str, start: int, end: int) -> None:
        super().__init__(message)
        self.message, self.start, self.end = message, start, end


def tokens_of(text: str, start: int = 0, *, m_is_colour: bool = False) -> list[Token]:
    """The tokens from `start` on; the last one is an END. Raises NotUnderstood for a number nobody knits.

    `m_is_colour`: M1 is one stitch in the colour M, not a stitch made.
    """
    found: list[Token] = []
    at, after = start, start
    text = text.translate(_LOWERED)
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        kind, value, end = _token(text, at, m_is_colour)
        if kind is TokenKind.WORD and value[0] in "xX" and at == after and found and found[-1].kind is TokenKind.NUMBER:
            value, end = value[0], at + 1  # 3xA
        if kind is TokenKind.NUMBER and len(value) > MOST_DIGITS:
            raise NotUnderstood(f"{value[:12]}… is more than anybody knits; expected a count", at, end)
        found.append(Token(kind, value, at, end, at == after))
        at = after = end
    found.append(Token(TokenKind.END, "", len(text), len(text), False))
    return found


def _token(text: str, at: int, m_is_colour: bool) -> tuple[TokenKind, str, int]:
    first = text[at]
    named = _NAMED.match(text, at)
    if named and not (m_is_colour and first in "mM"):
        return TokenKind.STITCH, _SPELT.sub("", _OVER.sub("psso", named[0].lower())), named.end()
    for spelt, word in _ABBREVIATED.items():
        if text[at : at + len(spelt)].lower() == spelt:
            return TokenKind.WORD, word, at + len(spelt)
    if first in "0123456789":
        return _stretch(text, at, TokenKind.NUMBER, lambda c: c in "0123456789")
    if first.isalpha():
        return _stretch(text, at, TokenKind.WORD, str.isalpha)
    if first in QUOTES and (close := text.find(QUOTES[first], at + 2)) > 0:
        return TokenKind.QUOTED, text[at + 1 : close], close + 1
    if first in STARS:
        return _stretch(text, at, TokenKind.MARK, lambda c: c == first)
    return TokenKind.MARK, first, at + 1


def _stretch(text: str, at: int, kind: TokenKind, belongs: Callable[[str], bool]) -> tuple[TokenKind, str, int]:
    end = at + 1
    while end < len(text) and belongs(text[end]):
        end += 1
    return kind, text[at:end], end
