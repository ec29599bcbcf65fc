"""What others have taken away in between, and the thread that waits for another process to go."""

import os
import shutil
import threading
from pathlib import Path

import pytest

from lintarsia.ground import orphans
from lintarsia.ground.scratch import LOCK, PREFIX, abandoned, hold, remove


def test_a_folder_that_somebody_has_taken_away_is_let_go(tmp_path: Path) -> None:
    before = len(os.listdir("/proc/self/fd"))
    held = hold(str(tmp_path), PREFIX)
    shutil.rmtree(held.path)
    remove(held)
    assert os.listdir(tmp_path) == []
    assert len(os.listdir("/proc/self/fd")) == before


def test_a_folder_that_a_file_was_put_into_meanwhile_keeps_it_and_its_lock(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    held = hold(str(tmp_path), PREFIX)
    Path(held.path, "old").touch()
    usual = os.unlink

    def gone(path: str) -> None:
        usual(path)
        Path(held.path, "new").touch()

    monkeypatch.setattr(os, "unlink", gone)
    remove(held)
    assert sorted(os.listdir(held.path)) == [LOCK, "new"]


def test_who_waits_for_the_parent_to_go_keeps_no_process_from_ending(monkeypatch: pytest.MonkeyPatch) -> None:
    waiting: list[threading.Thread] = []
    told = threading.Event()

    def wait() -> None:
        waiting.append(threading.current_thread())
        told.set()

    monkeypatch.setattr(orphans, "_wait", wait)
    orphans.end_with_parent()
    assert told.wait(30)
    (thread,) = waiting
    assert thread is not threading.current_thread()
    assert (thread.name, thread.daemon) == ("end with parent", True)


def test_a_link_by_the_name_of_a_folder_of_ours_leads_nowhere(tmp_path: Path) -> None:
    """Whoever puts it there would have another folder emptied."""
    mine = tmp_path / "mine"
    mine.mkdir()
    (mine / LOCK).write_text("a run works here")
    (mine / "kept").touch()
    (tmp_path / f"{PREFIX}abcd_123").symlink_to(mine)
    assert list(abandoned(str(tmp_path), PREFIX)) == []
    assert sorted(os.listdir(mine)) == [LOCK, "kept"]
