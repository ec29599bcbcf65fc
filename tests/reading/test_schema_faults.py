"""Faults against the schema: what was found, what is expected, where; and as much of the chart as can be is built."""

# ruff: noqa: E501 - a table of cases is easier to read with a case a line

import pytest
from reading_charts import EVERY_KEY, PLAIN, cut, faults, keys, read

from lintarsia.chart import Chart, Limits
from lintarsia.result import Finding


def fault(text: str) -> Finding:
    ((rule, finding),) = read(text).problems
    assert rule == "file/schema"
    assert read(text).chart is not None
    return finding


def built(text: str) -> Chart:
    chart = read(text).chart
    assert chart is not None
    return chart


@pytest.mark.parametrize(
    ("good", "bad", "message", "place"),
    [
        ("lintarsia: 1", "lintarsia: 2", "lintarsia: found 2; expected the format version, 1", "2"),
        ("lintarsia: 1", "lintarsia: '1'", "lintarsia: found '1'; expected the format version, 1", "'1'"),
        ("worked: turned", "worked: sideways", "worked: found 'sideways'; expected one of flat, round or turned", "sideways"),
        ("worked: turned", "worked:", "worked: found nothing; expected one of flat, round or turned", "worked"),
        ("worked: turned", "worked: [turned]", "worked: found a list of 1; expected one of flat, round or turned", "[turned]"),
        ("first-row: WS", "first-row: ws", "first-row: found 'ws'; expected RS or WS", "ws"),
        ("technique: mixed", "technique: fair", "technique: found 'fair'; expected one of intarsia, stranded or mixed", "fair"),
        ("needle: 4 mm", "needle: 4", "needle in gauge: found '4'; expected a length such as 10 cm (mm, cm, m, in or yd)", "4"),
        ("needle: 4 mm", "needle: US 6", "needle in gauge: found 'US 6'; expected a length such as 10 cm (mm, cm, m, in or yd)", "US 6"),
        ("{stitches: 23, rows: 26}", "{stitches: 0, rows: 26}", "stitches of float-gauge in gauge: found 0; expected a number above 0", "0"),
        ("weight: 3", "weight: DK", "weight of shore-dk in yarns: found 'DK'; expected a yarn weight, a whole number from 0 (lace) to 7 (jumbo)", "DK"),
        ("weight: 3", "weight: 8", "weight of shore-dk in yarns: found 8; expected a yarn weight, a whole number from 0 (lace) to 7 (jumbo)", "8"),
        ("weight: 3", "weight: 2.5", "weight of shore-dk in yarns: found 2.5; expected a yarn weight, a whole number from 0 (lace) to 7 (jumbo)", "2.5"),
        ("mass: 50 g", "mass: 50 kg", "mass of shore-dk in yarns: found '50 kg'; expected a mass such as 50 g (g or oz)", "50 kg"),
        ("balls: 2", "balls: 20000", "balls of shore-dk in yarns: found 20000; expected a number of balls, 0 or more, at most 10,000", "20000"),
        ("odds: {}", "odds: plenty", "odds in yarns: found 'plenty'; expected a yarn", "plenty"),
        ('"#5a5f66"', '"5a5f66"', "shade of B in colours: found '5a5f66'; expected a shade in quotes, # and six hexadecimal digits, such as \"#27406b\"", '"5a5f66"'),
        ("{name: Pebble,", "{", "B in colours has no 'name'; expected text", "B"),
        ("  A: 2", "  A: -1", "A in supplies: found -1; expected a count of supplies, or a list of them", "-1"),
        ("  A: 2", "  A: two", "A in supplies: found 'two'; expected a count of supplies, or a list of them", "two"),
        ("length: 6 m}", "length: long}", "length of entry 1 of B in supplies: found 'long'; expected a length such as 10 cm (mm, cm, m, in or yd)", "long"),
        ("float: 5 stitches", "float: 5 rows", "float in limits: found '5 rows'; expected a length such as 2.5 cm, or a count such as 5 stitches", "5 rows"),
        ("carry: 4", "carry: 1.5", "carry in limits: found 1.5; expected a length such as 2.5 cm, or a count such as 5 stitches", "1.5"),
        ("supplies: 9", "supplies: 0", "supplies in limits: found 0; expected a whole number, 1 or more", "0"),
        ("stitches: [2, 5]", "stitches: [2]", "stitches in repeat: found a list of 1; expected the first and the last stitch, such as [7, 8]", "[2]"),
        ("stitches: [2, 5]", "stitches: [0, 5]", "entry 1 of stitches in repeat: found 0; expected a stitch number, 1 or more", "0"),
        (", rows: [1, 2]}", "}", "repeat has no 'rows'; expected the first and the last row, such as [1, 8]", "repeat"),
        ("  2: -2", "  0: -2", "the key '0' cannot stand in shaping; expected a row number, 1 or more, or rows such as 31-59/2", "0"),
        ("  2: -2", "  2: k2tog", "2 in shaping: found 'k2tog'; expected a change of stitch count such as -2, or {left: 1, right: 1}", "k2tog"),
        ("left: -1}", "left: one}", "left of 3 in shaping: found 'one'; expected a whole number of stitches, negative for decreases, or a kind with its number such as {bind-off: 4}", "one"),
        ("wearer: child", "wearer: dog", "wearer: found 'dog'; expected one of infant, child or adult", "dog"),
        ("[left-right, half-turn]", "left-right", "symmetry: found 'left-right'; expected a list of left-right, top-bottom, half-turn and repeat", "left-right"),
        ("[left-right, half-turn]", "[left-write]", "entry 1 in symmetry: found 'left-write'; expected one of left-right, top-bottom, half-turn or repeat", "left-write"),
        ("{colour: B, row: 3, ", "{row: 3, ", "entry 1 in duplicate-stitch has no 'colour'; expected a symbol: exactly one character, neither `.` nor a space", "{row: 3, stitches: [6, 6]}"),
        ("  2: p6", "  2: {p: 6}", "2 in written: found a group of keys; expected text", "{p: 6}"),
        ('" the eye "', '"  "', "justification of entry 1 in suppress: found '  '; expected a reason in words", '"  "'),
        (', justification: " the eye "', "", "entry 1 in suppress has no 'justification'; expected a reason in words", "{rule: area/single-stitch, row: 2, stitches: [2, 2]}"),
        ("rule: area/single-stitch", "rule: single stitch", "rule of entry 1 in suppress: found 'single stitch'; expected a rule's name such as area/single-stitch", "single stitch"),
    ],
    ids=lambda value: value[:24],
)  # fmt: skip
def test_one_fault(good: str, bad: str, message: str, place: str) -> None:
    assert good in EVERY_KEY
    text = EVERY_KEY.replace(good, bad, 1)
    finding = fault(text)
    assert finding.message == message
    if place in ("worked", "B", "repeat") or (
        not finding.message.startswith("entry 1 in suppress has") and "has no 'colour'" not in finding.message
    ):  # a key, for what is missing below it
        assert cut(text, finding.region) == place


