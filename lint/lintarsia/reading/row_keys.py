"""Which rows a key or a label means: `3`, `3-8`, `1, 3 and 5`, `2 and all WS`, `Row 5 (RS)`, `RS rows 5–11`; and of
which side of an opening: `left 84`, `Right neck side, row 84 (WS)`."""

import re
from collections.abc import Callable, Sequence

from lintarsia.ground.values import dataclass

MOST_ROWS = 20_000  # of one key; no chart has more

# "Right side" alone is the fabric's. A front is named as it is worn: its left is at the right of the chart.
_HALF = re.compile(
    r"^(?:the\s+)?(?P<half>right|left)(?:[ -]hand)?"
    r"(?P<of>(?:\s+(?:neck(?:\s+(?:side|edge))?|side\s+of\s+(?:the\s+)?(?:neck|slit|opening|work)|half|back|front))?)\s*[,:;–—-]?\s*"
    r"(?=$|(?:RS|WS|rows?|all)\b|r?\s*[0-9])",
    re.IGNORECASE,
)
_SIDE_IN_BRACKETS = re.compile(r"\s*[(\[]\s*(?:RS|WS)\s*[)\]]\s*$", re.IGNORECASE)
_ROW = re.compile(r"^(?:(?P<side>RS|WS)\s+)?(?:(?:rows?|rnds?|rounds?|r(?=\s*[0-9]))\s*)?", re.IGNORECASE)
_ALL = re.compile(r"(?:^|\s*(?:,\s*and\b|,|\band\b|&)\s*)all\s+(?P<side>RS|WS)(?:\s+rows)?$", re.IGNORECASE)
_AND = re.compile(r"\s*(?:,\s*and\b|,|\band\b|&)\s*", re.IGNORECASE)
_PART = re.compile(r"([1-9][0-9]{0,5})(?:\s*(?:-|–|to)\s*([1-9][0-9]{0,5})(?:/([1-9]))?)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class RowKey:
    """`rows` as they are named, ascending; `all_side`: "RS" or "WS" where every row of that side is meant besides;
    `half`: "right" or "left" where one side of an opening is."""

    rows: tuple[int, ...]
    all_side: str = ""
    half: str = ""

    def meant(self, height: int, side: Callable[[int], str]) -> tuple[int, ...]:
        """The rows of a chart of `height` rows; those named beyond it too."""
        others = {row for row in range(1, height + 1) if side(row) == self.all_side} if self.all_side else set()
        return tuple(sorted(others | set(self.rows)))


def read_half(text: str) -> tuple[str, int]:
    """The side of an opening that is named first, as the chart shows it, and the index behind its name; "" and 0."""
    match = _HALF.match(text)
    if match is None:
        return "", 0
    half = match["half"].lower()
    worn = match["of"].strip().lower() == "front"
    return ({"left": "right", "right": "left"}[half] if worn else half), match.end()


def row_key(text: str) -> RowKey | None:
    """What a key or a label says; None where it says no rows."""
    text = text.strip()
    half, behind = read_half(text)
    text = _SIDE_IN_BRACKETS.sub("", text[behind:])
    every = _ALL.search(text)
    text = text[: every.start()] if every else text
    head = _ROW.match(text)
    assert head is not None  # every part of it may be missing
    text = text[head.end() :].strip()
    rows = _listed(_AND.split(text), 2 if head["side"] else 1) if text else ()
    if rows is None or not (rows or every):
        return None
    return RowKey(rows, every["side"].upper() if every else "", half)


def _listed(parts: Sequence[str], step: int) -> tuple[int, ...] | None:
    rows: set[int] = set()
    for part in parts:
        match = _PART.fullmatch(part.strip())
        if match is None:
            return None
        first, last = int(match[1]), int(match[2] or match[1])
        rows.update(range(first, min(last, first + MOST_ROWS) + 1, int(match[3] or step)))
    return tuple(sorted(rows))
