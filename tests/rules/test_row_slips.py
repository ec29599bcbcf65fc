"""Slips of whole rows: how many are found and how many honest rows are taken for one, on pictures it was not fitted to.

The bounds are the project's own aim: of slips planted in drawn motifs four in five found; in every corpus at most one
false alarm in 200 honest rows, and of the warnings nine in ten right. In glyphs, digits and blocks four in five are
out of reach, as docs/row-slips.md says with the figures of larger samples: there the bounds hold what was reached.
"""

import random
import sys
from functools import cache
from pathlib import Path

import numpy as np
import pytest

from folding import slow
from lintarsia.chart import Chart, Colour, Gauge, Shaping
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.reading import read_chart
from lintarsia.rules.shared import slips
from lintarsia.rules.shared.late_rows import late_rows
from lintarsia.rules.shared.repeats_across import slip_across
from lintarsia.rules.shared.rows_alike import slip_alike

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "benchmarks"))
import row_slips  # noqa: E402
from row_slip_pictures import Picture, blocks, digits, drawn, glyphs  # noqa: E402

SEED = 2041


CORPORA = ("drawn", "glyphs", "digits", "blocks")
WITHOUT = ("bands of small repeats", "strewn with single stitches")


@cache
def corpus(name: str) -> list[Picture]:
    match name:
        case "drawn":
            return drawn(80, SEED)
        case "glyphs":
            return glyphs(200, SEED)
        case "digits":
            return digits(4, 9)
        case "blocks":
            return blocks(100, SEED)
    return row_slips.honest(SEED, 60)[name]


@pytest.mark.parametrize("bar", [slips.DOUBTFUL, slips.ENOUGH])
def test_four_in_five_slips_in_drawn_motifs_are_found(bar: float) -> None:
    cases = list(row_slips.planted(corpus("drawn"), 1, SEED))
    assert len(cases) > 130
    assert sum(row_slips.found(case, bar) for case in cases) >= 0.8 * len(cases)


@pytest.mark.parametrize(("name", "share"), [("glyphs", 0.45), *slow(("digits", 0.3), ("blocks", 0.5))])
def test_about_every_second_slip_in_strokes_and_wandering_edges_is_found(name: str, share: float) -> None:
    cases = list(row_slips.planted(corpus(name), 1, SEED))
    assert len(cases) > 130
    assert sum(map(row_slips.found, cases)) >= share * len(cases)


@pytest.mark.parametrize("name", [CORPORA[0], *slow(*CORPORA[1:])])
def test_warnings_are_right_nine_times_in_ten_where_every_second_picture_has_a_slip(name: str) -> None:
    pictures = corpus(name)
    cases = list(row_slips.planted(pictures, 1, SEED))[::3]
    false = sum(map(warned, pictures[: len(cases)]))
    told = sum(warned(case.picture) for case in cases)
    assert told >= 3
    assert sum(warned(case.picture) and row_slips.found(case) for case in cases) >= 0.9 * (told + false)


def warned(picture: Picture) -> bool:
    slip = slips.find_slip(picture)
    return slip is not None and slip.score >= slips.SURE


@pytest.mark.parametrize("name", ["drawn", "glyphs", *slow("digits", *WITHOUT)])
def test_one_honest_row_in_200_is_taken_for_a_slip_at_most(name: str) -> None:
    pictures = corpus(name)
    rows = sum(map(len, pictures))
    assert rows >= 1500
    alarms = sum(slips.find_slip(picture) is not None or slip_alike(picture) is not None for picture in pictures)
    assert alarms * 200 <= rows


@pytest.mark.parametrize("name", ["blocks", "ragged edges"])
def test_where_edges_wander_one_row_in_200_is_warned_of_at_most(name: str) -> None:
    pictures = corpus(name)
    assert sum(map(warned, pictures)) * 200 <= sum(map(len, pictures))


