"""Words that change the count: bind and cast off, cast on, holders, `inc in first st`. British and American alike."""

import re
from collections.abc import Sequence

from lintarsia.written.cursor import Cursor
from lintarsia.written.lexer import TokenKind
from lintarsia.written.spoken import HowOften, Item, StitchWork, Times, Until
from lintarsia.written.vocabulary import CARDINALS, SCHEDULE, SHAPING_WORDS, STITCH_WORDS

_NUMBER = rf"(?P<number>[0-9]{{1,6}}|{'|'.join(CARDINALS)})"
_WHICH = (
    r"(?:the\s+)?(?:first|next|last|foll(?:owing)?|rem(?:aining)?|all|these|those|cent(?:er|re)|middle|neck)?\s*"
    r"(?:the\s+)?"
)
_ALL = (
    r"(?:all\s+(?:of\s+)?(?:the\s+)?(?:rem(?:aining)?\s+)?|(?:the\s+)?rem(?:aining)?\s+|these\s+|those\s+)"
    r"(?:sts?|stitches)(?!\w)"
)
_OFF = re.compile(
    rf"(?:bind(?:ing)?\s+off|cast(?:ing)?\s+off|b\.?o\.?|b/o|c/o)(?:\s+|(?=[0-9]))"
    rf"(?:{_ALL}|{_WHICH}{_NUMBER}(?!\w)(?:\s*(?:neck\s+)?(?:sts?|stitches)(?!\w))?)",
    re.IGNORECASE,
)
_ON = re.compile(
    rf"(?:cast(?:ing)?\s+on|co)\s+{_WHICH}{_NUMBER}(?!\w)(?:\s*(?:new\s+)?(?:sts?|stitches)(?!\w))?", re.IGNORECASE
)
_WHERE = re.compile(
    r"\s*(?:(?:at|from)\s+(?:the\s+)?(?:beg(?:inning)?|start|end)(?:\s+of\s+(?:each\s+of\s+)?(?:the\s+|this\s+|these\s+)?"
    r"(?:next\s+|foll(?:owing)?\s+)?(?:\w+\s+)?(?:rows?|rnds?|rounds?))?|"
    r"(?:at|from|for)\s+(?:the\s+|each\s+)?(?:neck|armhole|side|outer|inner|shoulder)(?:\s+edges?)?|"
    r"(?:knit|purl|k|p|rib)wise|loosely|in\s+patt(?:ern)?|for\s+\w+)(?!\w)",
    re.IGNORECASE,
)
_PLACE = re.compile(  # where one is: it changes nothing
    r"(?:to\s+(?:the\s+)?(?:neck|armhole|side)\s+edge|on\s+(?:the\s+)?other\s+side(?:\s+of\s+(?:the\s+)?neck)?)(?!\w)",
    re.IGNORECASE,
)
_ON_NEEDLE = re.compile(
    r"\s*[(\[]\s*(?:1|one)\s+(?:st|stitch)\s+(?:is\s+)?(?:left\s+)?on\s+\w+[^)\]]*[)\]]", re.IGNORECASE
)
_HOLD = re.compile(
    rf"(?:sl(?:ip)?|place|put|leave|transfer|and)\s+{_WHICH}(?:{_NUMBER}\s*)?(?:sts?|stitches)\s+"
    r"(?:purlwise\s+|unworked\s+)?(?:on(?:to)?|to)\s+(?:a\s+|another\s+)?(?:st(?:itch)?\s+)?"
    r"(?:holder|spare\s+needle|waste\s+yarn|scrap\s+yarn|thread|piece\s+of\s+yarn)",
    re.IGNORECASE,
)
_OR_OFF = re.compile(r"\s*,?\s*or\s+(?:bind|cast)\s+(?:them\s+)?off", re.IGNORECASE)
_IN_ONE = re.compile(
    r"(?:k|knit|p|purl|inc|increase|work)\s*(?:1\s+|twice\s+)?(?:in|into)(?:\s+the)?\s+(?:front|back)\s*(?:and|&|then)\s*(?:the\s+)?"
    r"(?:front|back)\s+(?:loops?\s+)?of\s+(?:the\s+)?(?:first|next|last|foll(?:owing)?|this|same)\s+st(?:itch)?(?!\w)|"
    r"inc(?:rease)?(?:\s+(?:1|one|once)(?:\s+st)?)?\s+(?:in|into)\s+(?:the\s+)?"
    r"(?:first|next|last|foll(?:owing)?|this|same)\s+st(?:itch)?(?!\w)|inc(?:rease)?\s*(?:1|one)?(?=\s*(?:[,;.)\]]|$))",
    re.IGNORECASE,
)
_TWO_AS_ONE = re.compile(r"dec(?:rease)?\s*(?:1|one)?(?=\s*(?:[,;.)\]]|$))", re.IGNORECASE)
_MAKE = re.compile(r"make\s+(?:1|one)(?!\w)", re.IGNORECASE)
_INCLUDING = re.compile(
    r"\s*,?\s*(?:includ\w+|counting)\s+(?:the\s+)?st(?:itch)?\s+(?:already\s+)?on\s+\w+(?:\s+needle)?", re.IGNORECASE
)
_ONES = ((_IN_ONE, "inc", 1, 2), (_TWO_AS_ONE, "dec", 2, 1), (_MAKE, "m1", 0, 1))


