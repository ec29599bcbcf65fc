"""What YAML stumbles over, told whole: key, place from end to end, message and remedy. Places are counted from 1."""

import pytest
from yaml import MarkedYAMLError, YAMLError
from yaml.error import Mark

from lintarsia.reading.source import CannotRead
from lintarsia.reading.tree import compose
from lintarsia.reading.yaml_faults import explain
from lintarsia.result import NOWHERE, Region

TAB = "a tab stands where the indent belongs; YAML allows spaces only"
COLON = "a colon stands where none can; quote the text, or see the line above"
COLON_REMEDY = "put a text that has a colon in it in quotes, and begin every key on a line of its own"
SHADE = "# begins a comment here, which swallows the rest of the line; expected the shade in quotes"
STRAY = "this line is indented less than the lines above it, or has no colon; expected `key: value`"
UNALIGNED = "this line does not line up with its neighbours"
ALIGN = "indent it as its neighbours are; the entries of one group begin in one column"
CLOSE_TEXT = "close it with the quote that it opens with"


def open_bracket(bracket: str, close: str, line: int) -> tuple[str, str]:
    return (
        f"the {bracket} in line {line} is not closed, or a comma is missing before this",
        f"close it with {close}, or put the comma between the two entries",
    )


@pytest.mark.parametrize(
    ("text", "key", "place", "message", "remedy"),
    [
        ("a: 1\n\tb: 2\n", "tab", (2, 1, 2, 2), TAB, "replace the tab by spaces"),
        ("a:\n  - x\n  -\n \t\ty: 2\n", "tab", (4, 2, 4, 3), TAB, "replace the tab by spaces"),
        ("a: @x\t\n", "yaml", (1, 4, 1, 5), "no text can begin with '@' here unless it stands in quotes",
         "put it in straight quotes"),
        ("b: 1\n  A: `x\n", "yaml", (2, 4, 2, 5), COLON, COLON_REMEDY),
        ("a: {b: 1, c: #27406b}\nd: 2\n", "yaml", (1, 14, 1, 21), SHADE, "put the shade in quotes"),
        ("e: 1\na:  {x: #abc, b: 1\nd: 2\n", "yaml", (2, 9, 2, 13), SHADE, "put the shade in quotes"),
        ("e: 1\na: {b: 1, c: #27406b}", "yaml", (2, 14, 2, 21), SHADE, "put the shade in quotes"),
        ("e: 1\na: {b: 1, c: #27406b}\n\n  # so far\n\n", "yaml", (2, 14, 2, 21), SHADE, "put the shade in quotes"),
        ("a: {b: 1, c: # 27406b}\n", "yaml", (2, 1, 2, 1), "a value is missing before this",
         "write the value, or take out the comma or the key that waits for it"),
        ("a: [1,, 2]\n", "yaml", (1, 7, 1, 8), "a value is missing before this",
         "write the value, or take out the comma or the key that waits for it"),
        ("a: {b: 1 # 27406b\nc: 2\n", "yaml", (2, 1, 2, 2), *open_bracket("{", "}", 1)),
        ("e: 1\na: [b, c\nd: 2\n", "yaml", (3, 2, 3, 3), *open_bracket("[", "]", 2)),
        ('"e #27406b": {b: 1\nc: 2\n', "yaml", (2, 2, 2, 3), *open_bracket("{", "}", 1)),
        ("a: [1\n\n\n", "yaml", (4, 1, 4, 1), *open_bracket("[", "]", 1)),
        ("a: {b: [1, 2}\n", "yaml", (1, 13, 1, 14), *open_bracket("[", "]", 1)),
        ("a: 1\nAAAA\nb: 2\n", "yaml", (2, 1, 2, 2), STRAY, "indent all rows of the chart alike"),
        ("a:1\nb: 2\n", "yaml", (2, 2, 2, 3), COLON, COLON_REMEDY),
        ("b: 1\nan-a:1\nc: 2\n", "yaml", (2, 5, 2, 6),
         "no space follows the colon, so this is no key; expected `key: value`", "write a space after the colon"),
        ('a: "b\n', "yaml", (2, 1, 2, 1), "a text in quotes is not closed before the file ends", CLOSE_TEXT),
        ("a: 'b", "yaml", (1, 6, 1, 6), "a text in quotes is not closed before the file ends", CLOSE_TEXT),
        ('a: "b\n---\n', "yaml", (2, 1, 2, 2), "a text in quotes is not closed before the document ends", CLOSE_TEXT),
        ('a: "b\\q"\n', "yaml", (1, 6, 1, 7), "this backslash means nothing here; use single quotes to keep it",
         "write the text in single quotes"),
        ("a: - b\n", "yaml", (1, 4, 1, 5), "a list begins where none can; start it on its own line",
         "put the `-` on the next line, indented"),
        ("a: *x\n", "alias", (1, 4, 1, 5), "the name after * is defined nowhere; expected the value itself",
         "put the text in quotes if it is meant to begin so"),
        ("a: &x 1\nb: &x 2\n", "alias", (2, 4, 2, 5), "the name after & is defined twice; expected no such names",
         "put the text in quotes if it is meant to begin so"),
        ("a: 1\n---\nb: 2\n", "several-documents", (2, 1, 2, 2),
         "a second document begins here; expected one document a file",
         "give the second chart a file of its own, or delete the `---`"),
        ("a:\n  - b\n  c: d\n", "yaml", (3, 3, 3, 4), f"{UNALIGNED}; expected a `-` at the same depth", ALIGN),
        ("a: 1\n  - b: 2\n c: 3\n", "yaml", (2, 6, 2, 7), COLON, COLON_REMEDY),
        ("a:\n    b: 1\n  c: 2\n", "yaml", (3, 3, 3, 4), f"{UNALIGNED}; expected a key at the same depth", ALIGN),
        ("%YAML 9.9\n---\na: 1\n", "yaml", (1, 1, 1, 2), "this is not YAML: found incompatible YAML document", None),
        ("a: |x\n b\n", "yaml", (1, 5, 1, 6), "this is not YAML: did not find expected comment or line break", None),
    ],
)  # fmt: skip
def test_a_slip_of_yaml_and_its_place(
    text: str, key: str, place: tuple[int, ...], message: str, remedy: str | None
) -> None:
    with pytest.raises(CannotRead) as caught:
        compose(text)
    found = caught.value.finding
    assert (found.key, tuple(found.region), found.message, found.remedy) == (key, place, message, remedy)


def mark(line: int, column: int) -> Mark:
    """A place as a parser marks it, counted from 0."""
    return Mark("x", 0, line, column, "", 0)


@pytest.mark.parametrize(
    ("error", "place", "problem"),
    [
        (YAMLError("whatever"), NOWHERE, "it cannot be parsed"),
        (MarkedYAMLError(None, None, "odd", mark(1, 2)), Region(2, 3, 2, 4), "odd"),
        (MarkedYAMLError("in a list", mark(0, 1), "odd"), Region(1, 2, 1, 3), "odd"),
        (MarkedYAMLError("in a list", mark(0, 1), "odd", mark(1, 2)), Region(2, 3, 2, 4), "odd"),
        (MarkedYAMLError(None, None, None, mark(1, 9)), Region(2, 5, 2, 5), "it cannot be parsed"),
        (MarkedYAMLError(None, None, "odd", mark(4, 1)), Region(2, 5, 2, 5), "odd"),
    ],
)
def test_a_fault_that_has_no_words_of_ours_is_told_in_the_parsers_within_the_text(
    error: YAMLError, place: Region, problem: str
) -> None:
    found = explain(error, "abc\ndefg").finding
    assert (found.key, found.region, found.message) == ("yaml", place, f"this is not YAML: {problem}")