@pytest.mark.parametrize(("name", "share"), [("drawn", 0.9), ("blocks", 0.9)])
def test_counting_first_leaves_out_little_that_weighing_every_change_would_tell(
    name: str, share: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    pictures = corpus(name)[:40]
    made = [*pictures, *(case.picture for case in row_slips.planted(pictures, 1, SEED))]
    quick = [slips.find_slip(picture) for picture in made]
    monkeypatch.setattr(slips, "CALM", 0.0)
    slow = [slips.find_slip(picture) for picture in made]
    told = [(one, other) for one, other in zip(quick, slow, strict=True) if other is not None]
    assert len(told) >= 20
    assert sum(one is not None and one.row == other.row for one, other in told) >= share * len(told)


def test_the_finished_examples_have_none() -> None:
    for file in sorted((ROOT / "examples").glob("*.chart.yaml")):
        chart = read_chart(str(file)).chart
        assert chart is not None
        cells = slips.filled(chart.grid.cells)
        assert cells is None or slips.find_slip(cells) is None, file.name


def test_a_row_that_slips_out_of_an_upright_block_is_named_with_its_way() -> None:
    """A block with upright edges, and a lopsided notch so that no row is its own mirror image."""
    block = np.zeros((14, 20), np.int16)
    block[:, 5:11] = 1
    for by in (-2, -1, 1, 2):
        made = block.copy()
        made[6] = slips.moved(block[6], by)
        slip = slips.find_slip(made)
        assert slip is not None
        assert (slip.kind, slip.row, slip.by) == ("shifted", 7, by)
    assert slips.find_slip(block) is None


@pytest.mark.parametrize(("row", "by", "expected"), [([0, 1, 2, 3], 1, [0, 0, 1, 2]), ([0, 1, 2, 3], -2, [2, 3, 3, 3])])
def test_a_row_moved_goes_on_with_its_end_stitch(row: list[int], by: int, expected: list[int]) -> None:
    assert slips.moved(np.array(row, np.int16), by).tolist() == expected


def test_shaping_is_no_edge_of_the_picture() -> None:
    whole = slips.filled(np.array([[-1, 0, 1, -1, -1], [0, 0, 1, 1, -1]], np.int16))
    assert whole is not None
    assert whole.tolist() == [[0, 0, 1, 1, 1], [0, 0, 1, 1, 1]]
    assert slips.filled(np.array([[0, -1, 1]], np.int16)) is None
    assert slips.filled(np.array([[-1, -1, -1]], np.int16)) is None


def shaped(counts: list[int], shaping: dict[int, int]) -> Chart:
    width = max(counts)
    return Chart(
        path="late.chart.yaml",
        title="Late",
        gauge=Gauge(22, 30, Length(10, "cm")),
        colours={"B": Colour("B", "Dusk blue", "#27406b")},
        grid=build_grid([("B" * count).rjust(width, ".") for count in counts], ("B",)),
        shaping={row: Shaping(net, net, 0) for row, net in shaping.items()},
    )


def test_a_row_doubled_or_left_out_anywhere_is_told_by_the_shaping_above_it() -> None:
    rng = random.Random(SEED)
    for _ in range(200):
        height = rng.randint(12, 30)
        shaping = {row: rng.choice([-1, -2, 1]) for row in sorted(rng.sample(range(2, height - 2), rng.randint(2, 6)))}
        counts = [20]
        for row in range(2, height + 1):
            counts.append(counts[-1] + shaping.get(row, 0))
        assert late_rows(shaped(counts, shaping)) is None
        slip = rng.randint(1, height)
        late = late_rows(shaped([*counts[:slip], counts[slip - 1], *counts[slip:]], shaping))
        above = [row for row in shaping if row > slip]
        if len(above) >= 2:
            assert late is not None
            assert (late.by, late.changes, late.before) == (1, len(above), above[0] + 1)
            assert late.after <= slip < late.before
            assert slip + 1 in late.doubled
        else:
            assert late is None or late.by


@pytest.mark.parametrize("name", ["glyphs", *slow("digits", "drawn")])
def test_four_in_five_slips_in_one_of_three_repeats_side_by_side_are_told_there(name: str) -> None:
    rng, right = random.Random(SEED), []
    for motif in corpus(name)[::2]:
        for case in filter(None, (row_slips.plant(motif, kind, rng) for kind in row_slips.KINDS)):
            place = rng.randrange(3)
            told = slip_across(np.hstack([case.picture if at == place else motif for at in range(3)]))
            there = told is not None and told.left == place * motif.shape[1]
            right.append(there and told is not None and abs(told.slip.row - 1 - case.row) <= 1)
    assert len(right) > 50
    assert sum(right) >= 0.8 * len(right)


@pytest.mark.parametrize("name", [CORPORA[0], *slow(*CORPORA[1:], *WITHOUT)])
def test_hardly_a_picture_is_taken_for_repeats_of_which_one_has_slipped(name: str) -> None:
    pictures = corpus(name)
    whole = [np.hstack([picture] * 3) for picture in pictures]
    assert sum(slip_across(picture) is not None for picture in whole) == 0
    assert sum(slip_across(picture) is not None for picture in pictures) <= sum(map(len, pictures)) / 200


@pytest.mark.parametrize("name", CORPORA)
def test_of_a_picture_with_like_sides_only_exchanged_rows_are_told_and_seldom_in_vain(name: str) -> None:
    whole = [np.hstack([picture, picture[:, ::-1]]) for picture in corpus(name)[::2]]
    told = [slip for picture in whole if (slip := slips.find_slip(picture)) is not None]
    assert {slip.kind for slip in told} <= {"swapped"}
    assert len(told) <= sum(map(len, whole)) / 200


def test_rows_that_are_exchanged_between_two_like_sides_are_found_in_drawn_motifs() -> None:
    rng = random.Random(SEED)
    whole = [np.hstack([picture, picture[:, ::-1]]) for picture in corpus("drawn")]
    cases = [case for picture in whole if (case := row_slips.plant(picture, "swapped", rng)) is not None]
    assert len(cases) > 20
    assert sum(map(row_slips.found, cases)) >= 0.8 * len(cases)
