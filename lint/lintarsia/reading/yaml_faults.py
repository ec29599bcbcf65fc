"""What libyaml says when it gives up, in words for somebody who knits."""

import re

from yaml import MarkedYAMLError, YAMLError

from lintarsia.reading.places import mark_region
from lintarsia.reading.source import CannotRead, cannot_read, split_lines
from lintarsia.result import NOWHERE, Region

_TAB = "a tab stands where the indent belongs; YAML allows spaces only"
_STRAY_ROW = "this line is indented less than the lines above it, or has no colon; expected `key: value`"
_SWALLOWED = "# begins a comment here, which swallows the rest of the line; expected the shade in quotes"
_NO_SPACE = "no space follows the colon, so this is no key; expected `key: value`"
_AS_TEXT = "put the text in quotes if it is meant to begin so"
_UNALIGNED = "this line does not line up with its neighbours"

# The parser's words, a key, ours, what to do. The first that fits is used; else the parser's own words stand in.
_QUOTES = "close it with the quote that it opens with"
_ALIGN = "indent it as its neighbours are; the entries of one group begin in one column"
_FAULTS = (
    (
        "but found another document",
        "several-documents",
        "a second document begins here; expected one document a file",
        "give the second chart a file of its own, or delete the `---`",
    ),
    ("exceeded maximum nesting depth", "too-deep", "the file nests far too deep", None),
    ("found undefined alias", "alias", "the name after * is defined nowhere; expected the value itself", _AS_TEXT),
    ("found duplicate anchor", "alias", "the name after & is defined twice; expected no such names", _AS_TEXT),
    ("found a tab character", "tab", _TAB, "replace the tab by spaces"),
    (
        "mapping values are not allowed",
        "yaml",
        "a colon stands where none can; quote the text, or see the line above",
        "put a text that has a colon in it in quotes, and begin every key on a line of its own",
    ),
    (
        "did not find expected node content",
        "yaml",
        "a value is missing before this",
        "write the value, or take out the comma or the key that waits for it",
    ),
    ("did not find expected key", "yaml", f"{_UNALIGNED}; expected a key at the same depth", _ALIGN),
    ("did not find expected '-' indicator", "yaml", f"{_UNALIGNED}; expected a `-` at the same depth", _ALIGN),
    ("found unexpected end of stream", "yaml", "a text in quotes is not closed before the file ends", _QUOTES),
    ("found unexpected document indicator", "yaml", "a text in quotes is not closed before the document ends", _QUOTES),
    (
        "found unknown escape character",
        "yaml",
        "this backslash means nothing here; use single quotes to keep it",
        "write the text in single quotes",
    ),
    (
        "block sequence entries are not allowed",
        "yaml",
        "a list begins where none can; start it on its own line",
        "put the `-` on the next line, indented",
    ),
)

_KEY_WITHOUT_SPACE = re.compile(r"\s*[\w-]+:(?=\S)(?!.*: )", re.ASCII)
_UNQUOTED_SHADE = re.compile(r"(?<=[ \t])#[0-9A-Fa-f]{3,8}\b", re.ASCII)


def explain(error: YAMLError, text: str) -> CannotRead:
    """The finding for a YAML error, at the place where the parser stopped or, better, where the slip is."""
    said = str(error)
    region = _where(error, text)
    if "cannot start any token" in said:
        return _stray_character(region, text)
    if "did not find expected ',' or" in said:
        return _open_bracket(error, region, text)
    if "did not find expected node content" in said and (swallowed := _swallowed_value(region, text)):
        return swallowed
    if "could not find expected ':'" in said or "did not find expected key" in said:
        region = _where(error, text, of_context="could not" in said)
        line = split_lines(text)[region.line - 1]
        if ":" not in line:
            return cannot_read("yaml", _STRAY_ROW, region, remedy="indent all rows of the chart alike")
        if name := _KEY_WITHOUT_SPACE.match(line):
            colon = Region(region.line, name.end(), region.line, name.end() + 1)
            return cannot_read("yaml", _NO_SPACE, colon, remedy="write a space after the colon")
    for words, key, message, remedy in _FAULTS:
        if words in said:
            return cannot_read(key, message, region, remedy)
    problem = getattr(error, "problem", None) or "it cannot be parsed"
    return cannot_read("yaml", f"this is not YAML: {problem}", region)


def _open_bracket(error: YAMLError, region: Region, text: str) -> CannotRead:
    """A bracket that is not closed: because of an unquoted shade, the slip that is made most often, or otherwise."""
    start = _where(error, text, of_context=True)
    line = split_lines(text)[start.line - 1]
    if shade := _UNQUOTED_SHADE.search(line, start.column - 1):
        return _swallowed(start.line, shade)
    bracket = line[start.column - 1 : start.column]
    message = f"the {bracket} in line {start.line} is not closed, or a comma is missing before this"
    close = "}" if bracket == "{" else "]"
    return cannot_read("yaml", message, region, f"close it with {close}, or put the comma between the two entries")


def _swallowed_value(region: Region, text: str) -> CannotRead | None:
    """The same slip with nothing but remarks below it: the file ends where the value was to come."""
    for number in range(region.line, 0, -1):
        line = split_lines(text)[number - 1]
        if line.partition("#")[0].strip():
            shade = _UNQUOTED_SHADE.search(line)
            return _swallowed(number, shade) if shade else None
    return None


def _swallowed(line: int, shade: re.Match[str]) -> CannotRead:
    comment = Region(line, shade.start() + 1, line, shade.end() + 1)
    return cannot_read("yaml", _SWALLOWED, comment, remedy="put the shade in quotes")


def _where(error: YAMLError, text: str, *, of_context: bool = False) -> Region:
    """Where the parser stopped; or where what it was reading began."""
    if isinstance(error, MarkedYAMLError):
        marks = (error.problem_mark, error.context_mark)
        mark = (marks[1] or marks[0]) if of_context else (marks[0] or marks[1])
        if mark is not None:
            return _within(mark_region(mark), text)
    return NOWHERE


def _within(region: Region, text: str) -> Region:
    """The region, moved back to the end of the text where the parser stopped beyond it."""
    lines = split_lines(text)
    if region.line > len(lines):
        return Region(len(lines), len(lines[-1]) + 1, len(lines), len(lines[-1]) + 1)
    end = len(lines[region.line - 1]) + 1
    return Region(region.line, min(region.column, end), region.line, min(region.end_column, end))


def _stray_character(region: Region, text: str) -> CannotRead:
    line = split_lines(text)[region.line - 1]
    tab = line.find("\t")
    if tab >= 0 and not line[: region.column].strip():
        place = Region(region.line, tab + 1, region.line, tab + 2)
        return cannot_read("tab", _TAB, place, remedy="replace the tab by spaces")
    found = line[region.column - 1 : region.column]
    message = f"no text can begin with {found!r} here unless it stands in quotes"
    return cannot_read("yaml", message, region, remedy="put it in straight quotes")
