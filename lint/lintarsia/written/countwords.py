"""How many stitches a verb is followed by: `next 6 sts`, `k2 B 3x`; or that it heads all that follows: `Knit:`."""

import re

from lintarsia.written.cursor import Cursor
from lintarsia.written.lexer import Token, TokenKind
from lintarsia.written.order import ColourSupply
from lintarsia.written.spoken import StitchWork, Times
from lintarsia.written.vocabulary import ALTERNATELY, ASIDE, FOLLOWS, HOW, STITCH_WORDS

WHICH = frozenset({"the", "first", "next", "last", "following", "foll", "across", "rem", "remaining", "final"})
# What is on the needle already counts, so that this many stitches stand there after binding off.
_ON_NEEDLE = re.compile(
    r"until\s+(?:there\s+are\s+)?(?P<number>[0-9]{1,6})\s+(?:sts?|stitches)(?:\s+are)?\s+on\s+(?:the\s+)?"
    r"(?:rh|right(?:[ -]hand)?)(?:\s+needle)?(?!\w)",
    re.IGNORECASE,
)


def counts_on_needle(words: str) -> bool:
    """Whether stitches are counted as those on the needle, so that none that binding off leaves is forgotten."""
    return _ON_NEEDLE.search(words) is not None


class CountWords(Cursor):
    """Reads the count behind `k` or `p`."""

    heading = ""  # the stitch of all that follows, after `Knit:`

    def over(self, often: Times) -> Times:
        """`k2 B twice`, `k2 B 3 times`."""
        by, then = self.peek(), self.peek(2)
        ends = then.kind is TokenKind.END or then.is_mark(",;.")
        crossed = (by.word == "x" or by.is_mark("×")) and ends  # k2 B 3x
        said = self.now.word in ("twice", "thrice") or by.word == "times" or crossed
        again = self.often() if said else None
        return Times(often.number * again.number) if isinstance(again, Times) else often

    def count(self) -> Times | None:
        """`3`, `3 sts`, `next 6 sts`, `rem 3 sts`, `1 purlwise`; nothing for `1 row`."""
        if until := self.said(_ON_NEEDLE):
            return Times(int(until["number"]))
        at = self.at
        while self.tokens[at].word in WHICH:
            at += 1
        if at > self.at and self.tokens[at].word in ("st", "stitch"):  # k last st
            self.at = at + 1
            return Times(1)
        if self.tokens[at].kind is not TokenKind.NUMBER or self.tokens[at + 1].word in ("row", "rnd", "round"):
            return None
        self.at = at + 1
        self.skip(STITCH_WORDS | HOW)
        return Times(int(self.tokens[at].text))

    def counted_of(self, start: Token, yarn: ColourSupply) -> StitchWork | None:
        """`in A: 4,`, `in A 4`: stitches of the colour that has just been taken up, if only their number follows."""
        ahead = int(self.now.is_mark(":"))
        number = self.peek(ahead)
        ahead += 1 + (self.peek(ahead + 1).word in STITCH_WORDS)
        after = self.peek(ahead)
        ends = after.kind is TokenKind.END or after.is_mark(",;.)]|/")
        if number.kind is not TokenKind.NUMBER or not ends:
            return None
        self.at += ahead
        return StitchWork(self.heading, Times(int(number.text)), yarn, start.start, self.tokens[self.at - 1].end)

    def heads(self, stitch: str) -> bool:
        """Whether `Knit:` or `K as follows:` stands before the stitches that are all worked so."""
        at = self.at + (self.now.word in ("across", "back", "row"))
        if self.now.word in ALTERNATELY or self._lists_in_bracket():
            self.heading = stitch
            return True
        if self.tokens[at].word == "as" and self.tokens[at + 1].word in FOLLOWS:
            at += 2
        if not self.tokens[at].is_mark(":") or self.tokens[at + 1].kind is TokenKind.END:
            return False
        self.heading, self.at = stitch, at + 1
        return True

    def _lists_in_bracket(self) -> bool:
        """Whether `k(3 A, 6 B)` goes on here: counts in a bracket, and not the row's alone, as in `knit (9 sts)`."""
        after = self.at + 2
        while self.tokens[after].word in STITCH_WORDS | ASIDE:
            after += 1
        listed = self.now.is_mark("([*") and self.peek().kind is TokenKind.NUMBER
        return listed and not self.tokens[after].is_mark(")]")
