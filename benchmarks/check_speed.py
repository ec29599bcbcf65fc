"""How fast `lintarsia check` is, as ratios to what everybody can measure in the same run.

    python benchmarks/check_speed.py [--charts 2000] [--rounds 5] [--kind slips] [--profile]

* many: the whole process `lintarsia check FOLDER` on 2,000 charts of 24 × 24, over `yaml.load(CSafeLoader)` of the same
  files in one process (the loop alone, without its start). Aim: at most 4.
* cold: the whole process `lintarsia check FILE` on one of them, over `python -c "import yaml, numpy, jsonschema,
  click"`. Aim: at most 1.5.

Rounds are interleaved and the best of each is taken, so that a busy machine hurts both sides alike. On a machine whose
cores are busy the wall clock says little: `--jobs 1` and the processor times beside it say more.

`--against CLONE/lint` sets the check of the same charts by another state of this repository beside it, in turn, both
with their bytecode stored.

Kinds of charts: `blobs` (a few blocks on a field, the usual), `slips` (the same with a lone stitch, a short row, a
colour that nobody uses), `sections` (the same with supplies, limits, written rows and duplicate stitch), `stranded`
(two colours a row in short repeats), `picture` (six colours with ragged edges and specks, some hundred results).
"""

import argparse
import os
import random
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from statistics import median
from typing import NamedTuple

IMPORTS = "import yaml, numpy, jsonschema, click"
LOAD = """
import sys, time, yaml
from pathlib import Path
files = sorted(Path(sys.argv[1]).glob("*.chart.yaml"))
start, used = time.perf_counter(), time.process_time()
for file in files:
    with open(file, "rb") as stream:
        yaml.load(stream, Loader=yaml.CSafeLoader)
print(time.perf_counter() - start, time.process_time() - used)
"""
HEAD = """\
# yaml-language-server: $schema=../schema/chart.schema.json
lintarsia: 1
title: Sampler {number}
worked: flat
technique: intarsia
gauge: {{stitches: 22, rows: 30, over: 10 cm, needle: 4 mm}}
yarns:
  sea: {{name: Fjord DK, weight: 3, length: 120 m, mass: 50 g, balls: 2, fibre: wool}}
  bone: {{name: Fjord DK, weight: 3, length: 120 m, mass: 50 g, balls: 1, fibre: wool}}
colours:
  B: {{name: Dusk blue, shade: "#27406b", yarn: sea}}
  W: {{name: Bone, shade: "#efe9dc", yarn: bone}}
  R: {{name: Rust, shade: "#a4502b", yarn: bone}}
chart: |
"""
SIZE = 24


def picture(dice: random.Random) -> list[str]:
    """A field with two or three blobs, as such motifs are drawn: edges that lean a stitch a row, no lone stitches."""
    grid = [["B"] * SIZE for _ in range(SIZE)]
    for _ in range(dice.choice((2, 3))):
        colour, top, height = dice.choice("WR"), dice.randrange(1, 14), dice.randrange(4, 10)
        left, width = dice.randrange(2, 16), dice.randrange(3, 6)
        for row in range(top, min(top + height, SIZE - 1)):
            for column in range(left, min(left + width, SIZE - 1)):
                grid[row][column] = colour
            left = min(max(left + dice.choice((-1, 0, 1)), 1), SIZE - 5)
    return ["".join(row) for row in grid]


def slips(rows: list[str], dice: random.Random) -> list[str]:
    """The same with a stitch alone in its colour, and one in three charts with a row that lost a stitch."""
    row = dice.randrange(2, SIZE - 2)
    rows[row] = rows[row][:11] + "W" + rows[row][12:]
    if dice.random() < 1 / 3:
        rows[row + 1] = rows[row + 1][1:]
    return rows


def stranded(dice: random.Random) -> list[str]:
    """Bands of small repeats in two colours a row."""
    rows: list[str] = []
    while len(rows) < SIZE:
        motif, colours = "".join(dice.choice("01") for _ in range(6)), dice.choice(("BW", "BR", "WR"))
        for turn in range(dice.randrange(2, 5)):
            line = motif[turn:] + motif[:turn]
            rows.append((line * SIZE)[:SIZE].translate({ord("0"): colours[0], ord("1"): colours[1]}))
    return rows[:SIZE]


