"""Folders that cannot be written, disks that are full, links in circles, pipes: a clear word, and no file harmed."""

import json
import os
import resource
import shutil
import signal
import subprocess
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path

import pytest
from children import Done, as_nobody, open_folder, run, task

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.marker import marker_text
from lintarsia.publishing.site.swapping import replacing

pytestmark = pytest.mark.slow

HEAD = "lintarsia: 1\ntitle: Hard times\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
KEY = 'colours:\n  B: {name: Dusk blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'
FIELD = "chart: |\n" + "  BBBBBBBBBBBBBBBBBBBB\n" * 6 + "  BBBBBBBBWWWWBBBBBBBB\n" * 6
FAULTY, WHOLE = HEAD + KEY + '  R: {name: Rust, shade: "#b8743c"}\n' + FIELD, HEAD + KEY + FIELD


@pytest.fixture
def folder() -> Iterator[Path]:
    with open_folder() as folder:
        # What commands import on the way has to be there already: not everybody may read where Python lies.
        (folder / "first.chart.yaml").write_text(FAULTY)
        for argv in (("check", "--fix"), ("plan", "--write")):
            assert run(*argv, str(folder / "first.chart.yaml")).status == 0
        from lintarsia.cli.main import main

        main(["check", "--fix", "--format", f"json:{folder / 'first.json'}", str(folder / "first.chart.yaml")])
        main(["plan", "--write", str(folder / "first.chart.yaml")])
        for file in folder.iterdir():
            file.unlink()
        yield folder


def written(file: Path, text: str = FAULTY) -> Path:
    file.parent.mkdir(exist_ok=True)
    file.write_text(text)
    file.chmod(0o644)
    if os.geteuid() == 0:
        os.chown(file, 65534, 65534)
        os.chown(file.parent, 65534, 65534)
    return file


@pytest.mark.parametrize("argv", [("check", "--fix"), ("plan", "--write")], ids=" ".join)
def test_a_folder_that_cannot_be_written(argv: tuple[str, ...], folder: Path) -> None:
    chart = written(folder / "locked" / "a.chart.yaml")
    chart.parent.chmod(0o555)
    ended = run(*argv, str(chart), before=as_nobody)
    assert ended.status == 2
    assert ended.err == f"lintarsia: {str(chart)!r} cannot be written (Permission denied)\n"
    assert chart.read_text() == FAULTY
    assert list(chart.parent.iterdir()) == [chart]


def test_what_can_be_mended_is_mended_all_the_same(folder: Path) -> None:
    locked, free = written(folder / "locked" / "a.chart.yaml"), written(folder / "free" / "b.chart.yaml")
    locked.parent.chmod(0o555)
    ended = run("check", "--fix", "--format", "json", str(folder), before=as_nobody)
    assert ended.status == 2
    told = json.loads(ended.out)
    assert [fixed["file"] for fixed in told["fixed"]] == [str(free)]
    assert [result["file"] for result in told["results"]] == [str(locked)]
    assert free.read_text() == WHOLE


def test_a_file_that_is_write_protected(folder: Path) -> None:
    chart = written(folder / "open" / "a.chart.yaml")
    chart.chmod(0o444)
    ended = run("check", "--fix", str(chart), before=as_nobody)
    assert ended.status == 2
    assert ended.err == f"lintarsia: {str(chart)!r} is write-protected; it was left as it is\n"
    assert chart.read_text() == FAULTY


def test_a_file_that_cannot_be_read(folder: Path) -> None:
    written(folder / "a" / "a.chart.yaml").chmod(0)
    ended = run("check", "--fix", "--format", "json", str(folder), before=as_nobody)
    assert ended.status == 1
    (result,) = json.loads(ended.out)["results"]
    assert (result["rule"], result["key"]) == ("file/unreadable", "not-readable")
    assert result["message"] == "the file cannot be read: permission denied"


def test_a_folder_that_cannot_be_read(folder: Path) -> None:
    written(folder / "shut" / "a.chart.yaml").parent.chmod(0)
    ended = run("check", "--fix", str(folder), before=as_nobody)
    assert ended.status == 2
    assert ended.err == f"lintarsia: the folder {str(folder / 'shut')!r} cannot be read (Permission denied)\n"


@pytest.fixture
def full_disk(folder: Path) -> Iterator[tuple[Path, Callable[[], None], str]]:
    """A folder on a disk without a free byte, what a child has to do to find it full, and what the system says.

    Where none can be mounted, a limit on the size of files stands in for it.
    """
    home, disk = Path.cwd(), folder / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(disk)], capture_output=True, check=False
    )
    if mounted.returncode:
        yield disk, _no_more_bytes, "File too large"
        return
    try:
        yield disk, lambda: None, "No space left on device"
    finally:
        os.chdir(home)  # nobody may be in it when it is unmounted
        subprocess.run(["umount", str(disk)], check=True)


