"""The cover of charts too large for trying every one, against a formulation and a solver that share nothing with it."""

import numpy as np
import pytest
from scipy.optimize import linear_sum_assignment

from lintarsia.chart import Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.cover import Cover, best_cover, links, match, offers
from lintarsia.planning.cover.search import search
from lintarsia.planning.runs import RunTable, find_runs

KEY = "ABCDEFGHIJKL"


def runs_of(picture: np.ndarray, first_leftward: bool = True) -> RunTable:
    symbols = np.array([*KEY, "."])
    rows = ["".join(line) for line in symbols[picture].tolist()]
    return find_runs(build_grid(rows, KEY), [(r % 2 == 0) == first_leftward for r in range(len(rows))])


def smooth(rng: np.random.Generator, shape: tuple[int, int], colours: int) -> np.ndarray:
    """Blobs: noise added up on three scales, cut at its quantiles, with a few cells of no stitch."""
    field = sum(
        np.kron(rng.random((shape[0] // k + 1, shape[1] // k + 1)), np.ones((k, k)))[: shape[0], : shape[1]] * k
        for k in (1, 3, 8)
    )
    picture = np.digitize(field, np.quantile(field, np.linspace(0, 1, colours + 1)[1:-1]))
    picture[rng.random(shape) < 0.02] = len(KEY)
    return picture


def dense_costs(runs: RunTable, strand, carry, idle) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Allowed, carried and idle for every pair of runs at once, straight from the definition."""
    row, start = runs.row, runs.start
    waited = row[None, :] - row[:, None] - 1
    between = start[None, :] - start[:, None] - runs.stitches[:, None]
    apart = np.abs(runs.entry[None, :] - runs.exit[:, None])
    inside = (waited == -1) & (between > 0)
    inside &= True if strand is None else between <= strand
    onward = waited >= 0
    onward &= True if carry is None else apart <= carry
    onward &= True if idle is None else waited <= idle
    allowed = (inside | onward) & (runs.colour[:, None] == runs.colour[None, :])
    return allowed, np.where(inside, between, apart), np.where(inside, 0, waited)


def reference(runs: RunTable, strand, carry, idle) -> tuple[int, int, int]:
    """Supplies, carried and idle of the optimum by SciPy's dense assignment solver."""
    allowed, carried, idles = dense_costs(runs, strand, carry, idle)
    size = len(runs)
    weight = size * (int(idles[allowed].max(initial=0)) + 1)
    cost = np.where(allowed, carried * weight + idles, 0.0)
    dear = size * (cost.max() + 1)
    assert dear * size < 2**53  # whole numbers stay exact in floating point
    tails, heads = linear_sum_assignment(np.where(allowed, cost, dear))
    taken = allowed[tails, heads]
    tails, heads = tails[taken], heads[taken]
    return size - len(tails), int(carried[tails, heads].sum()), int(idles[tails, heads].sum())


def check_against_reference(cover: Cover, runs: RunTable, strand, carry, idle) -> None:
    allowed, carried, idles = dense_costs(runs, strand, carry, idle)
    tails = np.flatnonzero(cover.next >= 0)
    heads = cover.next[tails]
    assert len(set(heads.tolist())) == len(heads)
    assert allowed[tails, heads].all()
    assert np.array_equal(carried[tails, heads], cover.carried[tails])
    assert np.array_equal(idles[tails, heads], cover.idle[tails])
    found = (cover.supplies, int(cover.carried.sum()), int(cover.idle.sum()))
    assert found == reference(runs, strand, carry, idle)


BOUNDS = [
    (0, 3, 2),
    (0, 1, 0),
    (0, 0, 4),
    (5, 3, 2),
    (2, 8, 1),
    (0, None, 1),
    (0, 2, None),
    (None, 2, 1),
    (3, None, None),
]


@pytest.mark.parametrize("bounds", BOUNDS, ids=str)
@pytest.mark.parametrize("kind", ["blobs", "speckle"])
def test_totals_equal_those_of_a_dense_assignment_solver(kind, bounds):
    rng = np.random.default_rng([*kind.encode(), *(9 if b is None else b for b in bounds)])
    picture = smooth(rng, (36, 44), 5) if kind == "blobs" else rng.integers(0, 3, (28, 32))
    runs = runs_of(picture, first_leftward=bool(rng.integers(2)))
    strand, carry, idle = bounds
    cover = best_cover(runs, Worked.FLAT, strand=strand, carry=carry, idle=idle)
    check_against_reference(cover, runs, *bounds)


@pytest.mark.parametrize(
    "picture",
    [
        np.indices((40, 40)).sum(axis=0) % 2,
        np.indices((40, 40)).sum(axis=0) // 2 % 3,
        (np.indices((40, 40)) // 4).sum(axis=0) % 2,
        np.indices((40, 40))[1] // 3 % 2,
        (np.indices((40, 40)) % 4 == 0).all(axis=0) * 1,
    ],
    ids=["checks", "diagonals", "basket", "bars", "dots"],
)
def test_patterns_full_of_equal_choices(picture):
    runs = runs_of(picture)
    cover = best_cover(runs, Worked.FLAT, strand=0, carry=3, idle=2)
    check_against_reference(cover, runs, 0, 3, 2)


@pytest.mark.parametrize("bounds", BOUNDS[:5], ids=str)
def test_every_way_through_the_search_gives_the_same_cover(bounds, monkeypatch):
    """The cover is a property of the chart: neither the order of the search nor that of the links may show."""
    rng = np.random.default_rng(7)
    strand, carry, idle = bounds
    in_order = search

    def shuffled(opened, *rest):
        in_order(rng.permutation(list(opened)).tolist(), *rest)

    for picture in (smooth(rng, (40, 50), 4), rng.integers(0, 3, (40, 40))):
        runs = runs_of(picture)
        covers: list[list[int]] = []

        def solve(runs=runs, covers=covers):
            cover = best_cover(runs, Worked.FLAT, strand=strand, carry=carry, idle=idle)
            covers.append(cover.next.tolist())

        with monkeypatch.context() as patch:
            solve()
            patch.setattr(match, "FEW", 10**9)  # one by one
            solve()
            patch.setattr(match, "FEW", 0)
            for rounds in (0, 1, 3, 100):  # more or less of it offered, so that the search starts elsewhere
                patch.setattr(offers, "ROUNDS", rounds)
                solve()
            patch.setattr(links, "NEAR", 0)  # links found by bisecting
            solve()
            patch.setattr(match, "SAFE", 0)  # numbers as if too large for 64 bits
            solve()
            patch.setattr(match, "search", shuffled)
            solve()
        assert all(following == covers[0] for following in covers)


def test_numbers_beyond_64_bits_stay_exact():
    """Costs as large as an enormous chart's would be: the lexicographic order must survive them."""
    tail, head = np.array([0, 0, 1, 1]), np.array([2, 3, 2, 3])
    carried, idle = np.array([2**30, 2**30, 2**30, 2**30 - 1]), np.array([2**31, 0, 0, 2**31])
    taken = match.best_links(links.LinkTable(tail, head, carried, idle), 4)
    assert taken.tolist() == [0, 3, -1, -1]


def test_piece_worked_in_mirror_image_has_the_same_cover():
    """Knitting from the other side changes no distance, so nothing in the plan but the columns."""
    picture = smooth(np.random.default_rng(3), (30, 40), 5)
    plain = best_cover(runs_of(picture, True), Worked.FLAT, strand=0, carry=3, idle=2)
    mirrored = best_cover(runs_of(picture[:, ::-1], False), Worked.FLAT, strand=0, carry=3, idle=2)
    assert plain.next.tolist() == mirrored.next.tolist()


def test_stranded_work_without_bounds_has_one_supply_for_each_colour():
    runs = runs_of(np.random.default_rng(5).integers(0, 3, (20, 24)))
    for worked in Worked:
        cover = best_cover(runs, worked, strand=None, carry=None, idle=None)
        assert cover.supplies == 3
        for colour in range(3):
            mine = np.flatnonzero(runs.colour == colour)
            assert cover.next[mine].tolist() == [*mine[1:].tolist(), -1]
