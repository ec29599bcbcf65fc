"""Four whole patterns, each piece in each size against the same piece laid out here by hand, stitch by stitch.

A cushion in two sizes with a placed motif, a hat in three sizes with repeats, a blanket of squares, and a jumper in
three sizes with a plain back. The layer of this file lists rows and bends edges by itself: it shares no code with the
package. What it says of yarn are sums of the plans of the charts made here.
"""

import json
import re
from pathlib import Path

import pytest

from lintarsia.chart import Chart
from lintarsia.engine import check_paths
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.planjson import pattern_plan_json
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.json import plan_document
from lintarsia.reading import read_chart
from lintarsia.settings import Settings
from lintarsia.written import write_rows

HEAD = """\
lintarsia: 1
title: Held
gauge: {stitches: 22, rows: 30, over: 10 cm}
yarns:
  blue: {name: Fjord DK in blue, length: 50 m, mass: 20 g}
  bone: {name: Fjord DK in bone, length: 50 m, mass: 20 g}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: blue}
  W: {name: Bone, shade: "#efe9dc", yarn: bone}
"""
MOTIF = ["WWWBW", "BWWWB", "WBWWB"]  # printed: the top row first; alike in no mirror
BAND = ["BBWBBB", "BWWWBB", "WBBBBB", "BBBBBB"]


def file_of(rows: list[str], extra: str = "") -> str:
    return f"{HEAD}{extra}chart: |\n" + "".join(f"  {row}\n" for row in rows)


def by_hand(rows: list[str], extra: str = "") -> Chart:
    reading = read_chart("hand.chart.yaml", file_of(rows, extra).encode())
    assert reading.problems == ()
    assert reading.chart is not None
    return reading.chart


def read(folder: Path, text: str, **charts: str) -> PatternWork:
    for name, chart in charts.items():
        (folder / f"{name}.chart.yaml").write_text(chart, "utf-8")
    path = folder / "held.pattern.yaml"
    path.write_text(f"lintarsia-pattern: 1\ntitle: Held\n{text}", "utf-8")
    reading = read_pattern(str(path))
    assert reading.problems == ()
    assert reading.pattern is not None
    return work_on(reading.pattern, Settings(root=str(folder)))


CUSHION = """\
sizes: [small, large]
pieces:
  side:
    chart: m.chart.yaml
    plain: B
    times: 2
    cast-on: {small: 9, large: 14}
    rows: {small: 6, large: 9}
    at: {stitch: {small: 3, large: 7}, row: {small: 1, large: 5}}
"""


def cushion(size: str) -> dict[str, tuple[Chart, int]]:
    wide, high, stitch, row = (9, 6, 3, 1) if size == "small" else (14, 9, 7, 5)
    right = stitch - 1
    rows = ["B" * (wide - 5 - right) + line + "B" * right for line in MOTIF]
    above = high - len(MOTIF) - (row - 1)
    return {"side": (by_hand([*["B" * wide] * above, *rows, *["B" * wide] * (row - 1)]), 2)}


HAT = """\
sizes: [s, m, l]
pieces:
  hat: {chart: m.chart.yaml, cast-on: {s: 66, m: 72, l: 132}, rows: {s: 8, m: 12, l: 12}}
"""
ROUND = "worked: round\ntechnique: stranded\n"


def hat(size: str) -> dict[str, tuple[Chart, int]]:
    across, up = {"s": (11, 2), "m": (12, 3), "l": (22, 3)}[size]
    return {"hat": (by_hand([row * across for row in BAND] * up, ROUND), 1)}


BLANKET = """\
sizes: [cot, bed]
pieces:
  star: {chart: m.chart.yaml, times: {cot: 6, bed: 15}}
  plain: {colour: B, cast-on: 5, rows: 3, times: {cot: 6, bed: 14}}
"""


def blanket(size: str) -> dict[str, tuple[Chart, int]]:
    stars, plains = (6, 6) if size == "cot" else (15, 14)
    return {"star": (by_hand(MOTIF), stars), "plain": (by_hand(["B" * 5] * 3), plains)}


EDGES = """\
      s: {5: {right: -3}, 6: {left: -3}, 7: {right: -1, left: -1}}
      m: {5: {right: -3}, 6: {left: -3}, 7: {right: -1, left: -1}}
      l: {7: {right: -4}, 8: {left: -4}, 9: {right: -1, left: -1}}
"""
JUMPER = """\
sizes: [s, m, l]
pieces:
  front:
    chart: m.chart.yaml
    plain: B
    cast-on: {s: 20, m: 22, l: 26}
    rows: {s: 12, m: 12, l: 14}
    at: {stitch: {s: 9, m: 10, l: 12}, row: {s: 1, m: 3, l: 3}}
    shaping:
EDGES    divide: {s: {9: {by: hold, stitches: 4}}, m: {9: {by: hold, stitches: 4}}, l: {11: {by: hold, stitches: 6}}}
  back:
    colour: B
    cast-on: {s: 20, m: 22, l: 26}
    rows: {s: 12, m: 12, l: 14}
    shaping:
EDGES""".replace("EDGES", EDGES)


