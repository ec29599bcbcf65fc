"""What libyaml says when it gives up, in words for somebody who knits."""

from yaml import MarkedYAMLError, YAMLError

from lintarsia.reading.places import mark_region
from lintarsia.reading.source import Unreadable, place, split_lines, unreadable
from lintarsia.result import NOWHERE, Region

# The parser's words, a key, ours. The first that fits is used; the parser's own words stand in where none does.
_FAULTS = (
    ("but found another document", "several-documents", "a second document begins here; expected one chart a file"),
    ("exceeded maximum nesting depth", "too-deep", "the file nests far too deep; a chart needs four levels"),
    ("found undefined alias", "alias", "the name after `*` is defined nowhere; expected the value itself"),
    ("found duplicate anchor", "alias", "the name after `&` is defined twice; expected no such names"),
    (
        "mapping values are not allowed",
        "yaml",
        "a colon stands where none can; quote the text, or look at the line above",
    ),
    (
        "could not find expected ':'",
        "yaml",
        "this line lacks its colon, or is indented less than the block it belongs to",
    ),
    (
        "did not find expected key",
        "yaml",
        "this line does not line up with its neighbours; expected a key at the same depth",
    ),
    ("did not find expected '-' indicator", "yaml", "this line does not line up with the list; expected a `-`"),
    ("did not find expected ',' or '}'", "yaml", "a comma or the closing } is missing"),
    ("did not find expected ',' or ']'", "yaml", "a comma or the closing ] is missing"),
    ("found unexpected end of stream", "yaml", "a quoted text is not closed before the file ends"),
    (
        "found unknown escape character",
        "yaml",
        "the backslash and what follows it mean nothing; use single quotes for text with backslashes",
    ),
    ("block sequence entries are not allowed", "yaml", "a list begins where none can; start it on a line of its own"),
    ("found unexpected document indicator", "yaml", "a quoted text is not closed before the document ends"),
)


def explain(error: YAMLError, text: str) -> Unreadable:
    """The finding for a YAML error, at the place where the parser stopped."""
    said = str(error)
    region = _where(error, text)
    if "cannot start any token" in said:
        return _stray_character(region, text)
    for words, key, message in _FAULTS:
        if words in said:
            return unreadable(key, message, region)
    problem = getattr(error, "problem", None) or "it cannot be parsed"
    return unreadable("yaml", f"this is not YAML: {problem}", region)


def _where(error: YAMLError, text: str) -> Region:
    if isinstance(error, MarkedYAMLError):
        mark = error.problem_mark or error.context_mark
        if mark is not None:
            return within(mark_region(mark), text)
    return NOWHERE


def within(region: Region, text: str) -> Region:
    """The region, moved back to the end of the text where the parser stopped beyond it."""
    lines = split_lines(text)
    if region.line > len(lines):
        return Region(len(lines), len(lines[-1]) + 1, len(lines), len(lines[-1]) + 1)
    end = len(lines[region.line - 1]) + 1
    return Region(region.line, min(region.column, end), region.line, min(region.end_column, end))


def _stray_character(region: Region, text: str) -> Unreadable:
    line = split_lines(text)[region.line - 1]
    tab = line.find("\t")
    if line[: region.column].strip() == "" and tab >= 0:
        return unreadable(
            "tab",
            "a tab stands where the indent belongs; YAML allows spaces only",
            Region(region.line, tab + 1, region.line, tab + 2),
            remedy="replace the tab by spaces",
        )
    found = line[region.column - 1 : region.column]
    return unreadable("yaml", f"no text can begin with {found!r} here unless it stands in quotes", region)


__all__ = ["explain", "place", "within"]
