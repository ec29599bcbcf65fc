"""The charts whose pages `page_weight.py` weighs, and what their rows are by their own files."""

import re
from pathlib import Path

import numpy as np
from pictures import chart_text, picture

SIZES = ((24, 24), (60, 80), (150, 200))
COLOURS = 10


def held(folder: Path) -> list[str]:
    """The charts, below `folder`; their names in the order they are told of."""
    names = []
    for stitches, rows in SIZES:
        cells = picture("poster", rows, stitches, colours=COLOURS, seed=7)
        names.append(f"{stitches} × {rows}")
        (folder / f"picture-{stitches}.chart.yaml").write_text(chart_text(cells), encoding="utf-8")
    (folder / "hat.chart.yaml").write_text(hat(), encoding="utf-8")
    return [*names, "hat of 48"]


def hat() -> str:
    """144 stitches by 40 rounds, stranded, three times a band of 48 stitches in two colours a round."""
    rng = np.random.default_rng(11)
    band = np.repeat(rng.integers(0, 2, (40, 24)), 2, axis=1)
    band[::8] = 0
    rows = ["  " + "".join("ABC"[cell if row < 20 else 2 * cell] for cell in np.tile(line, 3)) for row, line in
            enumerate(band)]  # fmt: skip
    head = [
        "lintarsia: 1", "title: A hat from a seed", "worked: round", "technique: stranded",
        "gauge: {stitches: 26, rows: 30, over: 10 cm}", "colours:",
        '  A: {name: Oat, shade: "#e8dcc4"}', '  B: {name: Night, shade: "#20304f"}',
        '  C: {name: Moss, shade: "#5b7443"}', "repeat: {stitches: [1, 48], rows: [1, 40]}", "chart: |",
    ]  # fmt: skip
    return "\n".join([*head, *rows]) + "\n"


def expected(chart: str, row: int) -> list[tuple[int, str]]:
    """The runs of a row by the chart's own file: from the right, and back where it is worked flat (common practice)."""
    names = dict(re.findall(r"^  (\w): \{name: ([^,]+),", chart, re.MULTILINE))
    text = chart.rstrip("\n").split("\n")[-row].strip()
    order = text if row % 2 == 0 and "worked: flat" in chart else text[::-1]
    return [(len(run[0]), names[run[1]]) for run in re.finditer(r"(.)\1*", order)]


def joined(runs: list[list]) -> list[tuple[int, str]]:  # type: ignore[type-arg]
    """Runs of the card, those of one colour that follow one another as one: two yarns may have it."""
    found: list[tuple[int, str]] = []
    for stitches, colour in runs:
        before = found.pop() if found and found[-1][1] == colour else (0, colour)
        found.append((before[0] + stitches, colour))
    return found
