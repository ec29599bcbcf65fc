"""How often a thing is worked: `4 times`, `x 4`, `twice`, `to end`, `to last 2 sts`."""

from collections.abc import Sequence

from lintarsia.written.lexer import Token, TokenKind
from lintarsia.written.spoken import HowOften, Times, Until
from lintarsia.written.vocabulary import NUMBER_WORDS, REPEAT, STITCH_WORDS

_SMALL = frozenset({"the", "of", "this", "row", "rnd", "round", "needle", "work"})

_REMAIN = frozenset({"before", "from", "of", "the", "end", "remain", "remains", "left", "rem", "are"})


def often_after(tokens: Sequence[Token], at: int) -> tuple[HowOften | None, int]:
    """How often the thing before is worked, and the index after the words that say so; (None, at) where none do."""
    start = at
    while tokens[at].is_mark(",;:–—-.") and (tokens[at + 1].word in REPEAT or tokens[at + 1].is_mark("×")):
        at += 1
    if tokens[at].word in REPEAT and tokens[at + 1].word not in ("from", "between"):
        at += 1
    token = tokens[at]
    if (token.word == "x" or token.is_mark("×")) and tokens[at + 1].kind is TokenKind.NUMBER:
        return Times(int(tokens[at + 1].text)), _after_times(tokens, at + 2)
    if token.word in ("once", "twice", "thrice"):
        return Times(NUMBER_WORDS[token.word]), _after_times(tokens, at + 1)
    number = int(token.text) if token.kind is TokenKind.NUMBER else NUMBER_WORDS.get(token.word)
    if number is not None:
        then = tokens[at + 1]
        if then.word == "more" and tokens[at + 2].word in ("time", "times"):
            return Times(number), at + 3
        if then.word in ("time", "times", "x") or then.is_mark("×"):
            return Times(number), _after_times(tokens, at + 2)
        return None, start
    until, after = read_until(tokens, at)
    return (until, after) if until else (None, start)


def _after_times(tokens: Sequence[Token], at: int) -> int:
    """Past `times more`, `times in all`."""
    if tokens[at].word in ("time", "times"):
        at += 1
    if tokens[at].word == "more":
        at += 1
    if tokens[at].word in ("altogether", "total"):
        at += 1
    elif tokens[at].word == "in" and tokens[at + 1].word in ("all", "total"):
        at += 2
    return at


def read_until(tokens: Sequence[Token], at: int) -> tuple[Until | None, int]:
    """`to end`, `to the end of the row`, `to last 2 sts`, `until 2 sts remain`, `across`, `all sts`."""
    start = at
    if tokens[at].word in ("across", "around", "all", "every", "throughout"):
        if tokens[at].word == "across" and _counted(tokens, at + 1):
            return None, start  # k across next 6 sts
        return Until(0), _skip(tokens, at + 1, _SMALL | STITCH_WORDS | {"across"})
    if tokens[at].word == "the" and tokens[_skip(tokens, at + 1, {"whole", "entire"})].word in ("row", "rnd", "round"):
        return Until(0), _skip(tokens, at + 1, {"whole", "entire", "row", "rnd", "round"})
    if tokens[at].word == "complete" and tokens[_skip(tokens, at + 1, {"the"})].word in ("row", "rnd", "round"):
        return Until(0), _skip(tokens, at + 1, {"the", "row", "rnd", "round"})
    if tokens[_skip(tokens, at, {"the"})].word == "rest":
        return Until(0), _skip(tokens, at, {"rest"} | _SMALL | STITCH_WORDS)
    rem = _skip(tokens, at, {"the"})
    if tokens[rem].word in ("rem", "remaining") and tokens[rem + 1].word in STITCH_WORDS:
        return Until(0), rem + 2
    if tokens[at].kind is TokenKind.NUMBER and tokens[at + 1].word in ("row", "rows", "rnd", "round"):
        return (Until(0), at + 2) if tokens[at].text == "1" else (None, start)
    if tokens[at].word not in ("to", "until", "till"):
        return None, start
    at = _skip(tokens, at + 1, {"the", "within"})
    if tokens[at].word == "end":
        return Until(0), _skip(tokens, at + 1, _SMALL)
    if tokens[at].word in ("last", "final"):
        at += 1
        if tokens[at].word in STITCH_WORDS:
            return Until(1), at + 1
    number = int(tokens[at].text) if tokens[at].kind is TokenKind.NUMBER else NUMBER_WORDS.get(tokens[at].word)
    if number is None:
        return None, start
    at = _skip(tokens, at + 1, STITCH_WORDS | _REMAIN)
    return Until(number), at


def _counted(tokens: Sequence[Token], at: int) -> bool:
    at = _skip(tokens, at, {"the", "first", "next", "last", "following", "rem", "remaining"})
    return tokens[at].kind is TokenKind.NUMBER


def _skip(tokens: Sequence[Token], at: int, words: frozenset[str] | set[str]) -> int:
    while tokens[at].word in words:
        at += 1
    return at