def painted(dice: random.Random) -> list[str]:
    """Six colours in patches around random points, with ragged edges and specks."""
    points = [(dice.randrange(SIZE), dice.randrange(SIZE), symbol) for symbol in "BWRGYK" for _ in range(2)]
    rows = []
    for y in range(SIZE):
        near = [min(points, key=lambda p: (p[0] - x) ** 2 + (p[1] - y) ** 2 + dice.random() * 9) for x in range(SIZE)]
        rows.append("".join(dice.choice("BWRGYK") if dice.random() < 0.01 else point[2] for point in near))
    return rows


MORE_COLOURS = """\
  G: {name: Moss, shade: "#4f6f3a", yarn: sea}
  Y: {name: Straw, shade: "#e8c95a", yarn: bone}
  K: {name: Coal, shade: "#1d1d1f", yarn: sea}
"""
SECTIONS = """\
supplies: {B: 4, W: [{holder: butterfly, length: 9 m}, {length: 4 m}, {length: 4 m}], R: 3}
limits: {supplies: 9, float: 2.5 cm, carry: 3, idle: 2}
wearer: adult
shaping: {2: 0}
written: {1: "k24 B"}
duplicate-stitch:
- {colour: W, row: 2, stitches: [3, 5]}
suppress:
- {rule: supply/waits, justification: "left hanging with a marker"}
"""
KINDS = ("blobs", "slips", "sections", "stranded", "picture")


def chart_text(kind: str, number: int, dice: random.Random) -> str:
    """One chart file."""
    head = HEAD.format(number=number)
    if kind == "stranded":
        head, rows = head.replace("technique: intarsia", "technique: stranded"), stranded(dice)
    elif kind == "picture":
        head, rows = head.replace("chart: |\n", MORE_COLOURS + "chart: |\n"), painted(dice)
    else:
        rows = picture(dice)
        if kind == "slips":
            rows = slips(rows, dice)
        if kind == "sections":
            head = head.replace("chart: |\n", SECTIONS + "chart: |\n")
    return head + "".join(f"  {row}\n" for row in rows)


def write_charts(folder: Path, number: int, kind: str = "blobs") -> None:
    """`number` charts, the same on every machine."""
    dice = random.Random(24)
    for i in range(number):
        (folder / f"s{i:05}.chart.yaml").write_text(chart_text(kind, i, dice), encoding="utf-8")


class Taken(NamedTuple):
    """Seconds by the clock, and seconds of processor time over all cores."""

    clock: float
    work: float


def process(command: list[str], environ: dict[str, str] | None = None) -> Taken:
    """What a whole process takes, start to end. A check may find something (status 1)."""
    before, start = resource.getrusage(resource.RUSAGE_CHILDREN), time.perf_counter()
    status = subprocess.run(command, stdout=subprocess.DEVNULL, env=environ).returncode
    clock, after = time.perf_counter() - start, resource.getrusage(resource.RUSAGE_CHILDREN)
    assert status in (0, 1), command
    return Taken(clock, after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime)


def best(rounds: int, *tasks: Callable[[], Taken]) -> list[Taken]:
    """The best of some rounds for each task, rounds interleaved."""
    times = [[task() for task in tasks] for _ in range(rounds)]
    return [Taken(*map(min, zip(*column, strict=True))) for column in zip(*times, strict=True)]


