"""The parts of the sheet: lengths as one measures them off, what to buy, the row table."""

import pytest

from lintarsia.cli import plan as plan_command
from lintarsia.planning.planner import make_plan
from lintarsia.planning.what_if import LARGEST
from lintarsia.plansheets.answer import FORMATS
from lintarsia.plansheets.rowtable import stretches
from lintarsia.plansheets.text import plan_text
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import Screen
from lintarsia.telling.lengths import fabric_length, wound_length, yarn_length

HEAD = "lintarsia: 1\ntitle: A field\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
KEY = (
    'colours:\n  B: {name: Dusk blue, shade: "#27406b", yarn: dusk}\n  W: {name: Bone, shade: "#efe9dc", yarn: dusk}\n'
)


def read(tmp_path, text):
    file = tmp_path / "field.chart.yaml"
    file.write_text(text)
    reading = read_chart(str(file))
    assert reading.problems == ()
    return reading.chart


@pytest.mark.parametrize(
    ("metres", "metric", "imperial"),
    [
        (0.02, "5 cm", "2 in"),
        (0.50, "50 cm", "20 in"),
        (0.501, "55 cm", "20 in"),
        (0.951, "1.0 m", "1.25 yd"),
        (3.01, "3.1 m", "3.50 yd"),
        (9.99, "10.0 m", "11.00 yd"),
        (12.2, "12.5 m", "13.50 yd"),
        (1500.3, "1,500.5 m", "1,641.00 yd"),
    ],
)
def test_what_is_wound_is_never_too_short(metres, metric, imperial):
    assert (wound_length(metres, False), wound_length(metres, True)) == (metric, imperial)
    for text in (metric, imperial):
        number, unit = text.replace(",", "").split()
        per = {"cm": 0.01, "m": 1.0, "in": 0.0254, "yd": 0.9144}[unit]
        assert float(number) * per >= metres


def test_lengths_to_the_nearest():
    assert [yarn_length(m, False) for m in (0.004, 0.994, 0.996, 1234.56)] == ["0 cm", "99 cm", "1.0 m", "1,235 m"]
    assert [yarn_length(m, True) for m in (0.254, 0.9144, 91.44)] == ["10 in", "1.0 yd", "100 yd"]
    assert [fabric_length(mm, False) for mm in (4.5, 9.94, 9.96, 25)] == ["4 mm", "10 mm", "1 cm", "2.5 cm"]
    assert fabric_length(25.4, True) == "1 in"


def test_what_to_buy(tmp_path):
    """400 stitches × 18.64 mm + 2 × 30 cm = 8.05 m, by hand; 50 g are 10 m, so with a tenth 8.86 m weigh 44 g. And the
    edges: 20 stitches cast on and 20 bound off at 13.6 mm, and 15 cm to spare: 70 cm, so that 9.63 m weigh 48 g.
    """
    yarn = "yarns:\n  dusk: {name: Fjord in dusk, length: 10 m, mass: 50 g, balls: 0.5}\n"
    grid = "  " + "\n  ".join(["B" * 20] * 10 + ["W" * 20] * 10)
    chart = read(tmp_path, HEAD + yarn + KEY + "chart: |\n" + grid + "\n")
    text = plan_text(chart, make_plan(chart))
    assert "To buy, with 10% to spare\n" in text
    line = "  Fjord in dusk                B W          8.8 m + 88 cm     48 g    1 ball\n"
    assert line + "    the file has 0.5\n" in text
    ounces = read(tmp_path, HEAD + yarn.replace("50 g", "2 oz") + KEY + "chart: |\n" + grid + "\n")
    assert "  1.9 oz  " in plan_text(ounces, make_plan(ounces))


def test_duplicate_stitch_is_named(tmp_path):
    yarn = "yarns:\n  dusk: {name: Fjord, length: 10 m, mass: 50 g}\n"
    sewn = "duplicate-stitch:\n  - {colour: W, row: 1, stitches: [1, 2]}\n"
    chart = read(tmp_path, HEAD + yarn + KEY + sewn + "chart: |\n  BBBB\n")
    assert "    34 cm of it for duplicate stitch\n" in plan_text(chart, make_plan(chart))


def test_many_colours_of_one_yarn_fit(tmp_path):
    symbols = "ABCDEFGHIJKLMN"
    key = "colours:\n" + "".join(
        f'  {s}: {{name: "shade {s}", shade: "#0000{n:02}", yarn: y}}\n' for n, s in enumerate(symbols)
    )
    yarn = (
        "yarns:\n  y: {name: A yarn with a name that is so long that nobody could print it, length: 1 m, mass: 1 g}\n"
    )
    chart = read(tmp_path, HEAD + yarn + key + "chart: |\n  " + symbols + "\n")
    lines = plan_text(chart, make_plan(chart)).splitlines()
    assert max(map(len, lines)) <= 80
    assert any("14 colours" in line for line in lines)


def test_a_narrow_screen_wraps_the_yarns(tmp_path):
    chart = read(tmp_path, HEAD + KEY.replace(", yarn: dusk", "") + "chart: |\n  " + "BW" * 20 + "\n")
    text = plan_text(chart, make_plan(chart), Screen(width=50), whole=True)
    table = text[text.index("Rows:") :].splitlines()[2:]
    assert len(table) > 4
    assert max(map(len, table)) <= 50
    assert all(line.startswith(" " * 29) for line in table[1:])


def test_rows_where_nothing_happens_are_one_line(draw_rows):
    rows = draw_rows("AABB AABB AABB AABB AAAA")
    assert [[row.row for row in stretch] for stretch in stretches(rows, whole=False)] == [[1], [2, 3], [4], [5]]
    assert [len(stretch) for stretch in stretches(rows, whole=True)] == [1] * 5


@pytest.fixture
def draw_rows(tmp_path):
    def draw(grid):
        key = 'colours:\n  A: {name: a, shade: "#000000"}\n  B: {name: b, shade: "#ffffff"}\n'
        chart = read(tmp_path, HEAD + key + "chart: |\n  " + "\n  ".join(grid.split()[::-1]) + "\n")
        return make_plan(chart).rows

    return draw


def test_the_command_says_what_the_sheets_do():
    """The command repeats two values rather than import the planner for a help text."""
    assert (plan_command.SMALL, plan_command.FORMATS) == (LARGEST, FORMATS)


def test_a_row_without_stitches_is_said_to_be_one(tmp_path):
    chart = read(tmp_path, HEAD + KEY.replace(", yarn: dusk", "") + "chart: |\n  BBBB\n  ....\n  BBBB\n")
    assert "  2 WS       →       0      1       –  no stitches  (resting B1)\n" in plan_text(chart, make_plan(chart))
