"""Charts each within a time. What never ends is ended, and the rest is as without a time.

The time is up when nothing but the endless chart is left to wait for, so that no slow machine ends another.
"""

import json
import os
import random
import subprocess
from collections.abc import Callable, Sequence
from multiprocessing.connection import wait
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.main import main
from lintarsia.engine import check_paths
from lintarsia.ground import deadlines
from lintarsia.result import NOWHERE, Level

ENDLESS = """
import os
from lintarsia.result import Level, RuleInfo
from lintarsia.rules.base import NoOptions
Options = NoOptions
INFO = RuleInfo("ours/endless", Level.NOTE, "never ends", "It asks for all time.", "none", {"k": "k"})
def check(work, options):
    if work.chart.title == "Endless":
        open(f"{os.getpid()}.never-ending", "a").close()
    while work.chart.title == "Endless":
        try:
            %s
        except BaseException:
            pass
    yield from ()
"""
NUMPY = "import numpy; numpy.linalg.svd(numpy.ones((2000, 2000)))"


def _goes_on(process: Path) -> bool:
    try:
        os.kill(int(process.stem), 0)
    except ProcessLookupError:
        return False
    return True


@pytest.fixture
def _patience(monkeypatch: pytest.MonkeyPatch) -> None:
    """A clock that stands still while anything goes on that will end: until all processes are busy for ever."""
    clock = [0.0]

    def waits(lines: Sequence[Any], seconds: float | None) -> list[Any]:
        while not (said := wait(lines, 0.02)):
            if seconds is not None and len(lines) == sum(map(_goes_on, Path().glob("*.never-ending"))):
                clock[0] += seconds
                break
        return said

    monkeypatch.setattr(deadlines, "wait", waits)
    monkeypatch.setattr(deadlines, "time", SimpleNamespace(monotonic=lambda: clock[0]))


@pytest.fixture
def charts(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path], _patience: None) -> Path:
    """Three charts, of which the middle one keeps a rule busy for ever."""
    monkeypatch.chdir(tmp_path)
    for name in ("a", "b", "c"):
        write_chart(f"{name}.chart.yaml", "BBBB\nBWBB\nBBBB\n")
    endless = Path("b.chart.yaml")
    lines = ["title: Endless" if line.startswith("title:") else line for line in endless.read_text().splitlines()]
    endless.write_text("\n".join(lines) + "\n")
    return tmp_path


def never_ending(body: str, **settings: str) -> None:
    Path("ours.py").write_text(ENDLESS % body)
    levels = "".join(f"  {name}: {level}\n" for name, level in settings.items())
    Path("lintarsia.yaml").write_text("local-rules: [ours.py]\n" + (f"rules:\n{levels}" if levels else ""))


@pytest.mark.parametrize(
    ("body", "jobs"),
    [
        pytest.param("pass", 2, id="python"),
        pytest.param("pass", 1, marks=pytest.mark.slow, id="python, one by one"),
        pytest.param(NUMPY, 2, marks=pytest.mark.slow, id="numpy"),
        pytest.param(NUMPY, 1, marks=pytest.mark.slow, id="numpy, one by one"),
    ],
)
def test_a_chart_that_takes_too_long_is_a_result_and_the_others_are_looked_at(
    charts: Path, body: str, jobs: int
) -> None:
    never_ending(body)
    report = check_paths(["."], jobs=jobs, most_seconds=3)
    (told,) = (result for result in report.results if result.file == "b.chart.yaml")
    assert (told.rule, told.key, told.level, told.region) == ("engine/out-of-time", "out-of-time", Level.ERROR, NOWHERE)
    assert told.message == "looking at this chart took longer than 3 s and was ended; nothing else is known of it"
    assert report.charts == 3
    Path("b.chart.yaml").unlink()
    alone = check_paths(["."], jobs=1)
    assert tuple(result for result in report.results if result.file != "b.chart.yaml") == alone.results
    assert alone.results


def test_with_time_enough_the_report_is_the_same(charts: Path) -> None:
    told: list[tuple[int, int]] = []
    timed = check_paths(["."], most_seconds=600, progress=lambda done, total: told.append((done, total)))
    assert timed == check_paths(["."])
    assert told == [(1, 3), (2, 3), (3, 3)]


@pytest.mark.slow
def test_the_level_is_the_settings_to_say(charts: Path) -> None:
    never_ending("pass", **{"engine/out-of-time": "off"})
    assert {result.file for result in check_paths(["."], most_seconds=3).results} == {"a.chart.yaml", "c.chart.yaml"}


