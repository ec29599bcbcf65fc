"""The words of one row to what they say: brackets, asterisks, repeats. Whatever means nothing is NotUnderstood."""

from lintarsia.written.colours import Colours
from lintarsia.written.cursor import unreadable_at
from lintarsia.written.endings import ended, unheaded
from lintarsia.written.following import CHART_ROW
from lintarsia.written.labels import read_label, read_reference
from lintarsia.written.lexer import STARS, NotUnderstood, Token, TokenKind, tokens_of
from lintarsia.written.often import often_after
from lintarsia.written.plainly import in_digits, of_size, unnumbered
from lintarsia.written.remarks import SEVERAL, without_remarks
from lintarsia.written.repeatwords import REPEATS_ON, RepeatWords
from lintarsia.written.spoken import Again, Item, Label, Spoken, StitchWork, TakeUp, Times, Until
from lintarsia.written.stars import Stars
from lintarsia.written.vocabulary import (
    ALTERNATELY,
    ASIDE,
    CHANGED,
    KNIT,
    MINDS,
    ORDINALS,
    PURL,
    PUTS,
    REPEAT,
    RIBBED,
    STITCH_WORDS,
)

CLOSES = {"(": ")", "[": "]", "{": "}"}
SEPARATORS = ",;:.–—-=|/&+>→·•"
DEEPEST = 12  # brackets in brackets; print has two


def parse_row(text: str, colours: Colours, size: int = 0) -> Spoken:
    """What the words say, of the numbers for several sizes those of `size` (0 is the first).

    Raises NotUnderstood with the place of the word that says nothing.
    """
    text = without_remarks(text)
    if match := CHART_ROW.fullmatch(text):
        row = int(match["row"] or match["nth"])
        return Spoken((StitchWork("", Until(0), None, 0, len(text), follows="chart"),), Label((row,)))
    label, start = read_label(text)
    rows = read_reference(text, start)
    if rows:
        return Spoken(label=label, as_rows=rows)
    tokens = unnumbered(tokens_of(text, start, m_is_colour=bool(colours.symbols & {"m", "M"})), colours)
    tokens = in_digits(tokens, colours)
    tokens, sizes = of_size(tokens, size)
    return _RowParser(text, tokens, colours).row(label, sizes)


