"""Where reports go: several in one run, places that cannot be written, what CI systems get without asking, --quiet."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

FORMATS = ("text", "json", "sarif", "junit", "github", "gitlab")


@pytest.fixture
def check(
    invoke: Callable[..., Any], write_chart: Callable[..., Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., Any]:
    """`lintarsia check` in a folder with a good chart and one with a short row."""
    monkeypatch.chdir(tmp_path)
    write_chart("good.chart.yaml", grid="clean")
    write_chart("short.chart.yaml", grid="short")
    return lambda *words: invoke("check", *words)


def test_every_format_in_one_run(check: Callable[..., Any], tmp_path: Path) -> None:
    words = [word for form in FORMATS for word in ("--format", f"{form}:out.{form}")]
    done = check(*words, "--format", "text")
    assert (done.status, done.err) == (1, "")
    assert done.out.endswith("2 charts: 1 error\n")
    assert json.loads((tmp_path / "out.sarif").read_text("utf-8"))["version"] == "2.1.0"
    assert (tmp_path / "out.junit").read_text("utf-8").startswith("<?xml")
    assert json.loads((tmp_path / "out.gitlab").read_text("utf-8"))[0]["location"]["path"] == "short.chart.yaml"
    assert (tmp_path / "out.github").read_text("utf-8").startswith("::error file=short.chart.yaml,line=27,")
    assert (tmp_path / "out.text").read_text("utf-8") == done.out
    for form in FORMATS:
        told = check("--format", form).out
        assert told == (tmp_path / f"out.{form}").read_text("utf-8"), f"{form} says something else into a file"


@pytest.mark.parametrize("second", ["sarif:out", "sarif:./out", "sarif:folder/../out", "sarif:link"])
def test_two_formats_in_one_file_are_refused(check: Callable[..., Any], tmp_path: Path, second: str) -> None:
    (tmp_path / "folder").mkdir()
    (tmp_path / "link").symlink_to("out")
    done = check("--format", "json:out", "--format", second)
    assert done.status == 2
    assert "two formats cannot share the file 'out'" in done.err
    assert not (tmp_path / "out").exists()


def test_a_report_that_cannot_be_written_keeps_no_other_back(check: Callable[..., Any], tmp_path: Path) -> None:
    (tmp_path / "folder").mkdir()
    done = check("--format", "sarif:no/out", "--format", "junit:folder", "--format", "json:out", "--format", "text")
    assert done.status == 2
    assert "'no/out' cannot be written" in done.err
    assert "'folder' cannot be written" in done.err
    assert done.out.endswith("2 charts: 1 error\n")
    assert json.loads((tmp_path / "out").read_text("utf-8"))["summary"]["error"] == 1
    assert sorted(os.listdir(tmp_path)) == ["folder", "good.chart.yaml", "out", "short.chart.yaml"]


def test_no_report_is_written_over_a_chart(check: Callable[..., Any], tmp_path: Path) -> None:
    before = (tmp_path / "good.chart.yaml").read_bytes()
    done = check("--format", "json:./good.chart.yaml")
    assert done.status == 2
    assert "'./good.chart.yaml' is what a report is made from; name another file behind --format" in done.err
    assert (tmp_path / "good.chart.yaml").read_bytes() == before


def test_a_pipe_takes_what_it_is_given(check: Callable[..., Any]) -> None:
    """As a device does: two formats, one behind the other."""
    os.mkfifo("pipe")
    reader = os.open("pipe", os.O_RDONLY | os.O_NONBLOCK)
    assert check("--format", "json:pipe", "--format", "text:pipe").status == 1
    told = os.read(reader, 2**16).decode()
    os.close(reader)
    assert told.startswith("{")
    assert told.endswith("2 charts: 1 error\n")
    assert not os.path.isfile("pipe")


def test_github_gets_annotations_without_asking(check: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    done = check()
    assert done.status == 1
    lines = done.out.splitlines()
    assert lines[0].startswith("::error file=short.chart.yaml,line=27,endLine=27,col=3,endColumn=30,")
    assert lines[-1] == "2 charts: 1 error"


def test_gitlab_gets_its_file_without_asking(
    check: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("GITLAB_CI", "true")
    done = check()
    assert done.status == 1
    assert done.out.endswith("2 charts: 1 error\n")
    (issue,) = json.loads((tmp_path / "gl-code-quality-report.json").read_text("utf-8"))
    assert (issue["check_name"], issue["location"]["path"]) == ("grid/stitch-count", "short.chart.yaml")
    assert issue["location"]["lines"]["begin"] == 27


@pytest.mark.parametrize("variable", ["GITHUB_ACTIONS", "GITLAB_CI"])
def test_what_is_asked_for_comes_before_what_is_usual(
    check: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch, variable: str
) -> None:
    monkeypatch.setenv(variable, "true")
    assert json.loads(check("--format", "json").out)["summary"]["charts"] == 2
    assert sorted(os.listdir(tmp_path)) == ["good.chart.yaml", "short.chart.yaml"]


@pytest.mark.parametrize("form", FORMATS)
def test_quiet_keeps_back_only_what_people_read_and_only_where_all_is_well(
    check: Callable[..., Any], form: str
) -> None:
    good = check("good.chart.yaml", "--quiet", "--format", form)
    assert (good.status, good.err) == (0, "")
    assert (good.out == "") is (form in ("text", "github"))
    loud = check("short.chart.yaml", "--format", form)
    assert check("short.chart.yaml", "--quiet", "--format", form) == loud


def test_quiet_is_silent_about_what_is_accepted(check: Callable[..., Any]) -> None:
    check("--baseline", "accepted.json", "--update")
    assert check("--baseline", "accepted.json").out == "2 charts: nothing to mend; 1 suppressed\n"
    assert check("--baseline", "accepted.json", "--quiet").out == ""
