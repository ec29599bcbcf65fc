"""A chart from standard input, as editors hand over what is not saved yet."""

import io
import json
import os
import shlex
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

Pipe = Callable[..., Any]


@pytest.fixture
def pipe(
    write_chart: Callable[..., Path],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    invoke: Callable[..., Any],
) -> Callable[..., Any]:
    """Hand a chart with a short row to `lintarsia check - …` in the test's folder."""
    chart = write_chart("source/short.yaml", grid="short").read_bytes()
    monkeypatch.chdir(tmp_path)

    def pipe(*words: str | bytes) -> Any:
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(chart)))
        return invoke("check", "-", *map(os.fsdecode, words))

    return pipe


def results(done: Any) -> list[dict[str, Any]]:
    assert done.status in (0, 1), done.err
    found: list[dict[str, Any]] = json.loads(done.out)["results"]
    return found


def test_the_settings_are_those_of_its_name(pipe: Pipe, tmp_path: Path) -> None:
    (tmp_path / "samplers").mkdir()
    (tmp_path / "samplers" / "lintarsia.yaml").write_text("rules: {grid/stitch-count: note}\n", "utf-8")
    (told,) = results(pipe("--stdin-name", "samplers/a.chart.yaml", "--format", "json"))
    assert (told["file"], told["level"]) == ("samplers/a.chart.yaml", "note")
    (told,) = results(pipe("--stdin-name", "a.chart.yaml", "--format", "json"))
    assert told["level"] == "error"
    (told,) = results(pipe("--format", "json"))
    assert told["file"] == "stdin.chart.yaml"


def test_a_name_that_the_settings_exclude_is_left_alone(pipe: Pipe, tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text("exclude: [drafts]\n", "utf-8")
    done = pipe("--stdin-name", "drafts/a.chart.yaml", "--format", "json")
    assert results(done) == []
    assert done.err == "lintarsia: the settings exclude standard input (as drafts/a.chart.yaml)\n"


def test_it_stands_for_the_file_of_its_name(pipe: Pipe, write_chart: Callable[..., Path]) -> None:
    write_chart("a.chart.yaml", grid="clean")
    write_chart("b.chart.yaml", grid="clean")
    done = pipe(".", "--stdin-name", "./a.chart.yaml", "--format", "json")
    assert [told["file"] for told in results(done)] == ["a.chart.yaml"]
    assert json.loads(done.out)["summary"]["charts"] == 2


def test_a_real_pipe_is_read_to_its_end(write_chart: Callable[..., Path], tmp_path: Path) -> None:
    """By the command, whose standard input it is."""
    chart = write_chart("source/short.yaml", grid="short").read_bytes()
    command = [sys.executable, "-m", "lintarsia", "check", "-", "--format", "json"]
    done = subprocess.run(command, input=chart, cwd=tmp_path, capture_output=True, check=False)
    assert (done.returncode, done.stderr) == (1, b"")
    (told,) = json.loads(done.stdout)["results"]
    assert (told["file"], told["rule"]) == ("stdin.chart.yaml", "grid/stitch-count")


@pytest.mark.parametrize(
    ("name", "told"),
    [
        ("two\nlines.chart.yaml", "two\nlines.chart.yaml"),
        ("\x1b[31mred.chart.yaml", "\x1b[31mred.chart.yaml"),
        (b"\xff\xfe.chart.yaml", "\\xff\\xfe.chart.yaml"),
        ("-", "-"),
        ("--fix", "--fix"),
        ("::error::.chart.yaml", "::error::.chart.yaml"),
        ("<&\"'>.chart.yaml", "<&\"'>.chart.yaml"),
        ("nowhere/at/all/a.chart.yaml", "nowhere/at/all/a.chart.yaml"),
        ("x" * 5000 + ".chart.yaml", "x" * 5000 + ".chart.yaml"),
        ("../../../../../../../../../../a.chart.yaml", "../../../../../../../../../../a.chart.yaml"),
        ("", "stdin.chart.yaml"),
        ("lintarsia.yaml", "lintarsia.yaml"),
    ],
)
def test_hostile_names_in_every_format(pipe: Pipe, tmp_path: Path, name: str | bytes, told: str) -> None:
    given = os.fsencode("--stdin-name=") + (name if isinstance(name, bytes) else os.fsencode(name))
    forms = ("text", "json", "sarif", "junit", "github", "gitlab")
    done = pipe(given, *(f"--format={form}:out.{form}" for form in forms), "--format=text")
    assert (done.status, done.err) == (1, "")
    texts = {form: (tmp_path / f"out.{form}").read_text("utf-8") for form in forms}
    assert "\x1b" not in "".join(texts.values()) + done.out, "a name must not steer the terminal"
    assert [result["file"] for result in json.loads(texts["json"])["results"]] == [told]
    assert [line.partition(" ")[0] for line in texts["github"].splitlines()] == ["::error", "1"]
    assert len(json.loads(texts["gitlab"])) == len(json.loads(texts["sarif"])["runs"][0]["results"]) == 1
    assert len(list(ElementTree.fromstring(texts["junit"]).iter("failure"))) == 1


def test_a_folder_is_no_name(pipe: Pipe, tmp_path: Path) -> None:
    done = pipe("--stdin-name", "source/")
    assert done.status == 2
    assert "--stdin-name 'source' is no name for a chart" in done.err


def test_a_stream_without_end_is_cut_where_charts_are(tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text("max-size: 64 KiB\n", "utf-8")
    command = [sys.executable, "-m", "lintarsia", "check", "-", "--format", "json"]
    with open("/dev/zero", "rb") as endless:
        done = subprocess.run(command, stdin=endless, cwd=tmp_path, capture_output=True)
    assert done.returncode == 1
    assert [told["rule"] for told in json.loads(done.stdout)["results"]] == ["file/unreadable"]


def test_no_standard_input_at_all(tmp_path: Path) -> None:
    command = ["sh", "-c", f"{shlex.quote(sys.executable)} -m lintarsia check - <&-"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True)
    assert done.returncode == 2
    assert b"there is no standard input to read a chart from" in done.stderr


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--stdin-name", "a.chart.yaml"), "--stdin-name goes with the path -"),
        (("-", "--since", "HEAD"), "--since looks at files"),
        (("-", "--fix"), "--fix cannot change what comes from standard input"),
    ],
)
def test_what_cannot_go_together(invoke: Callable[..., Any], words: tuple[str, ...], told: str) -> None:
    done = invoke("check", *words)
    assert done.status == 2
    assert told in done.err
