"""How fast `lintarsia check` is, as ratios to what everybody can measure in the same run.

    python benchmarks/check_speed.py [--charts 2000] [--rounds 5] [--profile]

* many: the whole process `lintarsia check FOLDER` on 2,000 charts of 24 × 24, over `yaml.load(CSafeLoader)` of the same
  files in one process (the loop alone, without its start). Aim: at most 4.
* cold: the whole process `lintarsia check FILE` on one of them, over `python -c "import yaml, numpy, jsonschema,
  click"`. Aim: at most 1.5.

Rounds are interleaved and the best of each is taken, so that a busy machine hurts both sides alike.
"""

import argparse
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

IMPORTS = "import yaml, numpy, jsonschema, click"
LOAD = """
import sys, time, yaml
from pathlib import Path
files = sorted(Path(sys.argv[1]).glob("*.chart.yaml"))
start = time.perf_counter()
for file in files:
    with open(file, "rb") as stream:
        yaml.load(stream, Loader=yaml.CSafeLoader)
print(time.perf_counter() - start)
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


def write_charts(folder: Path, number: int) -> None:
    """`number` charts, the same on every machine."""
    dice = random.Random(24)
    for i in range(number):
        rows = "".join(f"  {row}\n" for row in picture(dice))
        (folder / f"s{i:05}.chart.yaml").write_text(HEAD.format(number=i) + rows, encoding="utf-8")


def process_time(command: list[str]) -> float:
    """Seconds of a whole process, start to end. A check may find something (status 1)."""
    start = time.perf_counter()
    status = subprocess.run(command, stdout=subprocess.DEVNULL).returncode
    assert status in (0, 1), command
    return time.perf_counter() - start


def best(rounds: int, *tasks: Callable[[], float]) -> list[float]:
    """The best of some rounds for each task, rounds interleaved."""
    times = [[task() for task in tasks] for _ in range(rounds)]
    return [min(column) for column in zip(*times, strict=True)]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--charts", type=int, default=2000)
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--jobs", help="passed on; as many processes as pay unless given")
    parser.add_argument("--profile", action="store_true", help="say which part of a check costs what, in one process")
    asked = parser.parse_args()
    tool = [sys.executable, "-m", "lintarsia", "check"]
    jobs = ["--jobs", asked.jobs] if asked.jobs else []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        write_charts(folder, asked.charts)
        one = str(next(folder.iterdir()))

        def load() -> float:
            return float(subprocess.run([sys.executable, "-c", LOAD, name], capture_output=True, check=True).stdout)

        loaded, many, imports, cold = best(
            asked.rounds,
            load,
            lambda: process_time([*tool, name, "--format", "json", *jobs]),
            lambda: process_time([sys.executable, "-c", IMPORTS]),
            lambda: process_time([*tool, one]),
        )
        print(f"many: {many:.2f} s over {loaded:.2f} s = {many / loaded:.2f} (aim: at most 4)")
        print(f"cold: {cold:.3f} s over {imports:.3f} s = {cold / imports:.2f} (aim: at most 1.5)")
        if asked.profile:
            profile(folder)


def profile(folder: Path) -> None:
    """Milliseconds a chart for reading, the plan and each rule: the best of some turns of each, dearest first."""
    from collections import Counter

    import yaml

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
            note("yaml.load", lambda file=file: yaml.load(Path(file).read_bytes(), Loader=yaml.CSafeLoader))
            note("the whole check", lambda file=file: check_chart(file, None, settings))
            note("reading", lambda file=file: read_chart(file))
            chart = read_chart(file).chart
            assert chart is not None
            work = Work(chart, settings.limits, settings.tail_mm, settings.allowance)
            note("the plan's cover", lambda work=work: work.plan)
            for name, check, options in armed.checks:
                note(name, lambda check=check, work=work, options=options: list(check(work, options)))
        total.update(best_of)
    for what, seconds in total.most_common():
        print(f"{seconds / len(files) * 1000:8.3f} ms {seconds / total['yaml.load']:6.2f}  {what}")


if __name__ == "__main__":
    main()
