"""Words for stitches: `k3 A`, `A x 3`, `k to end`, `ssk`, `work in patt to last 3 sts`."""

import re

from lintarsia.written.countwords import WHICH
from lintarsia.written.cursor import unreadable_at
from lintarsia.written.lexer import NotUnderstood, Token, TokenKind
from lintarsia.written.quiet import QuietWords
from lintarsia.written.shapingwords import ShapingWords
from lintarsia.written.spoken import Again, HowOften, Item, StitchWork, TakeUp, Times, Until
from lintarsia.written.vocabulary import (
    CHANGED,
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
from lintarsia.written.workwords import WorkWords

PATT = frozenset({"patt", "pattern"})
KEEPING = frozenset({"keeping", "maintaining", "following"})
_THEM = re.compile(
    r"(?:(?:all|the)\s+)?(?:purls?|knits?|sts|stitches)(?:\s+(?:sts|stitches))?(?=\s+(?:as|matching|in\s+the\s+col))",
    re.IGNORECASE,
)


class StitchWords(WorkWords, QuietWords, ShapingWords):
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
        if sts and self.now.word in KNIT | PURL and self.leads_to_colour(self.at + 1):  # 2 sts knit in A
            stitch = "k" if self.now.word in KNIT else "p"
            self.at += 1
        yarn = self.slot()
        if yarn is None:
            if sts and stitch == self.heading and self.ends_a_count():
                self._closes(token)
                said = self.tokens[self.tokens.index(token) : self.at]
                if CHANGED.isdisjoint(t.word for t in said):
                    self.stated = number
                return []
            raise self._no_colour(token, f"nothing says the colour of these {number}")
        self.skip(STITCH_WORDS)
        self.named_again(yarn)
        return [StitchWork(stitch, Times(number), yarn, token.start, self.tokens[self.at - 1].end)]

    def _closes(self, token: Token) -> None:
        """A bare count of stitches is that of the row, which begins or ends with it: what is bound off or held may
        follow."""
        begins = self.tokens.index(token) == 0 and self.now.is_mark(":")
        if not begins and any(t.kind is TokenKind.STITCH or t.word in KNIT | PURL for t in self.tokens[self.at :]):
            raise self._no_colour(token, f"nothing says the colour of these {token.text}")

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
            if often == Times(1) and yarn is None:
                return self._heading(stitch, start)
        if isinstance(often, Times) and yarn is not None:
            often = self.over(often)
        end = self.tokens[self.at - 1].end
        return [StitchWork(stitch, often, yarn, start.start, end, follows=follows)]

    def _heading(self, stitch: str, start: Token) -> list[Item]:
        """`Knit, working the sts as foll: 4 A, 2 B`: at the row's start the verb is for all that follows."""
        if any(token.kind is not TokenKind.MARK for token in self.tokens[: self.tokens.index(start)]):
            raise unreadable_at("nothing says how many these are; expected a count", start)
        self.heading = stitch
        return []

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
        crossed = self.now.word == "x" or self.now.is_mark("×") or self._hyphen(self.at) or self._dashed()
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

    def _dashed(self) -> bool:
        """`A – 2,`: a count behind its colour, and not the next colour's."""
        if not self.now.is_mark("–—-=") or self.peek().kind is not TokenKind.NUMBER:
            return False
        after = self.peek(2 + (self.peek(2).word in STITCH_WORDS))
        return after.kind is TokenKind.END or after.is_mark(",;.)]|/")

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
            return [self.counted_of(token, found) or TakeUp(found)]
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
            return self.work(token)
        if word in WHICH and self.peek().word in ("st", "stitch"):
            self.at += 2
            return [StitchWork(self.heading, Times(1), self.slot(), token.start, self.tokens[self.at - 1].end)]
        if word in ("all", "rem", "remaining", "rest", "the", "complete") and (until := self.until()):
            return [StitchWork(self.heading, until, self.slot(), token.start, self.tokens[self.at - 1].end)]
        if word == "to" and (until := self.until()):
            return [StitchWork(self.heading, until, self.slot(), token.start, self.tokens[self.at - 1].end)]
        if word in PATT and self.peek().kind is TokenKind.NUMBER:
            self.at += 1
            if counted := self.work_some(token):
                return counted
            self.at -= 1
        if follows := self.follows():
            if word in KEEPING and self.now.is_mark(",") and self.peek().kind is not TokenKind.END:
                return []  # keeping patt correct, …
            until = self.until() or Until(0)
            return [StitchWork("", until, None, token.start, self.tokens[self.at - 1].end, follows=follows)]
        if word == "as" and self.peek().word in FOLLOWS:
            self.at += 2
            return []
        if word in IGNORED or word in MARKER or (word == "the" and self.peek().word in WHICH):
            self.at += 1
            return []
        raise self.unknown(token)
