"""The words of one row to what they say: brackets, asterisks, repeats. Whatever means nothing is Unreadable."""

from lintarsia.written.colours import Colours
from lintarsia.written.cursor import unreadable_at
from lintarsia.written.labels import read_label, read_reference
from lintarsia.written.lexer import Kind, Token, Unreadable, tokens_of
from lintarsia.written.often import often_after
from lintarsia.written.spoken import Again, HowOften, Item, Label, Spoken, Times
from lintarsia.written.stitchwords import StitchWords
from lintarsia.written.vocabulary import ASIDE, KNIT, PURL, REPEAT, STITCH_WORDS

CLOSES = {"(": ")", "[": "]", "{": "}"}
SEPARATORS = ",;:.–—-=|/&+"
DEEPEST = 12  # brackets in brackets; print has two


def parse_row(text: str, colours: Colours) -> Spoken:
    """What the words say. Raises Unreadable with the place of the word that says nothing."""
    label, start = read_label(text)
    row = read_reference(text, start)
    if row is not None:
        return Spoken(label=label, as_row=row)
    return _RowParser(tokens_of(text, start, m_is_colour=bool(colours.symbols & {"m", "M"})), colours).row(label)


class _RowParser(StitchWords):
    """One pass over the tokens of a row."""

    def row(self, label: Label) -> Spoken:
        items = self.items("")
        if self.side and not label.side:
            label = Label(label.rows, self.side)
        return Spoken(tuple(items), label, self.stated, shaped=self.shaped)

    def items(self, close: str) -> list[Item]:
        """Items up to the closing bracket, or to the end of the words."""
        opened = self.at
        items: list[Item] = []
        star: int | None = None
        star_end: int | None = None
        while True:
            token = self.now
            if token.kind is Kind.END:
                if close:
                    before = self.tokens[opened - 1]
                    raise Unreadable(f"this bracket is not closed; expected {close!r}", before.start, before.end)
                return items
            if close and token.kind is Kind.MARK and token.text == close:
                self.at += 1
                return items
            if token.is_mark("*†‡") and not self._is_colour_mark(token):
                self.at += 1
                if star is None or star_end is not None:
                    star, star_end = len(items), None
                    continue
                star_end = len(items)
                often = self.often()
                if often:
                    items[star:] = [self.again(items[star:], often, token)]
                    star = star_end = None
                continue
            if token.word in REPEAT and self.peek().word in ("from", "between", "to", "until"):
                if star is None:
                    raise unreadable_at("nothing says where this repeat begins; expected a * before it", token)
                items[star:star_end] = [self._from_star(items[star:star_end], token)]
                star = star_end = None
                continue
            items += self.item(close)

    def _is_colour_mark(self, token: Token) -> bool:
        return token.text in "†‡" and token.text in self.colours.symbols

    def _from_star(self, body: list[Item], start: Token) -> Again:
        """`rep from * to end`, `rep from * to last 2 sts`, `rep from * 3 times more`, `rep from * 4 times in all`."""
        self.at += 1
        if self.now.word in ("from", "between"):
            self.at += 1
            stars = 0
            while self.now.is_mark("*†‡") or self.now.word in ("s", "to", "and", "the", "asterisk"):
                if self.now.word == "to" and not self.peek().is_mark("*†‡"):
                    break
                stars += self.now.kind is Kind.MARK
                self.at += 1
            if not stars and self.tokens[self.at - 1].word != "asterisk":
                raise Unreadable("the repeat does not say from where; expected *", start.start, start.end)
        often = self.often()
        if often is None:
            raise Unreadable(
                "the repeat does not say how often; expected `to end`, `to last 2 sts` or `3 times more`",
                start.start,
                self.tokens[self.at - 1].end,
            )
        if isinstance(often, Times) and self.tokens[self.at - 1].word not in ("all", "altogether", "total"):
            often = Times(often.number + 1)  # what stands before `rep` has been worked once
        return self.again(body, often, start, at_least_once=True)

    def again(self, body: list[Item], often: HowOften, start: Token, *, at_least_once: bool = False) -> Again:
        if not body:
            raise Unreadable("there is nothing to repeat here", start.start, start.end)
        return Again(tuple(body), often, start.start, self.tokens[self.at - 1].end, at_least_once)

    def item(self, close: str) -> list[Item]:
        token = self.now
        if token.kind is Kind.MARK:
            return self._mark(token, close)
        if token.kind is Kind.NUMBER:
            return self.count_first(token)
        if token.kind is Kind.STITCH:
            return [self.named_stitch(token)]
        return self.word_first(token)

    def _mark(self, token: Token, close: str) -> list[Item]:
        if token.text in CLOSES:
            return self._bracket(token)
        if token.text in CLOSES.values():
            expected = f"; expected {close!r}" if close else ""
            raise Unreadable(f"this bracket closes nothing{expected}", token.start, token.end)
        if self.colours.at(self.tokens, self.at, slot=False):
            return self.colour_first()
        if token.text in SEPARATORS:
            self.at += 1
            return []
        raise unreadable_at(f"{token.text!r} says nothing here; expected stitches such as k3 {self.sample()}", token)

    def _bracket(self, opening: Token) -> list[Item]:
        if self.aside():
            return []
        body = self._inside()
        often = self.often()
        if often is None:
            closing = self.tokens[self.at - 1]
            raise unreadable_at("nothing says how often the bracket is worked; expected `4 times`", closing)
        return [self.again(body, often, opening)]

    def bracketed(self, times: Times) -> Again:
        opening = self.now
        return self.again(self._inside(), times, opening)

    def _inside(self) -> list[Item]:
        opening = self.now
        self.depth += 1
        if self.depth > DEEPEST:
            raise unreadable_at("the brackets go too deep to follow", opening)
        self.at += 1
        items = self.items(CLOSES[opening.text])
        self.depth -= 1
        return items

    def aside(self) -> bool:
        """A bracket that is no repeat: `(22 sts)`, `(RS)`, `(selvedge)`. Steps over it."""
        end = self.at + 1
        while self.tokens[end].kind in (Kind.WORD, Kind.NUMBER) or self.tokens[end].is_mark("=.,-"):
            end += 1
        if not self.tokens[end].is_mark(CLOSES[self.now.text]):
            return False
        inside = self.tokens[self.at + 1 : end]
        words = [t.word for t in inside if t.kind is Kind.WORD]
        numbers = [t for t in inside if t.kind is Kind.NUMBER]
        side = _side(words)
        if side:
            self.side = side
        elif len(numbers) == 1 and all(w in STITCH_WORDS or w in ASIDE for w in words) and not self._begins_repeat(end):
            self.stated = int(numbers[0].text)
        elif numbers or not words or any(len(w) == 1 or w in KNIT | PURL for w in words):
            return False  # else a remark: (selvedge)
        self.at = end + 1
        return True

    def _begins_repeat(self, closing: int) -> bool:
        return often_after(self.tokens, closing + 1)[0] is not None


def _side(words: list[str]) -> str:
    joined = " ".join(words)
    return {"rs": "RS", "ws": "WS", "right side": "RS", "wrong side": "WS"}.get(joined, "")
