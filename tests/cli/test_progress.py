"""What standard error is told of long runs. Waits of nothing stand for those of seconds, so that no clock decides."""

import io
import sys
import threading

import pytest

from lintarsia.cli import progress
from lintarsia.cli.progress import counter, watching


class Screen(io.StringIO):
    """A terminal, or a file; says when something has been written to it."""

    def __init__(self, terminal: bool) -> None:
        super().__init__()
        self.terminal = terminal
        self.touched = threading.Event()

    def isatty(self) -> bool:
        return self.terminal

    def write(self, text: str) -> int:
        written = super().write(text)
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
        told.touched.wait()
    assert told.getvalue() == "lintarsia: still planning a chart of 512 by 400 stitches after 0 s\n"


def test_on_a_terminal_its_seconds_are_counted_and_wiped_out(monkeypatch: pytest.MonkeyPatch) -> None:
    told = screen(monkeypatch, True)
    monkeypatch.setattr(progress, "SOON", 0.0)
    with watching("weighing areas") as count:
        count(3, 40)
        told.touched.wait()
    assert told.getvalue().startswith("\rweighing areas: ")
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
