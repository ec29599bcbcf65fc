"""What stands in a row's words and works no stitch: blanked out before they are parsed, so that every place in the text
stays where it is; and the clause that nobody understands, which may be such a remark. Common practice.
"""

import re

from lintarsia.written.lexer import STARS, NotUnderstood
from lintarsia.written.vocabulary import CARDINALS, KNIT, PURL, REPEAT, SLIP, STITCH_WORDS

# One character for one: what print and phones put for the signs of the keyboard.
_LIKE = str.maketrans(
    {
        **dict.fromkeys("∗⁎✻✱＊", "*"),
        **dict.fromkeys("✕✖⨯╳", "×"),
        **dict.fromkeys("−‑‒―", "–"),
        **dict.fromkeys("\u200b\u00ad\ufeff\u2060", " "),
    }
)
_ROWS = r"(?:rows|rnds|rounds)\b"
_COUNT = rf"(?:[0-9]{{1,4}}|{'|'.join(CARDINALS)})"
_LENGTH = r"(?:[0-9]+(?:[.,/][0-9]+)?|[¼½¾⅓⅔⅛⅜⅝⅞]|\s|-|–)+(?:cm|mm|ins?\b|inch(?:es)?|[\"”″])"
_BLANKED = tuple(
    re.compile(pattern, re.IGNORECASE)
    for pattern in (
        # rep. from, beg. of, K.2: the full stop of an abbreviation ends no sentence.
        r"(?<![^\W_])(?:rep|beg|rem|foll|alt|patt|cont|dec|inc|tog|rnd|col|sl|prev|incl|kn|k|p)(?P<gone>\.)(?=\s*[a-z0-9*(])",
        r"\bcast\s*(?P<gone>\(bind\)|/\s*bind)(?=\s+off)|\bbind\s*(?P<gone2>\(cast\)|/\s*cast)(?=\s+off)",
        r"\b(?:bind|cast)(?P<gone>-)(?:on|off)\b",
        r"\b(?:bind|cast) off\s+(?P<gone>\((?:bind|cast) off\))",
        r"\brep(?:eat)?\s+(?P<gone>\*\s*[-–]\s*\*)",
        r"(?P<gone>\bin\s+(?:the\s+)?(?:following|foll)\s+(?:order|sequence|way|manner))",
        r"(?P<gone>\bdec(?:rease)?\s+(?:1|one)\s+st(?:itch)?\s+\()(?:ssk|ssp|skpo?|[kp]2tog(?: tbl)?)(?P<gone2>\))",
        # k3 A (bobbin 2): which of several hangs there, as the plan knows.
        r"(?P<gone>\((?:(?:the|with|from)\s+)?(?:bobbin|butterfly|ball|strand|length)\s*(?:no\.?\s*)?[0-9]{1,2}\))",
        r"(?:\b[kp]|\bknit|\bpurl)\s*[0-9]{1,4}\s+(?P<gone>more)(?=\s+(?:sts?|stitch|stitches|in|with|using)\b)",
        # Rows that words for several are worked over; the file says which rows they are for.
        r"(?P<gone>\b(?<!as )(?<!like )(?:for|until|till|through|to)\s+(?:(?:the\s+)?end\s+of\s+)?"
        rf"(?:{_COUNT}\s+(?:more\s+)?{_ROWS}|"
        r"(?:row|rnd|round)\s*[0-9]{1,4}(?:\s+of\s+(?:the\s+)?chart)?)"
        r"(?:\s+(?:is|are|has|have)\b[^,;.]*)?)",
        rf"\b(?:work|knit|purl|patt)\s+(?P<gone>{_COUNT}\s+(?:more\s+)?{_ROWS})",
        r"(?P<gone>(?:(?:until|till)\s+)?(?:(?:the\s+)?\w+\s+)?(?:(?:should|will)\s+)?(?:now\s+)?"
        rf"measures?\s[^;,.]*?{_LENGTH}[^;,.]*)",
    )
)
SEVERAL = re.compile(
    rf"\b(?:(?:next|foll(?:owing)?|these|last|for)\s+{_COUNT}\s+(?:\w+\s+)?{_ROWS}|(?:and|every)\s+(?:foll|every|alt|[0-9]+th)|every\s+\w+\s+r)",
    re.IGNORECASE,
)
"""That the words are for several rows."""
_FIRSTS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_SPELT_LABEL = re.compile(
    rf"\s*(?:(?:row|rnd|round)\s+(?P<number>{'|'.join(CARDINALS)})\b|(?P<nth>{'|'.join(_FIRSTS)})(?=\s+(?:row|rnd|round)\b))",
    re.IGNORECASE,
)
_CLAUSE_ENDS = ",;.:()[]{}–—|"
_WORD = re.compile(r"[^\W_]+")
_WORKS = KNIT | PURL | SLIP | REPEAT | STITCH_WORDS | CARDINALS.keys()


def without_remarks(text: str) -> str:
    """The words, as long as they were, without what works no stitch whatever it says."""
    text = _label_in_digits(text.translate(_LIKE))
    for pattern in _BLANKED:
        text = pattern.sub(_blanked, text)
    return text


def _label_in_digits(text: str) -> str:
    """`Row one:` as `Row 1  :`, `First row` as `1st   row`."""
    if not (match := _SPELT_LABEL.match(text)):
        return text
    name = "number" if match["number"] else "nth"
    said = match[name].lower()
    digits = str(CARDINALS[said]) if name == "number" else f"{_FIRSTS.index(said) + 1}th"
    return text[: match.start(name)] + digits.ljust(len(said)) + text[match.end(name) :]


def _blanked(match: re.Match[str]) -> str:
    said = match[0]
    for name, gone in match.groupdict().items():
        if gone is not None:
            start = match.start(name) - match.start()
            said = said[:start] + " " * len(gone) + said[start + len(gone) :]
    return said


def without_clause(text: str, fault: NotUnderstood) -> str | None:
    """The words without the clause that a fault stands in, as long as they were; None where that clause counts, works
    or repeats something: what nobody understands is then no remark.
    """
    start, end = fault.start, fault.start
    while start > 0 and text[start - 1] not in _CLAUSE_ENDS:
        start -= 1
    while end < len(text) and text[end] not in _CLAUSE_ENDS:
        end += 1
    clause = text[start:end]
    words = {word.lower() for word in _WORD.findall(clause)}
    if not words or words & _WORKS or any(c.isdigit() or c in STARS for c in clause):
        return None
    return text[:start] + " " * len(clause) + text[end:]
