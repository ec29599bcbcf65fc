"""Pipes, devices and folders where a file is expected: each is refused at once, and nothing is waited for or filled."""

import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, FOUND

PIPE, FOLDER = "it is a pipe or a device; expected a file", "it is a folder; expected a file"
HAVE_PIPES = hasattr(os, "mkfifo")  # a pipe without a name in the file system is all that Windows has


@pytest.fixture
def place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path]) -> Path:
    monkeypatch.chdir(tmp_path)
    write_chart("a.chart.yaml", "BBB\n")
    Path("grid.txt").write_text("BBW\n")
    Path("folder").mkdir()
    if HAVE_PIPES:
        os.mkfifo("pipe")
    return tmp_path


@pytest.mark.parametrize(
    ("name", "reason"),
    [
        pytest.param("pipe", PIPE, marks=pytest.mark.skipif(not HAVE_PIPES, reason="no named pipes here")),
        pytest.param("/dev/zero", PIPE, marks=pytest.mark.skipif(not HAVE_PIPES, reason="no devices here")),
        ("folder", FOLDER),
    ],
)
@pytest.mark.parametrize(
    ("argv", "message"),
    [
        (("check", "a.chart.yaml", "--baseline", "{}"), "the baseline {!r} cannot be read ({})"),
        (("bring", "{}", "-o", "-"), "{!r} cannot be read ({})"),
        (("bring", "grid.txt", "-o", "-", "--palette", "{}"), "{!r} cannot be read ({})"),
    ],
    ids=["baseline", "source", "palette"],
)
def test_what_is_no_file_is_refused(
    invoke: Callable[..., Any], place: Path, argv: tuple[str, ...], message: str, name: str, reason: str
) -> None:
    done = invoke(*(word.format(name) for word in argv))
    told = message.format(name, reason)
    if (argv[0], name) == ("bring", "folder"):  # easily done, and told by what is wanted
        told = f"'folder' is a folder; expected {'a list of yarns' if '--palette' in argv else 'one image or table'}"
    assert (done.status, done.out, done.err) == (CANNOT, "", f"lintarsia: {told}\n")


@pytest.mark.skipif(not HAVE_PIPES, reason="no devices here")
@pytest.mark.parametrize("command", [("plan",), ("draw",), ("write",)], ids=lambda words: words[0])
def test_no_more_of_standard_input_is_read_than_a_chart_may_have(place: Path, command: tuple[str, ...]) -> None:
    Path("lintarsia.yaml").write_text("max-size: 1 KiB\n")
    with open("/dev/zero", "rb") as endless:
        done = subprocess.run([sys.executable, "-m", "lintarsia", *command, "-"], stdin=endless, capture_output=True)
    assert done.returncode == FOUND
    assert b"the file has 1,025 bytes; at most 1,024 are read" in done.stderr
