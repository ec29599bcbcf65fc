"""Duplicate stitch as a page tells it: counted by hand in charts small enough to count."""

import pytest

from lintarsia.chart import Chart, Colour, DuplicateStitch, Gauge
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages.keyview import chip, make_key
from lintarsia.publishing.pages.sewnview import sewn_html, sewn_stitches, sewn_totals


def chart(*sewn: tuple[str, int, tuple[int, int]]) -> Chart:
    colours = {s: Colour(s, name, shade) for s, name, shade in (("B", "Blue <b>", "#27406b"), ("W", "Bone", "#efe9dc"))}
    grid = build_grid(["B" * 12] * 6, list(colours))
    patches = tuple(DuplicateStitch(*patch) for patch in sewn)
    return Chart("t", "T", Gauge(22, 30, Length(10, "cm")), colours, grid, duplicate=patches)


@pytest.mark.parametrize(
    ("sewn", "told"),
    [
        ([], {}),
        ([("W", 3, (5, 5))], {(3, "W"): [(5, 5)]}),
        ([("W", 3, (4, 6)), ("W", 3, (1, 3))], {(3, "W"): [(1, 6)]}),  # neighbours are one stretch
        ([("W", 3, (4, 6)), ("W", 3, (5, 8))], {(3, "W"): [(4, 8)]}),  # what is stated twice is sewn once
        ([("W", 3, (7, 8)), ("W", 3, (1, 2))], {(3, "W"): [(1, 2), (7, 8)]}),
        ([("W", 5, (1, 1)), ("B", 2, (2, 2))], {(2, "B"): [(2, 2)], (5, "W"): [(1, 1)]}),
    ],
)
def test_stitches_are_gathered_row_by_row(sewn: list[tuple[str, int, tuple[int, int]]], told: object) -> None:
    assert sewn_stitches(chart(*sewn)) == told
    assert list(sewn_stitches(chart(*sewn))) == sorted(sewn_stitches(chart(*sewn)))


def test_totals_count_each_stitch_once() -> None:
    assert sewn_totals(
        sewn_stitches(chart(("W", 3, (4, 6)), ("W", 3, (5, 8)), ("W", 4, (1, 1)), ("B", 4, (9, 9))))
    ) == {
        "W": 6,
        "B": 1,
    }


def test_lines_say_row_stitches_colour_and_number_and_escape_names() -> None:
    worked = chart(("W", 3, (7, 8)), ("W", 3, (1, 1)), ("B", 5, (2, 2)))
    key = make_key(worked, make_plan(worked))
    first, second = sewn_html(worked, key, [chip(n) for n in range(2)]).split("\n")
    assert 'href="#row-3"' in first
    assert "<td>stitches 1, 7–8</td>" in first
    assert "Bone</td><td" in first
    assert first.endswith('<td class="n">3</td></tr>')
    assert "<td>stitch 2</td>" in second
    assert "Blue &lt;b&gt;" in second
    assert "<b>" not in second