class _RowParser(RepeatWords):
    """One pass over the tokens of a row."""

    def row(self, label: Label, sizes: int) -> Spoken:
        items = unheaded(ended(self.items("")))
        if self.side and not label.side:
            label = Label(label.rows, self.side)
        if items and all(isinstance(item, TakeUp) for item in items):  # `A only`, `cont in A`
            items.append(StitchWork("", Until(0), None, 0, len(self.text)))
        ends_alone = bool(items) and all(isinstance(item, StitchWork) and item.stitch in ("bo", "co") for item in items)
        no_more_said = ends_alone or (not items and self.shaped)  # `dec 1 st at each end`
        if no_more_said and self.stated != 0:  # the rest goes on as charted
            items.append(StitchWork("", Until(0), None, 0, len(self.text), follows="chart"))
        return Spoken(
            tuple(items),
            label,
            self.stated,
            shaped=self.shaped,
            sizes=sizes,
            stated_after=bool(SEVERAL.search(self.text)),
        )

    def items(self, close: str) -> list[Item]:
        """Items up to the closing bracket, or to the end of the words."""
        opened = self.at
        items: list[Item] = []
        stars = Stars()
        while True:
            token = self.now
            if token.kind is TokenKind.END:
                if close:
                    before = self.tokens[opened - 1]
                    raise NotUnderstood(f"this bracket is not closed; expected {close!r}", before.start, before.end)
                return items
            if close and token.kind is TokenKind.MARK and token.text == close:
                self.at += 1
                return items
            if token.is_mark(STARS) and not self.is_colour_mark(token):
                self.star(items, stars, token)
            elif token.word in REPEAT and self.peek().word in REPEATS_ON:
                self.repeat(items, stars, token)
            elif token.word in RIBBED and items:
                self.ribbed(items, token)
            elif token.word in ALTERNATELY:
                self.alternately(items, token, close)
            else:
                items += self.item(close)

    def item(self, close: str) -> list[Item]:
        token = self.now
        if token.kind is TokenKind.MARK:
            return self._mark(token, close)
        if token.kind is TokenKind.NUMBER:
            return self.count_first(token)
        if token.kind is TokenKind.STITCH:
            return [self.named_stitch(token)]
        return self.word_first(token)

    def _mark(self, token: Token, close: str) -> list[Item]:
        if token.text in CLOSES:
            return self._bracket(token)
        if token.text in CLOSES.values():
            expected = f"; expected {close!r}" if close else ""
            raise NotUnderstood(f"this bracket closes nothing{expected}", token.start, token.end)
        if self.colours.at(self.tokens, self.at, slot=False):
            return self.colour_first()
        if token.text in SEPARATORS:
            self.at += 1
            return []
        raise unreadable_at(f"{token.text!r} says nothing here; expected stitches such as k3 {self.sample()}", token)

    def _bracket(self, opening: Token) -> list[Item]:
        if self._colour_in_bracket(opening):
            return self.colour_first(bracket=1)
        if self.aside():
            return []
        body = self._inside()
        before = self.tokens[self.tokens.index(opening) - 1]
        often = self.often()
        if often is None and body and all(isinstance(item, TakeUp) for item in body):
            return body  # [with A] k3
        if often is None and (self._repeat_follows() or (self.heading and before.word in KNIT | PURL)):
            return body
        whole = self.tokens[0] is opening and self.tokens[self._after_marks(".,;")].kind is TokenKind.END
        if often is None and whole:
            return body  # (3 A, 2 B, 3 C)
        if often is None:
            closing = self.tokens[self.at - 1]
            raise unreadable_at("nothing says how often the bracket is worked; expected `4 times`", closing)
        return [self.again(body, often, opening)]

    def _repeat_follows(self) -> bool:
        """`*(k1 A, k1 B); rep from * to end`: the asterisk's repeat, in a bracket besides."""
        at = self._after_marks(",;*")
        return self.tokens[at].word in REPEAT and self.tokens[at + 1].word in ("from", "between")

    def _after_marks(self, marks: str) -> int:
        """The index of the next token that is none of these marks."""
        at = self.at
        while self.tokens[at].is_mark(marks):
            at += 1
        return at

    def _colour_in_bracket(self, opening: Token) -> bool:
        """`(A) k3`, `(A)3`, `(A) x 3`."""
        found = self.colours.at(self.tokens, self.at + 1, slot=True)
        if found is None or not self.tokens[found.after].is_mark(CLOSES[opening.text]):
            return False
        then = self.tokens[found.after + 1]
        return then.word in KNIT | PURL | {"x"} or then.kind is TokenKind.NUMBER or then.is_mark("×")

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
        while self.tokens[end].kind in (TokenKind.WORD, TokenKind.NUMBER) or self.tokens[end].is_mark("=.,-"):
            end += 1
        if not self.tokens[end].is_mark(CLOSES[self.now.text]):
            return False
        inside = self.tokens[self.at + 1 : end]
        words = [t.word for t in inside if t.kind is TokenKind.WORD]
        numbers = [t for t in inside if t.kind is TokenKind.NUMBER]
        side = _side(words)
        if side:
            self.side = side
        elif words and (words[0] in MINDS | PUTS or (len(words) == len(inside) == 1 and self._how(end, words[0]))):
            pass  # (weave in end of B), 9 A (purl)
        elif len(numbers) == 1 and all(w in STITCH_WORDS or w in ASIDE for w in words) and not self._begins_repeat(end):
            part = words[-1:] in (["needle"], ["needles"]) and self._goes_on(end)  # (3 sts on needle), k9
            if not part and CHANGED.isdisjoint(words):  # (2 sts decreased)
                self.stated = int(numbers[0].text)
        elif not self._numbers_a_thing(end) and (
            numbers or not words or any(len(w) == 1 or w in KNIT | PURL for w in words)
        ):
            return False  # else a remark: (selvedge), (2nd strand)
        self.at = end + 1
        return True

    def _numbers_a_thing(self, closing: int) -> bool:
        """`(2nd strand)`, and not `(1 st A, 2 sts B) twice`."""
        numbered = any(
            self.tokens[at].kind is TokenKind.NUMBER and then.glued and then.word in ORDINALS
            for at, then in enumerate(self.tokens[self.at + 1 : closing], self.at)
        )
        return numbered and not self._begins_repeat(closing)

    def _goes_on(self, closing: int) -> bool:
        """Whether more is worked behind the token: what a bracket counts in mid row is not what the row comes to."""
        after = self.tokens[closing + 1 :]
        return any(token.kind in (TokenKind.NUMBER, TokenKind.STITCH) or token.word in KNIT | PURL for token in after)

    def _how(self, closing: int, word: str) -> bool:
        """Whether a bracket at the row's end only says again that it is knitted, or purled."""
        return word in {"knit", "purl"} and self.tokens[closing + 1].kind is TokenKind.END

    def _begins_repeat(self, closing: int) -> bool:
        return often_after(self.tokens, closing + 1)[0] is not None


def _side(words: list[str]) -> str:
    joined = " ".join(words)
    return {"rs": "RS", "ws": "WS", "right side": "RS", "wrong side": "WS"}.get(joined, "")
