"""Yarn that knitters with known hands used, back to the yarn in a stitch: within the spread that is stated."""

import random
from pathlib import Path

import pytest
from knit_logs import MUNDEN, STITCHES, Knitter, write_knits

from lintarsia.engine.knitting import gather_knits
from lintarsia.knits.calibrate import Calibration, outliers_among

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


@pytest.mark.parametrize("constant", [3.6, 4.4])
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
    assert (found.spread, found.error, found.off_after) == (None, None, None)


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
