"""Every total of a plan against the definition worked out afresh and two independent solvers.

`scipy.optimize.linear_sum_assignment` takes it as an assignment, `networkx.network_simplex` as a flow. Nothing of the
package is used but the chart's own values: runs are read from the text, limits are resolved, links are priced and yarn
is measured here a second time.
"""

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linear_sum_assignment

from lintarsia.chart import Chart, Colour, Gauge, Limits, Side, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan

GAUGE = Gauge(22, 30, Length(10, "cm"))
STITCH, ROW, TAIL = 100 / 22, 100 / 30, 150  # mm
LOOP = 4.1 * STITCH  # Munden, wet-relaxed; the constant from memory
STEP = 10**3  # an idle row outweighs all carried stitches, a link at all every idle row, staying in a block all links
NEVER = 10.0**15
LIMITS = st.builds(Limits, **{k: st.sampled_from([None, 0, 1, 2, 5]) for k in ("strand", "carry", "idle")})
GRIDS = st.tuples(st.integers(1, 10), st.sampled_from(["AB", "ABC.", "AAB", "AAAB."])).flatmap(
    lambda pair: st.lists(st.text(pair[1], min_size=pair[0], max_size=pair[0]), min_size=1, max_size=7)
)


def runs_of(rows: list[str], worked: Worked, first: Side) -> list[dict]:
    runs: list[dict] = []
    done, below = 0, None
    for index, text in enumerate(rows):
        leftward = worked is Worked.ROUND or (index % 2 == 0) == (first is Side.RS)
        cells = [(column, symbol) for column, symbol in enumerate(text) if symbol != "."]
        last = None
        shaped = changed([c for c, _ in cells], below, leftward)
        for column, symbol in reversed(cells) if leftward else cells:
            if symbol != last:
                runs.append({"row": index, "symbol": symbol, "in": column, "stitches": 0, "before": done})
                runs[-1] |= {"shaped": shaped, "columns": set()}
            runs[-1]["out"] = column
            runs[-1]["columns"].add(column)
            runs[-1]["stitches"] += 1
            done, last = done + 1, symbol
        below = [column for column, _ in cells]
    for run in runs:  # no-stitch cells do not break it
        run["columns"] = set(range(min(run["columns"]), max(run["columns"]) + 1))
    return runs


def changed(now: list[int], was: list[int] | None, leftward: bool) -> set[int]:
    """The columns that a row gains or loses at the edge where it starts."""
    if not now or not was:
        return set()
    if leftward:
        return set(range(min(now[-1], was[-1]) + 1, max(now[-1], was[-1]) + 1))
    return set(range(min(now[0], was[0]), max(now[0], was[0])))


def price(a: dict, b: dict, worked: Worked, strand, carry, idle) -> tuple[bool, int, int] | None:
    """(stays in its block, rows, stitches); without bounds on strand and carry a yarn is in every block."""
    between, waited = b["before"] - a["before"] - a["stitches"], b["row"] - a["row"] - 1
    stays = waited < 0 or (waited == 0 and not a["columns"].isdisjoint(b["columns"]))
    stays |= strand is None and (worked is Worked.ROUND or carry is None)
    if worked is Worked.ROUND or waited < 0:
        return (stays, max(waited, 0), between) if strand is None or between <= strand else None
    passed = set(range(min(a["out"], b["in"]), max(a["out"], b["in"]) + 1))
    apart = max(0, len(passed) - 1 - len(passed & b["shaped"]))
    fits = (carry is None or apart <= carry) and (idle is None or waited <= idle)
    return (stays, waited, apart) if fits else None


def resolved(technique: Technique, own: Limits) -> list[int | None]:
    """strand, carry, idle: the chart's own, else the technique's (2.5 cm of float are 5 stitches of 4.5 mm)."""
    usual = {
        Technique.INTARSIA: (0, 5, 2),
        Technique.MIXED: (5, 5, 2),
        Technique.STRANDED: (None, None, None),
    }[technique]
    assert own.carry is None or isinstance(own.carry, int)
    return [u if o is None else o for o, u in zip((own.strand, own.carry, own.idle), usual, strict=True)]


Steps = dict[tuple[int, int], tuple[bool, int, int]]


def steps_of(runs: list[dict], worked: Worked, bounds: list[int | None]) -> Steps:
    """(stays, rows, stitches) of every way that a supply may go, by the two runs."""
    steps = {}
    if worked is Worked.ROUND and bounds[0] is not None and bounds[0] >= runs[-1]["before"]:
        bounds = [None, *bounds[1:]]  # no two runs have as much between them: nothing is bounded
    for i, a in enumerate(runs):
        for j in range(i + 1, len(runs)):
            step = price(a, runs[j], worked, *bounds) if a["symbol"] == runs[j]["symbol"] else None
            if step:
                steps[i, j] = step
    return steps


