"""How the time of the cover grows with the chart: 64², 128², 256² and 512² stitches, in one process.

    python benchmarks/plan_growth.py [--kind photograph] [--colours 12]

Shown are processor seconds for runs and cover (best of three), and by how much they grow from one size to the next,
where the stitches grow four times. A larger chart is more of the same kind of picture, not the same picture enlarged.
"""

import argparse
import time

import numpy as np
from pictures import KINDS, SYMBOLS, picture

from lintarsia.chart import Worked
from lintarsia.chart.grid import build_grid
from lintarsia.planning.cover import best_cover
from lintarsia.planning.runs import find_runs


def seconds(cells: np.ndarray) -> tuple[float, int, int]:
    grid = build_grid(["".join(SYMBOLS[c] for c in row) for row in cells.tolist()], SYMBOLS)
    leftward = [row % 2 == 0 for row in range(len(cells))]
    times = []
    for _ in range(3):
        begin = time.process_time()
        runs = find_runs(grid, leftward)
        cover = best_cover(runs, Worked.FLAT, strand=0, carry=3, idle=2)
        times.append(time.process_time() - begin)
    return min(times), len(runs), cover.supplies


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--kind", choices=KINDS, action="append")
    parser.add_argument("--colours", type=int, default=12)
    options = parser.parse_args()
    for kind in options.kind or KINDS:
        print(f"{kind}, {options.colours} colours")
        before = None
        for size in (64, 128, 256, 512):
            taken, runs, supplies = seconds(picture(kind, size, size, options.colours))
            growth = f"× {taken / before:.1f}" if before else ""
            per = taken / runs * 1e6
            print(f"  {size:>3}²  {runs:>7} runs {supplies:>6} supplies {taken:8.4f} s  {per:5.1f} µs/run  {growth}")
            before = taken


if __name__ == "__main__":
    main()
