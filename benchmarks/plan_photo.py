"""Plan a 300 × 400 chart of 12 colours, cold, against a cold process that only loads the YAML and labels its colours.

    python benchmarks/plan_photo.py [--repeat 5] [--kind photograph] [--rows 300] [--stitches 400]

The yardstick process does `yaml.load(…, CSafeLoader)` and `scipy.ndimage.label` over one mask a colour, and nothing
else. The other is the whole of `lintarsia plan FILE --format json`. The two run in turn; shown are the medians and the
ratio, by the wall clock and by processor time (which other programs on the machine disturb less), and the peak memory.
"""

import argparse
import os
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from pictures import KINDS, chart_text, picture

YARDSTICK = """
import sys, numpy as np, yaml
from scipy import ndimage
with open(sys.argv[1], encoding="utf-8") as file:
    chart = yaml.load(file, yaml.CSafeLoader)
cells = np.array([list(row) for row in chart["chart"].split()])
print(sum(ndimage.label(cells == symbol)[1] for symbol in chart["colours"]))
"""


def run(command: list[str]) -> tuple[float, float, float]:
    """Wall seconds, processor seconds and peak MB of one cold process."""
    begin = time.perf_counter()
    process = subprocess.Popen(command, stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    wall = time.perf_counter() - begin
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        sys.exit(f"{' '.join(command)} ended with {process.returncode}")
    return wall, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--repeat", type=int, default=5)
    parser.add_argument("--kind", choices=KINDS, action="append")
    parser.add_argument("--rows", type=int, default=300)
    parser.add_argument("--stitches", type=int, default=400)
    options = parser.parse_args()
    plan = [str(Path(sys.executable).parent / "lintarsia"), "plan", "--format", "json"]
    print(f"{'chart':<20} {'yardstick':>17} {'plan':>17} {'ratio':>13} {'memory':>13}")
    print(f"{'':<20} {'wall      cpu':>17} {'wall      cpu':>17} {'wall   cpu':>13} {'MB':>13}")
    with tempfile.TemporaryDirectory() as folder:
        for kind in options.kind or KINDS:
            path = Path(folder, "picture.chart.yaml")
            path.write_text(chart_text(picture(kind, options.rows, options.stitches)), encoding="utf-8")
            yardstick = [sys.executable, "-c", YARDSTICK, str(path)]
            results = [(run(yardstick), run([*plan, str(path)])) for _ in range(options.repeat)]
            (w0, c0, m0), (w1, c1, m1) = (
                [statistics.median(result[side][k] for result in results) for k in range(3)] for side in (0, 1)
            )
            print(
                f"{kind:<20} {w0:7.2f} s {c0:5.2f} s {w1:7.2f} s {c1:5.2f} s {w1 / w0:6.2f} {c1 / c0:6.2f}"
                f" {m0:6.0f} {m1:6.0f}",
                flush=True,
            )


if __name__ == "__main__":
    main()
