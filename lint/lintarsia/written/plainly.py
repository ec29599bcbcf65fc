"""Words made plain before they are parsed: numbers in words to digits, numbers for several sizes to those of one."""

from collections.abc import Sequence

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import Token, TokenKind
from lintarsia.written.vocabulary import CARDINALS

CLOSES = {"(": ")", "[": "]"}


def unnumbered(tokens: Sequence[Token], colours: Colours) -> list[Token]:
    """`A#2` and `A #2` as `A2`, the second yarn of a colour, unless a colour has the sign."""
    if any("#" in name for name in colours.plain):
        return list(tokens)
    found: list[Token] = []
    numbered = False
    for token, after in zip(tokens, [*tokens[1:], tokens[-1]], strict=True):
        if token.is_mark("#") and found and after.kind is TokenKind.NUMBER and after.glued:
            numbered = True
            continue
        found.append(Token(token.kind, token.text, token.start, token.end, True) if numbered else token)
        numbered = False
    return found


def in_digits(tokens: Sequence[Token], colours: Colours) -> list[Token]:
    """`three` as `3`, unless some colour's name has the word; `w/` as `with`, unless a colour is called that, and `w`
    where a colour follows."""
    if not colours.symbols & {"w", "W"}:
        tokens = _spelt_out(tokens, colours)
    return [
        Token(TokenKind.NUMBER, str(CARDINALS[token.word]), token.start, token.end, False)
        if token.word in CARDINALS and not colours.names(token.word)
        else token
        for token in tokens
    ]


def _spelt_out(tokens: Sequence[Token], colours: Colours) -> list[Token]:
    found: list[Token] = []
    for at, token in enumerate(tokens):
        if token.word == "w" and token.text == "w" and colours.at(tokens, at + 1, slot=False):
            found.append(Token(TokenKind.WORD, "with", token.start, token.end, token.glued))
        elif token.is_mark("/") and token.glued and found and found[-1].word == "w":
            found[-1] = Token(TokenKind.WORD, "with", found[-1].start, token.end, found[-1].glued)
        else:
            found.append(token)
    return found


def of_size(tokens: Sequence[Token], size: int) -> tuple[list[Token], int]:
    """The tokens with `12 (14, 16)` said for one size only (0 is the first), and for how many sizes they are given.

    A pattern gives each number that differs for all its sizes, the smallest first. Where the numbers of a row do not
    come for as many sizes everywhere, they are left as they stand.
    """
    groups = list(_groups(tokens))
    counts = {len(numbers) for _, _, numbers in groups}
    if len(counts) != 1:
        return list(tokens), 1
    kept: list[Token] = []
    done = 0
    for start, end, numbers in groups:
        kept += [*tokens[done:start], numbers[min(size, len(numbers) - 1)]]
        done = end
    return [*kept, *tokens[done:]], counts.pop()


def _groups(tokens: Sequence[Token]) -> list[tuple[int, int, list[Token]]]:
    """(first token, the one after the last, the numbers) of each `12 (14, 16)`."""
    found = []
    at = 0
    while at < len(tokens) - 3:
        group = _group(tokens, at)
        if group:
            found.append((at, *group))
            at = group[0]
        else:
            at += 1
    return found


def _group(tokens: Sequence[Token], at: int) -> tuple[int, list[Token]] | None:
    if (
        tokens[at].kind is not TokenKind.NUMBER
        or tokens[at + 1].text not in CLOSES
        or tokens[at + 1].kind is not TokenKind.MARK
    ):
        return None
    numbers, end = [tokens[at]], at + 2
    while tokens[end].kind is TokenKind.NUMBER or (tokens[end].is_mark(",:;/-–") and len(numbers) > 1):
        if tokens[end].kind is TokenKind.NUMBER:
            numbers.append(tokens[end])
        end += 1
    if len(numbers) == 1 or not tokens[end].is_mark(CLOSES[tokens[at + 1].text]):
        return None
    follows = tokens[end + 1]
    often = follows.word in ("x", "twice", "once") or follows.is_mark("×")
    count = len(numbers) == 2 and (follows.kind is TokenKind.END or follows.is_mark("."))  # k12 (12): the row's count
    return None if often or count else (end + 1, numbers)
