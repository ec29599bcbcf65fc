"""No answer is written over a chart, a pattern, a log or the settings, nor into a folder that holds something else."""

import os
from pathlib import Path

import pytest

from lintarsia.cli.main import main

DOCUMENT = "write tern.pattern.yaml --format markdown -o own.md"
Said = pytest.CaptureFixture[str]
CHART = """\
lintarsia: 1
title: Tern
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  S: {name: Sea, shade: "#27406b"}
chart: |
  SSSSS
  SSSSS
  SSSSS
"""
PATTERN = """\
lintarsia-pattern: 1
title: Tern
pieces:
  front: {chart: tern.chart.yaml}
"""


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "tern.chart.yaml").write_text(CHART)
    (tmp_path / "tern.pattern.yaml").write_text(PATTERN)
    (tmp_path / "lintarsia.yaml").write_text("block: error\n")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(words: str, capsys: Said) -> tuple[int, str]:
    status = main(words.split())
    captured = capsys.readouterr()
    return status, captured.out + captured.err


@pytest.mark.parametrize(
    "words",
    [
        "write tern.chart.yaml -o tern.chart.yaml",
        "plan tern.chart.yaml -o tern.chart.yaml",
        "compare tern.chart.yaml --from tern.chart.yaml -o tern.chart.yaml",
        "write tern.pattern.yaml --format html -o tern.chart.yaml",
        "write tern.pattern.yaml -o TERN.pattern.YAML",
        "plan tern.pattern.yaml --format json -o lintarsia.yaml",
        "knits . -o linnet.knit.yaml",
        "write tern.chart.yaml -o leads-to-it.txt",
        "site --single tern.chart.yaml -o tern.pattern.yaml",
    ],
)
def test_an_answer_is_not_written_over_a_source(folder: Path, words: str, capsys: Said) -> None:
    os.symlink("tern.chart.yaml", "leads-to-it.txt")
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    status, said = run(words, capsys)
    assert status == 2
    assert "name another file with --output" in said
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


@pytest.mark.parametrize(
    "words",
    [
        "write tern.yml -o tern.yml",
        "write tern.yml --format html -o leads-to-it.txt",
        "plan tern.yml -o ./tern.yml",
        "compare tern.yml --from tern.chart.yaml -o tern.yml",
        "compare tern.chart.yaml --from tern.yml -o tern.yml",
        "check tern.yml --format json:tern.yml",
        "site --single tern.yml -o tern.yml",
        "bring tern.csv -o tern.csv --force",
    ],
)
def test_nor_over_what_it_is_made_from_whatever_its_name(folder: Path, words: str, capsys: Said) -> None:
    (folder / "tern.chart.yaml").rename("tern.yml")
    (folder / "tern.chart.yaml").write_text(CHART.replace("SSSSS", "SSSSSS"))
    (folder / "tern.csv").write_text("S,S,B\nS,B,B\n")
    os.symlink("tern.yml", "leads-to-it.txt")
    before = {path.name: path.read_bytes() for path in folder.iterdir()}
    status, said = run(words, capsys)
    assert status == 2
    assert "made from; " in said
    assert {path.name: path.read_bytes() for path in folder.iterdir()} == before


def test_drawings_go_into_no_folder_of_something_else(folder: Path, capsys: Said) -> None:
    drawings = folder / "own-pictures"
    drawings.mkdir()
    (drawings / "fabric.svg").write_text("mine")
    status, said = run(DOCUMENT, capsys)
    assert (status, (drawings / "fabric.svg").read_text()) == (2, "mine")
    assert "holds files of something else" in said
    assert not (folder / "own.md").exists()


@pytest.mark.parametrize("link", [False, True])
def test_drawings_go_into_no_file_and_through_no_link(folder: Path, link: bool, capsys: Said) -> None:
    (folder / "else").mkdir()
    place = folder / "own-pictures"
    if link:
        place.symlink_to("else")
    else:
        place.write_text("")
    status, said = run(DOCUMENT, capsys)
    assert status == 2
    assert "which is no folder" in said
    assert list((folder / "else").iterdir()) == []


def test_a_document_is_made_anew_beside_its_own_drawings(folder: Path, capsys: Said) -> None:
    for _ in range(2):
        status, said = run(DOCUMENT, capsys)
        assert status == 0, said


@pytest.mark.parametrize("seconds", ["inf", "nan", "1e300", "1e400", "0", "-2"])
def test_a_time_that_no_clock_counts_is_refused(folder: Path, seconds: str, capsys: Said) -> None:
    status, said = run(f"check --most-seconds {seconds} tern.chart.yaml", capsys)
    assert status == 2
    assert "itself failed" not in said
