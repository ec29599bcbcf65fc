"""A baseline that the settings name, so that a hook needs no flags."""

import json
import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

LONE = "BBBB\nBWBB\nBBBB\n"
SETTINGS = "block: warning\nbaseline: accepted.json\n"


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path]) -> Path:
    """A folder with settings that name a baseline, and a chart with a lone stitch in a folder below."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS, "utf-8")
    write_chart("birds/a.chart.yaml", LONE)
    return tmp_path


def accepted(file: Path) -> list[str]:
    return sorted({entry["file"] for entry in json.loads(file.read_text("utf-8"))["accepted"]})


def test_it_is_made_and_used_without_a_flag(invoke: Callable[..., Any], house: Path) -> None:
    done = invoke("check", "--update")
    assert done.status == 0
    assert "accepted.json accepts " in done.err
    assert accepted(house / "accepted.json") == ["birds/a.chart.yaml"]
    done = invoke("check")
    assert done.status == 0
    assert "suppressed" in done.out


def test_from_any_folder_and_by_any_path(
    invoke: Callable[..., Any], house: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    invoke("check", "--update")
    for folder, path in ((house, "birds/a.chart.yaml"), (house / "birds", "."), (house.parent, f"{house.name}/birds")):
        monkeypatch.chdir(folder)
        assert invoke("check", path).status == 0
    assert os.listdir(house / "birds") == ["a.chart.yaml"]


def test_what_is_new_blocks(invoke: Callable[..., Any], house: Path, write_chart: Callable[..., Path]) -> None:
    invoke("check", "--update")
    write_chart("birds/b.chart.yaml", LONE)
    done = invoke("check", "--format", "json")
    assert done.status == 1
    assert {r["file"] for r in json.loads(done.out)["results"] if not r["suppressed"]} == {"birds/b.chart.yaml"}


def test_without_the_file_the_run_says_how_to_make_it(invoke: Callable[..., Any], house: Path) -> None:
    done = invoke("check")
    assert done.status == 2
    assert done.err == "lintarsia: there is no baseline 'accepted.json'; --update makes it\n"


def test_the_command_line_has_the_last_word(invoke: Callable[..., Any], house: Path) -> None:
    assert invoke("check", "--baseline", "other.json", "--update").status == 0
    assert not (house / "accepted.json").exists()
    assert invoke("check", "--baseline", "other.json").status == 0


def test_each_chart_is_held_against_that_of_its_own_settings(
    invoke: Callable[..., Any], house: Path, write_chart: Callable[..., Path]
) -> None:
    write_chart("fish/a.chart.yaml", LONE)
    write_chart("moths/a.chart.yaml", LONE)
    (house / "fish" / "lintarsia.yaml").write_text("block: warning\nbaseline: own.json\n", "utf-8")
    (house / "moths" / "lintarsia.yaml").write_text("block: warning\n", "utf-8")
    done = invoke("check", "--update", "--format", "json")
    assert done.status == 1, "moths have no baseline"
    assert accepted(house / "accepted.json") == ["birds/a.chart.yaml"]
    assert accepted(house / "fish" / "own.json") == ["a.chart.yaml"]
    told = json.loads(invoke("check", "--format", "json").out)["results"]
    assert {r["file"] for r in told if not r["suppressed"]} == {"moths/a.chart.yaml"}
    assert {r.get("baseline") for r in told if r["file"].startswith("moths")} == {None}


def test_a_chart_that_comes_under_other_settings_leaves_a_stale_entry(invoke: Callable[..., Any], house: Path) -> None:
    invoke("check", "--update")
    (house / "birds" / "lintarsia.yaml").write_text("block: 'off'\n", "utf-8")
    (house / "b.chart.yaml").write_bytes((house / "birds" / "a.chart.yaml").read_bytes())
    told = json.loads(invoke("check", "--format", "json").out)["results"]
    assert "baseline/stale" in {r["rule"] for r in told}
    invoke("check", "--update")
    assert accepted(house / "accepted.json") == ["b.chart.yaml"]


def test_with_since_entries_of_rows_that_did_not_change_are_not_stale(invoke: Callable[..., Any], house: Path) -> None:
    person = {f"GIT_{who}_{what}": "a designer" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    for words in (["init", "-q"], ["add", "-A"], ["commit", "-qm", "all"]):
        subprocess.run(["git", *words], check=True, env=os.environ | person)
    invoke("check", "--update")
    file = house / "birds" / "a.chart.yaml"
    file.write_text(file.read_text("utf-8").replace("title: Toy", "title: Toys"), "utf-8")
    done = invoke("check", "--since", "HEAD", "--format", "json")
    assert done.status == 0
    assert "baseline/stale" not in done.out


@pytest.mark.parametrize("file", ["/accepted.json", ""])
def test_only_a_relative_path_will_do(invoke: Callable[..., Any], house: Path, file: str) -> None:
    (house / "lintarsia.yaml").write_text(f'baseline: "{file}"\n', "utf-8")
    done = invoke("check")
    assert done.status == 2
    assert "lintarsia.yaml:1:11: " in done.err
    assert "a file such as accepted.json" in done.err


def test_update_overwrites_nothing_that_is_no_baseline(invoke: Callable[..., Any], house: Path) -> None:
    (house / "accepted.json").write_text('{"mine": 1}', "utf-8")
    assert invoke("check", "--update").status == 2
    assert (house / "accepted.json").read_text("utf-8") == '{"mine": 1}'
