"""Telling only what a git revision has not, in real repositories."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Commit = Callable[[], None]
Lone = Callable[..., list[tuple[str, int]]]
ONE = "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\nBBBBBBBB\n"  # a lone stitch in row 3
TWO = "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\nBBBBWBBB\n"  # and another in row 1


@pytest.fixture
def lone(invoke: Callable[..., Any]) -> Lone:
    """The files and rows of lone stitches that a check with these words reports."""

    def run(*words: str) -> list[tuple[str, int]]:
        done = invoke("check", *words, "--format", "json")
        assert done.status in (0, 1), done.err
        results = json.loads(done.out)["results"]
        return [(result["file"], result["row"]) for result in results if result["rule"] == "area/single-stitch"]

    return run


def test_only_changed_rows_of_changed_charts(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", ONE)
    write_chart("deep/b.chart.yaml", ONE)
    commit()
    assert lone("--since", "HEAD") == []
    write_chart("a.chart.yaml", TWO)
    assert lone(".", "--since", "HEAD") == [("a.chart.yaml", 1)]
    assert lone("--since", "HEAD", "deep") == []
    assert lone(".") == [("a.chart.yaml", 3), ("a.chart.yaml", 1), ("deep/b.chart.yaml", 3)]


def test_a_chart_git_does_not_know_yet_is_all_new(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    write_chart("näch [1] \"x\".chart.yaml", TWO)  # fmt: skip
    assert sorted(row for _, row in lone("--since", "main")) == [1, 3]
    commit()
    assert sorted(row for _, row in lone("--since", "HEAD~1")) == [1, 3]


def test_faults_of_the_file_as_a_whole_are_kept(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], invoke: Callable[..., Any]
) -> None:
    write_chart("a.chart.yaml", "BBBBBBBB\nBBBBWWWW\nBBBBWWWW\nBBBBBBBB\n")
    commit()
    write_chart("a.chart.yaml", "BBBBBBBB\n" * 5)
    done = invoke("check", "--since", "HEAD", "--format", "json")
    assert "colour/unused" in {result["rule"] for result in json.loads(done.out)["results"]}


def test_where_a_row_was_taken_out_its_neighbours_count(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", "BBBBBBBB\nBWBBBBBB\nBBWBBBBB\nBBBBBBBB\n")
    commit()
    write_chart("a.chart.yaml", "BBBBBBBB\nBWBBBBBB\nBBBBBBBB\n")
    assert lone("--since", "HEAD") == [("a.chart.yaml", 2)], "the stitch that touched it is lone now"


@pytest.mark.parametrize("revision", ["no-such-branch", "--output=/tmp/x", ""])
def test_a_revision_git_does_not_know(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], invoke: Callable[..., Any], revision: str
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


def test_a_merge_base_leaves_out_what_the_other_branch_has_mended(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", ONE)
    write_chart("b.chart.yaml", ONE)
    commit()
    git("switch", "-q", "-c", "topic")
    write_chart("a.chart.yaml", TWO)
    commit()
    git("switch", "-q", "main")
    write_chart("b.chart.yaml", "BBBBBBBB\n" * 4)
    commit()
    git("switch", "-q", "topic")
    assert lone("--since", "main") == [("a.chart.yaml", 1), ("b.chart.yaml", 3)]
    assert lone("--since", "main...topic") == [("a.chart.yaml", 1)]
    assert lone("--since", "main...") == [("a.chart.yaml", 1)]
    assert lone("--since", "...main") == [("a.chart.yaml", 1)]


@pytest.mark.parametrize("revision", ["main...gone", "gone...", "main..topic"])
def test_ends_that_git_does_not_know(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], invoke: Callable[..., Any], revision: str
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    done = invoke("check", "--since", revision)
    assert done.status == 2
    assert "git knows no revision" in done.err
    assert ("expected one revision, or A...B" in done.err) == ("..." not in revision)


def test_lines_of_work_that_share_nothing(
    repository: Path,
    commit: Commit,
    git: Callable[..., str],
    write_chart: Callable[..., Path],
    invoke: Callable[..., Any],
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    git("switch", "-q", "--orphan", "other")
    commit()
    assert invoke("check", "--since", "gone").status == 2, "told where there is no chart at all, too"
    write_chart("b.chart.yaml", ONE)
    done = invoke("check", "--since", "main...other")
    assert done.status == 2
    assert "git finds nothing that main and other share; fetch more of the history" in done.err


@pytest.mark.parametrize("known", [True, False], ids=["by git", "outside git"])
def test_a_renamed_chart_keeps_its_baseline(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone, known: bool
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    (repository / "a.chart.yaml").unlink()
    write_chart("birds/heron.chart.yaml", TWO)
    if known:
        git("add", "-A")
    status = git("status", "--short")
    assert lone("--since", "HEAD") == [("birds/heron.chart.yaml", 1)]
    assert git("status", "--short") == status, "git's own list of files must stay as it was"


def test_a_chart_moved_out_of_a_folder_that_is_left_out_is_new(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone
) -> None:
    (repository / "lintarsia.yaml").write_text("exclude: [drafts]\n", encoding="utf-8")
    write_chart("drafts/a.chart.yaml", ONE)
    commit()
    git("mv", "drafts/a.chart.yaml", "a.chart.yaml")
    assert lone("--since", "HEAD") == [("a.chart.yaml", 3)]


def test_results_of_changed_settings_are_new(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone
) -> None:
    settings = repository / "lintarsia.yaml"
    settings.write_text("rules: {area/single-stitch: off}\n", encoding="utf-8")
    write_chart("a.chart.yaml", ONE)
    write_chart("other/b.chart.yaml", ONE)
    (repository / "other/lintarsia.yaml").write_text("block: error\n", encoding="utf-8")
    commit()
    settings.write_text("rules: {area/single-stitch: error}\n", encoding="utf-8")
    assert lone("--since", "HEAD") == [("a.chart.yaml", 3)]
    settings.unlink()
    assert lone("--since", "HEAD") == [("a.chart.yaml", 3)]
    settings.write_text("rules: {area/single-stich: off}\n", encoding="utf-8")
    write_chart("a.chart.yaml", TWO)
    commit()
    settings.unlink()
    assert lone("--since", "HEAD") == [], "settings that were not in order decided nothing; those of today do"


def test_an_accepted_result_that_no_longer_is(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], invoke: Callable[..., Any]
) -> None:
    accepted = "suppress:\n  - {rule: area/single-stitch, row: 3, justification: the eye}\n"
    write_chart("a.chart.yaml", ONE, accepted)
    commit()
    write_chart("a.chart.yaml", ONE)
    done = invoke("check", "--since", "HEAD", "--format", "json")
    told = [(r["rule"], r["suppressed"]) for r in json.loads(done.out)["results"]]
    assert told == [("area/single-stitch", False)]


def test_a_pattern_whose_chart_is_gone_is_told(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], invoke: Callable[..., Any]
) -> None:
    write_chart("birds/a.chart.yaml", "clean")
    text = "lintarsia-pattern: 1\ntitle: Heron\npieces:\n  front: {chart: birds/a.chart.yaml, rows: 20}\n"
    (repository / "heron.pattern.yaml").write_text(text, encoding="utf-8")
    commit()
    assert invoke("check", "--since", "HEAD", "-q").out == ""
    (repository / "birds/a.chart.yaml").rename(repository / "birds/b.chart.yaml")
    for words in (("check", ".", "--since", "HEAD"), ("check", "birds", "--since", "HEAD", "--with-patterns")):
        done = invoke(*words, "--format", "json")
        assert ("pattern/missing-chart", "heron.pattern.yaml") in {
            (r["rule"], r["file"]) for r in json.loads(done.out)["results"]
        }


def test_a_chart_that_is_a_link_differs_with_what_it_leads_to(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("store/heron.txt", ONE)
    (repository / "a.chart.yaml").symlink_to("store/heron.txt")
    commit()
    assert lone("--since", "HEAD") == []
    write_chart("store/heron.txt", TWO)
    assert lone("--since", "HEAD") == [("a.chart.yaml", 1)]


def test_from_a_folder_below(
    repository: Path, commit: Commit, write_chart: Callable[..., Path], lone: Lone, monkeypatch: pytest.MonkeyPatch
) -> None:
    (repository / "lintarsia.yaml").write_text(
        "overrides: [{paths: [deep/b.chart.yaml], rules: {area/single-stitch: error}}]\n"
        "rules: {area/single-stitch: off}\n",
        encoding="utf-8",
    )
    write_chart("deep/b.chart.yaml", ONE)
    commit()
    write_chart("deep/b.chart.yaml", TWO)
    monkeypatch.chdir(repository / "deep")
    assert lone("--since", "HEAD") == [("b.chart.yaml", 1)]
    assert lone("--since", "HEAD", "--settings", "../lintarsia.yaml") == []


def test_what_git_does_not_know_yet_is_in_no_way(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("a.chart.yaml", ONE)
    commit()
    git("init", "-q", "inner")  # a repository inside, without a commit; git refuses to take it up
    (repository / "photo.jpg").write_bytes(bytes(range(256)))
    write_chart("two\nlines.chart.yaml", TWO)
    write_chart("c.txt", TWO)
    write_chart("a.chart.yaml", TWO)
    assert lone("--since", "HEAD", "c.txt", "a.chart.yaml") == [("a.chart.yaml", 1), ("c.txt", 3), ("c.txt", 1)]
    assert len(lone("--since", "HEAD")) == 3


@pytest.mark.parametrize("ends", ["true", "input"])
def test_line_ends_as_git_checks_them_out(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone, ends: str
) -> None:
    git("config", "core.autocrlf", ends)
    file = write_chart("a.chart.yaml", ONE)
    write_chart("b.chart.yaml", ONE)
    commit()
    file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n"))
    assert lone("--since", "HEAD") == []


def test_a_work_tree_that_is_not_whole(
    repository: Path, commit: Commit, git: Callable[..., str], write_chart: Callable[..., Path], lone: Lone
) -> None:
    write_chart("birds/a.chart.yaml", ONE)
    write_chart("ships/b.chart.yaml", ONE)
    commit()
    git("sparse-checkout", "set", "birds")
    assert not (repository / "ships").exists()
    assert lone("--since", "HEAD") == []
    write_chart("birds/a.chart.yaml", TWO)
    assert lone("--since", "HEAD") == [("birds/a.chart.yaml", 1)]

    git("worktree", "add", "-q", "--detach", "second")
    assert lone("--since", "HEAD", "second") == []
