"""Small parts of the reader at their edges: what a schema makes of a scalar, a text spelt out over several lines, white
space in a row, and names and values short enough for a message."""

from typing import Any

import pytest
from yaml import ScalarNode

from lintarsia.reading.flow_text import spell_out
from lintarsia.reading.phrases import path_words, quoted, said
from lintarsia.reading.row_space import Line, row_apart, set_apart, space_after, stands_apart, usual_width
from lintarsia.reading.shape import ANY, Shape, make_shape
from lintarsia.reading.tree import compose
from lintarsia.result import Region


@pytest.mark.parametrize(
    ("schema", "text", "read"),
    [
        ({"type": "string"}, True, ("7", "true")),
        ({"enum": ["7"]}, True, ("7", "true")),
        ({"pattern": "x"}, True, ("7", "true")),
        ({"type": "integer"}, False, (7, "true")),
        ({"type": ["number", "null"]}, False, (7, "true")),
        ({"type": "boolean"}, False, (7, True)),
        ({"type": ["string", "integer"]}, False, (7, "true")),
        ({"type": ["string", "boolean"]}, True, ("7", "true")),
        ({"type": ["string", "integer", "null"]}, True, ("7", "true")),
        ({"type": "object"}, True, ("7", "true")),
        ({}, False, (7, True)),
    ],
)
def test_a_scalar_is_a_number_only_where_the_schema_asks_for_one(
    schema: dict[str, Any], text: bool, read: tuple[Any, Any]
) -> None:
    shape = make_shape(schema)
    assert shape.text is text
    own = [value if shape.text else shape.scalar(value) for value in ("7", "true")]
    assert [(value, type(value)) for value in own] == [(value, type(value)) for value in read]


def test_scalars_as_numbers_and_truth_values() -> None:
    assert [ANY.scalar(value) for value in ("false", "true", "yes", "True")] == [False, True, "yes", "True"]
    for value, number in (("4.0", 4), ("-2.5", -2.5), ("+3", 3), (".5", 0.5), ("007", 7)):
        assert (ANY.scalar(value), type(ANY.scalar(value))) == (number, type(number))
    assert ANY.scalar("1" * 15) == int("1" * 15)
    for value in ("1" * 16, "1e3", "", "-", "0x1", "."):
        assert ANY.scalar(value) == value
    plain = Shape()
    assert (plain.text, plain.truth, plain.scalar("true")) == (True, False, "true")
    assert (plain.others, plain.items, plain.members) == (None, None, {})


def test_the_shape_of_members_others_and_items_and_of_what_is_referred_to() -> None:
    root = {
        "properties": {"a": {"type": "integer"}, "list": {"type": "array", "items": {"$ref": "#/$defs/deep/n"}}},
        "additionalProperties": {"$ref": "#/$defs/deep/n", "type": "string"},
        "$defs": {"deep": {"n": {"type": "number", "properties": {"x": {"type": "boolean"}}}}},
    }
    shape = make_shape(root)
    assert sorted(shape.members) == ["a", "list"]
    items = shape.members["list"].items
    assert items is not None
    assert (shape.members["a"].text, items.text, items.members["x"].truth) == (False, False, True)
    assert shape.others is not None
    assert (shape.others.text, sorted(shape.others.members)) == (True, ["x"])  # what stands beside the reference wins
    assert make_shape({"additionalProperties": False}).others is None
    assert make_shape({"items": True}).items is None


@pytest.mark.parametrize(
    ("text", "pieces"),
    [
        (
            "a: B W\n  C\n\n  D\n",
            ["B 0 3-4", "  0 4-5", "W 0 5-6", "  0 6-6 fold", "C 1 2-3", "\n 1 3-3", "D 3 2-3"],
        ),
        ("a: 'B\r\n\r\n\r\n W'\r\n", ["B 0 4-5", "\n 0 5-5", "\n 0 5-5", "W 3 1-2"]),
        ("a: 'B \n   W'\n", ["B 0 4-5", "  0 5-5 fold", "W 1 3-4"]),
        ('a: "B\\\n   W\n C"\n', ["B 0 4-5", "W 1 3-4", "  1 4-4 fold", "C 2 1-2"]),
        ('a: "\\x57\\u00e9\\U0001F600B\\N\\""\n',
         ["W 0 4-8", "é 0 8-14", "\U0001f600 0 14-24", "B 0 24-25", "\x85 0 25-27", '" 0 27-29']),
        ('a: "\\n\\t\\_\\L\\P\\\\"\n',
         ["\n 0 4-6", "\t 0 6-8", "\xa0 0 8-10", "\u2028 0 10-12", "\u2029 0 12-14", "\\ 0 14-16"]),
    ],
)  # fmt: skip
def test_every_character_of_a_text_has_the_place_it_is_spelt_at(text: str, pieces: list[str]) -> None:
    """`character line column-end`, counted from 0; what YAML makes of a line's end takes no room."""
    node = compose(text).value[0][1]
    assert isinstance(node, ScalarNode)
    found = spell_out(node, text)
    assert found is not None
    assert [f"{p.text} {p.line} {p.column}-{p.end_column}{' fold' * p.fold}" for p in found] == pieces
    assert "".join(p.text for p in found) == node.value


