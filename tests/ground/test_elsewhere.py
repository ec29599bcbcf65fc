"""What the ground does on systems without locks that a killed process gives back, and what a helping process says,
asked in this process: a system's name and a pipe are all that it takes."""

import gc
import multiprocessing
import os
import sys
import tempfile
import threading
from importlib import metadata
from pathlib import Path
from typing import Any

import pytest

from lintarsia.ground import deadlines, installing, pools, scratch
from lintarsia.ground.days import is_a_day
from lintarsia.ground.deadlines import _serve
from lintarsia.ground.packing import packed, unpacked
from lintarsia.ground.scratch import LOCK, PREFIX, abandoned, hold, remove


@pytest.fixture
def windows(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder for folders; the system calls itself otherwise, and lets nobody remove a file that is open."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    monkeypatch.setattr(sys, "platform", "win32")
    usual = os.unlink

    def unlink(path: Any, *told: Any, **more: Any) -> None:
        if more:  # by the folder that holds it, as a whole tree is removed
            return usual(path, *told, **more)
        target = os.stat(path)
        for number in os.listdir("/proc/self/fd"):
            try:
                if os.path.samestat(os.fstat(int(number)), target):
                    raise PermissionError(13, "in use")
            except OSError as failure:
                if failure.errno == 13:
                    raise
        usual(path, *told, **more)

    monkeypatch.setattr(os, "unlink", unlink)
    return tmp_path


def test_folders_on_a_system_that_knows_use_by_open_files(windows: Path) -> None:
    held = hold(str(windows), PREFIX)
    assert scratch._locked(held.lock, wait=False)
    assert list(abandoned(str(windows), PREFIX)) == [], "its lock file cannot be removed while it is open"
    held.release()
    (left,) = abandoned(str(windows), PREFIX)
    assert left.path == held.path
    assert os.listdir(left.path) == [LOCK], "the one who clears holds it in turn"
    assert os.fstat(left.lock).st_size == 0
    assert list(abandoned(str(windows), PREFIX)) == []
    remove(left)
    assert list(windows.iterdir()) == []


def test_its_own_folder_goes_there_too(windows: Path) -> None:
    held = hold(str(windows), PREFIX)
    Path(held.path, "deep").mkdir()
    Path(held.path, "deep/file").write_text("")
    remove(held)
    assert list(windows.iterdir()) == []
    with pytest.raises(OSError, match="Bad file"):
        os.fstat(held.lock)


def test_a_folder_of_another_user_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    hold(str(tmp_path), PREFIX).release()
    monkeypatch.setattr(os, "geteuid", lambda: 4711)
    assert list(abandoned(str(tmp_path), PREFIX)) == []
    monkeypatch.delattr(os, "geteuid")
    (left,) = abandoned(str(tmp_path), PREFIX)
    remove(left)


def test_a_link_is_no_lock(tmp_path: Path) -> None:
    folder = tmp_path / f"{PREFIX}abcd_123"
    folder.mkdir()
    (tmp_path / "mine").write_text("text")
    (folder / LOCK).symlink_to(tmp_path / "mine")
    assert list(abandoned(str(tmp_path), PREFIX)) == []
    assert (tmp_path / "mine").read_text() == "text"


def squared(number: int) -> int:
    return number * number


def test_a_helper_says_that_it_has_begun_and_then_what_came_of_it(monkeypatch: pytest.MonkeyPatch) -> None:
    quiet: list[int] = []
    monkeypatch.setattr(deadlines, "begin_quietly", lambda: quiet.append(1))
    monkeypatch.setattr(gc, "disable", lambda: quiet.append(2))
    mine, theirs = multiprocessing.Pipe()
    for number in (3, 7):
        mine.send_bytes(packed(number))
    helper = threading.Thread(target=_serve, args=(theirs, squared))
    helper.start()
    said = [mine.recv_bytes() for _ in range(4)]
    mine.close()
    helper.join(30)
    assert not helper.is_alive()
    assert [said[0], said[2]] == [b"", b""]
    assert [unpacked(said[1]), unpacked(said[3])] == [9, 49]
    assert quiet == [1, 2]


def test_a_process_with_threads_starts_others_afresh(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pools, "START", "fork")
    monkeypatch.setattr(threading, "active_count", lambda: 1)
    assert pools.start() == "fork"
    monkeypatch.setattr(threading, "active_count", lambda: 2)
    assert pools.start() == "spawn"


@pytest.mark.parametrize(
    ("told", "line"),
    [
        ({}, "lintarsia[pdf]"),
        ({"url": "https://a.example/x.whl"}, "lintarsia[pdf] @ https://a.example/x.whl"),
        ({"url": "file:///a%20b", "dir_info": {}}, "/a b[pdf]"),
        (
            {"url": "https://a.example/r", "vcs_info": {"commit_id": "1f2"}},
            "lintarsia[pdf] @ git+https://a.example/r@1f2",
        ),
        (
            {"url": "https://a.example/r", "vcs_info": {"vcs": "hg", "commit_id": "1f2", "requested_revision": "v1"}},
            "lintarsia[pdf] @ hg+https://a.example/r@v1",
        ),
    ],
)
def test_what_is_to_be_installed(told: dict[str, Any], line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(installing, "_said", lambda file: "Metadata" if file == "METADATA" else "")
    assert installing._named("pdf", told) == line


def test_an_install_that_nobody_recorded(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    def none(_: str) -> None:
        raise metadata.PackageNotFoundError

    monkeypatch.setattr(metadata, "distribution", none)
    assert installing._said("METADATA") == ""
    assert installing._origin() == {}
    package = tmp_path / "lint/lintarsia/ground"
    package.mkdir(parents=True)
    monkeypatch.setattr(installing, "__file__", str(package / "installing.py"))
    assert installing._checkout() == ""
    assert installing._named("pdf", {}) == "lintarsia[pdf]"
    (tmp_path / "pyproject.toml").write_text("")
    assert installing._checkout() == str(tmp_path)
    assert installing._named("pdf", {}) == f"{tmp_path}[pdf]"


def test_days_of_the_calendar() -> None:
    """2028 is a leap year, 2026 is none."""
    days = {"2026-11-05": True, "2028-02-29": True, "2026-02-29": False, "2026-13-01": False, "5 May": False, "": False}
    assert {day: is_a_day(day) for day in days} == days
