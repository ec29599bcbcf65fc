"""The Python door against the commands, which are tested against the world: the same file, settings and answers."""

import ast
import json
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import lintarsia

OWN = "limits: {supplies: 3, carry: 1}\nyarn: {tail: 25 cm, allowance: 20%}\n"
GRID = "BBBBBBBB\nBBWWWBBB\nBBWWWWBB\nBBBBWBBB\nBBBBBBBB\n"


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path]) -> Path:
    """A folder with settings of its own and a chart below it, looked at from the folder above."""
    write_chart("own/charts/toy.chart.yaml", GRID)
    (tmp_path / "own" / "lintarsia.yaml").write_text(OWN, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "own" / "charts" / "toy.chart.yaml"


def test_a_plan_is_that_of_the_command(here: Path, printed: Callable[..., str]) -> None:
    plan = lintarsia.plan("own/charts/toy.chart.yaml")
    told = json.loads(printed("plan", "own/charts/toy.chart.yaml", "--format", "json"))
    assert (plan.bounds.supplies, plan.bounds.carry) == (3, 1) == (told["limits"]["supplies"], told["limits"]["carry"])
    assert [(s.id, s.stitches, round(s.metres, 2), s.holder) for s in plan.supplies] == [
        (s["id"], s["stitches"], s["metres"], s["holder"]) for s in told["supplies"]
    ]
    assert [round(need.allowance_metres, 2) for need in plan.yarns] == [y["allowance_metres"] for y in told["yarns"]]
    assert [list(row.line_up) for row in plan.rows] == [row["line_up"] for row in told["rows"]]


def test_a_chart_that_was_read_has_the_settings_of_its_file(here: Path) -> None:
    chart = lintarsia.read(here)
    assert (chart.title, chart.grid.width, chart.grid.height) == ("Toy", 8, 5)
    assert lintarsia.plan(chart).totals == lintarsia.plan(here).totals
    assert lintarsia.plan(chart).bounds.supplies == 3


def test_settings_can_be_named(here: Path, tmp_path: Path) -> None:
    (tmp_path / "other.yaml").write_text("limits: {supplies: 5}\n", encoding="utf-8")
    assert lintarsia.plan(here, settings=tmp_path / "other.yaml").bounds.supplies == 5


def test_a_report_is_that_of_the_command(here: Path, write_chart: Callable[..., Path]) -> None:
    """In a process of its own, which has seen nothing of what this one has read."""
    write_chart("own/charts/short.chart.yaml", "short")
    write_chart("else/clean.chart.yaml", "clean")
    report = lintarsia.check("own", Path("else"))
    command = [sys.executable, "-m", "lintarsia", "check", "own", "else", "--format", "json"]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert done.returncode == 1, done.stderr
    told = json.loads(done.stdout)
    assert (report.charts, report.count(lintarsia.Level.ERROR)) == (3, told["summary"]["error"])
    assert [(r.rule, r.key, r.file, r.row, r.message, r.fingerprint) for r in report.results] == [
        (r["rule"], r["key"], r["file"], r["row"], r["message"], r["fingerprint"]) for r in told["results"]
    ]
    assert report.blocked
    assert lintarsia.check("own", "else", jobs=2).results == report.results


def test_a_text_has_the_settings_of_its_name(here: Path) -> None:
    text = here.read_text(encoding="utf-8")
    near, far = (lintarsia.check(text=text, name=name) for name in ("own/new.chart.yaml", "new.chart.yaml"))
    assert {result.file for result in near.results} <= {"own/new.chart.yaml"}
    limits = lintarsia.check(text=text.replace("BBWWWBBB", "BBWBWBWB"), name="own/new.chart.yaml")
    assert "row 4 needs" in " ".join(r.message for r in limits.results if r.rule == "supply/row-limit")
    assert "supply/row-limit" not in {r.rule for r in far.results}


def test_a_text_stands_for_the_file_of_its_name(here: Path) -> None:
    text = here.read_text(encoding="utf-8").replace("BBWWWBBB", "BBWWWBB")
    report = lintarsia.check(here.parent, text=text.encode(), name=here)
    assert (report.charts, [r.key for r in report.results if r.level == "error"]) == (1, ["row-too-short"])


def test_baselines_of_the_settings_are_held_to(
    here: Path, write_chart: Callable[..., Path], printed: Callable[..., str]
) -> None:
    write_chart("own/charts/short.chart.yaml", "short")
    (here.parents[1] / "lintarsia.yaml").write_text("baseline: accepted.txt\n", encoding="utf-8")
    printed("check", "own", "--update", "-q")
    report = lintarsia.check("own")
    assert {r.baseline for r in report.results if r.rule == "grid/stitch-count"} == {"unchanged"}
    assert not report.blocked


@pytest.mark.parametrize("format", ["text", "markdown", "html"])
@pytest.mark.parametrize("supplies", [False, True])
def test_rows_are_written_as_the_command_does(
    here: Path, format: str, supplies: bool, printed: Callable[..., str]
) -> None:
    own = lintarsia.write(here, format=format, supplies=supplies, rows=(2, 4), in_full=True)
    options = ["--rows", "2-4", "--in-full", "--format", format, *(["--supplies"] if supplies else [])]
    assert own == printed("write", str(here), *options)


def test_rows_that_are_not_there(here: Path) -> None:
    with pytest.raises(lintarsia.Trouble, match="the rows of the chart are 1 to 5; asked for 4 to 6"):
        lintarsia.write(here, rows=(4, 6))
    with pytest.raises(ValueError, match="format is 'pdf'; expected text, markdown or html"):
        lintarsia.write(here, format="pdf")


def test_a_chart_with_errors_in_its_file_is_told_with_places(here: Path) -> None:
    text = here.read_text(encoding="utf-8").replace("worked: flat", "worked: flt")
    with pytest.raises(lintarsia.Unreadable, match=r"^toy\.chart\.yaml:3:9: .*flt.* \[file/schema\]$") as caught:
        lintarsia.read(text=text, name="toy.chart.yaml")
    assert [rule for rule, _ in caught.value.findings] == ["file/schema"]
    copy = pickle.loads(pickle.dumps(caught.value))
    assert (str(copy), copy.findings) == (str(caught.value), caught.value.findings)


def test_what_is_no_chart(here: Path) -> None:
    for wrong, told in (("none.chart.yaml", "there is no file"), ("own", "a folder"), ("a.pattern.yaml", "no file")):
        for asked in (lintarsia.read, lintarsia.plan, lintarsia.write):
            with pytest.raises(lintarsia.Trouble, match=told):
                asked(wrong)  # type: ignore[operator]
    with pytest.raises(lintarsia.Trouble, match="there is no file or folder"):
        lintarsia.check("none.chart.yaml")


def test_slips_in_a_call(here: Path) -> None:
    with pytest.raises(TypeError, match="check needs a path, or text="):
        lintarsia.check()
    with pytest.raises(TypeError, match="one of them"):
        lintarsia.read(here, text="")
    with pytest.raises(TypeError, match="since"):
        lintarsia.check(text="", since="HEAD")
    with pytest.raises(AttributeError, match="no attribute 'chek'"):
        lintarsia.chek  # type: ignore[attr-defined]  # noqa: B018


RULE = '''"""toy/any: every chart."""
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions
Options = NoOptions
INFO = RuleInfo("toy/any", Level.NOTE, "a chart", "It is one.", "nothing", {"any": "a chart"})
def check(work, options):
    yield Finding("any", "a chart", work.chart.places.cells(1, 1, 1), 1, (1, 1))
'''


def test_rules_from_elsewhere_run_where_the_command_would_let_them(here: Path) -> None:
    root = here.parents[1]
    (root / "toy.py").write_text(RULE, encoding="utf-8")
    (root / "lintarsia.yaml").write_text("local-rules: [toy.py]\n", encoding="utf-8")
    assert "toy/any" in {r.rule for r in lintarsia.check(here).results}
    text = here.read_text(encoding="utf-8")
    with pytest.raises(lintarsia.Trouble, match="handed over"):
        lintarsia.check(text=text, name=here)
    allowed = lintarsia.check(text=text, name=here, allow_outside_rules=True)
    assert "toy/any" in {r.rule for r in allowed.results}


def test_types_and_values_agree() -> None:
    folder = Path(lintarsia.__file__).parent
    stub = ast.parse((folder / "__init__.pyi").read_text(encoding="utf-8"))
    typed = {
        str(name.asname): node.module for node in stub.body if isinstance(node, ast.ImportFrom) for name in node.names
    }
    listed: Any = next(node.value for node in stub.body if isinstance(node, ast.Assign))
    assert typed == lintarsia._DOOR  # type: ignore[attr-defined]
    assert sorted(ast.literal_eval(listed)) == sorted(lintarsia.__all__) == sorted(typed)
    assert set(typed) <= set(dir(lintarsia))
    assert len(dir(lintarsia)) == len(set(dir(lintarsia))), "what has been asked for is there once"
    assert all(getattr(lintarsia, name).__name__ == name for name in typed)


def test_nothing_is_loaded_before_it_is_asked_for() -> None:
    code = "import sys, lintarsia; print(sorted(m for m in sys.modules if m.startswith(('lintarsia', 'numpy'))))"
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=dict(os.environ)
    )
    assert done.stdout.strip() == "['lintarsia']"
