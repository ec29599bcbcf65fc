"""Yarn for a whole pattern, against arithmetic done by hand.

Yarn in a stitch is 4.1 times its width (Munden 1959, wet-relaxed: wales/cm = 4.1 / loop length in cm), so at 20
stitches to 10 cm 20.5 mm. Each supply has two tails of 15 cm; cast-on and
bind-off are left out here.
"""

from pathlib import Path

import pytest
from pattern_files import chart_text, write_pattern

from lintarsia.chart import Reckoning
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.buying import needs_of
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import Settings

YARNS = "yarns:\n  dk: {name: Fjord DK, length: 10 m}\n  bone: {length: 10 m}\n"


def chart(rows: str) -> str:
    text = chart_text(rows, YARNS).replace('"#27406b"', '"#27406b", yarn: dk')
    return text.replace('"#efe9dc"', '"#efe9dc", yarn: bone')


def work(folder: Path, text: str, **charts: str) -> PatternWork:
    file = write_pattern(folder, text, **charts)
    pattern = read_pattern(str(file)).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(folder), reckoning=Reckoning(cast_on=0, bind_off=0)))


def test_two_pieces_and_a_pair_of_sleeves(tmp_path: Path) -> None:
    text = """\
sizes: [small, large]
pieces:
  front: {chart: front.chart.yaml}
  sleeve: {chart: sleeve.chart.yaml, times: 2, row-repeats: {small: 1, large: 3}}
"""
    pattern = work(tmp_path, text, front=chart("BBBBBBBBBB " * 10), sleeve=chart("BBBBB " * 4))
    small, large = needs_of(pattern, "small")["dk"], needs_of(pattern, "large")["dk"]
    loop, tails = 0.0205, 0.30
    assert small.metres == pytest.approx((100 * loop + tails) + 2 * (20 * loop + tails))
    assert large.metres == pytest.approx((100 * loop + tails) + 2 * (60 * loop + tails))
    assert small.balls == pytest.approx(small.metres / 10)
    assert (small.to_buy, small.pieces) == (1, ("front", "sleeve"))
    assert list(needs_of(pattern, "small")) == ["dk"]


def test_each_repeat_s_blocks_are_supplies_of_their_own(tmp_path: Path) -> None:
    """B W B repeated across a row is B W B·B W B: three blue runs and two white ones, each a supply with two tails."""
    pattern = work(tmp_path, "pieces:\n  front: {chart: front.chart.yaml, repeats: 2}\n", front=chart("BBWWBB"))
    needs = needs_of(pattern, "one size")
    assert needs["dk"].metres == pytest.approx(8 * 0.0205 + 3 * 0.30)
    assert needs["bone"].metres == pytest.approx(4 * 0.0205 + 2 * 0.30)


def test_the_pattern_s_own_allowance_and_balls_win(tmp_path: Path) -> None:
    text = "allowance: 50 %\nyarns:\n  dk: {length: 1 m}\npieces:\n  front: {chart: front.chart.yaml}\n"
    need = needs_of(work(tmp_path, text, front=chart("BBBBBBBBBB " * 10)), "one size")["dk"]
    assert need.to_buy == 4  # (2.05 + 0.30) m and half as much again is 3.5 m
    assert need.allowance == pytest.approx(need.metres / 2)


def test_a_size_in_which_a_piece_is_not_knitted_needs_nothing_for_it(tmp_path: Path) -> None:
    text = "sizes: [a, b]\npieces:\n  front: {chart: {a: front.chart.yaml}, times: {a: 1, b: 0}}\n"
    pattern = work(tmp_path, text, front=chart("BBBB"))
    assert list(needs_of(pattern, "a")) == ["dk"]
    assert needs_of(pattern, "b") == {}


def test_a_ball_is_divided_where_two_long_supplies_are_worked_at_once(tmp_path: Path) -> None:
    """40 rows of 30 blue stitches at either side of a white column: two supplies of 24.9 m each, which no bobbin holds
    (20 m), and one ball of 90 m. With two balls nothing is divided."""
    text = "yarns:\n  dk: {length: 90 m, balls: BALLS}\npieces:\n  front: {chart: front.chart.yaml}\n"
    rows = ("B" * 30 + "W" + "B" * 31 + " ") * 40
    need = needs_of(work(tmp_path / "one", text.replace("BALLS", "1"), front=chart(rows)), "one size")["dk"]
    (part,) = need.parted
    assert (part.piece, part.supply) == ("front", "B2")
    assert part.metres == pytest.approx(1.1 * (30 * 40 * 0.0205 + 0.30))
    two = needs_of(work(tmp_path / "two", text.replace("BALLS", "2"), front=chart(rows)), "one size")["dk"]
    assert two.parted == ()


def test_the_designers_own_number_of_balls_is_printed(tmp_path: Path) -> None:
    text = """\
sizes: [small, large]
yarns: {dk: {balls: {small: 2, large: 5}}}
pieces:
  front: {chart: front.chart.yaml, row-repeats: {small: 1, large: 3}}
"""
    pattern = work(tmp_path, text, front=chart("BBBBBBBBBB " * 10))
    small, large = needs_of(pattern, "small"), needs_of(pattern, "large")
    assert [(size["dk"].to_buy, size["dk"].stated, size["dk"].printed) for size in (small, large)] == [
        (1, 2, 2),
        (1, 5, 5),
    ]
