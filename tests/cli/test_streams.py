"""Standard streams that are closed, full or without a reader: the exit status is the same, and no file is written to
in their place."""

import subprocess
import sys
from pathlib import Path

import pytest

CHART = """\
lintarsia: 1
title: Quiet
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
  R: {name: Rust, shade: "#b8743c"}
chart: |
  BBBBBBBB
  BBBBWWBB
  BBBBWWBB
"""


def status(line: str, folder: Path) -> int:
    shell = f'lintarsia() {{ "{sys.executable}" -m lintarsia "$@"; }}; {line}'
    return subprocess.run(["sh", "-c", shell], cwd=folder, check=False, capture_output=True).returncode


@pytest.mark.parametrize("streams", ["2>&-", "2>/dev/full", ">&- 2>&-", "<&- >&- 2>&-"])
@pytest.mark.parametrize(("command", "expected"), [("check nowhere", 2), ("check --bogus", 2), ("nothing", 2)])
def test_a_failure_is_in_the_exit_status(command: str, expected: int, streams: str, tmp_path: Path) -> None:
    assert status(f"lintarsia {command} {streams}", tmp_path) == expected


def test_standard_error_without_a_reader(tmp_path: Path) -> None:
    line = "{ { lintarsia check nowhere; echo $? >&3; } 2>&1 >/dev/null | true; } 3>status"
    status(line, tmp_path)
    assert (tmp_path / "status").read_text() == "2\n"


@pytest.mark.parametrize("streams", ["2>&-", ">&- 2>&-", "<&- >&- 2>&-"])
def test_what_is_said_to_a_closed_stream_is_written_to_no_file(streams: str, tmp_path: Path) -> None:
    (tmp_path / "a.chart.yaml").write_text(CHART)
    wanted = CHART.replace('  R: {name: Rust, shade: "#b8743c"}\n', "")
    assert status(f"lintarsia check --fix a.chart.yaml {streams}", tmp_path) == 0
    assert (tmp_path / "a.chart.yaml").read_text() == wanted
    assert [p.name for p in tmp_path.iterdir()] == ["a.chart.yaml"]


def test_the_numbers_of_closed_streams_go_to_no_file(tmp_path: Path) -> None:
    code = "from lintarsia.cli import open_closed_streams as o; o(); f = open('a'); exit(f.fileno())"
    (tmp_path / "a").write_text("")
    line = f'"{sys.executable}" -c "{code}" <&- >&- 2>&-'
    assert subprocess.run(["sh", "-c", line], cwd=tmp_path, check=False).returncode == 3
