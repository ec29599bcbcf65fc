"""The fox jumper's front, 66 by 96: counted, planned a side and knitted from its words, by hand and by other means."""

import re
from pathlib import Path

import pytest
from knitter import Knitter

from lintarsia.chart import Chart
from lintarsia.engine import check_paths
from lintarsia.planning.planner import make_plan
from lintarsia.planning.rates import rates
from lintarsia.reading import read_chart
from lintarsia.written import write_rows
from lintarsia.written.style import Style

FILE = Path(__file__).parents[2] / "examples" / "fox-jumper" / "front.chart.yaml"
DIVIDED, WIDTH = 79, 66
BLOCKS = {"left": "PQQP", "right": "QPPQ"}  # colours that the sides are given here, three stitches each, by turns


def read(text: str) -> Chart:
    reading = read_chart("front.chart.yaml", text.encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return reading.chart


def grid() -> list[str]:
    """The rows as the file has them, row 1 first."""
    return FILE.read_text("utf-8").partition("chart: |\n")[2].split()[::-1]


def halves(row: int) -> tuple[str, str]:
    """The left and the right side of a row above the neck, as printed; the opening is where column 33 is."""
    line = grid()[row - 1]
    return line[:33], line[33:]


def test_the_stitches_of_every_row_are_those_of_the_designers_sums() -> None:
    """66; six decreases at each side, every eighth row from 11; 3 and 3 off; three times 1 and 1; 10 off at the neck;
    four times 1 at each neck edge; shoulders of 4, 4 and 4."""
    counts = [len(line.replace(".", "")) for line in grid()]
    assert len(counts) == 96
    assert all(len(line) == WIDTH for line in grid())
    body = [66 - 2 * len([r for r in range(11, 52, 8) if r <= row]) for row in range(1, 59)]
    yoke = [51, 48, 46, 46, 44, 44, *[42] * 13 + [42]]
    neck = [16, 16, 15, 15, 14, 14, 13, 13, *[12] * 4]
    assert counts[:78] == body + yoke
    right = [len(halves(row)[1].replace(".", "")) for row in range(DIVIDED, 97)]
    left = [len(halves(row)[0].replace(".", "")) for row in range(DIVIDED, 97)]
    assert right == [*neck, 8, 8, 4, 4, 0, 0]
    assert left == [*neck, 12, 8, 8, 4, 4, 0]


def test_it_has_nothing_to_mend() -> None:
    report = check_paths([str(FILE)], jobs=1)
    assert [result.message for result in report.results] == []


def side_recoloured() -> str:
    """The file with the two sides above the neck in colours of their own, in blocks that move with the rows."""
    text = FILE.read_text("utf-8")
    rows = grid()
    for row in range(DIVIDED, 97):
        made = ""
        for column, symbol in enumerate(rows[row - 1]):
            blocks = BLOCKS["left" if column < 33 else "right"]
            made += symbol if symbol == "." else blocks[(column + row // 2) // 3 % 4]
        rows[row - 1] = made
    head = text.partition("chart: |\n")[0]
    head = re.sub(r"supplies: .*\n", "", head).replace(
        "shaping:", '  P: {name: Plum, shade: "#5b2a4a"}\n  Q: {name: Quartz, shade: "#e7d9e0"}\nshaping:', 1
    )
    return head + "chart: |\n" + "".join(f"  {line}\n" for line in rows[::-1])


def alone(half: str) -> Chart:
    """One side as a chart of its own, from its first row, which is a right-side row, with its own edges' shaping."""
    rows = side_recoloured().partition("chart: |\n")[2].split()[::-1][DIVIDED - 1 :]
    rows = [row[:33].ljust(WIDTH, ".") if half == "left" else row[33:].rjust(WIDTH, ".") for row in rows]
    inner, off = ("right", "14: {left: -4}, 16: {left: -4}, 18: {left: {bind-off: 4}}")
    if half == "right":
        inner, off = ("left", "13: {right: -4}, 15: {right: -4}, 17: {right: {bind-off: 4}}")
    shaping = ", ".join(f"{row}: {{{inner}: -1}}" for row in (3, 5, 7, 9))
    return read(
        "lintarsia: 1\ntitle: Side\ngauge: {stitches: 22, rows: 30, over: 10 cm}\nwearer: child\n"
        'colours:\n  P: {name: Plum, shade: "#5b2a4a"}\n  Q: {name: Quartz, shade: "#e7d9e0"}\n'
        f"shaping: {{{shaping}, {off}}}\nchart: |\n" + "".join(f"  {line}\n" for line in rows[::-1])
    )


@pytest.mark.parametrize("half", ["left", "right"])
@pytest.mark.parametrize("order", ["right-first", "left-first", "together"])
def test_each_side_is_planned_as_the_side_charted_alone(half: str, order: str) -> None:
    """Supplies with their rows, stitches, carries and metres; line-ups, joins and finishes of every row. Alone, the
    side is cast on with what the neck lays ready, and on the left the ten stitches of the neck are bound off first."""
    chart = read(side_recoloured().replace("sides: right-first", f"sides: {order}"))
    plan, other = make_plan(chart), make_plan(alone(half))
    per = rates(chart.gauge, chart.technique)
    on = {run.by: run.stitches for run in other.cast_on}
    first = {name for run in other.rows[0].by for name in (run,)}
    names: dict[str, str] = {}
    for row in range(DIVIDED, 97):
        part = next((part for part in plan.rows[row - 1].parts if part.side == half), None)
        own = other.rows[row - DIVIDED]
        mine = part.line_up if part else ()
        assert len(mine) == len(own.line_up), row
        names.update(zip(own.line_up, mine, strict=True))
        for here, there in ((part.joins, own.joins), (part.finishes, own.finishes)) if part else ():
            assert list(here) == [names[name] for name in there], row
    supplies = {supply.id: supply for supply in plan.supplies}
    neck = 10 if half == "left" else 0  # row 79 starts at the right: the left side is the second
    for there_ in other.supplies:
        here_ = supplies[names[there_.id]]
        assert (here_.colour, here_.first_row - DIVIDED + 1, here_.last_row - DIVIDED + 1) == (
            there_.colour, there_.first_row, there_.last_row,
        )  # fmt: skip
        assert (here_.stitches, here_.carried, here_.idle) == (there_.stitches, there_.carried, there_.idle)
        off = neck if there_.id == other.rows[0].by[0] else 0
        cast = sum(run.stitches for run in other.cast_on if run.by == there_.id) if there_.id in on else 0
        spare = per.spare if there_.id in first else 0
        expected = there_.metres * 1000 - cast * per.cast_on - spare + off * per.bind_off
        assert here_.metres * 1000 == pytest.approx(expected), there_.id


@pytest.mark.parametrize("named", [False, True], ids=["by colour", "by yarn"])
@pytest.mark.parametrize("fold", [False, True], ids=["in full", "folded"])
@pytest.mark.parametrize("order", ["right-first", "left-first", "together"])
def test_it_is_knitted_from_its_words_alone(order: str, fold: bool, named: bool) -> None:
    chart = read(FILE.read_text("utf-8").replace("sides: right-first", f"sides: {order}"))
    hands = Knitter(WIDTH, yarns=set() if named else None, textured=True)
    plan = make_plan(chart) if named else None
    for said in write_rows(chart, plan=plan, style=Style(fold=fold, stars=False, merge=False)):
        hands.line(f"{said.label}: {said.text}")
    assert not hands.waits
    assert not hands.yarns
    expected = {}
    for row in range(1, 97):
        line = grid()[row - 1] if row % 2 == 0 else grid()[row - 1][::-1]
        expected[row] = line.replace(".", "")
    got = {row: "".join(made for (r, _), made in hands.rows.items() if r == row) for row in expected}
    turned = {row for row in range(DIVIDED, 97) if order == "right-first" and row % 2 == 0}
    turned |= {row for row in range(DIVIDED, 97) if order == "left-first" and row % 2 == 1}
    assert {row: made for row, made in got.items() if row not in turned} == {
        row: made for row, made in expected.items() if row not in turned
    }
    assert all(sorted(got[row]) == sorted(expected[row]) for row in turned)
    assert all(set(hands.kinds[row, ""]) == {"k"} for row in range(1, 7)), "a garter border"


def test_a_row_needs_seven_yarns_at_most() -> None:
    totals = make_plan(read(FILE.read_text("utf-8"))).totals
    drawn = sum(len(row.replace(".", "")) for row in grid())
    assert (totals.supplies, totals.most_in_a_row, totals.stitches) == (24, 7, drawn)
