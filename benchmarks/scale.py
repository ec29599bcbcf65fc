"""How lintarsia scales, each figure beside a stated reference measured in the same run; results go to results.json.

    python benchmarks/scale.py cold charts stitches solvers site [--most 50000] [--repeat 3] [--write]

* cold      one small chart from a cold start, beside importing yaml, numpy, jsonschema and click, and beside yamllint
            (a linter of another field) on the same file
* charts    `check` on 1 to 50,000 charts of 24 × 24, one process, beside loading the same files with libyaml (always)
            and with yamllint (up to 1,000)
* stitches  `check` and `plan` on one chart of 64² to 1024² stitches, beside libyaml and `scipy.ndimage.label`
* solvers   the cover alone beside networkx and scipy, which solve the same links as a general problem
* site      `site` on 1,000 charts beside bare MkDocs with as many pages of a paragraph each

Shown are user seconds of the processor, the median of some rounds in which the two sides take turns, and the peak
memory of the process: the clock would mostly tell what else the machine was doing. `--write` puts the parts that were
run into results.json and leaves the others there as they are; `--tables` runs nothing and prints what the file holds.
"""

import argparse
import json
import os
import platform
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import NamedTuple

from check_speed import IMPORTS, write_charts
from pictures import SYMBOLS, chart_text, picture

RESULTS = Path(__file__).with_name("results.json")
PYTHON = sys.executable
TOOL = [PYTHON, "-m", "lintarsia"]
LOAD = """
import sys, yaml
from pathlib import Path
for file in sorted(Path(sys.argv[1]).glob("*.chart.yaml")):
    with open(file, "rb") as stream:
        yaml.load(stream, Loader=yaml.CSafeLoader)
"""
LABEL = """
import sys, numpy as np, yaml
from scipy import ndimage
with open(sys.argv[1], encoding="utf-8") as file:
    chart = yaml.load(file, yaml.CSafeLoader)
cells = np.array([list(row) for row in chart["chart"].split()])
print(sum(ndimage.label(cells == symbol)[1] for symbol in chart["colours"]))
"""


class Cost(NamedTuple):
    """User seconds of the processor, and peak memory in MB."""

    seconds: float
    memory: float


# Run by a small process in between: a child's peak memory is never told below what its parent held when it forked.
WATCH = """
import os, sys
child = os.posix_spawnp(sys.argv[1], sys.argv[1:], os.environ)
_, status, usage = os.wait4(child, 0)
print(usage.ru_utime, usage.ru_maxrss / 1024, os.waitstatus_to_exitcode(status), file=sys.stderr)
"""


def cost(command: list[str]) -> Cost:
    """What a whole process takes. A check may find something (status 1)."""
    watched = [PYTHON, "-I", "-S", "-c", WATCH, *command]
    done = subprocess.run(watched, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, check=True)
    seconds, memory, status = done.stderr.splitlines()[-1].split()
    if status not in ("0", "1"):
        sys.exit(f"{' '.join(command)} ended with {status}")
    return Cost(float(seconds), float(memory))


def medians(rounds: int, **commands: list[str]) -> dict[str, Cost]:
    """The median cost of each command, taking turns."""
    found = [{name: cost(command) for name, command in commands.items()} for _ in range(rounds)]
    return {name: Cost(*(statistics.median(one[name][k] for one in found) for k in range(2))) for name in commands}


def row(found: dict[str, Cost], of: str) -> dict[str, float]:
    """The costs as they are written, with their ratios to one of them."""
    told = {f"{name} s": round(each.seconds, 4) for name, each in found.items()}
    told |= {f"{name} MB": round(each.memory, 1) for name, each in found.items()}
    base = found[of].seconds
    return told | {f"{name} / {of}": round(each.seconds / base, 2) for name, each in found.items() if name != of}


def cold(asked: argparse.Namespace, folder: Path) -> dict[str, object]:
    write_charts(folder, 1)
    (chart,) = folder.iterdir()
    found = medians(
        max(asked.repeat, 7),
        check=[*TOOL, "check", str(chart)],
        plan=[*TOOL, "plan", str(chart)],
        version=[*TOOL, "--version"],
        imports=[PYTHON, "-c", IMPORTS],
        yamllint=[PYTHON, "-m", "yamllint", str(chart)],
        python=[PYTHON, "-c", "pass"],
    )
    return {"one chart of 24 × 24": row(found, "imports")}


def charts(asked: argparse.Namespace, folder: Path) -> dict[str, object]:
    told: dict[str, object] = {}
    number = 1
    for number in [n for n in (1, 10, 100, 1000, 10_000, 50_000) if n <= asked.most]:
        own = folder / str(number)
        own.mkdir()
        write_charts(own, number)
        commands = {
            "check": [*TOOL, "check", str(own), "--jobs", "1", "--format", "json"],
            "libyaml": [PYTHON, "-c", LOAD, str(own)],
        }
        if number <= 1000:
            commands["yamllint"] = [PYTHON, "-m", "yamllint", str(own)]
        told[f"{number:,}"] = show(number, row(medians(asked.repeat if number <= 1000 else 1, **commands), "libyaml"))
    return told


