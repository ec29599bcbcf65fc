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


def with_edges(rng: np.random.Generator, picture: np.ndarray) -> np.ndarray:
    """The same within two edges that wander by up to four stitches a row, and stand still in most."""
    steps = rng.choice([-4, -2, -1, 0, 0, 0, 0, 1, 2, 4], (2, len(picture)))
    left, right = np.clip(6 + np.cumsum(steps, axis=1), 0, 15)
    columns = np.arange(picture.shape[1])
    outside = (columns < left[:, None]) | (columns >= picture.shape[1] - right[:, None])
    return np.where(outside, len(KEY), picture)


def row_changes(picture: np.ndarray, first_leftward: bool) -> list[np.ndarray]:
    """Which columns each row gained or lost at the edge where it starts, as flags."""
    stitch = picture < len(KEY)
    columns = np.arange(picture.shape[1])
    changes = [np.zeros(len(columns), bool)]
    for r in range(1, len(picture)):
        now, was = columns[stitch[r]], columns[stitch[r - 1]]
        if (r % 2 == 0) == first_leftward:
            inner, outer = sorted((now.max(), was.max()))
            changes.append((columns > inner) & (columns <= outer))
        else:
            outer, inner = sorted((now.min(), was.min()))
            changes.append((columns >= outer) & (columns < inner))
    return changes


def dense_costs(runs: RunTable, changes: list[np.ndarray], strand, carry, idle, spiral=False) -> tuple[np.ndarray, ...]:
    """Allowed, stays in its block, idle and carried for every pair of runs at once, straight from the definition."""
    row, start = runs.row, runs.start
    waited = row[None, :] - row[:, None] - 1
    between = start[None, :] - start[:, None] - runs.stitches[:, None]
    low = np.minimum(runs.entry[None, :], runs.exit[:, None])
    high = np.maximum(runs.entry[None, :], runs.exit[:, None])
    passed = np.array([np.concatenate(([0], np.cumsum(change))) for change in changes])  # columns changed left of each
    own = passed[row][np.arange(len(row))[None, :], high + 1] - passed[row][np.arange(len(row))[None, :], low]
    apart = np.maximum(high - low - own, 0)
    onward = waited >= 0
    if spiral:
        apart = between
        onward &= between <= strand
    else:
        onward &= True if carry is None else apart <= carry
        onward &= True if idle is None else waited <= idle
    inside = (waited == -1) & (between > 0)
    inside &= True if strand is None else between <= strand
    allowed = (inside | onward) & (runs.colour[:, None] == runs.colour[None, :])
    above = (waited == 0) & (runs.left[None, :] <= runs.right[:, None]) & (runs.left[:, None] <= runs.right[None, :])
    return allowed, inside | above, np.where(inside, 0, waited), np.where(inside, between, apart)


def reference(size: int, allowed, stays, idles, carried) -> tuple[int, int, int, int]:
    """Links that stay, supplies, idle and carried of the optimum by SciPy's dense assignment solver.

    Solved once for each wish, keeping what the wishes before it have reached as a bound far dearer than all the rest.
    """
    worth = np.where(stays, 0, 1.0)
    base = 2 * size * (int(carried[allowed].max(initial=0)) + 1)
    waits = idles * base + carried
    dear = 2 * size * (int(waits[allowed].max(initial=0)) + 1)
    assert dear * size**2 * 4 < 2**60
    scale = np.where(allowed, (worth * dear * 2 * size + waits), dear * (2 * size + 1)).astype(float)
    assert scale.max() * size < 2**53  # whole numbers stay exact in floating point
    tails, heads = linear_sum_assignment(scale)
    taken = allowed[tails, heads]
    tails, heads = tails[taken], heads[taken]
    return (
        int(stays[tails, heads].sum()),
        size - len(tails),
        int(idles[tails, heads].sum()),
        int(carried[tails, heads].sum()),
    )


def check_against_reference(cover: Cover, runs: RunTable, changes, strand, carry, idle, spiral=False) -> None:
    allowed, stays, idles, carried = dense_costs(runs, changes, strand, carry, idle, spiral)
    tails = np.flatnonzero(cover.next >= 0)
    heads = cover.next[tails]
    assert len(set(heads.tolist())) == len(heads)
    assert allowed[tails, heads].all()
    assert np.array_equal(stays[tails, heads], cover.goes_on[tails])
    assert np.array_equal(carried[tails, heads], cover.carried[tails])
    assert np.array_equal(idles[tails, heads], cover.idle[tails])
    found = (int(cover.goes_on.sum()), cover.supplies, int(cover.idle.sum()), int(cover.carried.sum()))
    assert found == reference(len(runs), allowed, stays, idles, carried)


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
@pytest.mark.parametrize("kind", ["blobs", "speckle", "shaped"])
def test_totals_equal_those_of_a_dense_assignment_solver(kind, bounds):
    rng = np.random.default_rng([*kind.encode(), *(9 if b is None else b for b in bounds)])
    picture = rng.integers(0, 3, (22, 24)) if kind == "speckle" else smooth(rng, (30, 40), 5)
    if kind == "shaped":
        picture = with_edges(rng, picture)
    first = bool(rng.integers(2))
    runs, changes = runs_of(picture, first), row_changes(picture, first)
    assert runs.shaped or kind != "shaped"
    strand, carry, idle = bounds
    cover = best_cover(runs, Worked.FLAT, strand=strand, carry=carry, idle=idle)
    check_against_reference(cover, runs, changes, *bounds)


@pytest.mark.parametrize("strand", [0, 3, 8, 12, 20])
def test_totals_of_rounds_equal_those_of_the_solver(strand):
    """A tube of 14 stitches, where a yarn may reach its own block again after going once around."""
    rng = np.random.default_rng(strand)
    picture = smooth(rng, (24, 14), 3)
    symbols = np.array([*KEY, "."])
    rows = ["".join(line) for line in symbols[picture].tolist()]
    runs = find_runs(build_grid(rows, KEY), [True] * len(rows))
    cover = best_cover(runs, Worked.ROUND, strand=strand, carry=None, idle=None)
    check_against_reference(cover, runs, row_changes(picture, True), strand, None, None, spiral=True)


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
    check_against_reference(cover, runs, row_changes(picture, True), 0, 3, 2)


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
    idle, carried = np.array([2**30, 2**30, 2**30, 2**30 - 1]), np.array([2**31, 0, 0, 2**31])
    taken = match.best_links(links.LinkTable(tail, head, np.zeros(4, bool), idle, carried), 4)
    assert taken.tolist() == [0, 3, -1, -1]


def test_the_largest_part_alone_keeps_numbers_within_64_bits(monkeypatch):
    """Parts that share no run are best each by itself, and a chart of many such parts is no larger than one of them."""
    runs = runs_of(np.tile(np.indices((12, 6))[1] // 3, (1, 40)))
    table = links.possible_links(runs, strand=0, carry=2, idle=1)
    whole = match.best_links(table, len(runs)).tolist()
    assert match._largest_part(table, len(runs)) == 11
    small = match._scale(table, 11).none
    monkeypatch.setattr(match, "FEW", 0)
    monkeypatch.setattr(match, "SAFE", small + 1)
    monkeypatch.setattr(match, "_one_by_one", None)
    assert match.best_links(table, len(runs)).tolist() == whole


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
