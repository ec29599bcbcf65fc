"""Every total of a plan against the definition worked out afresh, as an assignment problem for scipy's solver.

Nothing of the package is used but the chart's own values: runs are read from the text, limits are resolved, links are
priced and yarn is measured here a second time.
"""

import numpy as np
import pytest
from charts_drawn import GAUGE
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from lintarsia.chart import Chart, Colour, Limits, Side, Technique, Worked
from lintarsia.grid import build_grid
from lintarsia.planning.planner import make_plan

STITCH, ROW, TAIL = 100 / 22, 100 / 30, 150  # mm
LOOP = 4.1 * STITCH  # Munden, wet-relaxed; the constant from memory
STEP = 10**6  # one carried stitch outweighs all idle rows, one supply all carried stitches
NEVER = 10.0**15
LIMITS = st.builds(Limits, **{k: st.sampled_from([None, 0, 1, 2, 5]) for k in ("strand", "carry", "idle")})
GRIDS = st.tuples(st.integers(1, 10), st.sampled_from(["AB", "ABC.", "AAB", "AAAB."])).flatmap(
    lambda pair: st.lists(st.text(pair[1], min_size=pair[0], max_size=pair[0]), min_size=1, max_size=7)
)


def runs_of(rows: list[str], worked: Worked, first: Side) -> list[dict]:
    runs, done = [], 0
    for index, text in enumerate(rows):
        leftward = worked is Worked.ROUND or (index % 2 == 0) == (first is Side.RS)
        cells = [(column, symbol) for column, symbol in enumerate(text) if symbol != "."]
        last = None
        for column, symbol in reversed(cells) if leftward else cells:
            if symbol != last:
                runs.append({"row": index, "symbol": symbol, "in": column, "stitches": 0, "before": done})
            runs[-1]["out"] = column
            runs[-1]["stitches"] += 1
            done, last = done + 1, symbol
    return runs


def price(a: dict, b: dict, worked: Worked, strand, carry, idle) -> tuple[int, int] | None:
    between, waited = b["before"] - a["before"] - a["stitches"], b["row"] - a["row"] - 1
    if worked is Worked.ROUND or waited < 0:
        return (between, max(waited, 0)) if strand is None or between <= strand else None
    apart = abs(b["in"] - a["out"])
    fits = (carry is None or apart <= carry) and (idle is None or waited <= idle)
    return (apart, waited) if fits else None


def resolved(technique: Technique, own: Limits) -> list[int | None]:
    """strand, carry, idle: the chart's own, else the technique's (2.5 cm of float are 5 stitches of 4.5 mm)."""
    usual = {
        Technique.INTARSIA: (0, 3, 2),
        Technique.MIXED: (5, 3, 2),
        Technique.STRANDED: (None, None, None),
    }[technique]
    return [u if o is None else o for o, u in zip((own.strand, own.carry, own.idle), usual, strict=True)]


@settings(max_examples=150, deadline=None)
@given(GRIDS, st.sampled_from(list(Worked)), st.sampled_from(list(Technique)), st.sampled_from(list(Side)), LIMITS)
def test_totals(rows, worked, technique, first, limits):
    if worked is Worked.ROUND:
        first = Side.RS
    runs = runs_of(rows, worked, first)
    if not runs:
        return
    count, bounds = len(runs), resolved(technique, limits)
    costs = np.full((count, 2 * count), NEVER)
    steps = {}
    for i, a in enumerate(runs):
        costs[i, count + i] = float(STEP) * STEP  # the supply ends here
        for j in range(i + 1, count):
            step = price(a, runs[j], worked, *bounds) if a["symbol"] == runs[j]["symbol"] else None
            if step:
                steps[i, j] = step
                costs[i, j] = step[0] * STEP + step[1]
    pairs = [(int(i), int(j)) for i, j in zip(*linear_sum_assignment(costs), strict=True)]
    taken = [steps[pair] for pair in pairs if pair[1] < count]
    supplies, carried, idle = count - len(taken), sum(s[0] for s in taken), sum(s[1] for s in taken)
    stitches = sum(run["stitches"] for run in runs)

    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABC"}
    grid = build_grid(rows, "ABC")
    chart = Chart("x", "x", GAUGE, key, grid, worked, first, technique, limits=limits)
    totals = make_plan(chart).totals
    assert (totals.supplies, totals.carried, totals.idle) == (supplies, carried, idle)
    assert (totals.ends, totals.stitches) == (2 * supplies, stitches)
    length = stitches * LOOP + carried * STITCH + idle * ROW + supplies * 2 * TAIL
    assert totals.metres == pytest.approx(length / 1000)
