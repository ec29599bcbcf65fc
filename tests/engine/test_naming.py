"""Charts named alone: the patterns that name them are found, wherever in the repository they lie."""

import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.engine import check_paths
from lintarsia.ground.kinds import Kind
from lintarsia.ground.trouble import Trouble

CHART = """\
lintarsia: 1
title: Field
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
"""
PATTERN = "lintarsia-pattern: 1\ntitle: Cushion\npieces:\n  front: {chart: CHART, measures: {width: 5 cm}}\n"
WIDTH = ("cushion.pattern.yaml", "size/measurement")


@pytest.fixture(autouse=True)
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / ".git").mkdir()
    return tmp_path


def chart(path: str, stitches: int = 10) -> None:
    write(path, CHART + f"  {'B' * stitches}\n" * 20)


def pattern(path: str, names: str) -> None:
    write(path, PATTERN.replace("CHART", names))


def write(path: str, text: str) -> None:
    Path(path).parent.mkdir(parents=True, exist_ok=True)
    Path(path).write_text(text, encoding="utf-8")


def found(*paths: str, **how: Any) -> list[tuple[str, str]]:
    """What is wrong with a width, which only a pattern states; files that no pattern lists are left aside."""
    results = check_paths(paths, with_patterns=True, **how).results
    return [(result.file, result.rule) for result in results if result.rule == WIDTH[1]]


def test_a_chart_that_outgrew_its_pattern(repository: Path) -> None:
    chart("front.chart.yaml", stitches=12)
    chart("other.chart.yaml", stitches=12)
    pattern("cushion.pattern.yaml", "front.chart.yaml")
    assert found("front.chart.yaml") == [WIDTH]
    assert found("other.chart.yaml") == []
    assert check_paths(["front.chart.yaml"]).results == ()
    report = check_paths(["front.chart.yaml", "other.chart.yaml"], with_patterns=True)
    assert (report.charts, report.others, report.blocked) == (2, {Kind.PATTERN: 1}, True)


def test_a_pattern_named_with_its_chart_is_checked_once() -> None:
    chart("front.chart.yaml", stitches=12)
    pattern("cushion.pattern.yaml", "front.chart.yaml")
    assert found("cushion.pattern.yaml", "front.chart.yaml") == [WIDTH]
    assert found(".") == [WIDTH]


@pytest.mark.parametrize(
    ("place", "names"),
    [
        ("books/spring/cushion.pattern.yaml", "../../charts/deep/front.chart.yaml"),
        ("cushion.pattern.yaml", "charts/deep/front.chart.yaml"),
        ("charts/deep/cushion.pattern.yaml", "./front.chart.yaml"),
    ],
)
def test_patterns_elsewhere_in_the_repository(place: str, names: str, monkeypatch: pytest.MonkeyPatch) -> None:
    chart("charts/deep/front.chart.yaml", stitches=12)
    pattern(place, names)
    assert found("charts/deep/front.chart.yaml") == [(place, WIDTH[1])]
    monkeypatch.chdir("charts")
    assert found("deep/front.chart.yaml") == [(Path("../" + place).as_posix().replace("../charts/", ""), WIDTH[1])]


def test_a_chart_named_absolutely_brings_its_pattern_so(repository: Path) -> None:
    chart("front.chart.yaml", stitches=12)
    pattern("cushion.pattern.yaml", "front.chart.yaml")
    assert found(str(repository / "front.chart.yaml")) == [(str(repository / WIDTH[0]), WIDTH[1])]


def test_a_pattern_that_its_settings_exclude_or_that_is_hidden_is_left_out() -> None:
    chart("front.chart.yaml", stitches=12)
    pattern("drafts/cushion.pattern.yaml", "../front.chart.yaml")
    pattern(".old/cushion.pattern.yaml", "../front.chart.yaml")
    write("lintarsia.yaml", "exclude: [drafts/]\n")
    assert found("front.chart.yaml") == []
    write("drafts/lintarsia.yaml", "rules: {size/measurement: note}\n")  # as when it is named itself
    assert found("front.chart.yaml") == [("drafts/cushion.pattern.yaml", WIDTH[1])]


def test_a_chart_behind_a_link_is_the_same_chart() -> None:
    chart("front.chart.yaml", stitches=12)
    Path("link.chart.yaml").symlink_to("front.chart.yaml")
    pattern("cushion.pattern.yaml", "link.chart.yaml")
    assert found("front.chart.yaml") == [WIDTH]


def test_a_pattern_that_cannot_be_read_names_nothing() -> None:
    chart("front.chart.yaml", stitches=12)
    write("cushion.pattern.yaml", "pieces: [front.chart.yaml\n")
    assert found("front.chart.yaml") == []


def test_faulty_settings_beside_a_pattern_are_trouble() -> None:
    chart("front.chart.yaml")
    pattern("book/cushion.pattern.yaml", "../front.chart.yaml")
    write("book/lintarsia.yaml", "blok: error\n")
    with pytest.raises(Trouble, match=r"book/lintarsia.yaml:1:1"):
        check_paths(["front.chart.yaml"], with_patterns=True)


def test_since_a_revision(repository: Path) -> None:
    (repository / ".git").rmdir()
    chart("front.chart.yaml")
    chart("back.chart.yaml")
    pattern("cushion.pattern.yaml", "front.chart.yaml")
    for words in (
        ["init", "-q"],
        ["add", "-A"],
        ["-c", "user.name=Designer", "-c", "user.email=designer@example.org", "commit", "-qm", "state"],
    ):
        subprocess.run(["git", *words], check=True)
    chart("front.chart.yaml", stitches=12)
    assert found(".", since="HEAD") == [WIDTH]
    chart("front.chart.yaml")
    chart("back.chart.yaml", stitches=12)
    assert found(".", since="HEAD") == []


def test_not_with_what_comes_from_standard_input(invoke_check: Callable[..., Any]) -> None:
    status, told = invoke_check("-", "--with-patterns")
    assert status == 2
    assert "--with-patterns looks at files" in told


@pytest.fixture
def invoke_check(capfd: pytest.CaptureFixture[str]) -> Callable[..., tuple[int, str]]:
    from lintarsia.cli.main import main

    def run(*words: str) -> tuple[int, str]:
        return main(["check", *words]), capfd.readouterr().err

    return run


def test_what_is_true_of_all_charts_of_a_pattern_is_told_once(repository: Path) -> None:
    """Two greens that are hard to tell apart, in both charts of the pattern and in one that it does not name."""
    alike = CHART.replace("colours:\n", 'colours:\n  G: {name: Fog, shade: "#284069"}\n') + "  BBGGG\n  BBGGG\n"
    for name in ("front", "sleeve", "other"):
        write(f"{name}.chart.yaml", alike)
    write("all.pattern.yaml", "lintarsia-pattern: 1\ntitle: A\npieces:\n"
          "  front: {chart: front.chart.yaml}\n  sleeve: {chart: sleeve.chart.yaml}\n")  # fmt: skip
    told = [result.file for result in check_paths(["."]).results if result.rule == "colour/look-alike"]
    assert told == ["front.chart.yaml", "other.chart.yaml"]
    write("wren.knit.yaml", "lintarsia-knit: 1\nchart: sleeve.chart.yaml\nknitter: Wren\n")  # which is no part of it
    assert [r.file for r in check_paths(["."]).results if r.rule == "colour/look-alike"] == told
    told = [result.file for result in check_paths(["sleeve.chart.yaml"]).results if result.rule == "colour/look-alike"]
    assert told == ["sleeve.chart.yaml"], "alone it is told of"
