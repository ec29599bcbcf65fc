"""knit/other-revision in a repository: which commit was knitted, and which rows are others since; `compare` agrees."""

import json
import subprocess
from pathlib import Path

import pytest

from lintarsia.cli.main import main
from lintarsia.comparing.files import compare_paths

ROWS = ["O" * (2 + k % 5) + "R" * (3 + k % 3) + "O" * (15 - k % 5 - k % 3) for k in range(20)]  # row 1 first
PATTERN = """\
lintarsia-pattern: 1
title: Fox cushion
pieces:
  front: {chart: fox.chart.yaml}
  back: {chart: fox.chart.yaml, plain: O, cast-on: 32, rows: 40, at: {stitch: 6, row: 11}}
"""


def chart(rows: list[str], more: str = "") -> str:
    return (
        "lintarsia: 1\ntitle: Fox\ngauge: {stitches: 20, rows: 28, over: 10 cm}\n"
        'colours:\n  O: {name: Oat, shade: "#f0e7d4"}\n  R: {name: Rust, shade: "#a3502c"}\n'
        f"{more}chart: |\n" + "".join(f"  {row}\n" for row in reversed(rows))
    )


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The chart and the pattern are committed, and Wren has knitted each."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "fox.chart.yaml").write_text(chart(ROWS), encoding="utf-8")
    (tmp_path / "fox.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    git("init", "-q")
    git("add", ".")
    git("commit", "-qm", "Call for test knitters")
    return tmp_path


def git(*words: str) -> None:
    own = ["-c", "user.name=W", "-c", "user.email=w@example.org", "-c", "init.defaultBranch=main"]
    subprocess.run(["git", *own, *words], check=True, capture_output=True)


def log(of: str, capsys: pytest.CaptureFixture[str]) -> None:
    """With the fingerprint that the plan of now has."""
    capsys.readouterr()
    assert main(["plan", f"fox.{of}.yaml", "--format", "json"]) == 0
    mark = json.loads(capsys.readouterr().out)["fingerprint"]
    Path(f"{of}.knit.yaml").write_text(f'lintarsia-knit: 1\n{of}: fox.{of}.yaml\nfingerprint: "{mark}"\n')


def told(of: str, capsys: pytest.CaptureFixture[str]) -> tuple[str, str]:
    """What is said of the log, with the commit's name taken out, and what is to be done."""
    capsys.readouterr()
    assert main(["check", f"{of}.knit.yaml", "--format", "json"]) == 0
    (one,) = json.loads(capsys.readouterr().out)["results"]
    assert one["rule"] == "knit/other-revision"
    return one["message"].partition("; since then ")[2], one["remedy"]


def changed() -> list[str]:
    """Row 4 another, two rows put in after 9, row 15 of before dropped."""
    rows = [*ROWS[:3], "R" * 20, *ROWS[4:9], "RO" * 10, "OR" * 10, *ROWS[9:14], *ROWS[15:]]
    assert len(rows) == 21
    return rows


def test_rows_of_a_chart(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log("chart", capsys)
    (repository / "fox.chart.yaml").write_text(chart(changed()), encoding="utf-8")
    words, remedy = told("chart", capsys)
    assert words == "row 4 is another; rows 10–11 are new; row 15 of before is gone"
    assert remedy.startswith("look at it with `lintarsia compare fox.chart.yaml --from ")
    # The same rows, by the command that is named.
    (file,) = compare_paths(["fox.chart.yaml"], "HEAD").files
    assert file.chart is not None
    assert [(row.was_row, row.row) for row in file.chart.rows] == [(4, 4), (None, 10), (None, 11), (15, None)]


def test_rows_of_the_pieces(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log("pattern", capsys)
    (repository / "fox.chart.yaml").write_text(chart([*ROWS[:3], "R" * 20, *ROWS[4:]]), encoding="utf-8")
    assert told("pattern", capsys)[0] == "front: row 4 is another; back: row 14 is another"


def test_duplicate_stitch_and_what_changes_no_row(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log("chart", capsys)
    sewn = "duplicate-stitch: [{colour: R, row: 7, stitches: [1, 2]}]\n"
    (repository / "fox.chart.yaml").write_text(chart(ROWS, sewn), encoding="utf-8")
    assert told("chart", capsys)[0] == "row 7 has other duplicate stitch"
    (repository / "fox.chart.yaml").write_text(chart(ROWS, "wearer: child\n"), encoding="utf-8")
    assert told("chart", capsys)[0] == "no row of it is another"


def test_many_changes_are_not_all_told(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    log("chart", capsys)
    rows = ["R" + row[1:] if number % 2 else row for number, row in enumerate(ROWS)]
    (repository / "fox.chart.yaml").write_text(chart(rows), encoding="utf-8")
    words, _ = told("chart", capsys)
    assert words.endswith("; and more")
    assert words.count("is another") == 6


def test_a_state_that_no_commit_has(repository: Path, capsys: pytest.CaptureFixture[str]) -> None:
    Path("chart.knit.yaml").write_text('lintarsia-knit: 1\nchart: fox.chart.yaml\nfingerprint: "0123456789abcdef"\n')
    capsys.readouterr()
    assert main(["check", "chart.knit.yaml"]) == 0
    assert "0123456789abcdef was knitted; the chart is another now" in " ".join(capsys.readouterr().out.split())