class ShapingWords(Cursor):
    """Reads one item that changes the count of stitches."""

    def shaping(self) -> list[Item] | None:
        """What is shaped here, if these words shape anything."""
        if self.said(_PLACE):
            return []
        start = self.now.start
        after = self.stated is not None  # what is said behind the row's count is done after the row
        if after and (self.said(_OFF) or self.said(_HOLD)):
            self.said(_OR_OFF)
            return []
        if match := self.said(_OFF):
            return self._off(start, _often(match))
        if match := self.said(_ON):
            yarn = self.slot()
            self.said(_WHERE)
            yarn = yarn or self.slot()
            return [StitchWork("co", _often(match), yarn, start, match.end(), 0, 1)]
        if match := self.said(_HOLD):
            return [StitchWork("hold", _often(match), None, start, match.end(), 1, 0)]
        for pattern, stitch, takes, makes in _ONES:
            if match := self.said(pattern):
                return [StitchWork(stitch, Times(1), self.slot(), start, match.end(), takes, makes)]
        return self._one_in_colour()

    def _one_in_colour(self) -> list[Item] | None:
        """`inc 1 A`, `dec 1 in A`: a stitch that shapes the row, told with its colour."""
        word, start = self.now.word, self.now.start
        if (
            word not in ("inc", "increase", "dec", "decrease")
            or self.peek().text != "1"
            or self.peek(2).word in STITCH_WORDS
        ):
            return None
        here, self.at = self.at, self.at + 2
        if (yarn := self.slot()) is None:
            self.at = here
            return None
        takes, makes = (1, 2) if word.startswith("inc") else (2, 1)
        return [StitchWork(word[:3], Times(1), yarn, start, self.tokens[self.at - 1].end, takes, makes)]

    def _off(self, start: int, often: HowOften) -> list[Item]:
        """Stitches bound off, and the one that binding off leaves on the needle where the words count it apart."""
        end = self.tokens[self.at - 1].end
        yarn = self.slot()
        self.said(_WHERE)
        items: list[Item] = [StitchWork("bo", often, yarn or self.slot(), start, end, 1, 0)]
        if (match := self.said(_ON_NEEDLE)) is not None:
            items.append(StitchWork("", Times(1), None, start, match.end()))
        return items

    def including(self) -> None:
        """Step over `including st on needle`: the count before it has that stitch."""
        self.said(_INCLUDING)

    def mentioned(self) -> list[Item]:
        """`dec 1 st at each end`: the count changes, and which stitches do it is not said."""
        self.shaped = True
        self.at += 1
        while True:
            token = self.now
            follows = self.peek().word in STITCH_WORDS | SHAPING_WORDS | SCHEDULE
            if (
                token.word in SHAPING_WORDS | SCHEDULE
                or token.word in STITCH_WORDS
                or (token.kind is TokenKind.NUMBER and follows)
            ):
                self.at += 1
            elif not (token.is_mark("([") and self.aside()):
                return []

    def aside(self) -> bool:
        """Step over a bracket that is no repeat, if one opens here."""
        raise NotImplementedError


def _often(match: re.Match[str]) -> HowOften:
    number = match["number"]
    if number is None:
        return Until(0)
    return Times(CARDINALS.get(number.lower()) or int(number))


def begins_with_binding_off(items: Sequence[Item]) -> bool:
    first = next((item for item in items if isinstance(item, StitchWork)), None)
    return first is not None and first.stitch == "bo"


def with_stitch_left(items: Sequence[Item]) -> list[Item] | None:
    """A row that begins with binding off, with the stitch that this leaves on the needle; None for other rows.

    Some patterns count that stitch in what follows (`bind off 3, k9`), others do not (`bind off 3, k8`).
    """
    for at, item in enumerate(items):
        if isinstance(item, StitchWork):
            left = StitchWork("", Times(1), None, item.start, item.end)
            return [*items[: at + 1], left, *items[at + 1 :]] if item.stitch == "bo" else None
    return None
