"""What a killed run leaves behind goes with the next one, and nothing that is in use or anybody else's does."""

import os
import signal
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from children import killed_at, run, step_count, task

from lintarsia.ground import replacing
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.scratch import LOCK, PREFIX, abandoned, hold, remove, scratch_folder

CHART = """\
lintarsia: 1
title: Killed
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
"""
ROWS = "".join(f"  {'B' * (60 - n % 7)}{'W' * (60 + n % 7)}\n" for n in range(150))


@pytest.fixture(autouse=True)
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Temporary folders of the tests' own."""
    (tmp_path / "tmp").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "tmp"))
    replacing._processes.cache_clear()
    return tmp_path / "tmp"


def gone_process() -> int:
    process = subprocess.Popen(["true"])
    process.wait()
    return process.pid


@pytest.fixture
def running() -> Iterator[subprocess.Popen[bytes]]:
    """A process of our own: whoever asks after one by a signal must not meet somebody else's."""
    process = subprocess.Popen(["sleep", "600"])
    yield process
    process.kill()
    process.wait()


@pytest.mark.parametrize("name", ["a.chart.yaml", "x" * 220])
def test_what_a_killed_run_left_beside_a_file(name: str, tmp_path: Path, running: subprocess.Popen[bytes]) -> None:
    file, stem = tmp_path / name, name if len(name) < 200 else ".lintarsia"
    file.write_text("old")
    left = tmp_path / f"{stem}.{gone_process()}.part"
    left.write_text("half")
    others = [
        tmp_path / f"{stem}.{running.pid}.part",
        tmp_path / "b.chart.yaml.4194999.part",
        tmp_path / f"{stem}.part",
        tmp_path / f"{stem}.0.part",
        tmp_path / f"{stem}.x1.part",
    ]
    for other in others:
        other.write_text("not ours")
    replace_file(str(file), b"new")
    assert file.read_text() == "new"
    assert not left.exists()
    assert all(other.read_text() == "not ours" for other in others)
    with pytest.raises(subprocess.TimeoutExpired):
        running.wait(0.1)  # it was asked after, no more


@pytest.mark.slow
def test_a_killed_fix_leaves_nothing_for_good(tmp_path: Path) -> None:
    chart = tmp_path / "c" / "a.chart.yaml"
    chart.parent.mkdir()
    faulty = CHART.replace("chart:", "  R: {name: Rust, shade: '#b8743c'}\nchart:") + "  BBBBBBBB\n  BBBBBBBW\n"
    for step in range(1, 60):
        chart.write_text(faulty)
        ended = run("check", "--fix", str(chart), before=killed_at(step, chart.parent))
        if ended.status is not None:
            break
        chart.write_text(faulty)
        run("check", "--fix", str(chart))
        assert list(chart.parent.iterdir()) == [chart], step
    assert step > 4


def test_temporary_folders_of_killed_runs(elsewhere: Path) -> None:
    def work() -> None:
        with scratch_folder() as folder:
            Path(folder, "pages").mkdir()
            Path(folder, "pages", "0.html").write_text("page")

    steps = task(work, step_count(elsewhere)).steps
    assert steps > 8
    for step in range(1, steps + 1):
        assert task(work, killed_at(step, elsewhere)).killed
        work()
        assert list(elsewhere.iterdir()) == [] or stopped_before_its_lock(elsewhere), step


def stopped_before_its_lock(folder: Path) -> bool:
    """Killed in the instant between making the lock file and locking it: left for a minute, since another run may be
    in that instant just now."""
    (left,) = folder.iterdir()
    lock = left / LOCK
    empty = lock.stat().st_size == 0
    os.utime(lock, (time.time() - 61,) * 2)
    with scratch_folder():
        pass
    return empty and not left.exists()


def test_folders_in_use_and_of_others_stay(elsewhere: Path) -> None:
    mine = hold(str(elsewhere), PREFIX)
    for name in ("lintarsia-notes", "lintarsia-", "lintarsia-abcdefgh", "lintarsia-ABCDEFGH"):
        (elsewhere / name).mkdir()
        (elsewhere / name / "a.txt").write_text("somebody's")
    (elsewhere / "lintarsia-12345678").symlink_to(elsewhere / "lintarsia-notes")
    before = sorted(elsewhere.rglob("*"))
    with scratch_folder():
        pass
    assert sorted(elsewhere.rglob("*")) == before
    assert list(abandoned(str(elsewhere), PREFIX)) == []
    mine.release()
    (left,) = abandoned(str(elsewhere), PREFIX)
    assert list(abandoned(str(elsewhere), PREFIX)) == []  # two runs never clear the same
    remove(left)
    assert not Path(mine.path).exists()


def wait_until(true: Callable[[], bool]) -> bool:
    for _ in range(300):
        if true():
            return True
        time.sleep(0.1)
    return False


def helpers(parent: int) -> list[int]:
    """The processes that a process has started."""
    text = Path(f"/proc/{parent}/task/{parent}/children").read_text()
    return [int(number) for number in text.split()]


def is_running(process: int) -> bool:
    try:
        return ") Z " not in Path(f"/proc/{process}/stat").read_text()
    except FileNotFoundError:
        return False


@pytest.mark.slow
@pytest.mark.parametrize("argv", [("check",), ("site", "-o", "out")], ids=["check", "site"])
def test_the_helpers_of_a_killed_run_end_with_it(argv: tuple[str, ...], tmp_path: Path, elsewhere: Path) -> None:
    (tmp_path / "c").mkdir()
    for number in range(120):
        (tmp_path / "c" / f"{number}.chart.yaml").write_text(CHART + ROWS)
    environ = os.environ | {"TMPDIR": str(elsewhere)}
    command = [sys.executable, "-m", "lintarsia", argv[0], "c", *argv[1:], "--jobs", "3"]
    process = subprocess.Popen(command, cwd=tmp_path, env=environ, stdout=subprocess.DEVNULL)
    assert wait_until(lambda: len(helpers(process.pid)) == 3)
    started = helpers(process.pid)
    os.kill(process.pid, signal.SIGKILL)
    process.wait()
    assert wait_until(lambda: not any(map(is_running, started)))
    if argv[0] == "site":
        assert [p.name for p in tmp_path.iterdir() if ".making-" in p.name]
        for number in range(2, 120):
            (tmp_path / "c" / f"{number}.chart.yaml").unlink()
        subprocess.run(command, cwd=tmp_path, env=environ, check=True, stdout=subprocess.DEVNULL)
        assert sorted(p.name for p in tmp_path.iterdir()) == ["c", "out", "tmp"]
        assert list(elsewhere.iterdir()) == []