def stitches(asked: argparse.Namespace, folder: Path) -> dict[str, object]:
    told: dict[str, object] = {}
    for kind in ("poster", "soft photograph"):
        for side in (64, 128, 256, 512, 1024):
            file = folder / f"p{side}.chart.yaml"
            file.write_text(chart_text(picture(kind, side, side)), encoding="utf-8")
            found = medians(
                asked.repeat,
                check=[*TOOL, "check", str(file), "--format", "json"],
                plan=[*TOOL, "plan", str(file), "--format", "json"],
                scipy=[PYTHON, "-c", LABEL, str(file)],
            )
            told[f"{kind} {side}²"] = show(f"{kind} {side}²", row(found, "scipy"))
    return told


def solvers(asked: argparse.Namespace, folder: Path) -> dict[str, object]:
    """The same links, by general solvers: networkx's network simplex, scipy's sparse assignment."""
    from lintarsia.chart import Worked
    from lintarsia.chart.grid import build_grid
    from lintarsia.planning.cover import best_cover
    from lintarsia.planning.cover.links import possible_links
    from lintarsia.planning.runs import RunTable, find_runs

    def covered(runs: RunTable) -> tuple[int, int]:
        return own(best_cover(runs, Worked.FLAT, strand=0, carry=3, idle=2))

    told: dict[str, object] = {}
    for side in (16, 32, 64, 128):
        cells = picture("soft photograph", side, side, colours=6)
        grid = build_grid(["".join(SYMBOLS[c] for c in line) for line in cells.tolist()], SYMBOLS)
        runs = find_runs(grid, [number % 2 == 0 for number in range(side)])
        links = possible_links(runs, strand=0, carry=3, idle=2)
        tasks: dict[str, Callable[[], tuple[int, int]]] = {
            "cover": partial(covered, runs),
            "scipy": partial(by_scipy, links, len(runs)),
        }
        if side <= 64:
            tasks["networkx"] = partial(by_networkx, links, len(runs))
        found, answers = {}, set()
        for name, task in tasks.items():
            answers.add(task())  # the first turn pays for imports
            times = []
            for _ in range(asked.repeat):
                begin = time.process_time()
                answers.add(task())
                times.append(time.process_time() - begin)
            found[name] = statistics.median(times)
        assert len(answers) == 1, answers  # supplies and carried stitches: all solvers agree
        entry = {"runs": len(runs), **{f"{name} s": round(each, 5) for name, each in found.items()}}
        entry |= {f"{name} / cover": round(each / found["cover"], 1) for name, each in found.items() if name != "cover"}
        told[f"{side}²"] = show(f"{side}²", entry)
    return told


def own(cover) -> tuple[int, int]:  # type: ignore[no-untyped-def]
    return cover.supplies, int(cover.carried.sum())


def by_networkx(links, runs: int) -> tuple[int, int]:  # type: ignore[no-untyped-def]
    """Supplies and carried stitches by a flow through every run."""
    import networkx as nx

    net, dear = nx.DiGraph(), 10**6
    net.add_node("around", demand=0)
    for run in range(runs):
        net.add_node(("end", run), demand=-1)
        net.add_node(("start", run), demand=1)
        net.add_edge(("end", run), "around", weight=dear * dear)
        net.add_edge("around", ("start", run), weight=0)
    for i, j, carried, idle in zip(*(part.tolist() for part in parts(links)), strict=True):
        net.add_edge(("end", i), ("start", j), weight=carried * dear + idle, capacity=1)
    total, _ = nx.network_simplex(net)
    return total // dear**2, total % dear**2 // dear


def by_scipy(links, runs: int) -> tuple[int, int]:  # type: ignore[no-untyped-def]
    """The same by `min_weight_full_bipartite_matching`: a run goes on to another, or to nothing of its own."""
    import numpy as np
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import min_weight_full_bipartite_matching

    tail, head, carried, idle = parts(links)
    weight = runs * (int(idle.max(initial=0)) + 1)
    cost = carried * weight + idle + 1  # scipy takes a weight of zero for no link
    none = runs * (int(cost.max(initial=0)) + 1)
    every = np.arange(runs)
    values = np.concatenate([cost, np.full(runs, none)]).astype(float)
    table = coo_array(
        (values, (np.concatenate([tail, every]), np.concatenate([head, runs + every]))), shape=(runs, 2 * runs)
    ).tocsr()
    tails, heads = min_weight_full_bipartite_matching(table)
    taken = heads < runs
    by_pair = dict(zip(zip(tail.tolist(), head.tolist(), strict=True), carried.tolist(), strict=True))
    pairs = zip(tails[taken].tolist(), heads[taken].tolist(), strict=True)
    return runs - int(taken.sum()), sum(by_pair[pair] for pair in pairs)


