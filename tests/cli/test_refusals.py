"""What every command says where it cannot do as it is told: whole sentences, exit statuses, and nothing written."""

import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from folding import each
from lintarsia.cli.exits import CANNOT, FOUND, OK

CHART = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours: {B: {name: Oat, shade: "#f0e7d4"}, W: {name: Leaf, shade: "#35603a"}}
chart: |
  BWB
  WWB
"""
PATTERN = """\
lintarsia-pattern: 1
title: Mat
sizes: [small, large]
pieces:
  front: {chart: a.chart.yaml, repeats: {small: 1, large: 2}}
  back: {chart: a.chart.yaml}
"""


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("a.chart.yaml").write_text(CHART, "utf-8")
    Path("uneven.chart.yaml").write_text(CHART.replace("  WWB\n", "  WW\n"), "utf-8")
    Path("strange.chart.yaml").write_text(CHART.replace("  WWB\n", "  WQX\n"), "utf-8")
    Path("broken.chart.yaml").write_text("word\n", "utf-8")
    Path("mat.pattern.yaml").write_text(PATTERN, "utf-8")
    Path("broken.pattern.yaml").write_text("lintarsia-pattern: 1\n", "utf-8")
    Path("b.knit.yaml").write_text("lintarsia-knit: 1\n", "utf-8")
    Path("table.csv").write_text("B,W\n", "utf-8")
    Path("there.png").write_bytes(b"")
    Path("many").mkdir()
    Path("empty").mkdir()
    Path("excluded").mkdir()
    Path("excluded/left-out.chart.yaml").write_text(CHART, "utf-8")
    Path("excluded/lintarsia.yaml").write_text("exclude: [left-out.chart.yaml]\n", "utf-8")
    for name in "gbafced":
        Path(f"many/{name}.chart.yaml").write_text(CHART, "utf-8")
    return tmp_path


def bare(err: str) -> str:
    """What is said, in one line, without the usage and the boxes around it."""
    lines = [line for line in err.splitlines() if line.strip() and not line.startswith(("Usage:", "Try "))]
    return " ".join(" ".join(lines).split()).removeprefix("Error: ").removeprefix("lintarsia: ")


def refusals() -> dict[str, str]:
    """refusals.txt: commands, and what each says."""
    blocks = (Path(__file__).parent / "refusals.txt").read_text("utf-8").split("\n$ lintarsia ")[1:]
    return {line: said.strip() for line, _, said in (block.partition("\n") for block in blocks)}


REFUSED = refusals()


@each("line", REFUSED)
def test_a_refusal_is_told_whole_and_nothing_is_written(line: str, invoke: Callable[..., Any], here: Path) -> None:
    before = {path: path.read_bytes() for path in here.rglob("*") if path.is_file()}
    words = line.split(" ") if line.endswith(" ") else line.split()
    done = invoke(*words)
    assert (bare(done.err), done.status, done.out) == (REFUSED[line], CANNOT, "")
    assert {path: path.read_bytes() for path in here.rglob("*") if path.is_file()} == before


STANDS_IN_THE_WAY = {
    "plan broken.chart.yaml": "no plan can be made of this chart until that is mended",
    "write broken.chart.yaml": "the rows cannot be written until that is mended",
    "draw broken.chart.yaml": "no picture can be made of this chart until that is mended",
    "plan broken.pattern.yaml": "no plan can be made of this pattern until that is mended",
    "write broken.pattern.yaml": "the rows cannot be written until that is mended",
    "draw broken.pattern.yaml": "no picture can be made of this pattern until that is mended",
    "release broken.pattern.yaml": "there is no pattern here to release",
}


@pytest.mark.parametrize("line", STANDS_IN_THE_WAY)
def test_faults_of_the_file_come_first_with_their_places(line: str, invoke: Callable[..., Any]) -> None:
    done = invoke(*line.split())
    *faults, last = done.err.splitlines()
    assert (done.status, done.out, last) == (FOUND, "", f"lintarsia: {STANDS_IN_THE_WAY[line]}")
    file = line.split()[1]
    assert faults
    assert all(fault.startswith(f"{file}:1:1: ") and fault.endswith("]") for fault in faults)


def test_what_is_done_all_the_same_is_said(invoke: Callable[..., Any]) -> None:
    done = invoke("plan", "uneven.chart.yaml")
    said = "the rows differ in length; the plan takes them as lined up at the right (lintarsia check says which)"
    assert (done.status, done.err) == (OK, f"lintarsia: {said}\n")
    for file, why in (("uneven", "its rows differ in length"), ("strange", "its grid uses symbols that the key lacks")):
        before = Path(f"{file}.chart.yaml").read_bytes()
        done = invoke("plan", f"{file}.chart.yaml", "--write")
        assert done.status == FOUND
        said = f"lintarsia: {file}.chart.yaml was left as it is: {why} (lintarsia check says where)\n"
        assert done.err.endswith(said)
        assert Path(f"{file}.chart.yaml").read_bytes() == before
    done = invoke("write", "strange.chart.yaml")
    assert (done.status, done.err) == (OK, "lintarsia: the key has no Q, X; the rows name them all the same\n")
    assert invoke("plan", "a.chart.yaml", "--write").out == "a.chart.yaml: supplies written (B 2, W 1)\n"
    assert invoke("plan", "many/a.chart.yaml", "-o", "plan.txt") == (OK, "", "")
    assert Path("plan.txt").read_text("utf-8").startswith("Leaf\n")


def test_standard_input_that_is_not_there(invoke: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stdin", None)
    for words in (("check", "-"), ("plan", "-"), ("write", "-")):
        done = invoke(*words)
        assert (done.status, done.err) == (CANNOT, "lintarsia: there is no standard input to read a chart from\n")

    class Torn(io.BytesIO):
        def read(self, *_: Any) -> bytes:
            raise OSError(5, "Input/output error")

    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(Torn()))
    for words in (("check", "-"), ("plan", "-")):
        done = invoke(*words)
        assert (done.status, done.err) == (CANNOT, "lintarsia: standard input cannot be read (Input/output error)\n")


def test_nothing_to_check_is_said_in_the_words_of_what_was_asked(invoke: Callable[..., Any]) -> None:
    for more in ((), ("--fix",), ("--fix", "--quiet")):
        assert invoke("check", "empty", *more) == (OK, "", "lintarsia: no charts found in empty\n")
    for more in ((), ("--fix",)):
        done = invoke("check", "empty", "--format", "github", *more)
        told = "::warning title=lintarsia::no charts found in empty; nothing was checked\n0 charts: nothing to mend\n"
        assert done == (OK, told, "lintarsia: no charts found in empty\n")
    Path("lintarsia.yaml").write_text("exclude: [a.chart.yaml]\n")
    assert invoke("check", "a.chart.yaml").err == "lintarsia: the settings exclude a.chart.yaml\n"
    assert invoke("check", "a.chart.yaml", "empty").err == "lintarsia: no charts found in a.chart.yaml, empty\n"


def test_five_charts_of_a_folder_are_all_named(invoke: Callable[..., Any]) -> None:
    for name in "fg":
        Path(f"many/{name}.chart.yaml").unlink()
    assert invoke("plan", "many").err.endswith(" many/d.chart.yaml, many/e.chart.yaml\n")


def test_files_that_look_like_charts(invoke: Callable[..., Any]) -> None:
    for number in range(12):
        Path(f"empty/x{number}.chart.yml").write_text(CHART, "utf-8")
    done = invoke("check", "empty")
    assert done.status == CANNOT
    told = [line for line in done.err.splitlines() if "looks like a chart" in line]
    assert told[0].startswith("lintarsia: empty/x0.chart.yml looks like a chart")
    assert len(told) == 10
    assert "lintarsia: and 2 more files so named\n" in done.err
    assert invoke("site", "empty", "-o", "pages").err.splitlines()[-1] == "lintarsia: no charts found in empty"


def test_a_shell_s_words_for_an_end(invoke: Callable[..., Any], monkeypatch: pytest.MonkeyPatch) -> None:
    def raising(failure: BaseException) -> Callable[..., Any]:
        def run(*_: Any, **__: Any) -> None:
            raise failure

        return run

    monkeypatch.setattr("lintarsia.cli.plan.read_one", raising(KeyboardInterrupt()))
    done = invoke("plan", "a.chart.yaml")
    assert (done.status, done.err.strip()) == (130, "stopped")
    monkeypatch.setattr("lintarsia.cli.plan.read_one", raising(ValueError("two\n words")))
    done = invoke("plan", "a.chart.yaml")
    said = "lintarsia itself failed (ValueError: two words); please report it, with what --debug shows"
    assert (done.status, done.err) == (CANNOT, f"lintarsia: {said}\n")
    monkeypatch.setenv("LINTARSIA_DEBUG", "1")
    with pytest.raises(ValueError, match="two"):
        invoke("plan", "a.chart.yaml")


def test_help_in_every_way_it_is_asked_for(invoke: Callable[..., Any]) -> None:
    whole = invoke("--help")
    assert whole.status == OK
    assert invoke("help") == invoke("-h") == whole
    assert invoke("help", "plan").out == invoke("plan", "--help").out
    assert "Commands:" in whole.out
    for name in ("start", "check", "completion"):
        assert f"  {name} " in whole.out
    assert invoke("--version").out.startswith("lintarsia ")