@pytest.mark.slow
def test_a_chart_of_standard_input_has_its_time_too(
    charts: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> None:
    never_ending("pass")
    with open("b.chart.yaml") as stream:
        monkeypatch.setattr("sys.stdin", stream)
        status = main(["check", "-", "--format", "json", "--most-seconds", "3", "--allow-outside-rules"])
    report: dict[str, Any] = json.loads(capfd.readouterr().out)
    assert (status, [result["rule"] for result in report["results"]]) == (FOUND, ["engine/out-of-time"])


def test_more_stitches_than_the_settings_allow_are_told_before_anything_is_worked_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path], capfd: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    chance = random.Random(4)
    write_chart("a.chart.yaml", "".join("".join(chance.choices("BW", k=30)) + "\n" for _ in range(20)))
    Path("lintarsia.yaml").write_text("max-stitches: 600\n")
    assert "file/unreadable" not in {result.rule for result in check_paths(["."]).results}
    Path("lintarsia.yaml").write_text("max-stitches: 599\n")
    (told,) = check_paths(["."]).results
    assert (told.rule, told.key) == ("file/unreadable", "too-many-stitches")
    assert told.message == (
        "the chart has 20 rows and the longest is 30 stitches wide; that is 600 stitches, and at most 599 are read"
    )
    assert told.remedy == ("check that this is a chart and no photograph; if it is, raise max-stitches in the settings")
    for command in ("plan", "draw", "write"):
        assert main([command, "a.chart.yaml"]) == FOUND
        assert "at most 599 are read" in capfd.readouterr().err


def test_a_chart_of_more_than_half_a_million_stitches_is_refused_unless_the_settings_allow_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path]
) -> None:
    monkeypatch.chdir(tmp_path)
    write_chart("a.chart.yaml", ("B" * 1001 + "\n") * 500)
    assert [result.key for result in check_paths(["."]).results] == ["too-many-stitches"]


def commit(message: str) -> None:
    who = ["-c", "user.name=M", "-c", "user.email=m@example.org"]
    subprocess.run(["git", "add", "-A"], check=True)
    subprocess.run(["git", *who, "commit", "-qm", message], check=True)


@pytest.mark.slow
def test_a_chart_out_of_time_is_told_though_it_was_so_before(charts: Path) -> None:
    """Nobody knows what is new of it; the others are compared."""
    never_ending("pass")
    subprocess.run(["git", "init", "-q"], check=True)
    commit("Draw three charts")
    for name in ("a", "b"):
        file = Path(f"{name}.chart.yaml")
        file.write_text(file.read_text() + "# looked over\n")
    report = check_paths(["."], since="HEAD", most_seconds=3)
    assert [(result.file, result.rule) for result in report.results] == [("b.chart.yaml", "engine/out-of-time")]
    assert set(report.files) == {"a.chart.yaml", "b.chart.yaml"}


SLOW_TO_MEND = """
import os
from lintarsia.result import Level, RuleInfo
from lintarsia.rules.base import NoOptions
Options = NoOptions
INFO = RuleInfo("ours/slow", Level.NOTE, "never ends", "It asks for all time.", "none", {"k": "k"})
def check(work, options):
    if "R" not in work.chart.colours:
        open(f"{os.getpid()}.never-ending", "a").close()
    while "R" not in work.chart.colours:
        pass
    yield from ()
"""


@pytest.mark.slow
@pytest.mark.parametrize("diff", [False, True])
def test_mending_has_a_time_too(charts: Path, capfd: pytest.CaptureFixture[str], diff: bool) -> None:
    """Without its unused colour no chart is ever looked at to the end, so that none is mended."""
    Path("ours.py").write_text(SLOW_TO_MEND)
    Path("lintarsia.yaml").write_text("local-rules: [ours.py]\n")
    for name in ("b", "c"):
        Path(f"{name}.chart.yaml").unlink()
    file = Path("a.chart.yaml")
    file.write_text(file.read_text().replace("colours:\n", 'colours:\n  R: {name: Rust, shade: "#b8743c"}\n'))
    before = file.read_bytes()
    assert main(["check", "--fix", *(["--diff"] if diff else []), "--most-seconds", "3"]) == CANNOT
    out, err = capfd.readouterr()
    assert "lintarsia: mending a.chart.yaml took longer than 3 s; it was left as it is\n" in err
    assert file.read_bytes() == before
    assert ("colour/unused" in out) is not diff


def test_what_is_mended_in_time_is_mended_as_always(charts: Path, capfd: pytest.CaptureFixture[str]) -> None:
    file = Path("a.chart.yaml")
    before = file.read_text()
    file.write_text(before.replace("colours:\n", 'colours:\n  R: {name: Rust, shade: "#b8743c"}\n'))
    assert main(["check", "--fix", "--most-seconds", "600"]) == OK
    assert file.read_text() == before
    assert "mended" in capfd.readouterr().out
