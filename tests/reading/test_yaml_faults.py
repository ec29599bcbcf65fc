"""Faults of the YAML itself that do not stop the reading: duplicate keys, aliases, tags, keys that are no text."""

from reading_charts import PLAIN, cut, faults, read

HEAD, _, GRID = PLAIN.partition("chart:")


def test_a_key_that_stands_twice() -> None:
    text = PLAIN.replace("stitches: 22,", "stitches: 22, stitches: 23,") + "title: Again\n"
    assert faults(text) == [
        "file/schema duplicate-key 3:23 'stitches' stands here twice, first on line 3; expected once",
        "file/schema duplicate-key 11:1 'title' stands here twice, first on line 2; expected once",
    ]
    chart = read(text).chart
    assert chart is not None
    assert (chart.title, chart.gauge.stitches) == ("Two pebbles", 22)


def test_a_symbol_that_stands_twice_in_two_spellings() -> None:
    text = PLAIN.replace("chart:", '  "A": {name: Foam, shade: "#ffffff"}\nchart:')
    assert faults(text) == ["file/schema duplicate-key 7:3 'A' stands here twice, first on line 5; expected once"]


def test_a_chart_that_stands_twice_is_read_once() -> None:
    chart = read(PLAIN + "chart: |\n  BB\n").chart
    assert chart is not None
    assert chart.grid.width == 6


def test_an_alias_is_reported_where_it_stands() -> None:
    text = PLAIN.replace("name: Shore", "name: &n Shore").replace("name: Pebble", "name: *n")
    assert faults(text) == ["file/schema alias 6:13 *n refers to another place; expected the value itself"]
    chart = read(text).chart
    assert chart is not None
    assert chart.colours["B"].name == "Shore"


def test_an_alias_of_a_group_is_one_fault_not_two() -> None:
    text = PLAIN.replace("A: {name", "A: &a {name").replace('B: {name: Pebble, shade: "#5a5f66"}', "B: *a")
    assert faults(text) == ["file/schema alias 6:6 *a refers to another place; expected the value itself"]


def test_aliases_are_matched_to_their_own_places() -> None:
    text = HEAD + "limits: &l {carry: &c 3, idle: *c}\nyarns: {*c : {name: *c}, b: *l}\n" + "chart:" + GRID
    places = [cut(text, f.region) for _, f in read(text).problems if f.key == "alias"]
    assert places == ["*c", "*c", "*c", "*l"]


def test_keys_are_not_merged() -> None:
    text = PLAIN.replace("A: {name", "A: &a {name").replace("B: {name: Pebble,", "B: {<<: *a, name: Pebble,")
    assert faults(text) == [
        "file/schema merge-key 6:7 `<<` merges keys from another place; expected the keys themselves",
        "file/schema alias 6:11 *a refers to another place; expected the value itself",
    ]


def test_aliases_that_multiply_without_end() -> None:
    laughs = "a: &a [x, x, x, x]\n" + "".join(
        f"{chr(98 + i)}: &{chr(98 + i)} [{', '.join(['*' + chr(97 + i)] * 9)}]\n" for i in range(20)
    )
    reading = read(laughs)
    assert reading.chart is None
    assert {f.key for _, f in reading.problems} == {"alias", "unknown-key", "missing-key"}


def test_a_group_that_contains_itself() -> None:
    reading = read(PLAIN + "limits: &l\n  carry: *l\nwritten: &w {1: *w}\nsuppress: &s\n- *s\n")
    assert reading.chart is not None
    assert [f.key for _, f in reading.problems].count("alias") == 3
    assert list(reading.chart.places.values)


def test_a_tag_is_refused_and_its_value_read() -> None:
    text = PLAIN.replace("Two pebbles", "!!python/object/apply:os.system [date]")
    assert faults(text)[0] == (
        "file/schema tag 2:8 the tag !!python/object/apply:os.system is of no use here; expected the bare value"
    )
    text = PLAIN.replace("Two pebbles", "!!str Two pebbles").replace("  A: {", "  !sym A: {")
    assert faults(text) == [
        "file/schema tag 2:8 the tag !!str is of no use here; expected the bare value",
        "file/schema tag 5:3 the tag !sym is of no use here; expected the bare key",
    ]


def test_a_key_that_is_no_text() -> None:
    text = PLAIN + "? [a, b]\n: 3\n{c: d}: 4\n"
    fault = "a list or a mapping stands where a key belongs; expected text"
    assert faults(text) == [f"file/schema key-not-text 11:3 {fault}", f"file/schema key-not-text 13:1 {fault}"]


def test_a_tagged_chart_keeps_its_places() -> None:
    text = HEAD + "chart: !!str &rows |\n  AB\n  BA\n"
    reading = read(text)
    assert reading.chart is not None
    assert [cut(text, line) for line in reading.chart.places.lines] == ["BA", "AB"]


def test_a_yaml_directive_is_no_fault() -> None:
    assert faults("%YAML 1.2\n---\n" + PLAIN + "...\n") == []