def against(other: str, command: list[str], rounds: int) -> str:
    """A command by this state and by the one whose `lint` folder is `other`, each with its bytecode stored: best of the
    rounds, and what the ratio was in the middle one, which on a busy machine says more."""
    with tempfile.TemporaryDirectory() as stored:
        environ = {**os.environ, "PYTHONPYCACHEPREFIX": stored}
        environ.pop("PYTHONDONTWRITEBYTECODE", None)
        states = [{**environ, "PYTHONPATH": lint} for lint in (str(Path(__file__).parents[1] / "lint"), other)]
        for state in states:
            process(command, state)
        times = [[process(command, state) for state in states] for _ in range(rounds)]
    ours, theirs = (min(taken.work for taken in column) for column in zip(*times, strict=True))
    middle = median(one.work / another.work for one, another in times)
    return f"{ours:.3f} s over {theirs:.3f} s = {ours / theirs:.2f} of processor; {middle:.2f} in the middle; aim 1.05"


def told(what: str, ours: Taken, theirs: Taken, aim: float) -> str:
    return (
        f"{what}: {ours.clock:.3f} s over {theirs.clock:.3f} s = {ours.clock / theirs.clock:.2f} by the clock, "
        f"{ours.work:.3f} s over {theirs.work:.3f} s = {ours.work / theirs.work:.2f} of processor; aim {aim:g}"
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--charts", type=int, default=2000)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--kind", choices=KINDS, default="blobs")
    parser.add_argument("--jobs", help="passed on; as many processes as pay unless given")
    parser.add_argument(
        "--against", metavar="LINT", help="the lint folder of a clone at another commit, to compare with"
    )
    parser.add_argument("--profile", action="store_true", help="say which part of a check costs what, in one process")
    asked = parser.parse_args()
    tool = [sys.executable, "-m", "lintarsia", "check"]
    jobs = ["--jobs", asked.jobs] if asked.jobs else []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_charts(folder, asked.charts, asked.kind)
        one = str(next(folder.iterdir()))
        if asked.against:
            ratios = against(asked.against, [*tool, name, *jobs], asked.rounds)
            print(f"{asked.charts} {asked.kind}, against {asked.against}: {ratios}")
            return

        def load() -> Taken:
            done = subprocess.run([sys.executable, "-c", LOAD, name], capture_output=True, check=True)
            return Taken(*map(float, done.stdout.split()))

        loaded, many, imports, cold = best(
            asked.rounds,
            load,
            lambda: process([*tool, name, "--format", "json", *jobs]),
            lambda: process([sys.executable, "-c", IMPORTS]),
            lambda: process([*tool, one]),
        )
        print(told(f"many {asked.kind}", many, loaded, 4))
        print(told("cold", cold, imports, 1.5))
        if asked.profile:
            profile(folder)


def _loaded(file: str) -> object:
    import yaml

    return yaml.load(Path(file).read_bytes(), Loader=yaml.CSafeLoader)


def _all_of(check: Callable[..., Iterator[object]], *arguments: object) -> list[object]:
    return list(check(*arguments))


def profile(folder: Path) -> None:
    """Milliseconds a chart for reading, the plan and each rule: the best of some turns of each, dearest first."""
    from collections import Counter

    from lintarsia.engine import check_chart
    from lintarsia.reading import read_chart
    from lintarsia.rules.base import Work
    from lintarsia.settings import find_settings

    files = [str(file) for file in sorted(folder.iterdir())[:150]]
    settings = find_settings(files[0])
    armed = settings.armed(files[0])
    total: Counter[str] = Counter()
    for file in files:
        best_of: dict[str, float] = {}

        def note(what: str, task: Callable[[], object], best_of: dict[str, float] = best_of) -> None:
            start = time.perf_counter()
            task()
            best_of[what] = min(best_of.get(what, 9.0), time.perf_counter() - start)

        for _ in range(7):
            note("yaml.load", partial(_loaded, file))
            note("the whole check", partial(check_chart, file, None, settings))
            note("reading", partial(read_chart, file))
            chart = read_chart(file).chart
            assert chart is not None
            work = Work(chart, settings.reckoning)
            note("the plan's cover", partial(getattr, work, "plan"))
            for name, check, options in armed.checks:
                note(name, partial(_all_of, check, work, options))
        total.update(best_of)
    for what, seconds in total.most_common():
        print(f"{seconds / len(files) * 1000:8.3f} ms {seconds / total['yaml.load']:6.2f}  {what}")


if __name__ == "__main__":
    main()
