"""The rows of a chart as its page's scripts read them: colours, yarns and steps as JSON.

The list of rows is for people; a card made of a list's markup would have every page carry every row twice over in small
elements. Here a run is two numbers. Names are short because a page of two hundred rows has thousands of them:

* `colours` by number: symbol, name, shade, the ink that reads on it, a darker edge, a lighter gleam
* `holders` by number; `yarns` by number: name, number of the colour, number of the holder
* `sides`, `ways` of even and of odd rows: what faces the knitter; `left` or `right` on the chart
* `steps` in the order of working. Each has `r`, its runs: stitches and yarn in turn; and where there is any:
  `n` its name where that is not its number in the list, `h` the side of an opening and `c` its columns, `s` what is
  said of shaping, `j` joined and `f` finished yarns, `w` waiting ones and `o` those on the other side, `x` crossings,
  `m` how many hang where more do than work, `g` the first and last column of each stretch without a stitch, `a`
  stitches and times of a stretch that is repeated
"""

import json
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from lintarsia.chart import Chart
from lintarsia.drawing.cells import shade_of
from lintarsia.drawing.holders import gleam_on
from lintarsia.drawing.shades import edge_on, ink_on
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.folding import Folding
from lintarsia.publishing.pages.keyview import Key
from lintarsia.publishing.pages.steps import Step
from lintarsia.publishing.pages.words import side_words
from lintarsia.telling.languages import phrase


def rows_script(chart: Chart, plan: Plan, key: Key, listed: Sequence[tuple[Step, str]]) -> str:
    """A `<script>` of data, which no browser runs. `listed` are the steps, each with what is said of it before its
    runs."""
    number = {supply.id: at for at, supply in enumerate(plan.supplies)}
    fold, gaps = Folding(plan), _gaps(chart)
    data = {
        "colours": [[symbol, key.name[symbol], *_tones(shade_of(chart, symbol))] for symbol in key.number],
        "holders": [phrase(holder) for holder in key.holders],
        "yarns": [[s.id, key.number[s.colour], key.holders[s.holder]] for s in plan.supplies],
        "sides": [side_words(chart, row) for row in (2, 1)],
        "ways": ["left" if chart.leftward(row) else "right" for row in (2, 1)],
        "steps": [_step(plan, gaps, at, step, said, number, fold) for at, (step, said) in enumerate(listed, 1)],
    }
    # What looks like the end of a script is no end of one, and a text cannot hold one.
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":")).replace("<", "\\u003c")
    return f'<script type="application/json" data-part="rows">{text}</script>'


@lru_cache(maxsize=1024)
def _tones(shade: str) -> tuple[str, str, str, str]:
    return shade, ink_on(shade), edge_on(shade), gleam_on(shade)


def _step(
    plan: Plan, gaps: Mapping[int, list[int]], at: int, step: Step, said: str, number: Mapping[str, int], fold: Folding
) -> dict[str, Any]:  # fmt: skip
    row, runs = step.row, plan.runs
    told: dict[str, Any] = {
        "r": [part for run, by in zip(row.runs, row.by, strict=True) for part in (runs[run].stitches, number[by])]
    }
    if step.name != str(at):
        told["n"] = step.name
    if step.half and step.columns:
        told |= {"h": step.half.value, "c": step.columns}
    if said:
        told["s"] = said
    for name, supplies in (("j", row.joins), ("f", row.finishes), ("w", row.waiting), ("o", step.held)):
        if supplies:
            told[name] = [number[supply] for supply in supplies]
    if row.crossings:
        told["x"] = row.crossings
    if row.hangs > row.needs:
        told["m"] = row.hangs
    if row.row in gaps:
        told["g"] = gaps[row.row]
    folded = fold(row)
    if folded:
        told["a"] = folded[:2]
    return told


def _gaps(chart: Chart) -> dict[int, list[int]]:
    """By row: the first and last column of each stretch, in turn, that has no stitch; rows that lack none are left out.
    All others are worked, one run after the other."""
    found: dict[int, list[int]] = {}
    for row, cells in enumerate((chart.grid.cells < 0).tolist(), 1):
        if any(cells):
            edges = [False, *cells, False]
            turns = [at for at in range(len(edges) - 1) if edges[at] != edges[at + 1]]
            found[row] = [turn - at % 2 for at, turn in enumerate(turns)]
    return found
