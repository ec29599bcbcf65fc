"""Yarn that knitters with known hands used, back to the yarn in a stitch: within the spread that is stated."""

import random
from pathlib import Path

import pytest
from knit_logs import MUNDEN, STITCHES, Knitter, chart, write_knits

from folding import slow
from lintarsia.engine.knitting import gather_knits
from lintarsia.knits.calibrate import Calibration, outliers_among
from lintarsia.knits.summary import PatternKnits

WIDTH = 100 / STITCHES  # mm


def calibration(folder: Path, knitters: list[Knitter], loop: float | None = None) -> Calibration:
    write_knits(folder, knitters, loop)
    (one,) = gather_knits([str(folder)]).patterns
    assert one.calibration is not None
    return one.calibration


def hands(constants: list[float]) -> list[Knitter]:
    """Two small ones and the rest large, at gauges around the one stated."""
    gauges = [(19.5, 27.0), (20.5, 29.0), (20.0, 28.0), (19.0, 27.5), (21.0, 28.5), (20.2, 27.8), (19.8, 28.2)]
    sizes = ["small", "small", *["large"] * 5]
    names = ["Wren", "Finch", "Siskin", "Linnet", "Dunnock", "Pipit", "Plover"]
    return [Knitter(n, s, c, *g) for n, s, c, g in zip(names, sizes, constants, gauges, strict=False)]


def test_hands_that_are_all_alike_give_their_loop_to_a_hundredth(tmp_path: Path) -> None:
    """Whatever their gauges: the yarn in a stitch follows its width."""
    found = calibration(tmp_path, hands([3.7] * 5))
    (loop,) = found.loops
    assert loop.mm == pytest.approx(3.7 * WIDTH, rel=0.002)  # grams to a tenth
    assert loop.was_mm == pytest.approx(MUNDEN * WIDTH)
    assert not loop.stated
    assert found.spread == pytest.approx(0, abs=0.01)
    assert found.outliers == ()


def test_the_plan_was_off_by_what_the_loop_was_and_is_no_more(tmp_path: Path) -> None:
    found = calibration(tmp_path, [Knitter("Wren", "small", 3.7), Knitter("Finch", "large", 3.7)])
    # Nearly all of the yarn is in stitches: a loop a tenth too long makes the plan nearly a tenth too long.
    assert found.off_before == pytest.approx(MUNDEN / 3.7 - 1, abs=0.01)
    assert found.off_after is not None
    assert found.off_after < 0.003


@pytest.mark.parametrize("constant", [3.6, *slow(4.4)])
def test_noisy_hands_give_the_loop_within_the_stated_spread(tmp_path: Path, constant: float) -> None:
    """Hands differ by 3 % here. The mean of five lies within one standard deviation of a single knitter with
    probability 0.91 (Student's t, 4 degrees of freedom, beyond 2.24), so of twelve groups nine and more, nearly always.
    """
    rng, inside, better = random.Random(20261105), 0, 0
    for group in range(12):
        folder = tmp_path / f"group-{group}"
        folder.mkdir()
        found = calibration(folder, hands([rng.gauss(constant, 0.03 * constant) for _ in range(5)]))
        (loop,) = found.loops
        assert loop.spread_mm is not None
        assert found.off_after is not None
        inside += abs(loop.mm - constant * WIDTH) <= loop.spread_mm
        better += found.off_after < found.off_before
    assert inside >= 9
    assert better >= 11


def test_a_slip_is_named_and_left_out(tmp_path: Path) -> None:
    knitters = hands([3.75, 3.8, 3.85, 3.78, 3.82])
    slip = Knitter("Plover", "small", 3.8, times=1.6)
    found = calibration(tmp_path, [*knitters, slip])
    assert [(far.knitter, round(far.times, 1)) for far in found.outliers] == [("Plover", 1.6)]
    assert "Plover" not in [one.knitter for one in found.measured]
    assert found.constant == pytest.approx(3.8, rel=0.005)


def test_a_slip_in_one_yarn_is_named_by_yarn(tmp_path: Path) -> None:
    write_knits(tmp_path, hands([3.75, 3.8, 3.85, 3.78]))
    file = tmp_path / "wren.knit.yaml"
    text = file.read_text("utf-8")
    start = text.index("rust:")
    file.write_text(text[:start] + "rust: 40 m}\n" + text[text.index("hours") :], encoding="utf-8")
    (one,) = gather_knits([str(tmp_path)]).patterns
    assert ("Wren", "rust") in [(odd.knitter, odd.yarn) for odd in one.odd]