@pytest.mark.parametrize(
    ("good", "bad", "remedy"),
    [
        ("needle: 4 mm", "needle: 4", "add the unit, such as 4 mm"),
        ("needle: 4 mm", "needle: US 6", "write the needle in millimetres, such as 4 mm; numbered sizes differ from maker to maker"),
        ("over: 4 in", "over: 10", "add the unit, such as 10 cm"),
        ("over: 4 in", "over: 4 inches", "write 4 in"),
        ("over: 4 in", 'over: 4"', "write 4 in"),
        ("length: 120 m", "length: 131 yds", "write 131 yd"),
        ("mass: 50 g", 'mass: "1,75 ounces"', "write 1.75 oz"),
        ("weight: 3", "weight: DK", "DK is 3"),
        ("float: 5 stitches", 'float: "2,5 cm"', "write a point for the decimals: 2.5 cm"),
        ("stitches: 22.5", "stitches: 22,5", "write a point for the decimals: 22.5"),
        ("stitches: 22.5", "stitches: '22'", "write the number without quotes"),
        ("worked: turned", "worked: in the Round", "write round"),
        ("first-row: WS", "first-row: ws", "write WS"),
        ("technique: mixed", "technique: Fair Isle", "write stranded"),
        ("wearer: child", "wearer: baby", "write infant"),
        ("[left-right, half-turn]", "left-right", "write it as a list: [left-right]"),
        ("stitches: [2, 5]", "stitches: 2-5", "write [2, 5]"),
        ("stitches: [2, 5]", "stitches: [2]", "write both ends: [2, 2]"),
        ('"#5a5f66"', "5A5F66", 'write "#5a5f66", in straight quotes'),
        ('"#5a5f66"', "“#5a5f66”", 'write "#5a5f66", in straight quotes'),
        ('"#5a5f66"', '"#5af"', 'write "#55aaff", in straight quotes'),
        ('"#5a5f66"', "grey", "write # and the six digits; a colour picker in any drawing program shows them"),
        ('{name: Pebble, shade: "#5a5f66"}', '"#5a5f66"', 'give it a name and a shade: {name: Sea, shade: "#27406b"}'),
        ("{name: Pebble,", "{", "add it, such as `name: Dusk blue`"),
        ('B: {name: Pebble, shade: "#5a5f66"}', "B:\n    name: Pebble\n    shade: #5a5f66",
         "put the shade in quotes: without them, # begins a comment"),
    ],
)  # fmt: skip
def test_the_remedy_for_common_slips(good: str, bad: str, remedy: str) -> None:
    assert good in EVERY_KEY
    assert fault(EVERY_KEY.replace(good, bad)).remedy == remedy


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (PLAIN + "shapping: {2: 1}\n", "unknown key 'shapping'; did you mean 'shaping'?"),
        (PLAIN + "duplicate_stitch: []\n", "unknown key 'duplicate_stitch'; did you mean 'duplicate-stitch'?"),
        (PLAIN + "colors: {}\n", "unknown key 'colors'; did you mean 'colours'?"),
        (PLAIN + "Wearer: adult\n", "unknown key 'Wearer'; did you mean 'wearer'?"),
        (PLAIN + "zzz: 1\n", "unknown key 'zzz'; expected a key of the format"),
        (PLAIN.replace("over: ", "needel: 4 mm, over: "), "unknown key 'needel' in gauge; did you mean 'needle'?"),
        (PLAIN.replace("name: Pebble", "tint: x, name: Pebble"), "unknown key 'tint' of B in colours; expected name, shade, yarn or also"),
    ],
)  # fmt: skip
def test_an_unknown_key_is_guessed_at_and_the_chart_is_whole(text: str, message: str) -> None:
    finding = fault(text)
    assert (finding.key, finding.message) == ("unknown-key", message)
    assert finding.message.split("'")[1] == cut(text, finding.region)
    assert built(text).assumed == frozenset()


