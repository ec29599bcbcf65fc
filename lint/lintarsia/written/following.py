"""Words that say no colour of their own: `in patt`, `as established`, `in colours as set`. Common practice.

In patt, as set and as established mean the picture goes on, which is what the chart has. Colours as they appear are
those of the row below, and can be compared with it.
"""

import re

_KEPT = r"(?:set|established|correct|so\s+far|before)"
_APPEAR = (
    r"(?:they|it)\s+(?:appears?|show|fall|occur|face(?:\s+you)?|come|stand|are|lie|"
    r"presents?(?:\s+(?:themselves|itself))?)"
)
_IN_CHART = r"\s+(?:on|in)\s+the\s+chart"
_BELOW = re.compile(
    r"(?:working\s+)?(?:(?:each|every)\s+st(?:itch)?\s+)?(?:(?:in|with|using|keeping(?:\s+to)?|matching|following|working|knitting|purling)\s+)?"
    r"(?:the\s+|their\s+|its\s+)?(?P<same>(?:same|own|established|est)\s+)?col(?:ou?r)?s?"
    rf"(?P<how>\s+(?:(?:as\s+)?{_KEPT}|(?:as\s+|in\s+which\s+)?{_APPEAR}|(?:as\s+)?(?:in|of|as|on)\s+(?:the\s+)?(?:(?:previous|last)\s+r\w+|r\w+\s+below)|below|of\s+(?:each|every|the)\s+(?:st(?:itch)?(?:\s+below)?|row\s+below)))?"
    rf"(?!\w)|(?:just\s+|each\s+colou?r\s+)?as\s+(?P<bare>(?:the\s+)?(?:colou?rs\s+)?(?:{_APPEAR}|appear|come|it\s+appears))(?!\w)",
    re.IGNORECASE,
)
_CHART = re.compile(
    r"(?:(?:in|(?:keeping|maintaining)(?:\s+in|\s+to)?|following)\s+)?(?:the\s+)?(?:col(?:ou?r)?\s+|est(?:ablished)?\s+)?(?:patt(?:ern)?|col(?:ou?r)?\s+(?:sequence|order))"
    rf"(?:\s+(?:as\s+)?{_KEPT})?(?!\w)|"
    rf"as\s+(?:{_KEPT}|charted)(?!\w)|(?:in\s+)?(?:the\s+)?col(?:ou?r)?s?\s+as\s+{_APPEAR}{_IN_CHART}(?!\w)|"
    r"(?:from|following|follow|(?:as\s+)?per|as\s+(?:shown\s+)?(?:in|on))\s+(?:the\s+)?chart(?!\w)",
    re.IGNORECASE,
)
_ON_CHART = re.compile(rf"{_IN_CHART}(?!\w)", re.IGNORECASE)
_MATCHING = re.compile(r"matching", re.IGNORECASE)
CHART_ROW = re.compile(
    r"\s*(?:work|knit|purl|follow|foll|patt)?\s*(?:(?:from\s+)?(?:row|rnd|round)\s*(?P<row>[0-9]{1,6})\s+"
    r"(?:of|from|on|in)\s+(?:the\s+)?(?:colou?r\s+)?chart|(?:the\s+)?(?:colou?r\s+)?chart\s*,?\s*"
    r"(?:row|rnd|round)\s*(?P<nth>[0-9]{1,6}))\s*\.?\s*",
    re.IGNORECASE,
)


def followed(text: str, start: int) -> tuple[str, int] | None:
    """("chart" or "below", where the words end) for words that follow one of the two."""
    match = _BELOW.match(text, start)
    if (
        match
        and not _ON_CHART.match(text, match.end())
        and (match["same"] or match["how"] or match["bare"] or _MATCHING.match(text, start))
    ):
        return "below", match.end()
    match = _CHART.match(text, start)
    return ("chart", match.end()) if match else None
