"""What is worked again: from an asterisk, alternately, `rep to end`, as often as leaves the row's end."""

import re
from dataclasses import replace

from lintarsia.written.cursor import unreadable_at
from lintarsia.written.endings import ENDING
from lintarsia.written.lexer import STARS, NotUnderstood, Token, TokenKind
from lintarsia.written.spoken import Again, HowOften, Item, StitchWork, Times, Until
from lintarsia.written.stars import Stars
from lintarsia.written.stitchwords import StitchWords
from lintarsia.written.vocabulary import KNIT, PURL

_TOTAL = re.compile(r"(?:for\s+)?a\s+total\s+of(?!\w)", re.IGNORECASE)
ASTERISK = frozenset({"asterisk", "asterisks", "star", "stars"})
# Words after which `rep` works again what stands before it, with or without an asterisk.
REPEATS_ON = frozenset({"from", "between", "to", "until", "across", "around", "throughout", "once", "twice"})
BETWEEN_STARS = ASTERISK | {"s", "to", "and", "the"}


class RepeatWords(StitchWords):
    """Reads repeats; `item` reads what stands in them."""

    def item(self, close: str) -> list[Item]:
        """The items that the next words are."""
        raise NotImplementedError

    def star(self, items: list[Item], stars: Stars, token: Token) -> None:
        """An asterisk that begins a repeat, or ends the one that its like began."""
        self.at += 1
        if not stars.closes(token.text):
            stars.open(token.text, len(items))
            return
        stars.close(token.text, len(items))
        often = self.often()
        if often:
            start = stars.take(token.text)[0]
            items[start:] = [self.again(items[start:], often, token)]

    def repeat(self, items: list[Item], stars: Stars, token: Token) -> None:
        mark = next((t.text for t in self.tokens[self.at : self.at + 4] if t.is_mark(STARS)), "")
        mark = mark if mark in stars else stars.last
        if not mark and not self._named_star() and items:
            stars.open(mark := "*", 0)  # k1 A, k1 B, rep to end
        if not mark:
            raise unreadable_at("nothing says where this repeat begins; expected a * before it", token)
        start, end = stars.take(mark)
        items[start:end] = [self._from_star(items[start:end], token)]

    def _named_star(self) -> bool:
        return self.peek().word in ("from", "between")

    def alternately(self, items: list[Item], token: Token, close: str) -> None:
        """`k1 A and k1 B alternately to end`: the two before it, over and over; or `alternate k1 A, k1 B to end`."""
        self.at += 1
        often = self.often() or self._to_ending()
        two = items[-2:]
        if not often and self.now.kind is not TokenKind.END and not self.now.is_mark(".;)]}"):
            two = self._two(close)
            often = self._ended_alternation(two) or self.often()
        else:
            del items[-2:]
        items.append(self.again(two, often or Until(0), token))

    def ribbed(self, items: list[Item], token: Token) -> None:
        """`k2, p1 rib to end`: all that stands before it, over and over."""
        self.at += 1
        often = self.often() or Until(0)
        items[:] = [self.again(items, often, token)]

    def _two(self, close: str) -> list[Item]:
        items: list[Item] = []
        while len(items) < 2 and self.now.kind is not TokenKind.END:
            items += self.item(close)
        return items

    def _ended_alternation(self, two: list[Item]) -> HowOften | None:
        """`to end` where it was read with the second of the two, as in `alternate 1 A, B to end`."""
        last = two[-1] if two else None
        if not isinstance(last, StitchWork) or not isinstance(last.often, Until):
            return None
        two[-1] = replace(last, often=Times(1))
        return last.often

    def is_colour_mark(self, token: Token) -> bool:
        return token.text in "†‡" and token.text in self.colours.symbols

    def _from_star(self, body: list[Item], start: Token) -> Again:
        """`rep from * to end`, `rep from * to last 2 sts`, `rep from * 3 times more`, `rep from * 4 times in all`."""
        self.at += 1
        if self.now.word in ("from", "between"):
            self.at += 1
            stars = 0
            while self.now.is_mark(STARS + "-–") or self.now.word in BETWEEN_STARS:
                if self.now.word == "to" and not self.peek().is_mark(STARS):
                    break
                stars += self.now.kind is TokenKind.MARK
                self.at += 1
            if not stars and self.tokens[self.at - 1].word not in ASTERISK:
                raise NotUnderstood("the repeat does not say from where; expected *", start.start, start.end)
        total = self.said(_TOTAL) is not None
        often = self._to_ending() or self.often()
        if often == Until(0):  # across, ending k1 B
            often = self._to_ending() or often
        if often is None:
            raise NotUnderstood(
                "the repeat does not say how often; expected `to end`, `to last 2 sts` or `3 times more`",
                start.start,
                self.tokens[self.at - 1].end,
            )
        total = total or self.tokens[self.at - 1].word in ("all", "altogether", "total")
        if isinstance(often, Times) and not total:
            often = Times(often.number + 1)  # what stands before `rep` has been worked once
        return self.again(body, often, start, at_least_once=True)

    def _to_ending(self) -> Until | None:
        """`rep from *, end k1 B`: as often as leaves the stitches that end the row."""
        at = self.at + self.now.is_mark(",;")
        if self.tokens[at].word not in ("end", "ending", "ends"):
            return None
        self.at = at + 1
        if self.now.word == "with" and self._ends_with_stitches():
            self.at += 1
        return Until(ENDING)

    def _ends_with_stitches(self) -> bool:
        """`end with k2 A`, `end with 2 A`, `end with A`: what the row ends with, and no more than that."""
        then = self.peek()
        worked = then.word in KNIT | PURL or then.kind in (TokenKind.NUMBER, TokenKind.STITCH)
        return worked or self.colours.at(self.tokens, self.at + 1, slot=False) is not None

    def again(self, body: list[Item], often: HowOften, start: Token, *, at_least_once: bool = False) -> Again:
        if not body:
            raise NotUnderstood("there is nothing to repeat here", start.start, start.end)
        return Again(tuple(body), often, start.start, self.tokens[self.at - 1].end, at_least_once)
