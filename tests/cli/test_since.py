"""Checking only what differs from a git revision, in real repositories."""

import json
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Lone = Callable[..., list[tuple[str, int]]]
ONE = "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\nBBBBBBBB\n"  # a lone stitch in row 3
TWO = "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\nBBBBWBBB\n"  # and another in row 1


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    git("init", "-q", "-b", "main")
    git("config", "user.email", "designer@example.org")
    git("config", "user.name", "Designer")
    return tmp_path


def git(*words: str) -> None:
    subprocess.run(["git", *words], check=True, capture_output=True)


def commit() -> None:
    git("add", "-A")
    git("commit", "-q", "-m", "state")


@pytest.fixture
def lone(invoke: Callable[..., Any]) -> Lone:
    """The files and rows of lone stitches that a check with these words reports."""

    def run(*words: str) -> list[tuple[str, int]]:
        done = invoke("check", *words, "--format", "json")
        assert done.status in (0, 1), done.err
        results = json.loads(done.out)["results"]
        return [(result["file"], result["row"]) for result in results if result["rule"] == "area/single-stitch"]

    return run


def test_only_changed_rows_of_changed_charts(repository: Path, write_chart: Callable[..., Path], lone: Lone) -> None:
    write_chart("a.chart.yaml", ONE)
    write_chart("deep/b.chart.yaml", ONE)
    commit()
    assert lone("--since", "HEAD") == []
    write_chart("a.chart.yaml", TWO)
    assert lone(".", "--since", "HEAD") == [("a.chart.yaml", 1)]
    assert lone("--since", "HEAD", "deep") == []
    assert lone(".") == [("a.chart.yaml", 3), ("a.chart.yaml", 1), ("deep/b.chart.yaml", 3)]


def test_a_chart_git_does_not_know_yet_is_all_new(
    repository: Path, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    write_chart("näch [1] \"x\".chart.yaml", TWO)  # fmt: skip
    assert sorted(row for _, row in lone("--since", "main")) == [1, 3]
    commit()
    assert sorted(row for _, row in lone("--since", "HEAD~1")) == [1, 3]


def test_faults_of_the_file_as_a_whole_are_kept(
    repository: Path, write_chart: Callable[..., Path], invoke: Callable[..., Any]
) -> None:
    write_chart("a.chart.yaml", "BBBBBBBB\n" * 4)
    commit()
    write_chart("a.chart.yaml", "BBBBBBBB\n" * 5)
    done = invoke("check", "--since", "HEAD", "--format", "json")
    assert "colour/unused" in {result["rule"] for result in json.loads(done.out)["results"]}


def test_where_a_row_was_taken_out_its_neighbours_count(
    repository: Path, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", "BBBBBBBB\nBWBBBBBB\nBBWBBBBB\nBBBBBBBB\n")
    commit()
    write_chart("a.chart.yaml", "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\n")
    assert lone("--since", "HEAD") == [("a.chart.yaml", 2)], "the stitch that touched it is lone now"


@pytest.mark.parametrize("revision", ["no-such-branch", "--output=/tmp/x", ""])
def test_a_revision_git_does_not_know(
    repository: Path, write_chart: Callable[..., Path], invoke: Callable[..., Any], revision: str
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    done = invoke("check", "--since", revision)
    assert done.status == 2
    assert "git knows no revision" in done.err


def test_outside_a_repository(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path], invoke: Callable[..., Any]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    write_chart("a.chart.yaml", ONE)
    done = invoke("check", "--since", "HEAD")
    assert done.status == 2
    assert "git cannot say what has changed" in done.err
