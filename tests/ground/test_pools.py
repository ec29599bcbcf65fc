"""Work handed out in order and not too far ahead; how processes start; files and locks that nobody else may change."""

import os
import signal
import stat
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import Executor, Future
from pathlib import Path
from typing import Any

import pytest

from lintarsia.ground import notebooks, pools, replacing
from lintarsia.ground.pools import START, begin_quietly, cores, spread
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.scratch import LOCK, _locked, alone, hold
from lintarsia.ground.trouble import Trouble


class Slow(Executor):
    """Does nothing by itself: each part is worked when its answer is asked for."""

    def __init__(self) -> None:
        self.given: list[int] = []
        self.futures: list[Future[Any]] = []

    def submit(self, work: Callable[..., Any], part: int) -> Future[Any]:  # type: ignore[override]
        self.given.append(part)
        future: Future[Any] = Future()
        if part < 90:
            future.set_result(work(part))
        self.futures.append(future)
        return future


def test_answers_come_in_order_and_few_parts_are_ahead() -> None:
    slow = Slow()
    answers = spread(slow, lambda part: part * part, [3, 1, 4, 1, 5], 2)
    assert slow.given == [3, 1]
    assert next(answers) == 9
    assert slow.given == [3, 1, 4], "one more for each that is taken"
    assert list(answers) == [1, 16, 1, 25]
    assert slow.given == [3, 1, 4, 1, 5]
    everything = Slow()
    assert list(spread(everything, str, [7, 2])) == ["7", "2"]
    assert list(spread(Slow(), str, [], 3)) == []


def test_who_stops_taking_cancels_what_waits() -> None:
    slow = Slow()
    answers = spread(slow, str, [1, 98, 99], 3)
    assert next(answers) == "1"
    answers.close()  # type: ignore[attr-defined]
    assert [future.cancelled() for future in slow.futures] == [False, True, True]


WITH_A_THREAD = """
import threading
from lintarsia.ground.pools import start
done = threading.Event()
thread = threading.Thread(target=done.wait)
before = start()
thread.start()
beside = start()
done.set()
thread.join()
print(before, beside, start())
"""


def test_a_process_with_threads_is_not_forked() -> None:
    # In a process of its own: other tests may have left threads in this one.
    said = subprocess.run([sys.executable, "-c", WITH_A_THREAD], capture_output=True, text=True, check=True).stdout
    assert said.split() == [START, "spawn", START]


def test_the_cores_are_those_that_this_process_may_use(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "sched_getaffinity", lambda _: {1, 4, 5}, raising=False)
    assert cores() == 3
    monkeypatch.delattr(os, "sched_getaffinity")
    monkeypatch.setattr(os, "cpu_count", lambda: 7)
    assert cores() == 7
    monkeypatch.setattr(os, "cpu_count", lambda: None)
    assert cores() == 1


def test_helpers_leave_the_end_of_the_run_to_the_one_that_started_them(monkeypatch: pytest.MonkeyPatch) -> None:
    called: list[str] = []
    monkeypatch.setattr(pools, "end_with_parent", lambda: called.append("parent"))
    monkeypatch.setattr(signal, "signal", lambda *given: called.append(f"{given == (signal.SIGINT, signal.SIG_IGN)}"))
    begin_quietly()
    assert called == ["True", "parent"]
    pools._begin(lambda: called.append("further"))
    assert called == ["True", "parent", "True", "parent", "further"]


class Shown:
    pass


def test_a_value_is_shown_by_who_has_said_how(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(notebooks, "_ways", {})
    assert notebooks.shown_in_notebook(Shown()) is None
    notebooks.show_by(Shown, lambda value: f"<svg>{type(value).__name__}</svg>")
    assert notebooks.shown_in_notebook(Shown()) == "<svg>Shown</svg>"
    assert notebooks.shown_in_notebook(3) is None


def mode(path: str | Path) -> int:
    return stat.S_IMODE(os.stat(path).st_mode)


def test_a_new_file_may_be_read_by_all_whom_the_user_lets_and_run_by_none(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        replace_file(str(tmp_path / "open"), b"x")
        os.umask(0o027)
        replace_file(str(tmp_path / "close"), b"x")
    finally:
        os.umask(before)
    assert [mode(tmp_path / name) for name in ("open", "close")] == [0o666, 0o640]


def test_a_write_protected_file_is_told_as_such(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Asked by what the system says, since a superuser may write everywhere."""
    file = tmp_path / "a"
    file.write_bytes(b"mine")
    monkeypatch.setattr(os, "access", lambda path, how: (path, how) != (str(file), os.W_OK))
    with pytest.raises(Trouble) as trouble:
        replace_file(str(file), b"new")
    assert str(trouble.value) == f"{str(file)!r} is write-protected; it was left as it is"
    assert (file.read_bytes(), os.listdir(tmp_path)) == (b"mine", ["a"])


@pytest.mark.parametrize(
    ("failure", "runs"),
    [(None, True), (ProcessLookupError, False), (PermissionError, True), (OverflowError, True)],
)
def test_whether_a_process_runs(failure: type[Exception] | None, runs: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    def kill(process: int, with_what: int) -> None:
        assert (process, with_what) == (17, 0), "asked, and not ended"
        if failure:
            raise failure

    monkeypatch.setattr(os, "kill", kill)
    assert replacing._is_running(17) is runs


def test_the_lock_of_a_folder_is_its_own_user_s(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        held = hold(str(tmp_path), "ours-")
    finally:
        os.umask(before)
    assert (mode(held.path), mode(Path(held.path) / LOCK)) == (0o700, 0o600)
    assert (
        Path(held.path, LOCK).read_bytes() == b"A run of lintarsia works here. Once it has ended, this folder can go.\n"
    )
    other = os.open(Path(held.path) / LOCK, os.O_RDWR)
    assert _locked(other, wait=False) is False
    held.release()
    assert _locked(other, wait=False) is True
    os.close(other)


def test_one_at_a_time_in_a_folder(tmp_path: Path) -> None:
    with alone(str(tmp_path)):
        second = os.open(tmp_path, os.O_RDONLY)
        assert _locked(second, wait=False) is False
        os.close(second)
    second = os.open(tmp_path, os.O_RDONLY)
    assert _locked(second, wait=False) is True
    os.close(second)
    entered = False
    with alone(str(tmp_path / "none")):
        entered = True
    assert entered, "where there is nothing to lock, they do it as they come"
