"""Charts of necks of four kinds, drawn by lot: round and bound off, round and held, V, slit; lopsided throughout."""

import random
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.reading import read_chart

KINDS = ("round-off", "round-held", "v", "slit")
ORDERS = ("together", "right-first", "left-first")
HEAD = """\
lintarsia: 1
title: Neck
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c8b89a"}
  B: {name: Pebble, shade: "#5a5f66"}
  C: {name: Kelp, shade: "#3f6b3a"}
  D: {name: Foam, shade: "#e9eef0"}
"""


class Neck(NamedTuple):
    """`rows` bottom-up as printed, `parted` the first row in two sides, `left` and `right` the columns of each side by
    row, (first, last + 1)."""

    chart: Chart
    text: str
    rows: list[str]
    parted: int
    left: dict[int, tuple[int, int]]
    right: dict[int, tuple[int, int]]
    shaping: dict[int, dict[str, int]]

    def half(self, row: int, half: str) -> str:
        """A side's stitches as printed."""
        return self.rows[row - 1][slice(*(self.left if half == "left" else self.right)[row])]


def neck(kind: str, order: str, lot: random.Random, *, apart: bool = False) -> Neck:
    """A neck of that kind. `apart`: the sides share no colour with the body below, so that no yarn goes into them."""
    left, right, gap = lot.randint(3, 6), lot.randint(7, 10), 0 if kind in ("v", "slit") else lot.randint(2, 5)
    width, body, high = left + gap + right, lot.randint(1, 4), lot.randint(3, 7)
    rows = [_row(lot, width, "AB") for _ in range(body)]
    inner = {"left": left, "right": left + gap}
    columns: dict[str, dict[int, tuple[int, int]]] = {"left": {}, "right": {}}
    shaping: dict[int, dict[str, int]] = {}
    for row in range(body + 1, body + high + 1):
        for half, step in (("left", -1), ("right", 1)) if row > body + 1 and kind != "slit" else ():
            size = inner["left"] if half == "left" else width - inner["right"]
            if lot.random() < 0.5 and size > 2:
                inner[half] += step
                shaping.setdefault(row, {})[f"neck-{half}"] = -1
        columns["left"][row], columns["right"][row] = (0, inner["left"]), (inner["right"], width)
        line = _row(lot, width, "CD" if apart else "ABC")
        rows.append(line[: inner["left"]] + "." * (inner["right"] - inner["left"]) + line[inner["right"] :])
    by = {"round-off": "bind-off", "round-held": "hold"}.get(kind, "nothing")
    at = f", at: {right}" if by == "nothing" else ""
    text = HEAD + f"first-row: {lot.choice(['RS', 'WS'])}\ndivide: {{{body + 1}: {{by: {by}, sides: {order}{at}}}}}\n"
    if shaping:
        text += f"shaping: {shaping}\n".replace("'", "")
    text += "chart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    reading = read_chart("neck.chart.yaml", text.encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return Neck(reading.chart, text, rows, body + 1, columns["left"], columns["right"], shaping)


def side_alone(neck: Neck, half: str) -> Chart:
    """One side as a chart of its own, drawn by hand: its rows, its edge's shaping, its first row's face."""
    first, last = neck.parted, len(neck.rows)
    span = [c for row in range(first, last + 1) for c in (neck.left if half == "left" else neck.right)[row]]
    low, end = min(span), max(span)
    rows = []
    for row in range(first, last + 1):
        a, b = (neck.left if half == "left" else neck.right)[row]
        rows.append("." * (a - low) + neck.rows[row - 1][a:b] + "." * (end - b))
    edge = "right" if half == "left" else "left"
    shaping = {
        row - first + 1: {edge: change[f"neck-{half}"]}
        for row, change in neck.shaping.items()
        if f"neck-{half}" in change
    }
    text = HEAD + f"first-row: {neck.chart.side(first)}\n"
    if shaping:
        text += f"shaping: {shaping}\n".replace("'", "")
    text += "chart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    reading = read_chart("side.chart.yaml", text.encode())
    assert reading.problems == (), reading.problems
    assert reading.chart is not None
    return reading.chart


def _row(lot: random.Random, width: int, colours: str) -> str:
    """Blocks of colour, three stitches or so each."""
    line = ""
    while len(line) < width:
        line += lot.choice(colours) * lot.randint(1, 6)
    return line[:width]
