"""What to do about a value, straight from what a schema wants of it: every way there is, and what nobody can guess."""

from typing import Any

import pytest

from lintarsia.reading.remedies import for_missing, for_value

LENGTH = {"type": "string", "pattern": "^[0-9]+(\\.[0-9]+)? ?(mm|cm|m|in|yd)$"}
MASS = {"type": "string", "pattern": "^[0-9]+(\\.[0-9]+)? ?(g|oz)$"}
SHARE = {"type": "string", "pattern": "^[0-9]+(\\.[0-9]+)? ?%$"}
SIZE = {"type": "string", "pattern": "^[1-9][0-9]{0,9}( ?(B|KiB|MiB))?$"}
SHADE = {"type": "string", "pattern": "^#[0-9a-f]{6}$"}
NUMBER = {"type": "number"}
LEVEL = {"enum": ["error", "warning", "note", "off"]}
WORDS = {"type": "string", "pattern": "^(flat|round|turned)$"}
WAYS = {"type": "array", "items": {"enum": ["left-right"]}}
TEXTS = {"type": "array", "items": {"type": "string"}}
SEA = '{name: Sea, shade: "#27406b"}'
ENDS = {"title": "the first and the last row", "type": "array"}
NUMBERED = "write the needle in millimetres, such as 4 mm; numbered sizes differ from maker to maker"


@pytest.mark.parametrize(
    ("name", "found", "wanted", "remedy"),
    [
        ("over", "2,5", LENGTH, "add the unit, such as 2.5 cm"),
        ("needle", "3.75", LENGTH, "add the unit, such as 3.75 mm"),
        ("loop", "18", LENGTH, "add the unit, such as 18 mm"),
        ("mass", "50", MASS, "add the unit, such as 50 g"),
        ("over", "2,5 cm", LENGTH, "write a point for the decimals: 2.5 cm"),
        ("over", "4 Inches.", LENGTH, "write 4 in"),
        ("over", "4″", LENGTH, "write 4 in"),
        ("length", "120 Metres", LENGTH, "write 120 m"),
        ("mass", "1,75 oz", MASS, "write a point for the decimals: 1.75 oz"),
        ("mass", "50 grammes", MASS, "write 50 g"),
        ("mass", "50 cm", MASS, None),
        ("over", "50 g", LENGTH, None),
        ("needle", "US 6", LENGTH, NUMBERED),
        ("over", "a hand", LENGTH, None),
        ("length", "100 yds.", LENGTH, "write 100 yd"),
        ("mass", "3 g.", MASS, "write 3 g"),
        ("mass", "3 gs", MASS, "write 3 g"),
        ("over", "4''", LENGTH, "write 4 in"),
        ("allowance", "10 percent", SHARE, "write 10 %"),
        ("allowance", " 12,5% ", SHARE, "write 12.5 %"),
        ("allowance", "much", SHARE, None),
        ("max-size", " 4mb ", SIZE, "write 4 MiB"),
        ("max-size", "300 Kib", SIZE, "write 300 KiB"),
        ("max-size", "12b", SIZE, "write 12 B"),
        ("max-size", "5 gb", SIZE, None),
        ("rows", "30,5", NUMBER, "write a point for the decimals: 30.5"),
        ("rows", "30", {"type": ["integer", "array"]}, "write the number without quotes"),
        ("rows", "30,5", {"type": "string"}, None),
        ("rows", "30", NUMBER, "write the number without quotes"),
        ("rows", "-2.5", NUMBER, "write the number without quotes"),
        ("rows", "1" * 15, NUMBER, "write the number without quotes"),
        ("rows", "1" * 16, NUMBER, None),
        ("rows", "many", NUMBER, None),
        ("shade", None, SHADE, "put the shade in quotes: without them, # begins a comment"),
        ("name", None, {"type": "string"}, None),
        ("shade", "#5AF", SHADE, 'write "#55aaff", in straight quotes'),
        ("shade", "“27406B”", SHADE, 'write "#27406b", in straight quotes'),
        ("shade", "#27406", SHADE, "write # and the six digits; a colour picker in any drawing program shows them"),
        ("rows", "3-5", ENDS, "write [3, 5]"),
        ("rows", [[4]], ENDS, None),
        ("rows", "3 to 15", ENDS, "write [3, 15]"),
        ("rows", 7, ENDS, "write [7, 7]"),
        ("rows", [4], ENDS, "write both ends: [4, 4]"),
        ("rows", [4, 5, 6], ENDS, None),
        ("rows", "0-3", ENDS, None),
        ("rows", "all", ENDS, None),
        ("level", False, LEVEL, "write off"),
        ("level", False, WORDS, None),
        ("level", True, LEVEL, None),
        ("level", "Fatal", LEVEL, "write error"),
        ("level", "warnings", LEVEL, "write warning"),
        ("level", "ignore it", LEVEL, "write off"),
        ("level", "off" + " " * 50, LEVEL, "write off"),
        ("level", "off x" + "x" * 35, LEVEL, "write off"),
        ("level", "off x" + "x" * 36, LEVEL, None),
        ("level", "RS", {"enum": ["RS", 3, "note"]}, "write RS"),
        ("level", "note", {"enum": [3]}, None),
        ("worked", "in the Round", WORDS, "write round"),
        ("worked", "in rows", WORDS, "write flat"),
        ("worked", "as a tube", WORDS, "write turned"),
        ("worked", "sideways", WORDS, None),
        ("side", "ws", {"enum": ["RS", "WS"]}, "write WS"),
        ("side", "the wrong side", {"enum": ["RS", "WS"]}, "write WS"),
        ("weight", "Sport", {"type": "integer"}, "Sport is 2"),
        ("weight", "light worsted", {"type": "integer"}, "light worsted is 3"),
        ("weight", "heavy", {"type": "integer"}, None),
        ("symmetry", "left right", WAYS, "write it as a list: [left-right]"),
        ("symmetry", "zzz", WAYS, None),
        ("charts", "a.yaml", TEXTS, "write it as a list: [a.yaml]"),
        ("charts", "X.yaml", TEXTS, "write it as a list: [X.yaml]"),
        ("charts", "*.yaml", TEXTS, 'write it as a list: ["*.yaml"]'),
        ("C", "Rust", {"properties": {"name": {}, "shade": {}}}, f"give it a name and a shade: {SEA}"),
        ("C", "Rust", {"properties": {"name": {}}}, None),
    ],
)  # fmt: skip
def test_what_to_do_about_a_value(name: str, found: Any, wanted: dict[str, Any], remedy: str | None) -> None:
    assert for_value(name, found, wanted) == remedy


@pytest.mark.parametrize(
    ("name", "member", "remedy"),
    [
        ("chart", {}, "write `chart: |` and below it the rows, all indented alike"),
        ("colours", {}, 'write `colours:` and below it each symbol, as in `  S: {name: Sea, shade: "#27406b"}`'),
        ("yarn", {}, "add `yarn:`"),
        ("rows", {"examples": [30, 31]}, "add it, such as `rows: 30`"),
        ("shade", {"examples": ["#27406b"]}, 'add it, such as `shade: "#27406b"`'),
        ("gauge", {"examples": [{"rows": 30, "over": ["4 in", "#"]}]},
         'add it, such as `gauge: {rows: 30, over: [4 in, "#"]}`'),
    ],
)  # fmt: skip
def test_how_to_write_what_is_missing(name: str, member: dict[str, Any], remedy: str) -> None:
    assert for_missing(name, member) == remedy
