"""What the ground does where something stands in the way: folders half made, locks held by others, files too large,
names that lead nowhere; and in which order a file is written so that no power cut leaves half of it."""

import errno
import fcntl
import multiprocessing
import os
import pickle
import shutil
import stat
import tempfile
import time
import warnings
from collections.abc import Callable
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from lintarsia.ground import leftout, orphans, replacing, resources, scratch
from lintarsia.ground.kinds import SUFFIXES, Kind, kind_of
from lintarsia.ground.leftout import is_left_out, is_there, leaving_out
from lintarsia.ground.notebooks import show_by, shown_in_notebook
from lintarsia.ground.packing import PAYS_FROM, packed, unpacked
from lintarsia.ground.pools import begin_quietly, cores, process_pool, spread, start
from lintarsia.ground.regular import read_regular
from lintarsia.ground.replacing import create_file, replace_file
from lintarsia.ground.resources import resource
from lintarsia.ground.scratch import LOCK, PREFIX, abandoned, alone, hold, remove, scratch_folder
from lintarsia.ground.trouble import SettingsTrouble, Trouble


def open_files() -> int:
    return len(os.listdir("/proc/self/fd"))


@pytest.fixture(autouse=True)
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "tmp").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "tmp"))
    replacing._processes.cache_clear()
    return tmp_path / "tmp"


def failing(call: Callable[..., Any], *, at: int = 1, code: int = errno.ENOSPC) -> Callable[..., Any]:
    """As `call`, but for the call number `at`, which fails as a full disk does."""
    calls = iter(range(1, 10_000))

    def run(*told: Any, **more: Any) -> Any:
        if next(calls) == at:
            raise OSError(code, os.strerror(code))
        return call(*told, **more)

    return run


