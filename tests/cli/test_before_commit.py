"""What the hook runs: paths alone, and the patterns that name them or what a commit takes away; with real git."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

PATTERN = "lintarsia-pattern: 1\ntitle: Heron\npieces:\n  front: {chart: ../birds/heron.chart.yaml, rows: 20}\n"

Told = Callable[..., set[tuple[str, str]]]


@pytest.fixture
def heron(repository: Path, write_chart: Callable[..., Path], commit: Callable[[], None]) -> Path:
    file = write_chart("birds/heron.chart.yaml", "clean")
    write_chart("old.chart.yaml", "short")
    (repository / "patterns").mkdir()
    (repository / "patterns/heron.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    commit()
    return file


@pytest.fixture
def told(invoke: Callable[..., Any]) -> Told:
    """(file, rule) of the errors that are told."""

    def run(*words: str) -> set[tuple[str, str]]:
        done = invoke("check", "--before-commit", "--format", "json", "--", *words)
        assert done.status in (0, 1), done.err
        assert done.err == ""
        results = json.loads(done.out)["results"]
        return {(r["file"], r["rule"]) for r in results if r["level"] == "error"}

    return run


MISSING = {("patterns/heron.pattern.yaml", "pattern/missing-chart")}


def test_no_path_is_no_folder(heron: Path, told: Told) -> None:
    assert told() == set()
    assert told("old.chart.yaml") == {("old.chart.yaml", "grid/stitch-count")}


def test_what_the_commit_takes_away(heron: Path, told: Told, git: Callable[..., str]) -> None:
    heron.unlink()
    assert told() == set(), "not part of the commit yet"
    git("add", "-A")
    assert told() == MISSING
    git("commit", "-q", "-m", "gone")
    assert told() == set()


def test_a_renamed_chart_is_gone_under_its_old_name(heron: Path, told: Told, git: Callable[..., str]) -> None:
    git("mv", "birds/heron.chart.yaml", "birds/stork.chart.yaml")
    assert told("birds/stork.chart.yaml") == MISSING


def test_a_chart_that_is_taken_out_and_left_lying_is_gone_as_well(
    heron: Path, told: Told, git: Callable[..., str], invoke: Callable[..., Any]
) -> None:
    """`git rm --cached`: it is on this disk, and on nobody else's."""
    git("rm", "-q", "--cached", "birds/heron.chart.yaml")
    assert heron.exists()
    assert told() == MISSING
    said = "there is no chart '../birds/heron.chart.yaml'; it lies here, and is no part of the commit"
    (result,) = json.loads(invoke("check", "--before-commit", "--format", "json").out)["results"]
    assert said in result["message"]
    assert invoke("check", "patterns").status == 0, "of what lies here nothing is missing"
    git("commit", "-q", "-m", "gone")
    git("add", "-A")
    git("commit", "-q", "-m", "back")
    assert told() == set()


def test_a_chart_that_only_changes_its_case_is_there(heron: Path, told: Told, git: Callable[..., str]) -> None:
    git("mv", "birds/heron.chart.yaml", "birds/Heron.chart.yaml")
    assert told("birds/Heron.chart.yaml") == MISSING


def test_from_a_folder_below(
    heron: Path, told: Told, git: Callable[..., str], monkeypatch: pytest.MonkeyPatch, repository: Path
) -> None:
    git("rm", "-q", "birds/heron.chart.yaml")
    monkeypatch.chdir(repository / "patterns")
    assert told() == {("heron.pattern.yaml", "pattern/missing-chart")}


def test_commits_that_are_made(
    heron: Path, told: Told, git: Callable[..., str], monkeypatch: pytest.MonkeyPatch
) -> None:
    git("rm", "-q", "birds/heron.chart.yaml")
    git("commit", "-q", "-m", "gone")
    git("commit", "-q", "--allow-empty", "-m", "later")
    monkeypatch.setenv("PRE_COMMIT_FROM_REF", "HEAD~2")
    monkeypatch.setenv("PRE_COMMIT_TO_REF", "HEAD")
    assert told() == MISSING
    monkeypatch.setenv("PRE_COMMIT_FROM_REF", "HEAD~1")
    assert told() == set()


def test_settings_stand_for_the_charts_below_them(
    heron: Path, told: Told, commit: Callable[[], None], git: Callable[..., str], write_chart: Callable[..., Path]
) -> None:
    write_chart("deep/b.chart.yaml", "short")
    settings = heron.parents[1] / "deep" / "lintarsia.yaml"
    settings.write_text("rules: {grid/stitch-count: off}\n", encoding="utf-8")
    assert told("deep/lintarsia.yaml") == set()
    commit()
    git("rm", "-q", "deep/lintarsia.yaml")
    assert told() == {("deep/b.chart.yaml", "grid/stitch-count")}


@pytest.mark.parametrize("name", ["--settings=off.chart.yaml", "--format=json:over", "-q"])
def test_no_name_is_an_option(heron: Path, told: Told, repository: Path, name: str) -> None:
    (repository / "off.chart.yaml").write_text("rules: {grid/stitch-count: off}\n", encoding="utf-8")
    (repository / name).write_text("rules: {}\n", encoding="utf-8")
    found = told("old.chart.yaml", name)
    assert ("old.chart.yaml", "grid/stitch-count") in found
    assert (name, "file/schema") in found
    assert not (repository / "over").exists()


@pytest.mark.parametrize("words", [("-",), ("--since", "HEAD")])
def test_what_does_not_go_with_it(heron: Path, invoke: Callable[..., Any], words: tuple[str, ...]) -> None:
    done = invoke("check", "--before-commit", *words)
    assert done.status == 2
    assert "--before-commit" in done.err


def test_without_a_repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, invoke: Callable[..., Any]) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("GIT_CEILING_DIRECTORIES", str(tmp_path.parent))
    done = invoke("check", "--before-commit")
    assert done.status == 2
    assert "not a git repository" in done.err
