"""What `write` makes always reads back as the chart: any chart, any symbols, every way of working and of writing."""

import string
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from rereading import read_back

from lintarsia.chart import Chart, Colour, Gauge, Shaping, Side, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.planning.planner import make_plan
from lintarsia.written import Style, read_written, write_rows
from lintarsia.written.order import worked_symbols

ODD = "1234567890kpxKPXsmM,;:()[]{}*\"'`“”‘’«»#@!?&%+-–—/\\|=<>~^_$×†‡éßıſµøЖ漢あ½²"
NAMES = [
    "to",
    "end",
    "k3",
    "A1",
    "B2",
    "rep",
    "and",
    "Dusk blue",
    "A k1",
    "last 2 sts",
    "C1 and",
    "x",
    "st",
    "(22 sts)",
]
symbols = st.one_of(
    st.sampled_from(ODD),
    st.sampled_from(string.ascii_letters),
    st.characters(
        exclude_categories=("Cs", "Cc", "Cf", "Co", "Cn", "Mn", "Mc", "Me", "Zs", "Zl", "Zp"), exclude_characters="."
    ),
)


@st.composite
def charts(draw: st.DrawFn) -> Chart:
    key = draw(st.lists(symbols, min_size=1, max_size=4, unique=True))
    width, height = draw(st.integers(1, 14)), draw(st.integers(1, 9))
    cell = st.sampled_from([*key, *key, "."]) if draw(st.booleans()) else st.sampled_from(key)
    if draw(st.booleans()):  # repeating rows, so that something folds and merges
        motif = draw(st.lists(cell, min_size=1, max_size=4))
        rows = ["".join((motif * width)[:width])] * height
        rows[draw(st.integers(0, height - 1))] = "".join(draw(st.lists(cell, min_size=width, max_size=width)))
    else:
        rows = ["".join(draw(st.lists(cell, min_size=width, max_size=width))) for _ in range(height)]
    numbers = st.integers(1, height)
    change = st.integers(-3, 3)
    sided = st.tuples(change, change).map(lambda pair: Shaping(sum(pair), *pair))
    shaping: dict[int, Shaping] = draw(st.dictionaries(numbers, st.one_of(change.map(Shaping), sided), max_size=3))
    names = draw(st.lists(st.sampled_from(NAMES), min_size=len(key), max_size=len(key)))
    return Chart(
        path="any.chart.yaml",
        title="Any",
        gauge=Gauge(22, 30, Length(10, "cm")),
        colours={s: Colour(s, name, "#808080") for s, name in zip(key, names, strict=True)},
        grid=build_grid(rows, key),
        worked=draw(st.sampled_from(Worked)),
        first_row=draw(st.sampled_from(Side)),
        technique=draw(st.sampled_from(Technique)),
        shaping=shaping,
    )


styles = st.builds(Style, fold=st.booleans(), stars=st.booleans(), merge=st.booleans())
some = settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def replaced(chart: Chart, **changes: Any) -> Chart:
    from dataclasses import replace

    return replace(chart, **changes)


@some
@given(charts(), styles, st.booleans())
def test_every_page_reads_back_as_the_chart(chart: Chart, style: Style, supplies: bool) -> None:
    plan = make_plan(chart) if supplies else None
    written = write_rows(chart, plan=plan, style=style)
    lines = [f"{row.label}: {row.text}" for row in written]
    read = {row: (symbols, count) for row, symbols, count in read_back(chart, lines)}
    assert sorted(read) == list(range(1, chart.grid.height + 1)), lines
    for row, (found, count) in read.items():
        assert found == worked_symbols(chart, row), (lines, row)
        assert count == chart.grid.stitches(row), (lines, row)


@some
@given(charts(), styles)
def test_written_rows_of_a_file_agree_with_their_own_chart(chart: Chart, style: Style) -> None:
    own = Style(style.fold, style.stars, merge=False)
    written = {row.rows[0]: f"{row.label}: {row.text}" for row in write_rows(chart, style=own)}
    for row in read_written(replaced(chart, written=written)):
        assert row.fault is None, (row.words, row.fault and row.fault.message)
        assert row.differs_at is None, row.words
        assert row.made is not None
        assert not row.made.uneven
        assert set(row.made.kinds) <= {row.usual, "co", "ssk", "k2tog", "k3tog", "ssp", "p2tog", "p3tog"}


@pytest.mark.parametrize("bad", [(0, 2), (2, 1), (1, 4)])
def test_rows_that_are_not_there_are_refused(bad: tuple[int, int]) -> None:
    chart = Chart(
        "a", "A", Gauge(22, 30, Length(10, "cm")), {"A": Colour("A", "A", "#000000")}, build_grid(["A"] * 3, "A")
    )
    with pytest.raises(ValueError, match="the chart has rows 1 to 3"):
        write_rows(chart, first=bad[0], last=bad[1])