@pytest.mark.parametrize(
    ("good", "bad", "place", "meant"),
    [
        ("stitches: 22,", "stitches: 21,5,", "21,5", "21.5"),
        ("over: 10 cm", "over: 10,5 cm", "10,5 cm", "10.5 cm"),
        ("over: 10 cm}", "over: 10 cm, loop: 18,5 mm}", "18,5 mm", "18.5 mm"),
    ],
)
def test_a_decimal_comma_is_one_fault_and_the_number_is_not_used(good: str, bad: str, place: str, meant: str) -> None:
    assert good in PLAIN
    text = PLAIN.replace(good, bad)
    finding = fault(text)
    (fix,) = finding.fixes
    assert (finding.key, cut(text, finding.region), fix.description) == ("decimal-comma", place, f"write {meant}")
    assert finding.message.endswith(f"the comma in '{place}' ends the number; expected a point")
    assert cut(text, fix.edits[0].region) == ","
    assert not fix.safe  # a comma may have parted thousands
    assert built(text).gauge.loop is None


def test_two_decimal_commas_are_no_key_that_stands_twice() -> None:
    text = PLAIN.replace("stitches: 22, rows: 30", "stitches: 22,5, rows: 30,5")
    assert keys(text) == ["decimal-comma", "decimal-comma"]