def parts(links):  # type: ignore[no-untyped-def]
    return links.tail, links.head, links.carried, links.idle


def site(asked: argparse.Namespace, folder: Path) -> dict[str, object]:
    from site_speed import bare, make_charts

    from lintarsia.ground.resources import resource

    number = min(asked.most, 1000)
    (folder / "charts").mkdir()
    make_charts(folder / "charts", number, 24)
    paragraph = "A paragraph about this page, as long as such paragraphs are."
    found = medians(
        1,
        site=[*TOOL, "site", str(folder / "charts"), "--output", str(folder / "out")],
        mkdocs=bare(folder / "short", [paragraph] * number, resource("site") / "theme", folder / "nothing"),
    )
    return {f"{number:,} charts of 24 × 24": show("site", row(found, "mkdocs"))}


def show(what: object, entry: dict[str, float]) -> dict[str, float]:
    print(f"{what}: " + ", ".join(f"{name} {value}" for name, value in entry.items()), flush=True)
    return entry


PARTS = {"cold": cold, "charts": charts, "stitches": stitches, "solvers": solvers, "site": site}


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("parts", nargs="*", choices=[[], *PARTS], default=[])
    parser.add_argument("--repeat", type=int, default=3)
    parser.add_argument("--most", type=int, default=50_000, help="charts")
    parser.add_argument("--write", action="store_true", help="into results.json")
    parser.add_argument("--tables", action="store_true", help="print results.json as Markdown tables")
    asked = parser.parse_args()
    if asked.tables:
        print(tables())
    for name in asked.parts:
        print(f"{name}:", flush=True)
        with tempfile.TemporaryDirectory() as folder:
            found = PARTS[name](asked, Path(folder))
        if name == "cold":
            print(found)
        if asked.write:
            write(name, asked, found)


def write(name: str, asked: argparse.Namespace, found: dict[str, object]) -> None:
    """Into results.json, beside the other parts."""
    results = json.loads(RESULTS.read_text("utf-8")) if RESULTS.exists() else {}
    results[name] = {
        "command": f"python benchmarks/scale.py {name}",
        "measured": time.strftime("%B %Y"),
        "machine": f"{os.cpu_count()} shared cores, busy with other work; Python {platform.python_version()}",
        "unit": "user seconds of the processor and peak MB of a whole process, median of turns; ratios of the seconds",
        "found": found,
    }
    if name == "solvers":
        results[name]["unit"] = "seconds of the processor inside one process, median; ratios of them"
    text = json.dumps(results, indent=1, ensure_ascii=False) + "\n"
    beside = RESULTS.with_suffix(".new")
    beside.write_text(text, encoding="utf-8")
    beside.replace(RESULTS)


def tables() -> str:
    """results.json as Markdown: seconds, then ratios, then memory; parts in the order of the file's help."""
    results = json.loads(RESULTS.read_text("utf-8"))
    told = []
    for name in [part for part in PARTS if part in results]:
        part = results[name]
        unit = part["unit"][0].upper() + part["unit"][1:]
        told.append(f"`{part['command']}`, {part['measured']}; {part['machine']}. {unit}.")
        told += [table(part["found"]) if len(part["found"]) > 1 else upright(part["found"])]
    return "\n\n".join(told)


def table(found: dict[str, dict[str, float]]) -> str:
    """A line for each size."""
    every = list(dict.fromkeys(key for entry in found.values() for key in entry))
    seconds, ratios = [h for h in every if h.endswith(" s")], [h for h in every if " / " in h]
    heads = [h for h in every if h == "runs"] + seconds + ratios + [h for h in every if h.endswith(" MB")]
    lines = [f"| | {' | '.join(heads)} |", f"|---|{'---|' * len(heads)}"]
    for what, entry in found.items():
        lines.append(f"| {what} | {' | '.join(str(entry.get(head, '')) for head in heads)} |")
    return "\n".join(lines)


def upright(found: dict[str, dict[str, float]]) -> str:
    """A line for each program, where there is one size."""
    ((what, entry),) = found.items()
    programs = [key[:-2] for key in entry if key.endswith(" s")]
    base = next(key.partition(" / ")[2] for key in entry if " / " in key)
    lines = [f"| {what} | s | / {base} | MB |", "|---|---|---|---|"]
    for name in programs:
        ratio = entry.get(f"{name} / {base}", 1)
        lines.append(f"| {name} | {entry[f'{name} s']} | {ratio} | {entry[f'{name} MB']} |")
    return "\n".join(lines)


if __name__ == "__main__":
    main()