def test_of_two_nobody_is_the_outlier(tmp_path: Path) -> None:
    found = calibration(tmp_path, [Knitter("Wren", "small", 3.7), Knitter("Finch", "small", 3.7, times=1.6)])
    assert found.outliers == ()
    assert len(found.measured) == 2


def test_one_knitter_has_no_spread(tmp_path: Path) -> None:
    found = calibration(tmp_path, [Knitter("Wren", "small", 3.7)])
    assert (found.spread, found.off_after) == (None, None)


def test_what_is_on_the_needles_teaches_nothing(tmp_path: Path) -> None:
    done = Knitter("Wren", "small", 3.7)
    found = calibration(tmp_path, [done, Knitter("Finch", "small", 3.7, times=0.4, finished=False)])
    assert [one.knitter for one in found.measured] == ["Wren"]


def test_a_stated_loop_is_what_the_plan_was_made_with(tmp_path: Path) -> None:
    found = calibration(tmp_path, hands([3.7] * 4), loop=3.7 * WIDTH)
    (loop,) = found.loops
    assert loop.stated
    assert loop.was_mm == pytest.approx(loop.mm, rel=0.002)
    assert found.off_before < 0.003


def test_outliers_by_hand() -> None:
    """Median 10, median distance 1: the score of 16 is 0.6745 × 6 = 4.05, that of 15 is 3.37."""
    values = {"a": 9.0, "b": 10.0, "c": 10.0, "d": 11.0, "e": 8.0}
    assert outliers_among(values | {"f": 12.0, "g": 16.0}) == {"g": 1.6}
    assert outliers_among(values | {"f": 12.0, "g": 15.0}) == {}


def rewrite(file: Path, old: str, new: str) -> None:
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def used_words(file: Path, words: str) -> None:
    """Puts other words for what she used."""
    line = next(line for line in file.read_text("utf-8").splitlines() if line.startswith("used:"))
    rewrite(file, line, f"used: {words}")


def gathered(folder: Path) -> PatternKnits:
    (one,) = gather_knits([str(folder)]).patterns
    return one


def test_less_than_her_ends_teaches_nothing(tmp_path: Path) -> None:
    """Half a metre of rust is not even its tails: no stitch would have any yarn."""
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    used_words(tmp_path / "wren.knit.yaml", "{rust: 0.5 m}")
    assert gathered(tmp_path).calibration is None


def test_a_yarn_that_no_colour_is_in_teaches_nothing(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    rewrite(tmp_path / "fox.chart.yaml", "yarns:\n", "yarns:\n  moss: {name: Moss, length: 100 m, mass: 50 g}\n")
    used_words(tmp_path / "wren.knit.yaml", "{moss: 40 g}")
    one = gathered(tmp_path)
    assert one.calibration is None
    (use,) = one.knits[0].yarns
    assert (use.yarn, use.said, use.metres, use.planned, use.ratio) == ("moss", "40 g", 80.0, None, None)


def test_yarns_that_the_pattern_has_not_are_left_out(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    before = gathered(tmp_path).calibration
    rewrite(tmp_path / "wren.knit.yaml", "used: {", "used: {kelp: 300 m, ")
    assert gathered(tmp_path).calibration == before
    assert before is not None


def test_one_yarn_of_two_is_enough(tmp_path: Path) -> None:
    """Each yarn is held against its own plan, whichever were weighed."""
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    line = next(x for x in (tmp_path / "wren.knit.yaml").read_text("utf-8").splitlines() if x.startswith("used:"))
    rust = line[line.index("rust:") : -1]
    used_words(tmp_path / "wren.knit.yaml", f"{{{rust}}}")
    found = gathered(tmp_path).calibration
    assert found is not None
    assert found.constant == pytest.approx(3.7, rel=0.005)


def test_without_a_gauge_of_hers_the_stated_one_is_taken(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7), Knitter("Finch", "large", 3.7)])
    rewrite(tmp_path / "wren.knit.yaml", "gauge: {stitches: 20.0000, rows: 28.0000, over: 10 cm}\n", "")
    found = gathered(tmp_path).calibration
    assert found is not None
    assert {one.knitter: one.gauge for one in found.measured} == {"Wren": False, "Finch": True}
    assert found.constant == pytest.approx(3.7, rel=0.002)


