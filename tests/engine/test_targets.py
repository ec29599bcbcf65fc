"""Which charts a run finds: folders, files, excludes, links, names of every kind."""

import os
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.engine.targets import find_targets
from lintarsia.ground.trouble import Trouble
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings, SettingsFinder
from lintarsia.settings.finding import SettingsFinder as Finder
from lintarsia.settings.reader import read_settings

Write = Callable[..., Path]


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, toy_book: Rulebook) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("lintarsia.settings.reader.house_rulebook", lambda: toy_book)
    monkeypatch.setattr("lintarsia.settings.finding.Settings", lambda root: Settings(root=root, rulebook=toy_book))


def found(*paths: str) -> list[str]:
    return [target.path for target in find_targets(paths, SettingsFinder())]


def test_a_folder_stands_for_the_charts_below_it(write_chart: Write, tmp_path: Path) -> None:
    for name in ("b.chart.yaml", "birds/a.chart.yaml", "birds/deep/c.chart.yaml", ".hidden/d.chart.yaml"):
        write_chart(name)
    (tmp_path / "birds" / "notes.yaml").write_text("a: 1\n")
    assert found(".") == ["b.chart.yaml", "birds/a.chart.yaml", "birds/deep/c.chart.yaml"]
    assert found("birds/") == ["birds/a.chart.yaml", "birds/deep/c.chart.yaml"]
    assert found("./birds", "b.chart.yaml") == found(".")


def test_absolute_paths_stay_absolute(write_chart: Write, tmp_path: Path) -> None:
    file = write_chart("birds/a.chart.yaml")
    assert found(str(tmp_path)) == [str(file)]


def test_a_chart_named_twice_is_checked_once(write_chart: Write, tmp_path: Path) -> None:
    file = write_chart("a.chart.yaml")
    assert found("a.chart.yaml", ".", "./a.chart.yaml", str(file)) == ["a.chart.yaml"]


def test_a_named_file_is_taken_whatever_its_name(write_chart: Write) -> None:
    write_chart("draft.yaml")
    assert found("draft.yaml") == ["draft.yaml"]


def test_excludes_hold_for_named_files_and_folders_too(write_chart: Write, tmp_path: Path) -> None:
    write_chart("a.chart.yaml")
    write_chart("drafts/b.chart.yaml")
    (tmp_path / "lintarsia.yaml").write_text("exclude: [drafts/]\n")
    assert found(".") == ["a.chart.yaml"]
    assert found("drafts/b.chart.yaml", "drafts") == []


def test_a_folder_with_settings_of_its_own_can_be_named_though_it_is_excluded_above(
    write_chart: Write, tmp_path: Path
) -> None:
    write_chart("a.chart.yaml")
    write_chart("broken/b.chart.yaml")
    (tmp_path / "lintarsia.yaml").write_text("exclude: [broken/]\n")
    (tmp_path / "broken" / "lintarsia.yaml").write_text("block: note\n")
    assert found(".") == ["a.chart.yaml"]
    assert found("broken") == ["broken/b.chart.yaml"]
    assert found("broken/b.chart.yaml") == ["broken/b.chart.yaml"]


def test_the_settings_say_which_files_are_charts(write_chart: Write, tmp_path: Path) -> None:
    write_chart("a.chart.yaml")
    write_chart("charts/b.yaml")
    (tmp_path / "lintarsia.yaml").write_text("charts: [charts/*.yaml]\n")
    assert found(".") == ["charts/b.yaml"]


def test_settings_named_outright_hold_everywhere(write_chart: Write, tmp_path: Path, toy_book: Rulebook) -> None:
    write_chart("inner/a.chart.yaml")
    (tmp_path / "inner" / "lintarsia.yaml").write_text("this is not: [in order\n")
    (tmp_path / "house.yaml").write_text("exclude: [other]\n")
    fixed = read_settings("house.yaml", root=str(tmp_path), rulebook=toy_book)
    assert [t.path for t in find_targets(["."], Finder(fixed))] == ["inner/a.chart.yaml"]


def test_links_that_go_round_in_a_circle(write_chart: Write, tmp_path: Path) -> None:
    write_chart("a.chart.yaml")
    (tmp_path / "round").symlink_to(tmp_path, target_is_directory=True)
    (tmp_path / "self.chart.yaml").symlink_to("self.chart.yaml")
    (tmp_path / "gone.chart.yaml").symlink_to("nowhere")
    (tmp_path / "folder.chart.yaml").symlink_to(tmp_path, target_is_directory=True)
    assert found(".") == ["a.chart.yaml", "gone.chart.yaml", "self.chart.yaml"]
    assert found("round") == ["round/a.chart.yaml", "round/gone.chart.yaml", "round/self.chart.yaml"]


def test_a_path_that_is_not_there() -> None:
    with pytest.raises(Trouble, match=r"there is no file or folder 'gone\.chart\.yaml'"):
        found("gone.chart.yaml")


def test_a_name_that_is_not_utf_8(write_chart: Write, tmp_path: Path) -> None:
    file = write_chart("a.chart.yaml")
    os.rename(os.fsencode(file), os.fsencode(tmp_path) + b"/h\xe9ron.chart.yaml")
    assert found(".") == ["h\udce9ron.chart.yaml"]


def test_sizes_are_known(write_chart: Write) -> None:
    file = write_chart("a.chart.yaml")
    assert [target.size for target in find_targets(["."], SettingsFinder())] == [file.stat().st_size]


def test_folders_nested_deeper_than_python_recurses(write_chart: Write, tmp_path: Path) -> None:
    deep = "/".join(["d"] * 1200)
    file = write_chart("a.chart.yaml")
    try:
        subprocess.run(["mkdir", "-p", deep], check=True)
        file.rename(f"{deep}/a.chart.yaml")
        assert found(".") == [f"{deep}/a.chart.yaml"]
        assert found(f"{deep}/a.chart.yaml") == [f"{deep}/a.chart.yaml"]
    finally:  # what tidies up after tests would recurse
        subprocess.run(["rm", "-rf", "d"], check=True)
