"""Words that work no stitch: yarns joined, cut, twisted and picked up, markers, reminders. Common practice."""

import re

from lintarsia.written.cursor import Cursor
from lintarsia.written.lexer import TokenKind
from lintarsia.written.order import ColourSupply
from lintarsia.written.spoken import Item, TakeUp
from lintarsia.written.vocabulary import (
    KNIT,
    MARKER,
    MINDS,
    NOT_COLOURS,
    PURL,
    PUTS,
    SLIP,
    TAKE_UP,
    TAKES,
    WORK,
    YARN_WORDS,
)

ENDS = ",;.:–—/|()[]{}"
_FACING = re.compile(
    r"with\s+(?:the\s+)?(?:RS|WS|right\s+side|wrong\s+side)\s+(?:facing|towards)(?:\s+(?:you|me))?", re.IGNORECASE
)
_METHOD = re.compile(r"(?:using|in|with)\s+(?:the\s+)?intarsia(?:\s+(?:method|technique))?(?!\w)", re.IGNORECASE)
_WHERE = re.compile(
    r"(?:(?:beg(?:inn?ing)?|start(?:ing)?|end(?:ing)?|working)\s+)?(?:at|from)\s+(?:the\s+)?"
    r"(?:(?:right|left)(?:[ -]hand)?(?:\s+(?:edge|side))?|(?:beg(?:inning)?|start)\s+of\s+(?:the\s+|this\s+)?r\w+)"
    r"(?!\w)",
    re.IGNORECASE,
)
_EDGE = re.compile(r"(?:at|along)\s+(?:the\s+)?(?:\w+\s+)?edges?(?!\w)", re.IGNORECASE)
REMARKS = (_FACING, _METHOD, _WHERE, _EDGE)
THESE = ("both", "the", "each", "these", "on")
STITCHES = (
    "first",
    "next",
    "last",
    "following",
    "foll",
    "rem",
    "remaining",
    "rest",
    "final",
)  # work the next 3 sts in A
VERBS = KNIT | PURL | TAKES | PUTS | TAKE_UP | WORK


class QuietWords(Cursor):
    """Steps over what is done between stitches; a yarn that is joined or picked up is the one in hand after it."""

    def quiet(self) -> list[Item] | None:
        """A clause that works no stitch, if one begins here; with the yarn that it takes up."""
        word = self.now.word
        if any(self.said(remark) for remark in REMARKS):
            return []
        if word in MINDS or self._of_sides():
            self._clause()
            if self.now.is_mark(":"):
                self.at += 1
            return []
        if word in TAKES or word in PUTS:
            self.at += 1
            yarn = self._yarns()
            return [TakeUp(yarn)] if yarn and word in TAKES else []
        if word in NOT_COLOURS and self.fills(self.at) and (yarn := self.slot()):
            return [TakeUp(yarn)]  # new A, k3
        if word in TAKE_UP and self._which_strand():
            return []
        if word in SLIP and self.peek().word in MARKER and not self.colours.at(self.tokens, self.at + 1, slot=False):
            self.at += 2
            return []
        return None

    def _which_strand(self) -> bool:
        """`with new strand`, `using the second butterfly`: another yarn of the colour that was just said."""
        at = self.at + 1
        while self.fills(at) and self.tokens[at].word not in YARN_WORDS:
            at += 1
        if self.tokens[at].word not in YARN_WORDS or self.leads_to_colour(at):
            return False
        self.at = at + 1
        return True

    def _of_sides(self) -> bool:
        """`left neck side`, `right side of the slit`, `work both sides at once`, `leave the left side on a holder`,
        `cont on these 20 sts only`."""
        word, following = self.now.word, self.peek().word
        if self.colours.at(self.tokens, self.at, slot=False):
            return False
        named = word in ("left", "right") and following in ("neck", "side", "front", "half")
        left = word in ("leave", "take") and following != ""
        sides = following in THESE and not (following == "the" and self.peek(2).word in STITCHES)
        return named or left or (word in WORK and sides)

    def _clause(self) -> None:
        while self.now.kind is not TokenKind.END and not self.now.is_mark(ENDS):
            self.at += 1

    def _yarns(self) -> ColourSupply | None:
        """The first yarn that is named, with all that is said of it stepped over."""
        first: ColourSupply | None = None
        while self.now.kind is not TokenKind.END and not self._stops():
            found = None
            if not self.fills(self.at):
                found = self.colours.at(self.tokens, self.at, slot=self.now.kind is not TokenKind.NUMBER)
            self.at = found.after if found else self.at + 1
            first = first or (found.yarn if found else None)
        return first

    def _stops(self) -> bool:
        if self.now.is_mark(","):  # join A1, B1 and C2: supplies, and nothing else that follows a comma
            following = self.colours.at(self.tokens, self.at + 1, slot=True)
            return following is None or following.yarn.supply is None
        if self.now.is_mark(ENDS):
            return not self.colours.at(self.tokens, self.at, slot=False)
        if self.now.word in ("and", "then") or self.now.is_mark("&"):
            return self.peek().word in VERBS and not self._is_colour(self.at + 1)
        return self._begins_stitches()

    def _begins_stitches(self) -> bool:
        if self.now.kind is TokenKind.STITCH:
            return True
        counted = self.peek().kind is TokenKind.NUMBER or self.peek().word in ("to", "across", "all", "rem")
        return self.now.word in KNIT | PURL and counted

    def _is_colour(self, at: int) -> bool:
        return (
            self.colours.at(self.tokens, at, slot=False) is not None
            and self.tokens[at + 1].kind is not TokenKind.NUMBER
        )
