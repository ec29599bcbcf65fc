"""What standard error is told of long runs. Waits of nothing stand for those of seconds, so that no clock decides."""

import io
import re
import sys
import threading
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli import progress
from lintarsia.cli.main import main
from lintarsia.cli.progress import counter, watching

A_MINUTE = 60.0  # nothing takes so long but what would never end


class Screen(io.StringIO):
    """A terminal, or a file; says when something has been written to it."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal
        self.touched = threading.Event()
        self.wanted = ""
        self.open = threading.Event()  # until then it is not said whether it is a terminal
        self.open.set()

    def isatty(self) -> bool:
        self.open.wait(A_MINUTE)
        return self.terminal

    def write(self, text: str) -> int:
        written = super().write(text)
        if self.wanted in text:
            self.touched.set()
        return written


def screen(monkeypatch: pytest.MonkeyPatch, terminal: bool) -> Screen:
    made = Screen(terminal)
    monkeypatch.setattr(sys, "stderr", made)
    return made


def test_on_a_terminal_long_counts_are_shown_and_wiped_out(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    count = counter("looking at charts", 50)
    for done in range(1, 301):
        count(done, 300)
    lines = [line.rstrip() for line in told.getvalue().split("\r")]
    assert lines == ["", *(f"looking at charts: {done} of 300" for done in range(50, 300, 50)), "", ""]


def test_short_counts_are_not_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    counter("looking at charts", 50)(50, 199)
    assert told.getvalue() == ""


def test_elsewhere_one_line_is_told_and_only_where_it_takes_long(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, False)
    soon, late = counter("drawing charts", 10, after=0.0), counter("drawing charts", 10)
    for count in (late, soon):
        for done in range(1, 31):
            count(done, 30)
    assert told.getvalue() == "lintarsia: drawing charts: 1 of 30 after 0 s\n"


def test_a_step_that_nothing_counts_is_told_of_once_in_a_log(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, False)
    with watching("planning a chart of 512 by 400 stitches", late=0.0):
        assert told.touched.wait(A_MINUTE)
    assert told.getvalue() == "lintarsia: still planning a chart of 512 by 400 stitches after 0 s\n"


def test_on_a_terminal_its_seconds_are_counted_and_wiped_out(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    told.open.clear()
    monkeypatch.setattr(progress, "SOON", 0.0)
    with watching("weighing areas") as count:
        count(3, 40)
        told.open.set()
        assert told.touched.wait(A_MINUTE)
    assert re.match(r"\rweighing areas: 3 of 40, \d+ s  ", told.getvalue())
    assert told.getvalue().endswith("\r" + " " * progress.WIDEST + "\r")


def test_what_is_done_at_once_is_told_nothing_of(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, False)
    with watching("planning"):
        pass
    monkeypatch.setattr(sys, "stderr", None)  # closed by whoever started this
    with watching("planning") as count:
        count(1, 2)
    counter("drawing charts", 10, after=0.0)(1, 2)
    assert told.getvalue() == ""


def test_where_the_whole_is_done_the_count_is_left_out(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    told.open.clear()
    monkeypatch.setattr(progress, "SOON", 0.0)
    with watching("weighing areas") as count:
        count(3, 40)
        count(40, 40)
        told.open.set()
        assert told.touched.wait(A_MINUTE)
    assert re.match(r"\rweighing areas: \d+ s  ", told.getvalue())


def test_a_slow_count_shows_every_step(monkeypatch: pytest.MonkeyPatch) -> None:
    """What takes longer than two seconds is worth a line, however few there are to count."""
    told = screen(monkeypatch, True)
    monkeypatch.setattr(progress, "SOON", -1.0)
    count = counter("drawing charts", 10)
    for done in range(1, 4):
        count(done, 3)
    assert [line.rstrip() for line in told.getvalue().split("\r")] == [
        "",
        "drawing charts: 1 of 3",
        "drawing charts: 2 of 3",
        "",
        "",
    ]


def test_thousands_have_their_commas_and_long_lines_their_end(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    counter("x" * 100, 50)(1050, 2000)
    assert told.getvalue() == "\r" + "x" * 78
    told = screen(monkeypatch, True)
    counter("looking at charts", 50)(1050, 2000)
    assert told.getvalue().rstrip() == "\rlooking at charts: 1,050 of 2,000"


LEAF = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours: {B: {name: Oat, shade: "#f0e7d4"}, W: {name: Leaf, shade: "#35603a"}}
chart: |
  BWB
  WWB
"""


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("check", "looking at charts: 1 of 2"),
        ("site -o pages --jobs 1", "drawing charts: 1 of 2"),
    ],
)
def test_what_is_counted_is_named(
    words: str, told: str, capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    for name in "ab":
        Path(f"{name}.chart.yaml").write_text(LEAF, "utf-8")
    monkeypatch.setattr(progress, "SOON", -1.0)
    shown = screen(monkeypatch, True)
    assert main(words.split()) == 0
    assert told in [line.rstrip() for line in shown.getvalue().split("\r")]


@pytest.mark.parametrize(
    ("words", "slow", "told"),
    [
        ("plan a.chart.yaml", "lintarsia.plansheets.answer.answer", "planning a chart of 3 by 2 stitches"),
        (
            "plan a.chart.yaml --what-if",
            "lintarsia.plansheets.answer.answer",
            "weighing areas of a chart of 3 by 2 stitches",
        ),
        ("plan a.chart.yaml --write", "lintarsia.planning.planner.make_plan", "planning a chart of 3 by 2 stitches"),
        ("plan p.pattern.yaml", "lintarsia.pattern.plantext.pattern_plan_text", "planning 2 pieces"),
        ("plan p.pattern.yaml --piece back --try idle=1", "lintarsia.plansheets.answer.answer", "weighing back"),
        ("draw a.chart.yaml", "lintarsia.drawing.chart_svg", "drawing a chart of 3 by 2 stitches"),
        (
            "draw a.chart.yaml -o a.svg",
            "lintarsia.cli.picturefiles.replace_file",
            "writing the picture of a chart of 3 by 2 stitches",
        ),
        ("draw p.pattern.yaml --piece back", "lintarsia.drawing.chart_svg", "drawing 1 piece"),
        ("draw p.pattern.yaml --nested -o a.svg", "lintarsia.cli.nesteddrawing.nested_drawings", "drawing 2 pieces"),
        ("compare a.chart.yaml --from b.chart.yaml", "lintarsia.comparing.files.compare_paths", "comparing charts"),
    ],
)
def test_a_slow_step_is_named(
    words: str,
    slow: str,
    told: str,
    capsys: pytest.CaptureFixture[str],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """The step is held up until its line has been shown. `capsys` is put up first, and so taken down last."""
    monkeypatch.chdir(tmp_path)
    for name in "ab":
        Path(f"{name}.chart.yaml").write_text(LEAF, "utf-8")
    pattern = (
        "lintarsia-pattern: 1\ntitle: Mat\npieces:\n  front: {chart: a.chart.yaml}\n  back: {chart: b.chart.yaml}\n"
    )
    Path("p.pattern.yaml").write_text(pattern, "utf-8")
    monkeypatch.setattr(progress, "SOON", 0.0)
    shown = screen(monkeypatch, True)
    shown.wanted = f"\r{told}: "
    module, _, name = slow.rpartition(".")
    step = getattr(import_module(module), name)

    def held_up(*given: Any, **named: Any) -> Any:
        assert shown.touched.wait(A_MINUTE)
        return step(*given, **named)

    monkeypatch.setattr(slow, held_up)
    assert main(words.split()) == 0
    assert re.search(rf"\r{told}: \d+ s  ", shown.getvalue())