def test_a_text_that_is_spelt_in_a_way_unknown_here_has_no_places() -> None:
    text = 'a: "B\\e"\n'
    node = compose(text).value[0][1]
    assert isinstance(node, ScalarNode)
    assert (node.value, spell_out(node, text)) == ("B\x1b", None)


@pytest.mark.parametrize(
    ("row", "usual", "apart"),
    [
        ("B W B", 3, True),
        ("BWB", 3, False),
        ("BW B", 4, False),  # as wide as most rows: the space is a stitch
        ("BW B", 3, True),
        ("BW B", 2, False),
        ("B W B", 4, False),  # as far from it with its spaces as without
        ("B W", 4, False),
        ("B W B W", 5, True),  # four and seven: nearer without
        ("BB W B", 4, True),
        ("BB W B", 5, False),  # as near with its spaces, and two stitches stand together
        ("BB W B", 3, False),
        ("B\tW  B W", 3, True),
        ("B W B W B W B", 0, True),
        ("X B X", 3, True),
        ("XB XX", 3, False),
    ],
)
def test_when_white_space_only_sets_stitches_apart(row: str, usual: int, apart: bool) -> None:
    assert stands_apart(row, usual) is apart


def test_the_width_of_most_rows_is_that_of_two_at_least() -> None:
    def width(*rows: str) -> int:
        return usual_width([Line(row, at, 2) for at, row in enumerate(rows)])

    assert width() == 0
    assert width("AAA", "AA") == 0
    assert width("AAA", "AA", "AA") == 2
    assert width("AAA", "AA", "A A", "A A", "", " ") == 0
    assert width("AAA", "AAA", "AA", "AA", "AA") == 2


def test_long_rows_are_told_by_their_beginnings() -> None:
    for stitches, told in (("AB" * 20, "AB" * 20), ("AB" * 20 + "A", "AB" * 18 + "A...")):
        text = f"  {' '.join(stitches)} \t"
        found = row_apart(4, stitches, Line(text, 6, 2))
        assert found.remedy == f"take the white space out: {told}"
        assert found.message == (
            f"row 4 has white space between its {len(stitches)} stitches; expected them side by side"
        )
        end = 5 + 2 * len(stitches) - 1
        assert (found.region, found.row, found.stitches) == (Region(7, 5, 7, end), 4, (1, len(stitches)))
        (edit,) = found.fixes[0].edits
        assert (edit.region, edit.text) == (Region(7, 3, 7, end), stitches)
    cross = row_apart(1, "XBX", Line(" X B X", 6, 2))
    assert (cross.region, cross.fixes[0].edits[0].region) == (Region(7, 4, 7, 9), Region(7, 3, 7, 9))
    printed = [Line(" ".join("AB" * 12), at, 2) for at in (6, 7)]
    whole = set_apart(printed)
    assert whole is not None
    assert whole.remedy == f"take the spaces out: {'AB' * 10}; or save the table as .csv, and `lintarsia bring` it"
    assert set_apart([*printed[:1], Line("A.B", 7, 2)]) is None
    after = space_after(3, Region(7, 8, 7, 10))
    assert (after.row, after.fixes[0].edits[0].region, after.fixes[0].edits[0].text) == (3, Region(7, 8, 7, 10), "")


@pytest.mark.parametrize(
    ("found", "words"),
    [
        (None, "nothing"), (True, "true"), (False, "false"), ({"a": 1}, "a group of keys"), ({}, "an empty group"),
        ([], "a list of 0"), ([1, 2], "a list of 2"), ("", "an empty text"), ("a'b", '"a\'b"'), (2.5, "2.5"),
        ("x" * 40, f"'{'x' * 40}'"), ("x" * 38 + "yzw", f"'{'x' * 37}...'"),
    ],
)  # fmt: skip
def test_a_value_as_it_was_found(found: Any, words: str) -> None:
    assert quoted(found) == words


def test_names_and_paths_as_one_would_say_them() -> None:
    assert [said(name) for name in ("Sea", "", "x" * 40, "a\nb")] == ["Sea", "an empty text", "x" * 40, "'a\\nb'"]
    assert said("x" * 41) == f"'{'x' * 37}...'"
    assert path_words(()) == "the file"
    assert path_words(("gauge",)) == "gauge"
    assert path_words(("colours", "B", "shade")) == "shade of B in colours"
    assert path_words(("suppress", 2, "row")) == "row of entry 3 in suppress"
    assert path_words((1,)) == "entry 2"
