"""How long a site of many charts takes, beside bare MkDocs with the same theme and as many pages; and how much memory.

    python benchmarks/site_speed.py [--charts 1000] [--stitches 24]

Everything is measured in one run, each build in a process of its own, and told as ratios: the machine does not matter.
Bare MkDocs is measured twice: with a paragraph a page (what it costs MkDocs to make a page at all), and with pages that
hold as much as ours do, written in the Markdown files (what it would cost to publish these pages with MkDocs alone).
"""

import argparse
import os
import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

CHART = """\
lintarsia: 1
title: Field {number}
worked: flat
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours:
  B: {{name: Dusk blue, shade: "#27406b"}}
  W: {{name: Bone, shade: "#efe9dc"}}
  G: {{name: Moss, shade: "#5b7443"}}
  R: {{name: Rust, shade: "#b4552d"}}
chart: |
{rows}
"""
MKDOCS = """\
site_name: Bare
site_dir: {out}
use_directory_urls: false
theme: {{name: null, custom_dir: {theme}}}
plugins: []
not_in_nav: "*"
nav: [index.md]
"""
# The theme asks for what our plugin puts into the page; a hook gives it the same without any chart.
HOOK = """\
def on_page_context(context, page, config, nav):
    context.update(links=dict(home="#", rules="#", guide="#", search="#"), asset=lambda name: name, about="", picture="",
                   is_chart=False, is_home=False, scripts=(), guides=())
    return context
"""


def make_charts(folder: Path, number: int, side: int) -> None:
    """Fields with four diamonds each, reproducible."""
    for n in range(number):
        chance = random.Random(n)
        grid = [["B"] * side for _ in range(side)]
        for _ in range(4):
            x, y, reach, symbol = (
                chance.randrange(side),
                chance.randrange(side),
                chance.randrange(2, 7),
                chance.choice("WGR"),
            )
            for row in range(side):
                for column in range(side):
                    if abs(column - x) + abs(row - y) <= reach:
                        grid[row][column] = symbol
        rows = "\n".join("  " + "".join(row) for row in grid)
        (folder / f"field-{n:04}.chart.yaml").write_text(CHART.format(number=n, rows=rows))


def bare(folder: Path, contents: list[str], theme: Path) -> list[str]:
    """Prepare a bare MkDocs site; the command that builds it."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    (docs / "index.md").write_text("# Index\n")
    for n, content in enumerate(contents):
        (docs / f"field-{n:04}.md").write_text(f"# Field {n}\n\n{content}\n")
    (folder / "hook.py").write_text(HOOK)
    config = MKDOCS.format(out=folder / "out", theme=theme) + f"hooks: [{folder / 'hook.py'}]\n"
    (folder / "mkdocs.yml").write_text(config)
    return [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(folder / "mkdocs.yml")]


def timed(command: list[str]) -> tuple[float, float, float]:
    """Wall seconds, processor seconds, and the peak of the largest process in MB."""
    code = (
        "import subprocess, resource, sys; code = subprocess.call(sys.argv[1:]); "
        "own = resource.getrusage(resource.RUSAGE_CHILDREN); "
        "print(own.ru_utime + own.ru_stime, own.ru_maxrss / 1024); sys.exit(code)"
    )
    start = time.perf_counter()
    done = subprocess.run([sys.executable, "-c", code, *command], check=True, capture_output=True, text=True)
    wall = time.perf_counter() - start
    processor, peak = map(float, done.stdout.split()[-2:])
    return wall, processor, peak


def main() -> None:
    """Build, compare, print."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--charts", type=int, default=1000)
    parser.add_argument("--stitches", type=int, default=24)
    parser.add_argument("--whole", action="store_true", help="also bare MkDocs with pages as large as ours (slow)")
    wanted = parser.parse_args()
    from lintarsia.resources import resource as shipped

    theme = shipped("site") / "theme"
    with tempfile.TemporaryDirectory() as scratch:
        root = Path(scratch)
        (root / "charts").mkdir()
        make_charts(root / "charts", wanted.charts, wanted.stitches)
        (root / "tenth").mkdir()
        make_charts(root / "tenth", wanted.charts // 10, wanted.stitches)

        def site(charts: str, out: str) -> list[str]:
            return [sys.executable, "-m", "lintarsia", "site", str(root / charts), "--output", str(root / out)]

        paragraph = "A paragraph about this page, as long as such paragraphs are."
        builds = [("bare MkDocs, a paragraph a page", bare(root / "short", [paragraph] * wanted.charts, theme))]
        builds += [("lintarsia site", site("charts", "out"))]
        builds += [("lintarsia site, a tenth of the charts", site("tenth", "out-tenth"))]
        times = {name: timed(command) for name, command in builds}
        if wanted.whole:
            pages = sorted((root / "out" / "charts").glob("*.html"))
            bodies = [page.read_text().split('<main id="content">')[1].split("</main>")[0].strip() for page in pages]
            name = "bare MkDocs, pages as large as ours"
            times[name] = timed(bare(root / "whole", bodies, theme))
        size = sum(f.stat().st_size for f in (root / "out").rglob("*") if f.is_file())
    base = times[builds[0][0]]
    print(
        f"{wanted.charts} charts of {wanted.stitches} x {wanted.stitches}, {os.cpu_count()} cores, {size / 1e6:.0f} MB of pages"
    )
    for name, (wall, processor, peak) in times.items():
        print(f"{name:40} {wall:7.2f} s wall {processor:7.2f} s processor {peak:6.0f} MB peak   x {wall / base[0]:.2f}")


if __name__ == "__main__":
    main()
