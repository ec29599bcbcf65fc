"""A place among a row's tokens, and the small steps that every part of the parser takes from it."""

import re

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import NotUnderstood, Token, TokenKind
from lintarsia.written.often import often_after, read_until
from lintarsia.written.order import ColourSupply
from lintarsia.written.spoken import HowOften, Until
from lintarsia.written.vocabulary import FILLERS, NOT_COLOURS, ORDINALS, YARN_WORDS

BEYOND = 4  # more ENDs than anything looks ahead, so that no look goes past the words


class Cursor:
    """`at` is the index of the next token. `stated` and `shaped` are what was learnt on the way."""

    def __init__(self, text: str, tokens: list[Token], colours: Colours) -> None:
        self.text, self.colours = text, colours
        self.tokens = [*tokens, *[tokens[-1]] * BEYOND]
        self.at = 0
        self.depth = 0
        self.side = ""
        self.stated: int | None = None
        self.shaped = False

    @property
    def now(self) -> Token:
        return self.tokens[self.at]

    def peek(self, ahead: int = 1) -> Token:
        return self.tokens[min(self.at + ahead, len(self.tokens) - 1)]

    def often(self) -> HowOften | None:
        """How often the thing before is worked, if the next words say so."""
        often, self.at = often_after(self.tokens, self.at)
        return often

    def until(self) -> Until | None:
        until, self.at = read_until(self.tokens, self.at)
        return until

    def slot(self) -> ColourSupply | None:
        """The colour, where one may follow a count."""
        return self.after_fillers(self.at)

    def after_fillers(self, at: int, also: str = "the") -> ColourSupply | None:
        """The colour after words such as `in`, `with the`, `with a 2nd ball of`."""
        while not self.tokens[at].is_mark("([{"):
            if not self.fills(at) and self.colours.at(self.tokens, at, slot=True):
                break
            if self._second(at) or self._numbered_yarn(at):
                at += 2
            elif self.fills(at) or self.tokens[at].word == also or self._hyphen(at) or self._dash(at):
                at += 1
            else:
                return None
        bracket = self.tokens[at].is_mark("([{")  # k3 (A)
        found = self.colours.at(self.tokens, at + bracket, slot=True)
        if found is None or (bracket and not self.tokens[found.after].is_mark(")]}")):
            return None
        self.at = found.after + bracket
        while self.now.word in YARN_WORDS and self.colours.at(self.tokens, self.at, slot=False) is None:
            self.at += 1  # with second MC bobbin
        return found.yarn

    def named_again(self, yarn: ColourSupply | None) -> None:
        """Step over the colour's symbol in a bracket behind its name: `3 sts bone (B)`."""
        if yarn and self.now.is_mark("([{") and self.peek(2).is_mark(")]}"):
            found = self.colours.at(self.tokens, self.at + 1, slot=True)
            if found and found.yarn.symbol == yarn.symbol and found.after == self.at + 2:
                self.at += 3

    def leads_to_colour(self, at: int) -> bool:
        """Whether a colour follows after these fillers; nothing is stepped over."""
        here = self.at
        found, self.at = self.after_fillers(at), here
        return found is not None

    def skip(self, words: frozenset[str] | set[str]) -> bool:
        start = self.at
        while self.now.word in words:
            self.at += 1
        return self.at > start

    def fills(self, at: int) -> bool:
        """Whether a word only leads to a colour. `a` does before `new ball`, and is a colour of the key elsewhere."""
        word = self.tokens[at].word
        if self.tokens[at].text == "a":
            then = self.tokens[at + 1]
            return then.word in NOT_COLOURS or self.tokens[at + 2].word in ORDINALS
        if word == "a":
            return False
        return word in FILLERS or (word in NOT_COLOURS and self.colours.at(self.tokens, at, slot=False) is None)

    def _second(self, at: int) -> bool:
        """`with 2nd A`."""
        return self.tokens[at].kind is TokenKind.NUMBER and self.tokens[at + 1].word in ORDINALS

    def _numbered_yarn(self, at: int) -> bool:
        """`with bobbin 1 (A)`."""
        numbered = self.tokens[at].word in YARN_WORDS and self.tokens[at + 1].kind is TokenKind.NUMBER
        return numbered and self.tokens[at + 2].is_mark("([")

    def _hyphen(self, at: int) -> bool:
        """`k3-A`."""
        return self.tokens[at].is_mark("-") and self.tokens[at].glued and self.tokens[at + 1].glued

    def _dash(self, at: int) -> bool:
        """`k3 - A,`: a colour behind its count, and not that of the next stitches."""
        if not self.tokens[at].is_mark("-–—") or self.tokens[at - 1].kind is not TokenKind.NUMBER:
            return False
        found = self.colours.at(self.tokens, at + 1, slot=True)
        return found is not None and (
            self.tokens[found.after].kind is TokenKind.END or self.tokens[found.after].is_mark(",;.)]")
        )

    def said(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """What the text from here on says, if it is this; the words of it are stepped over."""
        match = pattern.match(self.text, self.now.start)
        if match:
            while self.now.kind is not TokenKind.END and self.now.start < match.end():
                self.at += 1
        return match

    def sample(self) -> str:
        return self.colours.plain[0]

    def unknown(self, token: Token) -> NotUnderstood:
        from difflib import get_close_matches

        if len(token.text) == 1 and token.word not in ("x",):
            known = ", ".join(sorted(self.colours.symbols))
            return unreadable_at(f"there is no colour {token.text!r} in the key; it has {known}", token)
        firsts = {name.split()[0].lower(): name for name in self.colours.plain if name.split()}
        near = get_close_matches(token.word, firsts, n=1, cutoff=0.7) if len(token.text) > 2 else []
        hint = f"did you mean {firsts[near[0]]!r}?" if near else f"expected stitches such as k3 {self.sample()}"
        return unreadable_at(f"{token.text!r} says nothing here; {hint}", token)


def unreadable_at(message: str, token: Token) -> NotUnderstood:
    return NotUnderstood(message, token.start, token.end)