def cost(stays: bool, rows: int, stitches: int) -> int:
    return (0 if stays else STEP**3) + rows * STEP + stitches


ENDS = STEP**3 + STEP**2  # a run that nothing follows: it does not go on, and its supply ends


def by_scipy(count: int, steps: Steps) -> tuple[int, int, int, int]:
    """(links that stay, supplies, rows, stitches) of the cheapest assignment of runs to what follows them."""
    costs = np.full((count, 2 * count), NEVER)
    costs[np.arange(count), count + np.arange(count)] = ENDS
    for at, step in steps.items():
        costs[at] = cost(*step)
    pairs = [(int(i), int(j)) for i, j in zip(*linear_sum_assignment(costs), strict=True)]
    taken = [steps[pair] for pair in pairs if pair[1] < count]
    return sum(s[0] for s in taken), count - len(taken), sum(s[1] for s in taken), sum(s[2] for s in taken)


def by_networkx(count: int, steps: Steps) -> tuple[int, int, int, int]:
    """The same as a flow: a unit enters at each run's end and leaves at each run's start, by a step or around it."""
    net = nx.DiGraph()
    for run in range(count):
        net.add_node(("end", run), demand=-1)
        net.add_node(("start", run), demand=1)
        net.add_edge(("end", run), "around", weight=ENDS)
        net.add_edge("around", ("start", run), weight=0)
    net.add_node("around", demand=0)
    for (i, j), step in steps.items():
        net.add_edge(("end", i), ("start", j), weight=cost(*step), capacity=1)
    total, _ = nx.network_simplex(net)
    astray, rest = divmod(total, STEP**3)
    supplies, rest = divmod(rest, STEP**2)
    return count - astray, supplies, *divmod(rest, STEP)


def planned(rows: list[str], worked: Worked, first: Side, technique: Technique, limits: Limits) -> Plan:
    key = {symbol: Colour(symbol, symbol, "#000000") for symbol in "ABC"}
    return make_plan(Chart("x", "x", GAUGE, key, build_grid(rows, "ABC"), worked, first, technique, limits=limits))


@settings(max_examples=150, deadline=None)
@given(GRIDS, st.sampled_from(list(Worked)), st.sampled_from(list(Technique)), st.sampled_from(list(Side)), LIMITS)
def test_totals_are_those_of_the_solvers(
    rows: list[str], worked: Worked, technique: Technique, first: Side, limits: Limits
) -> None:
    if worked is Worked.ROUND:
        first = Side.RS
    runs = runs_of(rows, worked, first)
    if not runs:
        return
    steps = steps_of(runs, worked, resolved(technique, limits))
    found = by_scipy(len(runs), steps)
    assert by_networkx(len(runs), steps) == found
    plan = planned(rows, worked, first, technique, limits)
    totals = plan.totals
    assert (totals.continued, totals.supplies, totals.idle, totals.carried) == found
    _, supplies, idle, carried = found
    stitches = sum(run["stitches"] for run in runs)
    assert (totals.ends, totals.stitches) == (2 * supplies, stitches)
    edges = [[run for run in runs if run["row"] == runs[k]["row"]] for k in (0, -1)]  # cast on, bound off
    joined = plan.rows[runs[0]["row"]].needs
    length = stitches * LOOP + carried * STITCH + idle * ROW + supplies * 2 * TAIL + joined * TAIL
    length += sum(run["stitches"] for edge in edges for run in edge) * 3 * STITCH
    assert totals.metres == pytest.approx(length / 1000)


@pytest.mark.parametrize("bounds", [(0, 3, 2), (5, 3, 2), (1, 0, 0)], ids=str)
def test_a_larger_chart_of_speckles(bounds: tuple[int, int, int]) -> None:
    """Where nearly every run has a choice, and the choices are tied to each other over the whole chart."""
    symbols = np.array(list("ABC"))
    rows = ["".join(line) for line in symbols[np.random.default_rng(4).integers(0, 3, (20, 24))]]
    runs = runs_of(rows, Worked.FLAT, Side.RS)
    steps = steps_of(runs, Worked.FLAT, list(bounds))
    found = by_scipy(len(runs), steps)
    assert by_networkx(len(runs), steps) == found
    plan = planned(
        rows, Worked.FLAT, Side.RS, Technique.INTARSIA, Limits(strand=bounds[0], carry=bounds[1], idle=bounds[2])
    )
    totals = plan.totals
    assert (totals.continued, totals.supplies, totals.idle, totals.carried) == found
