"""How long a site of many charts takes, beside bare MkDocs with the same theme and as many pages; and how much memory.

    python benchmarks/site_speed.py [--charts 1000] [--stitches 24]

Everything is measured in one run, each build in a process of its own, and told as ratios: the machine does not matter.
Bare MkDocs is measured with a paragraph a page (what it costs to make a page at all): as it comes, no setting made but
the theme, and with its navigation and its search turned off; then with finished pages as large as ours put in by a hook
(the cheapest way to publish them), and with --whole as large ones in the Markdown files (the way that needs no code).
The aim is twice the first; README.md tells what it came to.
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
hooks: [{hook}]
"""
LEAN = """\
plugins: []
not_in_nav: "*"
nav: [index.md]
"""
# The theme asks for what our plugin puts into the page; a hook gives it the same without any chart. Where there are
# contents, they are put in last, as our plugin does: the cheapest way there is.
HOOK = """\
from pathlib import Path

CONTENTS = Path({contents!r})


def on_page_context(context, page, config, nav):
    context.update(links=dict(home="#", rules="#", guide="#", search="#", report="#"),
                   asset=lambda name: name, about="", picture="", is_chart=False, is_home=False, scripts=(), guides=())
    return context


def on_post_page(output, page, config):
    file = CONTENTS / (page.file.name + ".html")
    return output.replace("HERE", file.read_text(), 1) if file.exists() else output
"""


SHORT = "bare MkDocs as it comes, a paragraph a page"
LEANER = "the same without navigation and search"
INJECTED = "bare MkDocs, pages as large, put in by a hook"
WHOLE = "bare MkDocs, pages as large, in Markdown"
OURS = "lintarsia site"


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


def bare(folder: Path, texts: list[str], theme: Path, contents: Path, *, lean: bool = False) -> list[str]:
    """Prepare a bare MkDocs site of Markdown `texts`; the command that builds it."""
    docs = folder / "docs"
    docs.mkdir(parents=True)
    (docs / "index.md").write_text("# Index\n")
    for n, text in enumerate(texts):
        (docs / f"field-{n:04}.md").write_text(f"# Field {n}\n\n{text}\n")
    (folder / "hook.py").write_text(HOOK.format(contents=str(contents)))
    config = MKDOCS.format(out=folder / "out", theme=theme, hook=folder / "hook.py") + (LEAN if lean else "")
    (folder / "mkdocs.yml").write_text(config)
    return [sys.executable, "-m", "mkdocs", "build", "--quiet", "--config-file", str(folder / "mkdocs.yml")]


def timed(command: list[str], compiled: Path) -> tuple[float, float, float]:
    """Wall seconds, processor seconds, and the peak of the largest process in MB. `compiled` keeps what Python has
    compiled, as an installation does, even where the environment forbids it."""
    code = (
        "import subprocess, resource, sys; code = subprocess.call(sys.argv[1:]); "
        "own = resource.getrusage(resource.RUSAGE_CHILDREN); "
        "print(own.ru_utime + own.ru_stime, own.ru_maxrss / 1024); sys.exit(code)"
    )
    environment = {**os.environ, "PYTHONPYCACHEPREFIX": str(compiled)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    start = time.perf_counter()
    done = subprocess.run(
        [sys.executable, "-c", code, *command], check=True, capture_output=True, text=True, env=environment
    )
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
    from lintarsia.ground.resources import resource as shipped

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
        nothing, contents = root / "nothing", root / "contents"
        contents.mkdir()
        compiled = root / "compiled"
        for once in (bare(root / "once", [paragraph], theme, nothing), site("tenth", "out-once")):
            timed(once, compiled)
        times = {SHORT: timed(bare(root / "short", [paragraph] * wanted.charts, theme, nothing), compiled)}
        leaner = bare(root / "lean", [paragraph] * wanted.charts, theme, nothing, lean=True)
        times[LEANER] = timed(leaner, compiled)
        times[OURS] = timed(site("charts", "out"), compiled)
        times[f"{OURS}, a tenth of the charts"] = timed(site("tenth", "out-tenth"), compiled)
        bodies = []
        for page in sorted((root / "out" / "charts").glob("*.html")):
            bodies.append(page.read_text().split('<main id="content">')[1].split("</main>")[0].strip())
            (contents / page.name).write_text(bodies[-1])
        injected = bare(root / "injected", ["HERE"] * wanted.charts, theme, contents, lean=True)
        times[INJECTED] = timed(injected, compiled)
        if wanted.whole:
            times[WHOLE] = timed(bare(root / "whole", bodies, theme, nothing, lean=True), compiled)
        size = sum(f.stat().st_size for f in (root / "out").rglob("*") if f.is_file())
    kind = f"{wanted.charts} charts of {wanted.stitches} x {wanted.stitches}"
    print(f"{kind}, {os.cpu_count()} cores, {size / 1e6:.0f} MB of pages and pictures")
    base = times[SHORT]
    for name, (wall, processor, peak) in times.items():
        told = f"{wall:7.2f} s wall  {processor:7.2f} s processor  {peak:5.0f} MB peak"
        print(f"{name:45} {told}  x {wall / base[0]:.2f} wall  x {processor / base[1]:.2f} processor")


if __name__ == "__main__":
    main()
