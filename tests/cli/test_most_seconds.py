"""`--most-seconds` of plan, write, draw and site: what never ends is ended and told, the rest is as without a time."""

import subprocess
import sys
import time
import warnings
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.main import main

Run = Callable[..., tuple[int, str, str]]
COMMANDS = ("plan", "write", "draw")


@pytest.fixture
def run(
    capfd: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    write_chart: Callable[..., Path],
) -> Run:
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_DEBUG", raising=False)
    write_chart("a.chart.yaml", "BBBBB\nBWWBB\nBBBBB\n")

    def run(*argv: str) -> tuple[int, str, str]:
        status = main(argv)
        return status, *capfd.readouterr()

    return run


def fork_whatever_runs(monkeypatch: pytest.MonkeyPatch) -> None:
    """Also beside threads that a test before this one has left."""
    monkeypatch.setattr("lintarsia.ground.deadlines.start", lambda: "fork")
    warnings.filterwarnings("ignore", "This process .* is multi-threaded", DeprecationWarning)  # pytest puts that back


@pytest.mark.parametrize("command", COMMANDS)
def test_what_never_ends_is_ended_and_leaves_nothing(
    command: str, run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    def endless(*told: Any, **more: Any) -> None:
        while True:
            time.sleep(0.01)

    monkeypatch.setattr(f"lintarsia.cli.{command}.read_one", endless)
    fork_whatever_runs(monkeypatch)  # a process that is spawned would not know of the line above
    status, out, err = run(command, "a.chart.yaml", "--output", "made.svg", "--most-seconds", "0.1")
    assert (status, out) == (FOUND, "")
    assert err == "lintarsia: this took longer than 0.1 s and was ended; nothing was made\n"
    assert [path.name for path in tmp_path.iterdir()] == ["a.chart.yaml"]


@pytest.mark.parametrize("command", COMMANDS)
def test_with_time_enough_all_is_as_without_one(command: str, run: Run, tmp_path: Path) -> None:
    (tmp_path / "b.chart.yaml").write_text("no chart\n")
    asked = [["a.chart.yaml"], ["a.chart.yaml", "-o", "made.svg"], ["b.chart.yaml"], ["nowhere.chart.yaml"]]
    statuses = []
    for arguments in asked:
        usual = run(command, *arguments)
        made = (tmp_path / "made.svg").read_bytes() if "-o" in arguments else b""
        (tmp_path / "made.svg").unlink(missing_ok=True)
        assert run(command, *arguments, "--most-seconds", "600") == usual
        assert made == ((tmp_path / "made.svg").read_bytes() if "-o" in arguments else b"")
        statuses.append(usual[0])
    assert statuses == [OK, OK, FOUND, CANNOT]


@pytest.mark.parametrize(
    ("asked", "part"),
    [
        (("compare", "a.chart.yaml", "--from", "a.chart.yaml"), "comparing.files.compare_paths"),
        (("knits", "."), "engine.knitting.gather_knits"),
        (("release", "mat.pattern.yaml"), "cli.release._card"),
        (("bring", "leaf.csv"), "cli.bring._read"),
    ],
)
def test_where_1_is_an_answer_what_never_ends_is_a_2(
    asked: tuple[str, ...], part: str, run: Run, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    (tmp_path / "leaf.csv").write_text("B,W\nW,W\n")

    def endless(*told: Any, **more: Any) -> None:
        while True:
            time.sleep(0.01)

    monkeypatch.setattr(f"lintarsia.{part}", endless)
    fork_whatever_runs(monkeypatch)
    status, out, err = run(*asked, "--most-seconds", "0.1")
    assert (status, out) == (CANNOT, "")
    assert err == "lintarsia: this took longer than 0.1 s and was ended; nothing was made\n"
    assert not (tmp_path / "leaf.chart.yaml").exists()


def test_a_table_is_brought_in_time_as_without_one(run: Run, tmp_path: Path) -> None:
    (tmp_path / "leaf.csv").write_text("B,W\nW,W\n")
    status, _, err = run("bring", "leaf.csv", "--most-seconds", "600")
    assert status == OK, err
    made = (tmp_path / "leaf.chart.yaml").read_bytes()
    assert run("bring", "leaf.csv", "--force")[0] == OK
    assert (tmp_path / "leaf.chart.yaml").read_bytes() == made


def test_a_time_is_more_than_nothing(run: Run) -> None:
    assert run("plan", "a.chart.yaml", "--most-seconds", "0")[0] == CANNOT


def test_standard_input_is_read_all_the_same(run: Run) -> None:
    line = [sys.executable, "-m", "lintarsia", "plan", "-", "--format", "csv", "--most-seconds", "600"]
    made = subprocess.run(line, input=Path("a.chart.yaml").read_bytes(), capture_output=True, check=False)
    assert (made.returncode, made.stderr) == (OK, b"")
    assert made.stdout.decode() == run("plan", "a.chart.yaml", "--format", "csv")[1]


ENDLESS = """
import time
from lintarsia.result import Level, RuleInfo
from lintarsia.rules.base import NoOptions
Options = NoOptions
INFO = RuleInfo("ours/endless", Level.NOTE, "never ends", "It asks for all time.", "none", {"k": "k"})
def check(work, options):
    while work.chart.title == "Endless":
        time.sleep(0.01)
    yield from ()
"""


@pytest.mark.slow  # four seconds of waiting
def test_a_site_says_of_a_chart_that_its_time_was_up(run: Run, tmp_path: Path) -> None:
    (tmp_path / "b.chart.yaml").write_text(
        (tmp_path / "a.chart.yaml").read_text().replace("title: Toy", "title: Endless")
    )
    (tmp_path / "ours.py").write_text(ENDLESS)
    (tmp_path / "lintarsia.yaml").write_text("local-rules: [ours.py]\n")
    status, out, err = run("site", ".", "-o", "pages", "--most-seconds", "4")
    assert status == FOUND
    assert err.splitlines()[-1] == "lintarsia: b.chart.yaml took longer than 4 s; its page says so"
    assert out == f"made {Path('pages/index.html')}\n"
    late = (tmp_path / "pages/charts/b.html").read_text("utf-8")
    assert "Looking at this chart took longer than 4 s and was ended" in late
    assert sorted(path.name for path in (tmp_path / "pages/charts").iterdir()) == ["a.fabric.svg", "a.html", "b.html"]
    assert "engine/out-of-time" in (tmp_path / "pages/report.json").read_text("utf-8")


def test_a_site_in_time_is_the_same_site(run: Run, tmp_path: Path) -> None:
    assert run("site", ".", "-o", "usual")[0] == OK
    assert run("site", ".", "-o", "timed", "--most-seconds", "600")[0] == OK
    usual, timed = (
        {
            path.relative_to(tmp_path / name): path.read_bytes()
            for path in (tmp_path / name).rglob("*")
            if path.is_file()
        }
        for name in ("usual", "timed")
    )
    assert timed == usual
