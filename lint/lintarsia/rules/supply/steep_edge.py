"""supply/steep-edge: edges that slant further in one row than a yarn can be carried."""

from collections.abc import Iterator

import numpy as np

from lintarsia.chart import Chart, Worked
from lintarsia.planning.cover.links import travel
from lintarsia.planning.threads import Ints, Threads
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.planned import Stretch, stretch
from lintarsia.telling.counts import count
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="supply/steep-edge",
    level=Level.WARNING,
    summary="an edge slants further in one row than a yarn can be carried, so that it is cut and joined anew",
    why=(
        "The yarn waits at the edge where the row below left it. If the block's next row begins many stitches further "
        "on, the yarn would have to lie loose across them; instead it is cut and joined again: two ends more, and a "
        "gap at the edge to close."
    ),
    remedy="step the edge over several rows, or allow a longer carry (limits: carry), or accept the two ends",
    keys={"cut-and-rejoined": "the block goes on, but its yarn is cut below the step and joined above it"},
    sources=(
        "common practice: several stitches at once need the new yarn crossed ahead",
        "how far a yarn may be carried is published nowhere; as far as the longest float is a house value, `carry` in "
        "the limits",
    ),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each join right above a finish of the same block. In the round no yarn turns: none is carried."""
    chart = work.chart
    carry = work.bounds.carry
    if chart.worked is Worked.ROUND or carry is None:
        return
    for below, above in cut_and_rejoined(work.plan.threads):
        yield _finding(chart, work.plan.threads, below, above, carry)


def cut_and_rejoined(threads: Threads) -> list[tuple[int, int]]:
    """Pairs of runs: a supply finishes with the first, the next row's run of the colour right above joins another."""
    runs = threads.runs

    def placed(at: Ints) -> Iterator[tuple[int, int, int]]:
        """Runs with their row and colour."""
        return zip(at.tolist(), runs.row[at].tolist(), runs.colour[at].tolist(), strict=True)

    ended: dict[tuple[int, int], list[int]] = {}
    for run, row, colour in placed(threads.last):
        ended.setdefault((row + 1, colour), []).append(run)
    pairs = []
    for above, row, colour in placed(threads.first):
        below = [
            run
            for run in ended.get((row, colour), ())
            if runs.left[run] <= runs.right[above] and runs.right[run] >= runs.left[above]
        ]
        if below:
            pairs.append((min(below, key=lambda run: (abs(runs.exit[run] - runs.entry[above]), run)), above))
    return pairs


def _finding(chart: Chart, threads: Threads, below: int, above: int, carry: int) -> Finding:
    runs = threads.runs
    row, start, end = int(runs.row[above]) + 1, int(runs.exit[below]), int(runs.entry[above])
    symbol = chart.grid.symbols[int(runs.colour[above])]
    grows = bool(runs.left[above] <= start <= runs.right[above])
    place = _step(chart, row, start, end, grows)
    moves = int(travel(runs, np.array([below]), np.array([above]))[0])
    message = (
        f"the edge of {colour_and_symbol(chart, symbol)} moves {count(moves, 'stitch')} "
        f"from row {row - 1} to row {row}; the yarn can be carried {carry}, so it is cut and joined anew"
    )
    return Finding("cut-and-rejoined", message, place.region, row, place.stitches, pattern=place.text)


def _step(chart: Chart, row: int, start: int, end: int, grows: bool) -> Stretch:
    """The stitches of the step in the new row: those that the block gains there where it grows, else those it loses."""
    toward = 1 if start < end else -1
    first, last = (start + toward, end) if grows else (start, end - toward)
    return stretch(chart, row, min(first, last), max(first, last))