def test_a_folder_that_cannot_be_locked_is_taken_away_again(elsewhere: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = open_files()
    monkeypatch.setattr(os, "open", failing(os.open))
    with pytest.raises(OSError, match="No space left"):
        hold(str(elsewhere), PREFIX)
    assert (list(elsewhere.iterdir()), open_files()) == ([], before)


def test_a_folder_whose_lock_cannot_be_written_is_taken_away_again(
    elsewhere: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = open_files()
    monkeypatch.setattr(os, "write", failing(os.write))
    with pytest.raises(OSError, match="No space left"):
        hold(str(elsewhere), PREFIX)
    assert (list(elsewhere.iterdir()), open_files()) == ([], before)


@pytest.mark.parametrize("times", [1, 4, 5])
def test_a_folder_that_another_run_clears_away_is_made_anew(
    times: int, elsewhere: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Up to five times; the lock file is the first thing that is opened in each."""
    left = [times]
    usual = os.open

    def opened(path: Any, *told: Any, **more: Any) -> int:
        if str(path).endswith(LOCK) and left[0]:
            left[0] -= 1
            shutil.rmtree(os.path.dirname(path))
        return usual(path, *told, **more)

    monkeypatch.setattr(os, "open", opened)
    if times == 5:
        with pytest.raises(FileNotFoundError):
            hold(str(elsewhere), PREFIX)
        return
    held = hold(str(elsewhere), PREFIX)
    assert os.listdir(held.path) == [LOCK]
    assert Path(held.path, LOCK).read_bytes() == scratch._TEXT
    remove(held)


def test_what_is_in_use_is_not_abandoned_and_asking_leaves_no_file_open(elsewhere: Path) -> None:
    held = hold(str(elsewhere), PREFIX)
    before = open_files()
    for _ in range(3):
        assert list(abandoned(str(elsewhere), PREFIX)) == []
    assert open_files() == before
    assert stat.S_IMODE(os.stat(os.path.join(held.path, LOCK)).st_mode) == 0o600
    held.release()
    (left,) = abandoned(str(elsewhere), PREFIX)
    assert left.path == held.path
    assert list(abandoned(str(elsewhere), PREFIX)) == [], "two runs never clear the same"
    remove(left)
    assert (list(elsewhere.iterdir()), open_files()) == ([], before - 1)


def test_a_lock_without_its_text_is_left_alone_for_a_minute(elsewhere: Path) -> None:
    folder = elsewhere / f"{PREFIX}abcd_123"
    folder.mkdir()
    (folder / LOCK).touch()
    assert list(abandoned(str(elsewhere), PREFIX)) == []
    os.utime(folder / LOCK, (time.time() - 61, time.time() - 61))
    (left,) = abandoned(str(elsewhere), PREFIX)
    left.release()


def test_nobody_else_s_folder_is_looked_into(elsewhere: Path) -> None:
    for name in ("notes", "abcd_1234", "ABCD_123", "abcd-123", "abcd_123"):
        (elsewhere / f"{PREFIX}{name}").mkdir()
        (elsewhere / f"{PREFIX}{name}" / "mine").write_text("")
    (elsewhere / f"{PREFIX}abcd_999").write_text("a file")
    (elsewhere / f"{PREFIX}abcd_998").mkdir()
    (elsewhere / f"{PREFIX}abcd_997").symlink_to(elsewhere)
    assert list(abandoned(str(elsewhere), PREFIX)) == []
    assert not (elsewhere / f"{PREFIX}abcd_998").exists(), "killed before it held anything"
    assert len(list(elsewhere.iterdir())) == 7
    assert list(abandoned(str(elsewhere / "nowhere"), PREFIX)) == []


def test_all_in_a_scratch_folder_goes_and_nothing_that_a_link_leads_to(elsewhere: Path, tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "kept").write_text("")
    with scratch_folder() as folder:
        Path(folder, "deep/er").mkdir(parents=True)
        Path(folder, "deep/er/file").write_text("")
        Path(folder, "link").symlink_to(tmp_path / "mine")
        Path(folder, "file").write_text("")
        assert os.path.dirname(folder) == str(elsewhere)
    assert list(elsewhere.iterdir()) == []
    assert (tmp_path / "mine" / "kept").exists()


def test_what_cannot_be_taken_away_stops_nothing(elsewhere: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    held = hold(str(elsewhere), PREFIX)
    Path(held.path, "stuck").write_text("")
    Path(held.path, "deep").mkdir()
    monkeypatch.setattr(os, "unlink", failing(os.unlink, code=errno.EACCES))
    monkeypatch.setattr(os, "rmdir", failing(os.rmdir, code=errno.EACCES))
    remove(held)
    assert LOCK in os.listdir(held.path), "the lock goes last, so that the rest is found again"
    monkeypatch.undo()
    (left,) = abandoned(str(elsewhere), PREFIX)
    remove(left)
    assert not os.path.exists(held.path)


def test_one_run_at_a_time(tmp_path: Path) -> None:
    before = open_files()
    with alone(str(tmp_path)):
        assert open_files() == before + 1
    assert open_files() == before
    with alone(str(tmp_path / "nowhere")):
        pass


def test_a_second_run_waits_until_the_first_has_done(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first lets go as soon as the second waits; one that asks without waiting would find the folder locked."""
    usual, first = fcntl.flock, os.open(tmp_path, os.O_RDONLY)
    usual(first, fcntl.LOCK_EX)

    def asked(number: int, how: int) -> None:
        if not how & fcntl.LOCK_NB:
            os.close(first)
        usual(number, how)

    monkeypatch.setattr(fcntl, "flock", asked)
    with alone(str(tmp_path)):
        third = os.open(tmp_path, os.O_RDONLY)
        with pytest.raises(BlockingIOError):
            usual(third, fcntl.LOCK_EX | fcntl.LOCK_NB)
    usual(third, fcntl.LOCK_EX | fcntl.LOCK_NB)
    os.close(third)


def test_a_file_s_content_is_on_the_disk_before_its_name(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    steps: list[str] = []

    def noted(name: str, call: Callable[..., Any]) -> Callable[..., Any]:
        def run(*told: Any, **more: Any) -> Any:
            steps.append(name)
            return call(*told, **more)

        return run

    usual = os.fsync
    sizes: list[int] = []

    def synced(number: int) -> None:
        sizes.append(os.fstat(number).st_size)
        usual(number)

    for name, call in (("fsync", synced), ("replace", os.replace), ("link", os.link)):
        monkeypatch.setattr(os, name, noted(name, call))
    file = tmp_path / "a.chart.yaml"
    create_file(str(file), b"new")
    assert steps == ["fsync", "link"]
    steps.clear()
    file.chmod(0o640)
    replace_file(str(file), iter([b"in ", b"pieces"]))
    assert steps == ["fsync", "replace"]
    assert sizes == [3, 9], "all of it has been handed over by then"
    assert (file.read_bytes(), stat.S_IMODE(file.stat().st_mode)) == (b"in pieces", 0o640)
    assert [path.name for path in tmp_path.iterdir() if path.is_file()] == ["a.chart.yaml"]


def test_a_new_file_takes_nobody_s_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "a.chart.yaml"
    file.write_bytes(b"mine")
    for hard_links in (True, False):
        if not hard_links:
            monkeypatch.setattr(os, "link", failing(os.link, code=errno.EPERM))
        with pytest.raises(Trouble) as caught:
            create_file(str(file), b"new")
        assert str(caught.value) == f"{str(file)!r} is there already; it was left as it is"
        assert file.read_bytes() == b"mine"
        assert len(list(tmp_path.iterdir())) == 2
    monkeypatch.setattr(os, "link", failing(os.link, code=errno.EPERM))
    create_file(str(tmp_path / "b.chart.yaml"), b"new")
    assert (tmp_path / "b.chart.yaml").read_bytes() == b"new"
    assert len(list(tmp_path.iterdir())) == 3


@pytest.mark.parametrize("write", [create_file, replace_file])
def test_what_cannot_be_written_is_told(write: Callable[..., None], tmp_path: Path) -> None:
    for name, why in (("no/where", "No such file or directory"), ("a\0b", "no file can have this name")):
        file = str(tmp_path / name)
        with pytest.raises(Trouble) as caught:
            write(file, b"x")
        assert str(caught.value) == f"{file!r} cannot be written ({why})"


def test_what_has_been_changed_meanwhile_is_left(tmp_path: Path) -> None:
    file = tmp_path / "a"
    file.write_bytes(b"theirs")
    with pytest.raises(Trouble) as caught:
        replace_file(str(file), b"mine", expect=b"old")
    assert str(caught.value) == f"{str(file)!r} has been changed meanwhile; it was left as it is"
    assert file.read_bytes() == b"theirs"
    replace_file(str(file), b"mine", expect=b"theirs")
    assert file.read_bytes() == b"mine"
    assert len(list(tmp_path.iterdir())) == 2


def test_long_names_and_links(tmp_path: Path) -> None:
    long = tmp_path / ("é" * 110)
    replace_file(str(long), b"x")
    (tmp_path / "link").symlink_to(long)
    replace_file(str(tmp_path / "link"), b"y")
    assert (tmp_path / "link").is_symlink()
    assert long.read_bytes() == b"y"
    assert replacing._beside("/a/b", 7) == "/a/b.7.part"
    assert replacing._beside(f"/a/{'x' * 200}", 7) == f"/a/{'x' * 200}.7.part"
    assert replacing._beside(f"/a/{'x' * 201}", 7) == "/a/.lintarsia.7.part"


def test_no_more_of_a_file_is_read_than_asked(tmp_path: Path) -> None:
    file = tmp_path / "a"
    file.write_bytes(b"0123456789")
    before = open_files()
    assert [read_regular(str(file), most) for most in (3, 9, 10)] == [b"0123", b"0123456789", b"0123456789"]
    os.mkfifo(tmp_path / "pipe")
    said = {
        str(tmp_path): (errno.EISDIR, "it is a folder; expected a file"),
        str(tmp_path / "pipe"): (errno.EINVAL, "it is a pipe or a device; expected a file"),
        "/dev/null": (errno.EINVAL, "it is a pipe or a device; expected a file"),
        "a\0b": (errno.EINVAL, "no file can have this name"),
        str(tmp_path / "none"): (errno.ENOENT, "No such file or directory"),
    }
    for path, (code, why) in said.items():
        with pytest.raises(OSError, match=r".") as caught:
            read_regular(path, 10)
        assert (caught.value.errno, caught.value.strerror) == (code, why)
    assert open_files() == before


def test_parts_of_an_install(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert (resource("schema") / "chart.schema.json").is_file()
    assert resource("cases").name == "cases"
    with pytest.raises(FileNotFoundError) as caught:
        resource("nothing")
    assert str(caught.value) == "this install of lintarsia lacks its 'nothing' files; install it again"
    package = tmp_path / "a/lint/lintarsia/ground"
    package.mkdir(parents=True)
    monkeypatch.setattr(resources, "__file__", str(package / "resources.py"))
    (tmp_path / "a/schema").mkdir()
    assert resource("schema") == tmp_path / "a/schema"
    (tmp_path / "a/lint/lintarsia/schema").mkdir()
    assert resource("schema") == tmp_path / "a/lint/lintarsia/schema", "what is shipped with the code comes first"


def test_files_that_count_as_gone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for name in ("a", "b"):
        Path(name).write_text("")
    Path("link").symlink_to("a")
    Path("dangling").symlink_to("nowhere")
    assert [is_there(name) for name in ("a", "b", "link", "dangling", "none")] == [True, True, True, True, False]
    with leaving_out([str(tmp_path / "a")]):
        assert [is_left_out(name) for name in ("a", "b", "link", "none")] == [True, False, True, False]
        assert [is_there(name) for name in ("a", "b", "none")] == [False, True, False]
        with leaving_out([str(tmp_path / "b")]):
            assert not is_left_out("a")
            assert is_left_out("b")
        with leaving_out([]):
            assert is_left_out("a")
        assert is_left_out("a")
    assert leftout._VARIABLE not in os.environ
    assert not is_left_out("a")


def test_a_helper_ends_with_whoever_started_it(monkeypatch: pytest.MonkeyPatch) -> None:
    class Parent:
        joined = 0

        def join(self) -> None:
            self.joined += 1

    parent = Parent()
    statuses: list[int] = []
    monkeypatch.setattr(os, "_exit", statuses.append)
    monkeypatch.setattr(multiprocessing, "parent_process", lambda: None)
    orphans._wait()
    assert statuses == []
    monkeypatch.setattr(multiprocessing, "parent_process", lambda: parent)
    orphans._wait()
    assert (statuses, parent.joined) == ([1], 1)


def doubled(number: int) -> int:
    return 2 * number


def test_answers_come_in_order_and_nobody_is_overrun() -> None:
    class Slow:
        """An executor that counts what waits in it."""

        def __init__(self) -> None:
            self.given: list[int] = []

        def submit(self, work: Callable[[int], int], part: int) -> Any:
            self.given.append(part)

            class Future:
                def result(self) -> int:
                    return work(part)

                def cancel(self) -> None:
                    ended.append(part)

            return Future()

    ended: list[int] = []
    executor = Slow()
    answers = spread(executor, doubled, range(9), 3)  # type: ignore[arg-type]
    assert executor.given == [0, 1, 2]
    assert next(answers) == 0
    assert executor.given == [0, 1, 2, 3]
    assert [next(answers), next(answers)] == [2, 4]
    answers.close()  # type: ignore[attr-defined]
    assert ended == [3, 4, 5]
    everything = Slow()
    assert list(spread(everything, doubled, [4, 2])) == [8, 4]  # type: ignore[arg-type]


def test_what_python_says_of_forking_beside_threads_is_not_passed_on() -> None:
    class Warns:
        """An executor as Python 3.12 makes one where there are threads."""

        def submit(self, work: Callable[[int], int], part: int) -> Any:
            warnings.warn("this process is multi-threaded", DeprecationWarning, stacklevel=2)
            return SimpleNamespace(result=lambda: work(part), cancel=lambda: None)

    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert next(spread(Warns(), doubled, [4, 2], 2)) == 8  # type: ignore[arg-type]


def test_a_pool_of_our_own() -> None:
    assert cores() == len(os.sched_getaffinity(0))
    assert start() in ("fork", "spawn")
    with process_pool(2, begin_quietly) as pool:
        assert list(spread(pool, doubled, [1, 2, 3], 2)) == [2, 4, 6]


def test_what_goes_between_processes_is_small() -> None:
    for what in ("a", ["b"] * 100_000, b"\0" * (PAYS_FROM - 40), b"\0" * PAYS_FROM):
        data = packed(what)
        assert unpacked(data) == what
        assert data[:1] == (b"z" if len(what) >= PAYS_FROM else b"p")


def test_kinds_by_the_whole_ending() -> None:
    assert {kind: f".{kind}.yaml" for kind in Kind} == SUFFIXES
    names = {
        "a.chart.yaml": "chart",
        "a.pattern.yaml": "pattern",
        "a.knit.yaml": "knit",
        "a.yaml": "chart",
        "-": "chart",
    }
    assert {name: str(kind_of(name)) for name in names} == names
    assert [Kind(kind).whole for kind in ("chart", "pattern", "knit")] == [True, False, False]


def test_a_value_shows_itself_by_whoever_can_draw_it() -> None:
    class One:
        pass

    assert shown_in_notebook(One()) is None
    show_by(One, lambda one: "<svg/>")
    assert shown_in_notebook(One()) == "<svg/>"
    assert shown_in_notebook(1) is None


@pytest.mark.parametrize("other", [(0, 0), (1, 0), (0, 1), (2, 3)])
def test_a_file_keeps_its_owner_and_its_group(
    other: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Either may be another than of whoever writes it; where both are the same nobody is asked."""
    beside = tmp_path / "a.part"
    beside.touch()
    mine = beside.stat()
    given: list[tuple[str, int, int]] = []

    def chown(file: str, owner: int, group: int) -> None:
        given.append((file, owner, group))
        raise PermissionError(errno.EPERM, "only the superuser may give files away")

    monkeypatch.setattr(os, "chown", chown)
    old = SimpleNamespace(st_uid=mine.st_uid + other[0], st_gid=mine.st_gid + other[1])
    replacing._keep_owner(str(beside), old)  # type: ignore[arg-type]
    assert given == ([] if other == (0, 0) else [(str(beside), old.st_uid, old.st_gid)])


def test_what_is_left_out_is_gone_for_a_while_and_for_others_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("LINTARSIA_LEFT_OUT", raising=False)
    for name in ("kept", "left", "deeper"):
        (tmp_path / name).touch()
    (tmp_path / "link").symlink_to("left")
    (tmp_path / "dangling").symlink_to("nowhere")
    names = [str(tmp_path / name) for name in ("kept", "left", "deeper", "link", "dangling", "nowhere")]
    before = [True, True, True, True, True, False]
    assert [is_there(name) for name in names] == before
    with leaving_out([names[1]]):
        assert [is_there(name) for name in names] == [True, False, True, False, True, False]
        with leaving_out([names[2]]):
            assert [is_left_out(name) for name in names] == [False, False, True, False, False, False]
        with leaving_out([]):
            assert is_left_out(names[1])
        assert [is_left_out(name) for name in names] == [False, True, False, True, False, False]
    assert [is_there(name) for name in names] == before
    assert "LINTARSIA_LEFT_OUT" not in os.environ


def test_what_is_replaced_is_given_to_whom_the_old_file_belonged(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file = tmp_path / "a.chart.yaml"
    file.write_text("old")
    found = os.stat(file)
    others = os.stat_result((*found[:4], found.st_uid + 1, found.st_gid + 2, *found[6:]))
    given: list[tuple[int, int]] = []
    monkeypatch.setattr(replacing, "_there", lambda name: others)
    monkeypatch.setattr(os, "chown", lambda name, owner, group: given.append((owner, group)))
    replace_file(str(file), b"new")
    assert given == [(others.st_uid, others.st_gid)]
    assert file.read_bytes() == b"new"


def test_making_a_file_clears_what_a_killed_run_left_beside_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(replacing, "_is_running", lambda process: process == 7)
    for name in ("a.yaml.6.part", "a.yaml.7.part", "b.yaml.6.part"):
        (tmp_path / name).touch()
    replacing._processes.cache_clear()
    create_file(str(tmp_path / "a.yaml"), b"x")
    assert sorted(os.listdir(tmp_path)) == ["a.yaml", "a.yaml.7.part", "b.yaml.6.part", "tmp"]


def test_trouble_with_settings_says_in_which_file() -> None:
    trouble = SettingsTrouble("a level is missing", "knits/lintarsia.yaml")
    assert (str(trouble), trouble.file) == ("a level is missing", "knits/lintarsia.yaml")
    again = pickle.loads(pickle.dumps(trouble))  # as it comes from a process of a pool
    assert (str(again), again.file) == (str(trouble), trouble.file)
    assert SettingsTrouble("no file").file is None