def test_other_commas_are_left_alone() -> None:
    assert keys(PLAIN.replace("over: 10 cm", "over: 10 cm, 5: []")) == ["unknown-key"]
    assert keys(PLAIN.replace("over: 10 cm", "over: 10 cm, 5")) == ["unknown-key"]


def test_the_guess_can_be_taken_but_not_blindly() -> None:
    (fix,) = fault(PLAIN + "shapping: {2: 1}\n").fixes
    assert (fix.safe, fix.edits[0].text) == (False, "shaping")


def test_every_fault_is_told_in_the_order_of_places() -> None:
    text = PLAIN.replace("lintarsia: 1", "lintarsia: one").replace("22", "many").replace("AAAA\n  ABB", "AAAA\n\n  ABB")
    text += "title: again\nwearer: dog\nlimits: {carry: -1, idle: x, widgets: 3}\n"
    told = [(key, line.split(" ")[2]) for key, line in zip(keys(text), faults(text), strict=True)]
    assert told == [
        ("wrong-type", "1:12"),
        ("wrong-type", "3:19"),
        ("empty-row", "9:1"),
        ("duplicate-key", "12:1"),
        ("wrong-value", "13:9"),
        ("wrong-value", "14:17"),
        ("wrong-type", "14:27"),
        ("unknown-key", "14:30"),
    ]


def test_a_faulty_part_is_left_out_and_the_rest_stands() -> None:
    text = (
        EVERY_KEY.replace("carry: 4", "carry: far").replace("  2: -2", "  2: less").replace("rows: [1, 2]", "rows: [1]")
    )
    text = (
        text.replace('shade: "#5a5f66"', "shade: grey").replace("length: 6 m", "length: 6").replace("  A: 2", "  A: x")
    )
    chart = built(text)
    assert chart.limits == Limits(9, chart.limits.float, None, 0, 2)
    assert set(chart.shaping) == {3}
    assert chart.repeat is None
    assert chart.colours["B"].name == "Pebble"
    assert chart.supplies is not None
    assert set(chart.supplies) == {"B"}
    assert chart.supplies["B"].each[0].length is None
    assert chart.assumed == frozenset()


@pytest.mark.parametrize(
    ("text", "assumed"),
    [
        (PLAIN.replace("title: Two pebbles\n", ""), {"title"}),
        (PLAIN.replace("over: 10 cm", "over: a hand"), {"gauge"}),
        (PLAIN.replace("gauge: {stitches: 22, rows: 30, over: 10 cm}\n", ""), {"gauge"}),
        (PLAIN.replace("lintarsia: 1\n", ""), set()),
        ("chart: |\n  AAB\n  ABB\n", {"title", "gauge", "colours"}),
    ],
)
def test_required_parts_that_lack_are_stood_in_for_and_named(text: str, assumed: set[str]) -> None:
    chart = built(text)
    assert chart.assumed == assumed
    assert chart.grid.known == 2
    if "title" in assumed:
        assert chart.title == "pebbles"


def test_a_required_key_that_is_misspelt_is_one_fault() -> None:
    text = PLAIN.replace("gauge:", "guage:").replace("{name: Shore, ", "{nam: Shore, ")
    assert faults(text) == [
        "file/schema unknown-key 3:1 unknown key 'guage'; did you mean 'gauge'?",
        "file/schema unknown-key 5:7 unknown key 'nam' of A in colours; did you mean 'name'?",
    ]
    assert built(text).assumed == {"gauge"}


