"""Killed at any moment, a file is the old one or the new one, and what is left beside it harms nobody."""

import os
import random
import signal
import time
from pathlib import Path

import pytest
from children import Ended, killed_at, killed_while_writing, run

from lintarsia.cli.main import main

pytestmark = pytest.mark.slow

HEAD = "lintarsia: 1\ntitle: Killed\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
KEY = 'colours:\n  B: {name: Dusk blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'
RUST = '  R: {name: Rust, shade: "#b8743c"}\n'
FIELD = "chart: |\n" + "  BBBBBBBBBBBBBBBBBBBB\n" * 6 + "  BBBBBBBBWWWWBBBBBBBB\n" * 6
FAULTY, WHOLE = HEAD + KEY + RUST + FIELD, HEAD + KEY + FIELD
PLANNED = HEAD + KEY + "supplies:\n  B: 2\n  W: 1\n" + FIELD
WRITERS = {
    "check --fix": (("check", "--fix"), FAULTY, WHOLE),
    "plan --write": (("plan", "--write"), WHOLE, PLANNED),
}


@pytest.fixture
def chart(tmp_path: Path) -> Path:
    folder = tmp_path / "charts"
    folder.mkdir()
    return folder / "killed.chart.yaml"


@pytest.mark.parametrize(("argv", "old", "new"), WRITERS.values(), ids=WRITERS)
def test_before_every_step(argv: tuple[str, ...], old: str, new: str, chart: Path) -> None:
    chart.write_text(old)
    assert run(*argv, str(chart)).status == 0
    assert chart.read_text() == new
    met = set()
    for step in range(1, 100):
        chart.write_text(old)
        ended = run(*argv, str(chart), before=killed_at(step, chart.parent))
        met.add(chart.read_text())
        harmless(chart, old, new)
        if ended.status is not None:
            break
    assert ended.status == 0
    assert step > 4  # read, written beside, mode kept, renamed at least
    assert met == {old, new}


@pytest.mark.parametrize(("argv", "old", "new"), WRITERS.values(), ids=WRITERS)
def test_in_the_middle_of_writing(argv: tuple[str, ...], old: str, new: str, chart: Path) -> None:
    chart.write_text(old)
    ended = run(*argv, str(chart), before=killed_while_writing(len(new) // 2))
    assert ended.status is None
    assert chart.read_text() == old
    harmless(chart, old, new)
    (part,) = [file for file in chart.parent.iterdir() if file != chart]
    assert part.stat().st_size == len(new) // 2
    assert run(*argv, str(chart)).status == 0
    assert chart.read_text() == new


def harmless(chart: Path, old: str, new: str) -> None:
    """The file is old or new, and nothing else in its folder is ever taken for a chart."""
    assert chart.read_text() in (old, new)
    for file in chart.parent.iterdir():
        assert file == chart or file.name.endswith(".part")
    assert "1 chart:" in run("check", str(chart.parent)).out


def test_at_random_moments(chart: Path) -> None:
    charts = [chart.with_name(f"{number}.chart.yaml") for number in range(40)]

    def mend(kill_after: float | None) -> Ended:
        for file in charts:
            file.write_text(FAULTY)

        def kill(pid: int) -> None:
            if kill_after is not None:
                time.sleep(kill_after)
                os.kill(pid, signal.SIGKILL)

        return run("check", "--fix", "--jobs", "1", str(chart.parent), meanwhile=kill)

    start = time.monotonic()
    assert mend(None).status == 0
    takes = time.monotonic() - start
    chance = random.Random(5)
    for _ in range(12):
        mend(chance.uniform(0, takes))
        assert {file.read_text() for file in charts} <= {FAULTY, WHOLE}
        assert all(file.name.endswith((".chart.yaml", ".part")) for file in chart.parent.iterdir())
    assert mend(None).status == 0
    assert {file.read_text() for file in charts} == {WHOLE}


def test_a_site_is_the_old_one_or_the_new_one(chart: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1700000000")
    monkeypatch.chdir(chart.parent.parent)
    sites = Path("sites")
    argv = ("site", "charts", "--jobs", "1", "--output")
    trees = []
    for name, text in (("old", WHOLE.replace("Killed", "Before")), ("new", WHOLE.replace("Killed", "After"))):
        chart.write_text(text)
        assert main((*argv, str(sites / name))) == 0
        trees.append(tree(sites / name))
    old, new = trees
    assert old != new
    steps = count_steps(argv, sites, chart)
    chance = random.Random(5)
    last = range(steps - 6, steps + 1)  # made whole, marked, exchanged, the old one cleared away
    met = []
    for step in [1, *chance.sample(range(2, steps - 6), 3), *last]:
        chart.write_text(WHOLE.replace("Killed", "Before"))
        fresh = sites / f"site-{step}"
        os.rename(rebuilt(argv, sites), fresh)
        chart.write_text(WHOLE.replace("Killed", "After"))
        ended = run(*argv, str(fresh), before=killed_at(step, sites.absolute()))
        assert ended.status is None
        found = tree(fresh)
        assert found in (old, new), f"step {step} of {steps}"
        met.append(found == new)
    assert met[0] is False
    assert met[-1] is True


def rebuilt(argv: tuple[str, ...], sites: Path) -> Path:
    assert main((*argv, str(sites / "fresh"))) == 0
    return sites / "fresh"


def tree(folder: Path) -> dict[str, bytes]:
    return {str(file.relative_to(folder)): file.read_bytes() for file in sorted(folder.rglob("*")) if file.is_file()}


def count_steps(argv: tuple[str, ...], sites: Path, chart: Path) -> int:
    """How many steps there are in making a site anew where one stands."""
    target, told = sites / "counted", chart.with_name("steps.txt")
    os.rename(rebuilt(argv, sites), target)

    def counting() -> None:
        import sys

        from children import STEPS

        count, inside = 0, os.fspath(sites.absolute())

        def hook(event: str, args: tuple[object, ...]) -> None:
            nonlocal count
            if event in STEPS and any(isinstance(a, str) and os.path.abspath(a).startswith(inside) for a in args):
                count += 1
                os.pwrite(record, str(count).encode(), 0)

        record = os.open(told, os.O_WRONLY | os.O_CREAT)
        sys.addaudithook(hook)

    assert run(*argv, str(target), before=counting).status == 0
    return int(told.read_text())
