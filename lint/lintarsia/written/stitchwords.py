"""Words for stitches: `k3 A`, `A x 3`, `k to end`, `ssk`, `work in patt to last 3 sts`."""

import re

from lintarsia.written.countwords import WHICH, CountWords
from lintarsia.written.following import followed
from lintarsia.written.lexer import NotUnderstood, Token, TokenKind
from lintarsia.written.quiet import QuietWords
from lintarsia.written.shapingwords import ShapingWords
from lintarsia.written.spoken import Again, HowOften, Item, StitchWork, TakeUp, Times, Until
from lintarsia.written.vocabulary import (
    ASIDE,
    EVEN,
    FOLLOWS,
    HOW,
    IGNORED,
    KNIT,
    MARKER,
    NAMED_STITCHES,
    ONLY,
    PURL,
    REPEAT,
    SHAPING,
    SLIP,
    STITCH_WORDS,
    TAKE_UP,
    WORK,
)

PLAINLY = frozenset({"in", "st", "stocking", "stockinette", "stitch", "as", "foll", "folls", "follows"})
_THEM = re.compile(
    r"(?:(?:all|the)\s+)?(?:purls?|knits?|sts|stitches)(?:\s+(?:sts|stitches))?(?=\s+(?:as|matching|in\s+the\s+col))",
    re.IGNORECASE,
)
_ON_SIDE = re.compile(r"(?:on\s+)?(?:the\s+|all\s+)?(?:RS|WS)(?:\s+rows?)?(?!\w)", re.IGNORECASE)


