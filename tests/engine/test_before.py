"""A chart as it was committed last: fetched where it differs, whenever it was written, and nowhere else."""

import os
import subprocess
import time
from pathlib import Path
from typing import Any

import pytest

from lintarsia.engine import before
from lintarsia.engine.before import committed

CHART = """\
lintarsia: 1
title: {title}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
colours: {{B: {{name: Dusk blue, shade: "#27406b"}}}}
chart: |
  BBBB
"""


def git(*words: str) -> None:
    who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
    subprocess.run(["git", *who, *words], check=True, capture_output=True)


def write(title: str, name: str = "a.chart.yaml", *, long_ago: bool = False) -> None:
    Path(name).write_text(CHART.format(title=title))
    if long_ago:
        then = time.time() - 3600
        os.utime(name, (then, then))


@pytest.fixture(autouse=True)
def _repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(before, "_STATES", {})
    monkeypatch.setattr(before, "_NAMES", {})
    git("init", "-q")
    write("One")
    git("add", "-A")
    git("commit", "-q", "-m", "one")


def title(name: str = "a.chart.yaml", data: bytes | None = None) -> str | None:
    chart = committed(name, data)
    return None if chart is None else chart.title


@pytest.mark.parametrize("long_ago", [True, False])
def test_only_where_it_differs(long_ago: bool) -> None:
    write("One", long_ago=long_ago)
    assert title() in (None, "One")
    write("Second", long_ago=long_ago)
    before._STATES.clear()
    assert title() == "One"


def test_a_file_written_after_git_was_asked_is_asked_about_again() -> None:
    write("One", long_ago=True)
    assert title() is None
    time.sleep(0.1)
    write("Second")
    assert title() == "One"
    git("commit", "-qam", "two")
    assert title() in (None, "Second"), "what git said before the commit holds no longer"


def test_what_an_editor_has_open_is_what_is_compared() -> None:
    assert title(data=CHART.format(title="Three").encode()) == "One"
    assert title(data=CHART.format(title="One").encode()) is None


def test_where_there_is_nothing_to_fetch(tmp_path: Path) -> None:
    write("New", "new.chart.yaml")
    assert title("new.chart.yaml") is None
    Path("deep").mkdir()
    git("init", "-q", "deep")  # before its first commit
    write("Deep", "deep/d.chart.yaml")
    assert title("deep/d.chart.yaml") is None


def test_of_contents_that_no_commit_has_git_is_asked_once(asked: list[tuple[str, ...]]) -> None:
    for name in "bcde":
        assert title(f"{name}.chart.yaml", b"what an editor has open") is None
    assert len(asked) == 1
    assert title(data=CHART.format(title="Three").encode()) == "One"
    write("New", "b.chart.yaml")
    git("add", "-A")
    git("commit", "-q", "-m", "two")
    assert title("b.chart.yaml", CHART.format(title="Three").encode()) == "New"


def test_contents_of_a_folder_whatever_it_is_called() -> None:
    Path(":a [*]/b").mkdir(parents=True)
    for name in ("d.chart.yaml", "b/e.chart.yaml"):
        write(name, f":a [*]/{name}")
    git("add", "-A")
    git("commit", "-q", "-m", "two")
    for name in ("d.chart.yaml", "b/e.chart.yaml"):
        assert title(f":a [*]/{name}", CHART.format(title="Three").encode()) == name
    assert title(":a [*]/b", b"a folder") is None


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[tuple[str, ...]]:
    """What git is asked from now on."""
    asked: list[tuple[str, ...]] = []
    real = subprocess.run

    def noted(words: list[str], **more: Any) -> Any:
        asked.append(tuple(words))
        return real(words, **more)

    monkeypatch.setattr(subprocess, "run", noted)
    return asked


def test_git_is_asked_once_where_it_cannot_say(asked: list[tuple[str, ...]]) -> None:
    Path(".git/HEAD").write_text("ref: refs/heads/nothing-yet\n")
    for name in "bcde":
        write("Lone", f"{name}.chart.yaml", long_ago=True)
        assert title(f"{name}.chart.yaml") is None
    assert len(asked) == 1


def test_a_work_tree_beside_the_repository() -> None:
    git("worktree", "add", "-q", "../beside", "-b", "beside")
    write("Second", "../beside/a.chart.yaml")
    assert title("../beside/a.chart.yaml") == "One"
