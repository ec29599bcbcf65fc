"""Symbols, names and titles are the text they are, whatever YAML would make of them.

The outside check is PyYAML itself: its BaseLoader reads every scalar as text, its SafeLoader shows what would be lost.
"""

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from reading_charts import EVERY_KEY, PLAIN, read

from lintarsia.reading import read_document
from lintarsia.reading.shape import Shape
from lintarsia.reading.tree import Tree, compose

# YAML 1.1 makes numbers, truth values, nothing and dates of these.
TURNCOATS = ["0", "1", "n", "y", "N", "Y", "~", "="]
WORDS = ["no", "yes", "off", "null", "1e3", "0x1F", "00110", "1_000", "12:30", "2026-11-25", ".5", ".inf", "+1"]


@pytest.mark.parametrize("symbol", TURNCOATS)
def test_a_symbol_is_text(symbol: str) -> None:
    text = PLAIN.replace("A", symbol)
    reading = read(
        text + f"supplies: {{{symbol}: 1, B: 1}}\nduplicate-stitch: [{{colour: {symbol}, row: 2, stitches: [2, 2]}}]\n"
    )
    assert reading.problems == ()
    assert reading.chart is not None
    assert list(reading.chart.colours) == [symbol, "B"]
    assert reading.chart.grid.rows[0] == symbol * 6
    assert reading.chart.duplicate[0].colour == symbol


@pytest.mark.parametrize("word", WORDS)
def test_a_name_is_text(word: str) -> None:
    assert not isinstance(yaml.safe_load(word), str) or word in ("1e3",)
    text = PLAIN.replace("Two pebbles", word).replace("Shore", word)
    text += f"yarns: {{{word}: {{name: {word}, fibre: {word}}}}}\nwritten: {{1: {word}}}\n"
    chart = read(text).chart
    assert read(text).problems == ()
    assert chart is not None
    assert (chart.title, chart.colours["A"].name, chart.written[1]) == (word, word, word)
    assert chart.yarns[word].name == chart.yarns[word].fibre == word


def test_a_chart_of_digits_is_a_chart() -> None:
    text = PLAIN.replace("A", "0").replace("B", "1").replace("chart: |\n  000000\n  011010\n  000000", "chart: 011010")
    chart = read(text).chart
    assert chart is not None
    assert chart.grid.rows == ("011010",)


def test_without_numbers_to_look_for_the_tree_is_what_the_base_loader_reads() -> None:
    everything_text = Shape()
    for text in (PLAIN, EVERY_KEY):
        ours = Tree(text).build(compose(text), _all_text())
        assert ours == yaml.load(text, yaml.BaseLoader)
    assert everything_text.text


def _all_text() -> Shape:
    shape = Shape()
    shape.others = shape
    shape.items = shape
    return shape


SCALARS = st.sampled_from([*TURNCOATS, *WORDS, "A b", "'a: b'", '"a\\tb"', "'it''s'", "x#y"])


@given(
    st.recursive(
        SCALARS,
        lambda inner: st.lists(inner, min_size=1, max_size=4).map(lambda items: "[" + ", ".join(items) + "]"),
        max_leaves=12,
    )
)
@settings(max_examples=60, deadline=None)
def test_any_tree_of_scalars_is_what_the_base_loader_reads(value: str) -> None:
    text = f"k: {value}\n"
    assert Tree(text).build(compose(text), _all_text()) == yaml.load(text, yaml.BaseLoader)


def test_the_options_of_a_rule_are_text_until_its_own_types_are_known() -> None:
    said = b"{size: 6, share: 0.50, corners: true, name: no, other: 'true', all: [007]}"
    text = b"rules: {area/single-stitch: {options: " + said + b"}}\n"
    document = read_document("lintarsia.yaml", text, schema="settings.schema.json")
    assert document.problems == []
    assert document.data is not None
    options = document.data["rules"]["area/single-stitch"]["options"]
    assert options == {"size": "6", "share": "0.50", "corners": "true", "name": "no", "other": "true", "all": ["007"]}
