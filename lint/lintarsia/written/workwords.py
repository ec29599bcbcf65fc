"""Words for working on as something else stands: `work even`, `cont in patt`, `patt 5`, `work to last 3 sts`."""

import re

from lintarsia.written.countwords import WHICH, CountWords
from lintarsia.written.following import followed
from lintarsia.written.lexer import Token, TokenKind
from lintarsia.written.spoken import Item, StitchWork, Times, Until
from lintarsia.written.vocabulary import ASIDE, EVEN, FOLLOWS, KNIT, PURL, STITCH_WORDS

PLAINLY = frozenset({"in", "st", "stocking", "stockinette", "stitch", "as", "foll", "folls", "follows"})
_UNSHAPED = re.compile(r"without\s+(?:any\s+|further\s+|more\s+)?shaping(?!\w)", re.IGNORECASE)
_ON_SIDE = re.compile(r"(?:on\s+)?(?:the\s+|all\s+)?(?:RS|WS)(?:\s+rows?)?(?!\w)", re.IGNORECASE)
BEFORE_COLOURS = frozenset({"matching", "keeping", "using", "in", "working", "following"})


class WorkWords(CountWords):
    """Reads what is worked as the chart, or the row below, has it."""

    def follows(self) -> str:
        """`in patt`, `as established`, `, matching colours`: "chart" or "below"; "" where nothing like it is said."""
        comma = self.now.is_mark(",") and self.peek().word in BEFORE_COLOURS
        said = followed(self.text, self.peek().start if comma else self.now.start)
        if said is None:
            return ""
        while self.now.kind is not TokenKind.END and self.now.start < said[1]:
            self.at += 1
        return said[0]

    def work_some(self, start: Token) -> list[Item]:
        """`work 5 sts`, `patt 5`: as charted, where no colour is said."""
        here, self.at = self.at, self.at + 1
        sts = self.skip(STITCH_WORDS)
        if self.slot() or self.now.word in KNIT | PURL or not (sts or self.ends_a_count()):
            self.at = here
            return []
        self.follows()
        number = int(self.tokens[here].text)
        return [StitchWork("", Times(number), None, start.start, self.tokens[self.at - 1].end, follows="chart")]

    def _plainly(self) -> bool:
        """Whether `in St st` or `as follows` comes here."""
        words = self.now.word, self.peek().word
        return (
            words == ("st", "st")
            or (words[0] == "in" and words[1] in ("st", "stocking", "stockinette"))
            or words[1] in FOLLOWS
        )

    def work(self, start: Token) -> list[Item]:
        """`work even in A`, `work in patt to last 3 sts`, `cont in patt`, `work 1 row even`; or no more than a verb."""
        self.at += 1
        if self.now.kind is TokenKind.NUMBER and (counted := self.work_some(start)):
            return counted
        even = self.skip(EVEN)
        self.said(_ON_SIDE)
        until = self.until() or (self.count() if self.now.word in WHICH else None)
        even = self.skip(EVEN) or bool(self.said(_UNSHAPED)) or even
        follows = self.follows()
        if not (even or until or follows):
            self.skip(PLAINLY if self._plainly() else set())
            return []
        until = until or self.until() or Until(0)
        yarn = None if follows else self.slot()
        end = self.tokens[self.at - 1].end
        return [StitchWork("", until, yarn, start.start, end, follows=follows or ("" if yarn else "even"))]

    def ends_a_count(self) -> bool:
        """Whether `22 sts`, or `22 sts remain`, is all that is said here: the row's count."""
        self.skip(ASIDE)
        return self.now.kind in (TokenKind.END, TokenKind.MARK)
