"""What may stand before a row's stitches: `Row 5 (RS):`, `Rows 5 and 7 (RS):`, `WS:`; and rows said by reference."""

import re

from lintarsia.written.spoken import Label

_NUMBERS = r"[0-9]{1,6}(?:st|nd|rd|th)?(?:\s*(?:,|–|-|&|\+|to|and)\s*(?:and\s+)?[0-9]{1,6})*"
_SIDE = r"RS|WS|right[ -]side|wrong[ -]side"
_LABEL = re.compile(
    rf"\s*(?:(?P<before>{_SIDE})\s+)?(?:(?:row|rows|rnd|rnds|round|rounds)\.?\s*(?P<rows>{_NUMBERS})|"
    rf"(?P<nth>[0-9]{{1,6}})(?:st|nd|rd|th)\s+(?:row|rnd|round))"
    rf"\s*(?:[(\[]\s*(?P<side>{_SIDE})\s*[)\]]|(?P<bare>RS|WS)\b)?\s*(?:[:.–—-]|(?=[kp\[(*]))",
    re.IGNORECASE,
)
_SIDE_ONLY = re.compile(rf"\s*[(\[]?\s*(?P<side>{_SIDE})(?:\s+row)?\s*[)\]]?\s*[:.–—-]", re.IGNORECASE)
_REFERENCE = re.compile(
    r"\s*(?:(?:work|knit|purl)\s+)?(?:the\s+)?(?:same\s+)?(?:as|like|rep(?:eat)?)\s+(?:for\s+)?"
    r"(?:row|rnd|round)\s*([0-9]{1,6})\s*\.?\s*(?:[(\[]\s*[0-9]{1,6}\s*(?:sts?|stitches)\s*[)\]])?\s*\.?\s*",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"[0-9]+")


def read_label(text: str) -> tuple[Label, int]:
    """The label before a row's words, and the index where the words begin."""
    if match := _LABEL.match(text):
        said = match["rows"] or match["nth"]
        return Label(row_numbers(said), _side(match["before"] or match["side"] or match["bare"])), match.end()
    if match := _SIDE_ONLY.match(text):
        return Label((), _side(match["side"])), match.end()
    return Label(), 0


def row_numbers(said: str) -> tuple[int, ...]:
    """`5`, `5, 7 and 9`, `5–8` to the numbers; a range stands for every row in it."""
    numbers = [int(number) for number in _NUMBER.findall(said)]
    if len(numbers) == 2 and re.search(r"–|-|to", said):
        first, last = numbers
        return tuple(range(first, min(last, first + 100_000) + 1))
    return tuple(numbers)


def read_reference(text: str, start: int) -> int | None:
    """The row that `as row 3` refers to, where that is all the words say."""
    match = _REFERENCE.fullmatch(text, start)
    return int(match[1]) if match else None


def _side(text: str | None) -> str:
    if not text:
        return ""
    return "RS" if text.lower().startswith("r") else "WS"