def _no_more_bytes(size: int = 0) -> None:
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, size))


def _as_it_is() -> None:
    pass


def fill(disk: Path, room: int = 0) -> None:
    """Fill a disk but for some bytes."""
    if not os.path.ismount(disk):
        return
    with open(disk / "filler", "wb", buffering=0) as stream:
        try:
            while True:
                stream.write(b"\0" * 512)
        except OSError:
            pass
        stream.truncate(max(0, stream.tell() - room))


FULL = {
    "check --fix": ("check", "--fix", "a.chart.yaml"),
    "plan --write": ("plan", "--write", "a.chart.yaml"),
    "a report": ("check", "--format", "json:old.json", "a.chart.yaml"),
    "a site": ("site", "--output", "site", "a.chart.yaml"),
}


@pytest.mark.parametrize("argv", FULL.values(), ids=FULL)
def test_a_full_disk(
    argv: tuple[str, ...], full_disk: tuple[Path, Callable[[], None], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    disk, find_it_full, reason = full_disk
    monkeypatch.chdir(disk)
    (disk / "a.chart.yaml").write_text(FAULTY)
    (disk / "old.json").write_text("{}")
    (disk / "site").mkdir()
    (disk / "site" / ".lintarsia-site").write_text(marker_text(["index.html"]))
    (disk / "site" / "index.html").write_text("old\n")
    (disk / "site" / "CNAME").write_text("knits.example\n")
    before = sorted(disk.rglob("*"))
    fill(disk)
    ended = run(*argv, before=find_it_full)
    (disk / "filler").unlink(missing_ok=True)
    assert ended.status == 2
    assert "Traceback" not in ended.err
    assert "lintarsia itself failed" not in ended.err
    assert reason in ended.err
    assert sorted(disk.rglob("*")) == before
    assert (disk / "a.chart.yaml").read_text() == FAULTY
    assert (disk / "old.json").read_text() == "{}"
    assert (disk / "site" / "index.html").read_text() == "old\n"
    assert (disk / "site" / "CNAME").read_text() == "knits.example\n"


@pytest.mark.parametrize("jobs", ["1", "2"])
def test_a_disk_that_is_full_at_any_moment_of_a_site(
    jobs: str, full_disk: tuple[Path, Callable[[], None], str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Not a byte for some files, thousands for others: whatever is written last, the answer is the same."""
    disk, _, reason = full_disk
    monkeypatch.chdir(disk)
    if os.path.ismount(disk):
        subprocess.run(["mount", "-o", "remount,size=2m", str(disk)], check=True)
    for name in "abcd":
        (disk / f"{name}.chart.yaml").write_text(WHOLE)
    argv = ("site", "--jobs", jobs, "--output", "site", *(f"{name}.chart.yaml" for name in "abcd"))
    assert run(*argv).status == 0
    (disk / "site" / "CNAME").write_text("knits.example\n")
    before = {file: file.read_bytes() for file in disk.rglob("*") if file.is_file()}
    for room in (0, 1, 5_000, 40_000, 200_000, 400_000):
        fill(disk, room)
        limit = _as_it_is if os.path.ismount(disk) else partial(_no_more_bytes, room // 10)
        ended = run(*argv, before=limit)
        (disk / "filler").unlink(missing_ok=True)
        assert ended.status == 2, room
        assert ended.err in {
            f"lintarsia: the site in 'site' cannot be made ({reason})\n",
            f"lintarsia: no folder can be made in {str(disk)!r} ({reason})\n",
        }, room
        assert {file: file.read_bytes() for file in disk.rglob("*") if file.is_file()} == before, room
    if os.path.ismount(disk):
        subprocess.run(["mount", "-o", "remount,size=8m", str(disk)], check=True)  # two sites stand on it for a moment
    assert run(*argv).status == 0
    assert (disk / "site" / "CNAME").read_text() == "knits.example\n"


def test_links_in_a_circle(folder: Path) -> None:
    (folder / "a.chart.yaml").symlink_to("b.chart.yaml")
    (folder / "b.chart.yaml").symlink_to("a.chart.yaml")
    (folder / "round").symlink_to(".")
    ended = run("check", "--fix", "--format", "json", str(folder))
    assert ended.status == 1
    messages = {result["message"] for result in json.loads(ended.out)["results"]}
    assert messages == {"the file cannot be read: too many levels of symbolic links"}
    assert len(json.loads(ended.out)["results"]) == 2
    (folder / "one.json").symlink_to("other.json")
    (folder / "other.json").symlink_to("one.json")
    ended = run("check", "--format", f"json:{folder / 'one.json'}", str(folder))
    assert ended.status == 2
    assert "Too many levels of symbolic links" in ended.err
    assert os.readlink(folder / "a.chart.yaml") == "b.chart.yaml"


def test_a_named_pipe_is_no_chart_and_nobody_waits_for_it(folder: Path) -> None:
    os.mkfifo(folder / "a.chart.yaml")
    for argv in (("check",), ("check", "--fix"), ("plan", "--write")):
        ended = run(*argv, str(folder / "a.chart.yaml"))
        assert ended.status == 1
        assert "this is a pipe or a device; expected a file" in ended.out + ended.err
        assert (folder / "a.chart.yaml").is_fifo()


def test_a_report_into_a_named_pipe_goes_through_it(folder: Path) -> None:
    written(folder / "a.chart.yaml", WHOLE)
    pipe = folder / "pipe"
    os.mkfifo(pipe)
    process = subprocess.Popen(["cat", str(pipe)], stdout=subprocess.PIPE, text=True)
    ended = run("check", "--format", f"json:{pipe}", str(folder / "a.chart.yaml"))
    out, _ = process.communicate()
    assert ended.status == 0
    assert json.loads(out)["summary"]["charts"] == 1
    assert pipe.is_fifo()


def test_a_link_stays_a_link_and_modes_and_owners_stay(folder: Path) -> None:
    chart = written(folder / "real" / "a.chart.yaml")
    chart.chmod(0o640)
    link = folder / "link.chart.yaml"
    link.symlink_to("real/a.chart.yaml")
    owner = (chart.stat().st_uid, chart.stat().st_gid)
    assert run("check", "--fix", str(folder)).status == 0  # met by both its names
    assert link.is_symlink()
    assert chart.read_text() == WHOLE
    assert chart.stat().st_mode & 0o777 == 0o640
    assert (chart.stat().st_uid, chart.stat().st_gid) == owner
    assert sorted(file.name for file in folder.rglob("*")) == ["a.chart.yaml", "link.chart.yaml", "real"]


def test_a_file_that_changes_meanwhile_is_left_to_whoever_changes_it(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    chart = written(folder / "a.chart.yaml")
    other = FAULTY.replace("Hard times", "Harder times")
    from lintarsia.ground.replacing import replace_file
    from lintarsia.mending import files

    def changing(target: str, data: bytes, **rest: bytes) -> None:
        chart.write_text(other)
        real(target, data, **rest)

    real = replace_file
    monkeypatch.setattr(files, "replace_file", changing)
    ended = run("check", "--fix", str(chart))
    assert ended.status == 2
    assert ended.err == f"lintarsia: {str(chart)!r} has been changed meanwhile; it was left as it is\n"
    assert chart.read_text() == other
    assert list(folder.iterdir()) == [chart]


@pytest.fixture
def public(folder: Path) -> Path:
    """A folder that everybody may write to. What a build imports on the way has been imported."""
    for text in ("first", "second"):
        _build(folder / "first", text)
    shutil.rmtree(folder / "first")
    public = folder / "public"
    public.mkdir()
    public.chmod(0o777)
    return public


def _build(out: Path, text: str) -> None:
    with replacing(str(out)) as fresh:
        Path(fresh, "index.html").write_text(text)


def test_a_site_among_files_of_others_and_folders_that_are_protected(public: Path) -> None:
    """Not the superuser: the kernel lets nobody give second names to others' files, and nothing in a protected folder
    be removed."""

    def build(text: str) -> Done:
        return task(lambda: _build(public / "site", text), as_nobody)

    assert not build("old").killed
    (public / "site" / "CNAME").write_text("of another user")
    protected = written(public / "site" / "mine" / "a.txt", "mine")
    protected.chmod(0o400)
    protected.parent.chmod(0o555)
    build("new")
    assert (public / "site" / "index.html").read_text() == "new"
    assert (public / "site" / "CNAME").read_text() == "of another user"
    assert protected.read_text() == "mine"
    assert protected.parent.stat().st_mode & 0o777 == 0o555
    assert [p.name for p in public.iterdir()] == ["site"]


@pytest.mark.skipif(os.geteuid() != 0, reason="only the superuser can give a file to another user")
def test_a_file_of_another_user_s_that_cannot_be_read_keeps_the_old_site(public: Path) -> None:
    assert not task(lambda: _build(public / "site", "old"), as_nobody).killed
    (public / "site" / "secret").write_text("of another user")
    (public / "site" / "secret").chmod(0o600)

    def refused() -> None:
        as_nobody()
        with pytest.raises(Trouble, match=r"the site in '.*' cannot be made \(Permission denied\)"):
            _build(public / "site", "new")

    task(refused, lambda: None)
    assert (public / "site" / "index.html").read_text() == "old"
    assert (public / "site" / "secret").read_text() == "of another user"
    assert [p.name for p in public.iterdir()] == ["site"]
