"""Charts that are symbolic links: none leads out of the repository, whatever is done with it."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Invoke = Callable[..., Any]
Write = Callable[..., Path]
SECRET = "token: 4711\nuser: heron\n"
TOLD = "this name leads out of the repository by a symbolic link; charts are read inside it alone"
COMMANDS = [
    ("check", "charts"),
    ("check", "charts/link.chart.yaml"),
    ("check", "charts", "--fix"),
    ("check", "charts", "--fix=risky"),
    ("draw", "charts/link.chart.yaml"),
    ("draw", "charts/link.chart.yaml", "--over", "results"),
    ("plan", "charts/link.chart.yaml"),
    ("plan", "charts/link.chart.yaml", "--write"),
    ("write", "charts/link.chart.yaml"),
]


@pytest.fixture
def inside(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A repository with room for charts; it is the current folder."""
    (tmp_path / "ours" / ".git").mkdir(parents=True)
    (tmp_path / "ours" / "charts").mkdir()
    monkeypatch.chdir(tmp_path / "ours")
    return tmp_path / "ours"


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_a_link_out_of_the_repository_is_refused(
    inside: Path, write_chart: Write, invoke: Invoke, words: tuple[str, ...]
) -> None:
    # A fault with a safe fix, so that --fix would write: an unlisted key's slip and a duplicate blank.
    target = write_chart("theirs/a.chart.yaml", "BBBB\nBBWW \nBBWW\n")
    before = target.read_bytes()
    (inside / "charts/link.chart.yaml").symlink_to(target)
    done = invoke(*words)
    assert done.status == 1, done
    assert TOLD in " ".join((done.out + done.err).split())
    assert "Dusk blue" not in done.out + done.err
    assert target.read_bytes() == before


def test_no_difference_is_shown_of_it(inside: Path, write_chart: Write, invoke: Invoke) -> None:
    target = write_chart("theirs/a.chart.yaml", "BBBB\nBBWW \nBBWW\n")
    (inside / "charts/link.chart.yaml").symlink_to(target)
    done = invoke("check", "charts", "--diff")
    assert (done.status, done.out) == (1, "")
    assert "nothing would be mended" in done.err


def test_the_site_publishes_nothing_of_it(inside: Path, tmp_path: Path, invoke: Invoke) -> None:
    (tmp_path / "secret").write_text(SECRET, encoding="utf-8")
    (inside / "charts/link.chart.yaml").symlink_to(tmp_path / "secret")
    assert invoke("site", "charts", "-o", "pages").status in (0, 1)
    published = "".join(
        file.read_text("utf-8", "replace")
        for file in Path("pages").rglob("*")
        if file.is_file() and not file.is_symlink()
    )
    assert "4711" not in published
    assert "leads out of the repository" in published


def test_a_link_into_git_s_own_folder_is_refused(inside: Path, invoke: Invoke) -> None:
    (inside / ".git/config").write_text(SECRET, encoding="utf-8")
    (inside / "charts/link.chart.yaml").symlink_to(os.path.join("..", ".git", "config"))
    done = invoke("check", "--format", "json")
    (result,) = json.loads(done.out)["results"]
    assert (result["rule"], result["key"]) == ("file/unreadable", "outside")
    assert "4711" not in done.out


def test_a_pattern_that_is_a_link_is_refused_too(inside: Path, tmp_path: Path, invoke: Invoke) -> None:
    (tmp_path / "secret").write_text(SECRET, encoding="utf-8")
    (inside / "a.pattern.yaml").symlink_to(tmp_path / "secret")
    done = invoke("check", "--format", "json")
    assert [(r["rule"], r["key"]) for r in json.loads(done.out)["results"]] == [("file/unreadable", "outside")]


def test_a_folder_that_is_a_link_leads_out_as_well(inside: Path, write_chart: Write, invoke: Invoke) -> None:
    target = write_chart("theirs/a.chart.yaml", "clean")
    (inside / "more").symlink_to(target.parent)
    for path in ("more", "more/a.chart.yaml"):
        done = invoke("check", path)
        assert (done.status, TOLD in " ".join(done.out.split())) == (1, True)


def test_links_inside_stand(inside: Path, write_chart: Write, invoke: Invoke) -> None:
    write_chart("ours/store/a.chart.yaml", "clean")
    (inside / "charts/link.chart.yaml").symlink_to(os.path.join("..", "store", "a.chart.yaml"))
    done = invoke("check", "charts", "--format", "text")
    assert (done.status, done.out) == (0, "1 chart: nothing to mend\n")
    assert invoke("plan", "charts/link.chart.yaml").status == 0


def test_without_a_repository_the_folder_of_the_chart_is_the_bound(
    tmp_path: Path, write_chart: Write, invoke: Invoke, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    target = write_chart("store/a.chart.yaml", "clean")
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine/link.chart.yaml").symlink_to(target)
    assert invoke("check", ".").status == 1
    (tmp_path / "lintarsia.yaml").write_text("block: error\n", encoding="utf-8")
    assert invoke("check", ".").status == 0, "settings above both say that they belong together"


def test_the_way_to_the_repository_may_be_a_link(
    inside: Path, tmp_path: Path, write_chart: Write, invoke: Invoke, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_chart("ours/charts/a.chart.yaml", "clean")
    (tmp_path / "way").symlink_to(inside)
    monkeypatch.chdir(tmp_path)
    assert invoke("check", "way/charts").status == 0
    assert invoke("check", str(tmp_path / "way" / "charts" / "a.chart.yaml")).status == 0


def test_settings_may_be_shared_by_a_link(inside: Path, tmp_path: Path, write_chart: Write, invoke: Invoke) -> None:
    (tmp_path / "shared.yaml").write_text("block: warning\n", encoding="utf-8")
    (inside / "lintarsia.yaml").symlink_to(tmp_path / "shared.yaml")
    write_chart("ours/charts/a.chart.yaml", "BBBB\nBBBB\n")
    assert invoke("check").status == 1


@pytest.mark.parametrize("words", [("check", "."), ("release", "a.pattern.yaml"), ("site", ".", "-o", "pages")])
def test_no_file_can_have_the_name_that_a_pattern_states(
    inside: Path, write_chart: Write, invoke: Invoke, words: tuple[str, ...]
) -> None:
    write_chart("ours/b.chart.yaml", "clean")
    text = 'lintarsia-pattern: 1\ntitle: Heron\npieces:\n  front: {chart: "a\\0.chart.yaml"}\n'
    (inside / "a.pattern.yaml").write_text(text, encoding="utf-8")
    done = invoke(*words)
    assert "itself failed" not in done.out + done.err
    assert done.status == (0 if words[0] == "site" else 1)
    if words[0] == "check":
        (told,) = [r for r in json.loads(invoke(*words, "--format", "json").out)["results"] if r["level"] == "error"]
        assert (told["rule"], told["key"]) == ("pattern/missing-chart", "outside")
        assert "is no name that a file can have" in told["message"]
    done = invoke("check", "b.chart.yaml", "--with-patterns")
    assert (done.status, "itself failed" in done.err) == (0, False)