def test_her_gauge_over_inches_is_the_same_gauge(tmp_path: Path) -> None:
    """21 stitches to 10 cm are 21.336 to 4 in."""
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7, 21.0, 30.0)])
    before = gathered(tmp_path)
    rewrite(tmp_path / "wren.knit.yaml", "stitches: 21.0000, rows: 30.0000, over: 10 cm",
            "stitches: 21.336, rows: 30.48, over: 4 in")  # fmt: skip
    after = gathered(tmp_path)
    assert before.calibration is not None
    assert after.calibration is not None
    assert after.calibration.constant == pytest.approx(before.calibration.constant, rel=1e-6)
    stated = after.knits[0].stated
    assert stated is not None
    assert (stated.stitches, stated.rows) == pytest.approx((20.32, 28.448))
    assert str(stated.over) == "4 in"


def test_the_gauge_stated_is_told_over_her_own_length_or_its_own(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    rewrite(tmp_path / "wren.knit.yaml", "gauge: {stitches: 20.0000, rows: 28.0000, over: 10 cm}\n", "")
    (knit,) = gathered(tmp_path).knits
    assert (knit.gauge, str(knit.stated)) == (None, "20 stitches and 28 rows to 10 cm")
    rewrite(tmp_path / "fox.chart.yaml", next(
        line for line in (tmp_path / "fox.chart.yaml").read_text("utf-8").splitlines() if line.startswith("gauge")
    ), "# no gauge")  # fmt: skip
    (knit,) = gathered(tmp_path).knits
    assert knit.stated is None, "a gauge that nobody states is not told as stated"


def test_few_and_alike_have_no_outlier() -> None:
    """A hundredth of the median is the least spread: from 10, 10.5 is five of it away (score 3.37), 10.6 six (4.05)."""
    assert outliers_among({"a": 10.0, "b": 10.0, "c": 10.5}) == {}
    assert outliers_among({"a": 10.0, "b": 10.0, "c": 10.6}) == {"c": 1.06}
    assert outliers_among({"a": 10.0, "b": 16.0}) == {}
    assert outliers_among({"a": 0.0, "b": 0.0, "c": 0.0}) == {}


def test_what_is_being_knitted_has_no_part_of_the_plan_yet(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7), Knitter("Finch", "small", 3.7, finished=False)])
    ratios = {knit.knitter: [use.ratio for use in knit.yarns] for knit in gathered(tmp_path).knits}
    assert ratios["Finch"] == [None, None]
    assert None not in ratios["Wren"]


def test_every_chart_of_the_pattern_is_told_its_loop(tmp_path: Path) -> None:
    """The constant is one, the width of a stitch each chart's own; by the largest one the plan is judged."""
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    small = chart(25.0, 34.0).partition("chart: |\n")[0] + "chart: |\n  OR\n  OO\n"
    (tmp_path / "cuff.chart.yaml").write_text(small, encoding="utf-8")
    rewrite(
        tmp_path / "fox.pattern.yaml", "pieces:\n", "pieces:\n  cuff: {chart: cuff.chart.yaml, times: {small: 0}}\n"
    )
    one = gathered(tmp_path)
    assert one.calibration is not None
    loops = {Path(loop.chart).name: (round(loop.mm / one.calibration.constant, 6), round(loop.was_mm, 6))
             for loop in one.calibration.loops}  # fmt: skip
    assert loops == {"cuff.chart.yaml": (4.0, 16.4), "fox.chart.yaml": (5.0, 20.5)}
    assert one.calibration.off_before == pytest.approx(MUNDEN / 3.7 - 1, abs=0.01)
    assert one.knits[0].same_stitches is None


def test_sizes_stand_in_the_order_of_the_pattern(tmp_path: Path) -> None:
    write_knits(tmp_path, [Knitter("Wren", "large", 3.7), Knitter("Finch", "small", 3.7)])
    one = gathered(tmp_path)
    assert {size: [knit.knitter for knit in knits] for size, knits in one.sizes.items()} == {
        "small": ["Finch"],
        "large": ["Wren"],
    }
    assert list(one.sizes) == ["small", "large"]
    assert [knit.knitter for knit in one.knits] == ["Finch", "Wren"]
    assert (one.title, one.version, Path(one.path).name) == ("Fox cushion", "", "fox.pattern.yaml")