class StitchWords(CountWords, QuietWords, ShapingWords):
    """Reads one item that begins with a word, a number or a colour. Brackets are left to whoever reads the row."""

    def bracketed(self, times: Times) -> Again:
        """The bracket that opens here, worked `times`."""
        raise NotImplementedError

    def count_first(self, token: Token) -> list[Item]:
        """`3 A`, `3 sts in A`, `4 x (…)`, `22 sts`."""
        number = int(token.text)
        after = self.peek()
        times = after.word in ("x", "times", "time") or after.is_mark("×")
        if times and self.peek(2).is_mark("([{"):
            self.at += 2
            return [self.bracketed(Times(number))]
        self.at += 1
        if after.word in ("times", "time"):
            raise NotUnderstood("nothing says what is worked so often; expected a bracket", token.start, after.end)
        if after.is_mark("×") or (times and self.colours.at(self.tokens, self.at + 1, slot=True)):
            self.at += 1
        stitch = self.heading
        if self.now.word in KNIT | PURL and (self.now.word not in "kp" or not self._is_symbol_here()):
            stitch = "k" if self.now.word in KNIT else "p"
            self.at += 1
        sts = self.skip(STITCH_WORDS)
        yarn = self.slot()
        if yarn is None:
            if sts and stitch == self.heading:
                self.skip(ASIDE)
                self.stated = number
                return []
            raise self._no_colour(token, f"nothing says the colour of these {number}")
        self.skip(STITCH_WORDS)
        self.named_again(yarn)
        return [StitchWork(stitch, Times(number), yarn, token.start, self.tokens[self.at - 1].end)]

    def _is_symbol_here(self) -> bool:
        """Whether a bare k or p is the colour's symbol: nothing that could be one follows it."""
        return self.now.text in self.colours.symbols and self.colours.at(self.tokens, self.at + 1, slot=True) is None

    def _stitches(self, stitch: str) -> list[Item]:
        """`k3 A`, `knit 3 in A`, `k next 6 sts`, `k to last 2 sts`, `k A`, `purl, matching colours`."""
        start = self.now
        self.at += 1
        if self.heads(stitch):
            return []
        self.skip(EVEN)
        self.said(_THEM)
        often = self.count() or self.until()
        follows = ""
        yarn = self.slot()
        self.including()
        if yarn is None:
            follows = self.follows()
            while follows and self.follows():
                pass  # as they appear, matching colours
        self.skip(STITCH_WORDS | HOW | ONLY if yarn else set())
        self.named_again(yarn)
        if often is None:
            often = self.until()
            if often is None:
                often = Until(0) if follows or self._alone(start) else Times(1)
            yarn = yarn or self.slot()
        if isinstance(often, Times) and yarn is not None:
            often = self.over(often)
        end = self.tokens[self.at - 1].end
        return [StitchWork(stitch, often, yarn, start.start, end, follows=follows)]

    def follows(self) -> str:
        """`in patt`, `as established`, `, matching colours`: "chart" or "below"; "" where nothing like it is said."""
        comma = self.now.is_mark(",") and self.peek().word in ("matching", "keeping", "in", "working", "following")
        said = followed(self.text, self.peek().start if comma else self.now.start)
        if said is None:
            return ""
        while self.now.kind is not TokenKind.END and self.now.start < said[1]:
            self.at += 1
        return said[0]

    def _work(self, start: Token) -> list[Item]:
        """`work even in A`, `work in patt to last 3 sts`, `cont in patt`, `work 1 row even`; or no more than a verb."""
        self.at += 1
        even = self.skip(EVEN)
        self.said(_ON_SIDE)
        until = self.until()
        even = self.skip(EVEN) or even
        follows = self.follows()
        if not (even or until or follows):
            self.skip(PLAINLY if self._plainly() else set())
            return []
        until = until or self.until() or Until(0)
        yarn = None if follows else self.slot()
        end = self.tokens[self.at - 1].end
        return [StitchWork("", until, yarn, start.start, end, follows=follows or ("" if yarn else "even"))]

    def _plainly(self) -> bool:
        """Whether `in St st` or `as follows` comes here."""
        words = self.now.word, self.peek().word
        return (words[0] == "in" and words[1] in ("st", "stocking", "stockinette")) or words[1] in FOLLOWS

    def _alone(self, start: Token) -> bool:
        """Whether a knit without a count is all that the row says, so that it means the whole row."""
        before = self.tokens[: self.tokens.index(start)]
        rest = self.tokens[self.at :]
        quiet = all(t.kind in (TokenKind.END, TokenKind.MARK) for t in rest) or self.now.is_mark(".;([")
        return quiet and not any(t.word in KNIT | PURL or t.is_mark("([{*") for t in before)

    def named_stitch(self, token: Token) -> StitchWork:
        self.at += 1
        takes, makes = NAMED_STITCHES[token.text]
        often: HowOften = Times(1)
        given = self.often()
        yarn = self.slot()
        return StitchWork(token.text, given or often, yarn, token.start, self.tokens[self.at - 1].end, takes, makes)

    def colour_first(self, bracket: int = 0) -> list[Item]:
        """`A x 3`, `A3`, `A 3`, `A k3`, `A to end`, `A`."""
        start = self.now
        found = self.colours.at(self.tokens, self.at + bracket, slot=bool(bracket))
        assert found is not None
        self.at = found.after + bracket
        stitch = self.heading
        if self.now.is_mark(",") and self._counts_without_colour(self.at + 1):
            return [TakeUp(found.yarn)]
        if self.now.is_mark(":"):
            self.at += 1
        verb = self.now
        if verb.word in KNIT | PURL:
            stitch = "k" if verb.word in KNIT else "p"
            self.at += 1
        crossed = self.now.word == "x" or self.now.is_mark("×") or self._hyphen(self.at)
        if crossed and self.peek().kind is TokenKind.NUMBER:
            self.at += 1
        often: HowOften = Times(1)
        if self.now.kind is TokenKind.NUMBER:
            often = Times(int(self.now.text))
            self.at += 1
            self.skip(STITCH_WORDS)
        elif until := self.until():
            often = until
        elif self.skip(ONLY) or (verb.word in KNIT | PURL and self._alone(verb)):
            often = Until(0)
        return [StitchWork(stitch, often, found.yarn, start.start, self.tokens[self.at - 1].end)]

    def _no_colour(self, token: Token, message: str) -> NotUnderstood:
        return NotUnderstood(f"{message}; expected a colour of the key", token.start, self.tokens[self.at - 1].end)

    def _counts_without_colour(self, at: int) -> bool:
        """Whether `k3` stands here with no colour of its own, as in `A, k3; B, k6`."""
        if self.tokens[at].word not in KNIT | PURL or self.tokens[at + 1].kind is not TokenKind.NUMBER:
            return False
        here, self.at = self.at, at + 2
        coloured = self.slot() is not None
        self.at = here
        return not coloured

    def word_first(self, token: Token) -> list[Item]:
        word = token.word
        for read in (self.shaping, self.quiet):
            if (items := read()) is not None:
                return items
        if word in TAKE_UP and (found := self.after_fillers(self.at + 1 + (self.peek().word == "back"), also="to")):
            self.skip(ONLY)
            return [TakeUp(found)]
        if word in KNIT or word in PURL:
            return self._stitches("k" if word in KNIT else "p")
        if word in SLIP:
            return self._stitches("sl")
        if word in SHAPING:
            return self.mentioned()
        if word in REPEAT and self.peek().is_mark("([{*"):
            self.at += 1
            return []
        if word == "no" and self.peek().word in STITCH_WORDS:
            self.at += 2
            self.stated = 0
            return []
        if self.colours.at(self.tokens, self.at, slot=False):
            return self.colour_first()
        return self._loosely(token)

    def _loosely(self, token: Token) -> list[Item]:
        """What is said around stitches, or of all of them at once."""
        word = token.word
        if word in WORK:
            return self._work(token)
        if word in ("all", "rem", "remaining", "rest", "the", "complete") and (until := self.until()):
            return [StitchWork(self.heading, until, self.slot(), token.start, self.tokens[self.at - 1].end)]
        if word == "to" and (until := self.until()):
            return [StitchWork(self.heading, until, self.slot(), token.start, self.tokens[self.at - 1].end)]
        if follows := self.follows():
            until = self.until() or Until(0)
            return [StitchWork("", until, None, token.start, self.tokens[self.at - 1].end, follows=follows)]
        if word == "as" and self.peek().word in FOLLOWS:
            self.at += 2
            return []
        if word in IGNORED or word in MARKER or (word == "the" and self.peek().word in WHICH):
            self.at += 1
            return []
        raise self.unknown(token)
