"""Which rules keep silent about a chart whose gauge or colours were faulty, so that the reader stood in for them.

The fault itself is a result already; lengths by a made-up gauge and shades of a made-up grey would only bury it.
"""

from collections.abc import Collection

_JUDGED_BY = {
    "gauge": ("gauge/", "float/too-long", "care/infant-floats", "ends/", "yarn/", "supply/too-short"),
    "colours": ("colour/", "yarn/", "words/"),
}


def unjudged(rule: str, assumed: Collection[str]) -> bool:
    """Whether `rule` judges by a part of the chart that was only assumed (see Chart.assumed)."""
    return any(rule.startswith(_JUDGED_BY.get(part, ("\0",))) for part in assumed)
