"""What users are shown as a source: title, year and place, or said to be practice, reckoning or the house's own."""

import re

from folding import each
from lintarsia.rules.rulebook import house_rulebook

OURS = re.compile(
    r"common practice|house (value|list)|arithmetic|the chart format|as teachers print it|measured .*benchmarks/"
)
CITED = re.compile(r"“[^”]+”.*\b(19[5-9]\d|20[0-3]\d)\b|“[^”]+20[0-3]\d[^”]*”")
# Shown beside sources and none themselves: how a cited figure is used.
REMARKS = {"in stitches authors say 3 to 7, so the length is what counts, by the gauge"}
BOOK = house_rulebook()
SOURCES = sorted((source, rule) for rule in BOOK.names for source in BOOK.info(rule).sources)


@each("source, rule", SOURCES)
def test_a_source_can_be_found_or_says_whose_it_is(source: str, rule: str) -> None:
    assert source in REMARKS or OURS.search(source) or CITED.search(source), rule
    assert "memory" not in source
