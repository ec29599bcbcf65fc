"""A place among a row's tokens, and the small steps that every part of the parser takes from it."""

from lintarsia.written.colours import Colours
from lintarsia.written.lexer import Token, Unreadable
from lintarsia.written.often import often_after, read_until
from lintarsia.written.order import Yarn
from lintarsia.written.spoken import HowOften, Until
from lintarsia.written.vocabulary import FILLERS


class Cursor:
    """`at` is the index of the next token. `stated` and `shaped` are what was learnt on the way."""

    def __init__(self, tokens: list[Token], colours: Colours) -> None:
        self.tokens, self.colours = tokens, colours
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

    def slot(self) -> Yarn | None:
        """The colour, where one may follow a count."""
        return self.after_fillers(self.at)

    def after_fillers(self, at: int, also: str = "the") -> Yarn | None:
        while self.tokens[at].word in FILLERS or self.tokens[at].word == also:
            at += 1
        bracket = self.tokens[at].is_mark("([")  # k3 (A)
        found = self.colours.at(self.tokens, at + bracket, slot=True)
        if found is None or (bracket and not self.tokens[found.after].is_mark(")]")):
            return None
        self.at = found.after + bracket
        return found.yarn

    def skip(self, words: frozenset[str] | set[str]) -> bool:
        start = self.at
        while self.now.word in words:
            self.at += 1
        return self.at > start

    def sample(self) -> str:
        return self.colours.plain[0]

    def unknown(self, token: Token) -> Unreadable:
        from difflib import get_close_matches

        if len(token.text) == 1 and token.word not in ("x",):
            known = ", ".join(sorted(self.colours.symbols))
            return unreadable_at(f"there is no colour {token.text!r} in the key; it has {known}", token)
        firsts = {name.split()[0].lower(): name for name in self.colours.plain if name.split()}
        near = get_close_matches(token.word, firsts, n=1, cutoff=0.7) if len(token.text) > 2 else []
        hint = f"did you mean {firsts[near[0]]!r}?" if near else f"expected stitches such as k3 {self.sample()}"
        return unreadable_at(f"{token.text!r} says nothing here; {hint}", token)


def unreadable_at(message: str, token: Token) -> Unreadable:
    return Unreadable(message, token.start, token.end)
