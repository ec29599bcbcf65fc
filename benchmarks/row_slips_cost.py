"""What setting the sizes of patterns beside each other costs `lintarsia check`: a ratio to the same check without it.

    python benchmarks/row_slips_cost.py

Patterns of one piece in three sizes, each with a chart of its own: motifs of row_slip_pictures.py on a ground that
grows. In every `--slips`th one a row has slipped. Both checks are made in turn in one process, the best of `--rounds`
is taken, in seconds of the processor.
"""

import argparse
import random
import tempfile
import time
from pathlib import Path

from row_slip_patterns import KINDS, Sizes, pattern, planted
from row_slip_pictures import Picture, drawn, glyphs

from lintarsia.engine import check_paths
from lintarsia.settings import SettingsFinder

WITHOUT = "overrides:\n  - {paths: ['*.pattern.yaml'], rules: {grid/row-slip: off}}\n"
NAMES = ("small", "medium", "large")
HEAD = """\
lintarsia: 1
title: {title}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
  R: {{name: Rust, shade: "#a4502b"}}
  G: {{name: Moss, shade: "#4c5f45"}}
  K: {{name: Peat, shade: "#2d2622"}}
chart: |
"""


def write(folder: Path, motifs: list[Picture], every: int) -> None:
    """A folder for each pattern, so that no chart lies beside another pattern."""
    rng = random.Random(len(motifs))
    for number, motif in enumerate(motifs):
        sizes: Sizes = pattern(motif, rng)
        if number % every == 0 and (case := planted(motif, rng.choice(KINDS), rng)) is not None:
            sizes = case.sizes
        own = folder / str(number)
        own.mkdir()
        for name, cells in zip(NAMES, sizes, strict=True):
            grid = "".join(f"  {''.join('BWRGK'[code] for code in row)}\n" for row in cells[::-1].tolist())
            (own / f"{name}.chart.yaml").write_text(HEAD.format(title=f"Motif {number}") + grid)
        charts = ", ".join(f"{name}: {name}.chart.yaml" for name in NAMES)
        text = f"lintarsia-pattern: 1\ntitle: Motif {number}\nsizes: [{', '.join(NAMES)}]\npieces:\n"
        (own / "motif.pattern.yaml").write_text(f"{text}  front: {{chart: {{{charts}}}}}\n")


def seconds(folder: Path) -> float:
    started = time.process_time()
    check_paths([str(folder)], settings=SettingsFinder().for_folder(str(folder)), jobs=1)
    return time.process_time() - started


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--patterns", type=int, default=60)
    parser.add_argument("--rounds", type=int, default=7)
    parser.add_argument("--slips", type=int, default=10)
    given = parser.parse_args()
    for name, motifs in (("drawn motifs", drawn(given.patterns, 5)), ("glyphs", glyphs(given.patterns, 5))):
        with tempfile.TemporaryDirectory() as made:
            folder = Path(made)
            taken: dict[bool, list[float]] = {True: [], False: []}
            write(folder, motifs, given.slips)
            for _ in range(given.rounds):
                for on in (True, False):
                    (folder / "lintarsia.yaml").write_text("" if on else WITHOUT)
                    taken[on].append(seconds(folder))
        ratio = min(taken[True]) / min(taken[False])
        print(
            f"{name}: {len(motifs)} patterns, {min(taken[True]):.3f} s, {min(taken[False]):.3f} s without: {ratio:.3f}"
        )


if __name__ == "__main__":
    main()