def jumper(size: str) -> dict[str, tuple[Chart, int]]:
    wide, high, stitch, row, bound, held = {
        "s": (20, 12, 9, 1, 3, 4),
        "m": (22, 12, 10, 3, 3, 4),
        "l": (26, 14, 12, 3, 4, 6),
    }[size]
    arm, neck = (5, 9) if size != "l" else (7, 11)
    said = f"shaping:\n  {arm}: {{right: -{bound}}}\n  {arm + 1}: {{left: -{bound}}}\n"
    said += f"  {arm + 2}: {{right: -1, left: -1}}\n"

    def drawn(*, fox: bool) -> list[str]:
        rows = []
        for number in range(1, high + 1):
            cells = ["B"] * wide
            if fox and row <= number < row + 3:
                cells[wide - stitch - 4 : wide - stitch + 1] = list(MOTIF[::-1][number - row])
            gone_right = (bound if number >= arm else 0) + (number >= arm + 2)
            gone_left = (bound if number >= arm + 1 else 0) + (number >= arm + 2)
            for column in [*range(gone_left), *range(wide - gone_right, wide)]:
                cells[column] = "."
            if fox and number >= neck:
                cells[wide // 2 - held // 2 : wide // 2 + held // 2] = "." * held
            rows.append("".join(cells))
        return rows[::-1]

    front = by_hand(drawn(fox=True), f"{said}divide:\n  {neck}: {{by: hold}}\n")
    return {"front": (front, 1), "back": (by_hand(drawn(fox=False), said), 1)}


HELD = {
    "cushion": (CUSHION, file_of(MOTIF), cushion),
    "hat": (HAT, file_of(BAND, f"{ROUND}repeat: {{stitches: [1, 6], rows: [1, 4]}}\n"), hat),
    "blanket": (BLANKET, file_of(MOTIF), blanket),
    "jumper": (JUMPER, file_of(MOTIF), jumper),
}
CASES = [(name, size) for name, (text, _, _) in HELD.items() for size in re.findall(r"\w+", text.splitlines()[0])[1:]]


@pytest.mark.parametrize(("name", "size"), CASES)
def test_a_piece_in_a_size_is_the_chart_made_by_hand(name: str, size: str, tmp_path: Path) -> None:
    text, chart, hands = HELD[name]
    work = read(tmp_path, text, m=chart)
    for piece, (hand, _) in hands(size).items():
        laid = work.laid(work.pattern.pieces[piece], size)
        assert laid is not None
        assert laid.chart.grid.rows == hand.grid.rows
        plans = [plan_document(c, make_plan(c)) for c in (laid.chart, hand)]
        for plan in plans:
            del plan["chart"], plan["title"], plan["fingerprint"]
        assert plans[0] == plans[1]
        assert write_rows(laid.chart) == write_rows(hand)


@pytest.mark.parametrize(("name", "size"), CASES)
def test_yarn_is_the_sum_of_the_plans_made_by_hand(name: str, size: str, tmp_path: Path) -> None:
    text, chart, hands = HELD[name]
    work = read(tmp_path, text, m=chart)
    answer = json.loads(pattern_plan_json(work, choose(work, None, None)))
    for yarn in ("blue", "bone"):
        total = 0.0
        for hand, times in hands(size).values():
            total += times * sum(need.metres for need in make_plan(hand).yarns if need.yarn == yarn)
        told = answer["yarns"].get(yarn, {}).get(size)
        assert (told["metres"] if told else 0.0) == pytest.approx(total, abs=0.01)
        if told:
            assert told["balls"] == -(-total * 1.1 // 50)
            assert sum(part["metres"] for part in told["parts"]) == pytest.approx(total, abs=0.05)


def _values(text: str) -> list[tuple[int, int]]:
    """Where each value for a size stands that others of its mapping stand beside: from the size's name to its end."""
    return [
        (mapping.start(1) + entry.start(), mapping.start(1) + entry.end())
        for mapping in re.finditer(r"\{((?:s|m|l|small|large|cot|bed): [^{}]*)\}", text)
        for entry in re.finditer(r"\w+: \d+(?:, )?", mapping[1])
    ]


@pytest.mark.parametrize("name", HELD)
def test_every_size_that_is_left_out_is_found(name: str, tmp_path: Path) -> None:
    """Each value of each mapping by size taken out, one at a time."""
    text, chart, _ = HELD[name]
    places = _values(text)
    assert len(places) >= 4
    (tmp_path / "m.chart.yaml").write_text(chart, "utf-8")
    for start, end in places:
        cut = f"lintarsia-pattern: 1\ntitle: Held\n{text[:start]}{text[end:]}".replace(", }", "}")
        (tmp_path / "held.pattern.yaml").write_text(cut, "utf-8")
        rules = [r.rule for r in check_paths([str(tmp_path / "held.pattern.yaml")], jobs=1).results]
        assert rules.count("size/unstated") == 1, text[start:end]


def test_whole_patterns_have_nothing_left_out(tmp_path: Path) -> None:
    for name, (text, chart, _) in HELD.items():
        folder = tmp_path / name
        folder.mkdir()
        read(folder, text, m=chart)
        found = [r for r in check_paths([str(folder)], jobs=1).results if r.rule == "size/unstated"]
        assert found == []