def test_no_mend_is_offered_that_would_double_a_key() -> None:
    assert fault(PLAIN + "colour: {}\n").fixes == ()


def test_what_a_colour_does_say_is_kept() -> None:
    colours = built(PLAIN.replace("name: Shore, ", "").replace(', shade: "#5a5f66"', "")).colours
    assert (colours["A"].name, colours["A"].shade) == ("A", "#c8b89a")
    assert (colours["B"].name, colours["B"].shade) == ("Pebble", "#808080")


def test_names_out_of_a_file_cannot_write_to_the_terminal_or_break_a_message() -> None:
    text = PLAIN + 'yarns: {"\\e[31m\\nred": 5, "' + "x" * 100 + '": 5}\n"\\e[0m": 1\n"\\e[0m": 2\n!a%1b%0a x: 1\n'
    for message in faults(text):
        assert message.isprintable()
        assert len(message) < 200
    assert "'\\x1b[31m\\nred' in yarns: found '5'; expected a yarn" in faults(text)[0]


def test_a_colour_without_a_shade_is_still_a_colour_of_the_key() -> None:
    chart = built(PLAIN.replace('B: {name: Pebble, shade: "#5a5f66"}', "B: grey"))
    assert list(chart.colours) == ["A", "B"]
    assert chart.grid.known == 2


@pytest.mark.parametrize(
    ("symbol", "shown"),
    [
        ("BB", "'BB'"), ("'.'", "'.'"), ("' '", "' '"), ("''", "an empty text"), ('"\\t"', r"'\t'"),
        ("'B\n   '", "'B '"), ('"B\\n"', r"'B\n'"), ("❤️", "'❤️' (U+2764 U+FE0F)"), ("e\u0301", "'e\u0301' (U+0065 U+0301)"),
    ],
)  # fmt: skip
def test_a_symbol_is_one_character(symbol: str, shown: str) -> None:
    text = PLAIN.replace("  B: {", f"  ? {symbol}\n  : {{")
    (finding, *_) = [f for _, f in read(text).problems]
    assert finding.key == "wrong-name"
    assert finding.message == (
        f"the key {shown} cannot stand in colours; expected a symbol: exactly one character, neither `.` nor a space"
    )


@pytest.mark.parametrize("symbol", ["\u0301", "\u200b", "\ufe0f", "\u00ad"])
def test_a_symbol_can_be_seen(symbol: str) -> None:
    finding = fault(PLAIN.replace("B: {", f"{symbol}: {{").replace("B", symbol))
    assert finding.message == (
        f"the symbol U+{ord(symbol):04X} cannot be seen by itself; expected a character that can"
    )


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ("chart:\n", "chart: found nothing; expected the chart's rows as a block of text, written `chart: |`"),
        ("chart: |\n", "chart: found an empty text; expected the chart's rows as a block of text, written `chart: |`"),
        ("chart: |\n\n  \n", "chart: found an empty text; expected the chart's rows as a block of text, written `chart: |`"),
        ("chart: [AA, AB]\n", "chart: found a list of 2; expected the chart's rows as a block of text, written `chart: |`"),
        ("chart: '  '\n", "chart: found no rows; expected a line of symbols for each row"),
        ("chart: |\n  ....\n", "the chart has no stitch at all; expected symbols of the key"),
        ("", "the file has no 'chart'; expected the chart's rows as a block of text, written `chart: |`"),
    ],
)  # fmt: skip
def test_without_a_grid_there_is_no_chart(rows: str, message: str) -> None:
    text = PLAIN.partition("chart:")[0] + rows
    reading = read(text)
    assert reading.chart is None
    assert [finding.message for _, finding in reading.problems] == [message]


def test_more_faults_than_anyone_mends_are_cut_short() -> None:
    reading = read(PLAIN + "".join(f"unknown-{i}: 1\n" for i in range(1000)))
    assert len(reading.problems) == 200
    assert reading.chart is not None
