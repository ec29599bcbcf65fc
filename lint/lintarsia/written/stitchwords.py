"""Words for stitches (`k3 A`, `A x 3`, `k to end`, `ssk`), and words that work none (`join B1`, `dec 1 st`)."""

from lintarsia.written.cursor import Cursor
from lintarsia.written.lexer import Kind, Token, Unreadable
from lintarsia.written.spoken import Again, HowOften, Item, TakeUp, Times, Until, Work
from lintarsia.written.vocabulary import (
    ASIDE,
    FILLERS,
    IGNORED,
    JOIN,
    KNIT,
    NAMED_STITCHES,
    PURL,
    REPEAT,
    SHAPING,
    SHAPING_WORDS,
    SLIP,
    STITCH_WORDS,
    TAKE_UP,
)


class StitchWords(Cursor):
    """Reads one item that begins with a word, a number or a colour. Brackets are left to whoever reads the row."""

    def bracketed(self, times: Times) -> Again:
        """The bracket that opens here, worked `times`."""
        raise NotImplementedError

    def aside(self) -> bool:
        """Step over a bracket that is no repeat, if one opens here."""
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
            raise Unreadable("nothing says what is worked so often; expected a bracket", token.start, after.end)
        if after.is_mark("×") or (times and self.colours.at(self.tokens, self.at + 1, slot=True)):
            self.at += 1
        stitch = ""
        if self.now.word in KNIT | PURL and (self.now.word not in "kp" or not self._is_symbol_here()):
            stitch = "k" if self.now.word in KNIT else "p"
            self.at += 1
        sts = self.skip(STITCH_WORDS)
        yarn = self.slot()
        if yarn is None:
            if sts and not stitch:
                self.skip(ASIDE)
                self.stated = number
                return []
            raise self._no_colour(token, f"nothing says the colour of these {number}")
        return [Work(stitch, Times(number), yarn, token.start, self.tokens[self.at - 1].end)]

    def _is_symbol_here(self) -> bool:
        """Whether a bare k or p is the colour's symbol: nothing that could be one follows it."""
        return self.now.text in self.colours.symbols and self.colours.at(self.tokens, self.at + 1, slot=True) is None

    def _stitches(self, stitch: str) -> Work:
        """`k3 A`, `knit 3 in A`, `k to end in A`, `k to last 2 sts`, `k A`."""
        start = self.now
        self.at += 1
        yarn = None
        often: HowOften | None = None
        if self.now.kind is Kind.NUMBER:
            often = Times(int(self.now.text))
            self.at += 1
            self.skip(STITCH_WORDS | {"tbl"})
        else:
            often = self.until()
        yarn = self.slot()
        if often is None:
            often = self.until()
            if often is None:
                often = Until(0) if self._alone(start) else Times(1)
            yarn = yarn or self.slot()
        return Work(stitch, often, yarn, start.start, self.tokens[self.at - 1].end)

    def _alone(self, start: Token) -> bool:
        """Whether a knit without a count is all that the row says, so that it means the whole row."""
        before = self.tokens[: self.tokens.index(start)]
        rest = self.tokens[self.at :]
        quiet = all(t.kind in (Kind.END, Kind.MARK) for t in rest) or self.now.is_mark(".;([")
        return quiet and not any(t.word in KNIT | PURL or t.is_mark("([{*") for t in before)

    def named_stitch(self, token: Token) -> Work:
        self.at += 1
        takes, makes = NAMED_STITCHES[token.text.lower()]
        often: HowOften = Times(1)
        given = self.often()
        yarn = self.slot()
        return Work(token.text.lower(), given or often, yarn, token.start, self.tokens[self.at - 1].end, takes, makes)

    def colour_first(self) -> list[Item]:
        """`A x 3`, `A3`, `A 3`, `A k3`, `A to end`, `A`."""
        start = self.now
        found = self.colours.at(self.tokens, self.at, slot=False)
        assert found is not None
        self.at = found.after
        stitch = ""
        if self.now.is_mark(":"):
            self.at += 1
        if self.now.word in KNIT | PURL:
            stitch = "k" if self.now.word in KNIT else "p"
            self.at += 1
        if (self.now.word == "x" or self.now.is_mark("×")) and self.peek().kind is Kind.NUMBER:
            self.at += 1
        often: HowOften = Times(1)
        if self.now.kind is Kind.NUMBER:
            often = Times(int(self.now.text))
            self.at += 1
            self.skip(STITCH_WORDS)
        elif until := self.until():
            often = until
        return [Work(stitch, often, found.yarn, start.start, self.tokens[self.at - 1].end)]

    def _join(self) -> list[Item]:
        """`join B1 and C2`, `cut A1.`: yarns come and go; no stitch is worked."""
        self.at += 1
        self.skip(FILLERS | {"off"})
        while (found := self.colours.at(self.tokens, self.at, slot=True)) is not None:
            self.at = found.after
            if not (self.now.word == "and" or self.now.is_mark(",+&")):
                break
            following = self.colours.at(self.tokens, self.at + 1, slot=True)
            if following is None or (self.now.word != "and" and following.yarn.supply is None):
                break
            self.at += 1
        return []

    def _no_colour(self, token: Token, message: str) -> Unreadable:
        return Unreadable(f"{message}; expected a colour of the key", token.start, self.tokens[self.at - 1].end)

    def _shaping(self) -> list[Item]:
        """`dec 1 st at each end`: the count changes, and which stitches do it is not said."""
        self.shaped = True
        self.at += 1
        while True:
            token = self.now
            follows = self.peek().word in STITCH_WORDS | SHAPING_WORDS
            if token.word in SHAPING_WORDS or token.word in STITCH_WORDS or (token.kind is Kind.NUMBER and follows):
                self.at += 1
            elif not (token.is_mark("([") and self.aside()):
                return []

    def word_first(self, token: Token) -> list[Item]:
        word = token.word
        if word in TAKE_UP and (found := self.after_fillers(self.at + 1, also="to")):
            self.skip(frozenset({"only", "throughout"}))
            return [TakeUp(found)]
        if word in KNIT or word in PURL:
            return [self._stitches("k" if word in KNIT else "p")]
        if word in SLIP:
            return [self._stitches("sl")]
        if word in SHAPING:
            return self._shaping()
        if word in JOIN:
            return self._join()
        if word in REPEAT and self.peek().is_mark("([{*"):
            self.at += 1
            return []
        if word == "no" and self.peek().word in STITCH_WORDS:
            self.at += 2
            return []
        if self.colours.at(self.tokens, self.at, slot=False):
            return self.colour_first()
        if word in IGNORED:
            self.at += 1
            return []
        raise self.unknown(token)
