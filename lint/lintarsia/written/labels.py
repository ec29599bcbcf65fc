"""What may stand before a row's stitches: `Row 5 (RS):`, `Rows 5 and 7 (RS):`, `WS:`, `Left neck side, row 84 (WS):`;
and rows said by reference."""

import re

from lintarsia.written.spoken import Label

_NUMBERS = r"[0-9]{1,6}(?:st|nd|rd|th)?(?:\s*(?:,|–|-|&|\+|to|and)\s*(?:and\s+)?[0-9]{1,6})*"
_SIDE = r"(?:RS|WS|right[ -]side|wrong[ -]side)(?:\s+facing)?"
_OTHERS = r"(?:\s*(?:,|and|&)\s*(?:all|every|each)\s+(?:(?:foll(?:owing)?|other|even|odd)\s+)*(?:(?:RS|WS)\s+)?rows?)?"
_EVERY = r"(?:\s*(?:,|and|&)\s*(?:all|every|each))?\s+(?:(?:foll(?:owing)?|other)\s+)*(?:(?:RS|WS)\s+)?"
_LABEL = re.compile(
    rf"\s*(?:(?P<before>{_SIDE})\s+)?"
    rf"(?:(?:row|rows|rnd|rnds|round|rounds|r(?=[0-9]))\.?\s*(?P<rows>{_NUMBERS})(?P<others>{_OTHERS})|"
    r"(?P<nth>[0-9]{1,6})(?:st|nd|rd|th)\s+(?:row|rnd|round)|"
    r"(?:next|first|last|foll(?:owing)?|set[ -]?up|foundation|(?:even|odd)(?:[ -]numbered)?)"
    rf"{_EVERY}(?:rows?|rnds?|rounds?))"
    r"(?:\s*(?:of|on|from)\s+(?:the\s+)?(?:colou?r\s+)?chart(?:\s+[a-z0-9](?!\w))?)?"
    rf"\s*(?:[(\[]\s*(?P<side>{_SIDE})\s*[)\]]|(?P<bare>RS|WS)\b)?\s*(?:[:.,–—→>-]|(?=[kp\[(*]))",
    re.IGNORECASE,
)
_PART = r"[a-z]+(?:\s+[a-z]+)?"  # neck, left armhole
_SHAPE = re.compile(rf"\s*(?:shap(?:e|ing)\s+{_PART}|{_PART}\s+shaping)\s*[:.]\s*", re.IGNORECASE)
_BARE = re.compile(r"\s*(?P<rows>[0-9]{1,4})\s*:\s*(?=\S)")
# The name of a side of an opening before a row's own label.
_HALF = re.compile(
    r"\s*(?:the\s+)?(?:right|left)(?:[ -]hand)?(?:\s+(?:neck(?:\s+(?:side|edge))?|side\s+of\s+(?:the\s+)?"
    r"(?:neck|slit|opening|work)|half|back|front))?\s*[,:;–—-]?\s*(?=(?:RS\s+|WS\s+)?(?:rows?|r(?=[0-9]))\b)",
    re.IGNORECASE,
)
_SIDE_ONLY = re.compile(
    rf"\s*[(\[]?\s*(?:on\s+(?:the\s+)?)?(?P<side>{_SIDE})(?:\s+rows?)?\s*[)\]]?\s*(?:[:.–—→>-]|(?=(?:knit|purl|[kp]\s*[0-9])))",
    re.IGNORECASE,
)
_REFERENCE = re.compile(
    r"\s*(?:(?:work|knit|purl)\s+)?(?:the\s+)?(?:same\s+)?(?:as|like|rep(?:eat)?)\s+(?:for\s+)?(?:the\s+)?(?:last\s+)?"
    rf"(?:rows?|rnds?|rounds?)\s*(?P<rows>{_NUMBERS})(?:\s*,?\s*(?:[a-z0-9]+\s+(?:more\s+)?times?(?:\s+more)?|once(?:\s+more)?"
    r"|twice(?:\s+more)?))?\s*\.?\s*(?:[(\[]\s*[0-9]{1,6}\s*(?:sts?|stitches)\s*[)\]])?\s*\.?\s*",
    re.IGNORECASE,
)
_NUMBER = re.compile(r"[0-9]+")


def read_label(text: str) -> tuple[Label, int]:
    """The label before a row's words, and the index where the words begin."""
    half = _HALF.match(text) or _SHAPE.match(text)
    if match := _LABEL.match(text, half.end() if half else 0):
        said = match["rows"] or match["nth"]
        rows = () if match["others"] or not said else row_numbers(said)
        return Label(rows, _side(match["before"] or match["side"] or match["bare"])), match.end()
    if match := _BARE.match(text):
        return Label(row_numbers(match["rows"])), match.end()
    if match := _SIDE_ONLY.match(text):
        return Label((), _side(match["side"])), match.end()
    return Label(), shape.end() if (shape := _SHAPE.match(text)) else 0


def row_numbers(said: str) -> tuple[int, ...]:
    """`5`, `5, 7 and 9`, `5–8` to the numbers; a range stands for every row in it."""
    numbers = [int(number) for number in _NUMBER.findall(said)]
    if len(numbers) == 2 and re.search(r"–|-|to", said):
        first, last = numbers
        return tuple(range(first, min(last, first + 100_000) + 1))
    return tuple(numbers)


def read_reference(text: str, start: int) -> tuple[int, ...]:
    """The rows that `as row 3`, `rep rows 3–8 twice more` refer to, where that is all the words say."""
    match = _REFERENCE.fullmatch(text, start)
    return row_numbers(match["rows"]) if match else ()


def _side(text: str | None) -> str:
    if not text:
        return ""
    return "RS" if text.lower().startswith("r") else "WS"
