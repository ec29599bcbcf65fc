"""What stands in a site's folder and no build made: found, carried over or copied, and left when the old site goes."""

import errno
import os
from pathlib import Path
from types import SimpleNamespace

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.keeping import Kept, Known, carry, is_folder, kept, remove_made
from lintarsia.publishing.site.marker import MARKER


def put(folder: Path, *names: str) -> Path:
    """Files that hold their own names."""
    for name in names:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(name)
    return folder


def names(folder: Path, made: set[str]) -> list[str]:
    return [thing.name for thing in kept(str(folder), made)]


def carried(old: Path, new: Path, known: Known, made: frozenset[str] = frozenset()) -> str:
    new.mkdir(exist_ok=True)
    return carry(str(old), str(new), list(kept(str(old), made)), known)


def files(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


def test_what_no_build_made_is_found_folders_before_what_they_hold(tmp_path: Path) -> None:
    nested = f"a/{MARKER}"  # no build made a site in there; the marker of this one stands at the top
    put(tmp_path, "index.html", "a/page.html", "a/own.txt", "b/page.html", "notes.txt", nested, MARKER)
    (tmp_path / "empty").mkdir()
    (tmp_path / "b" / "link").symlink_to("page.html")
    made = {"index.html", "a/page.html", "b/page.html"}
    assert names(tmp_path, made) == ["a", nested, "a/own.txt", "b", "b/link", "empty", "notes.txt"]
    assert names(tmp_path, {*made, "b/link"}) == ["a", nested, "a/own.txt", "b", "b/link", "empty", "notes.txt"]
    (tmp_path / "b" / "link").unlink()
    assert names(tmp_path, made) == ["a", nested, "a/own.txt", "empty", "notes.txt"]
    assert [is_folder(thing.found) for thing in kept(str(tmp_path), made)] == [True, False, False, True, False]
    assert [thing.is_folder for thing in kept(str(tmp_path), made)] == [True, False, False, True, False]


def test_a_repository_inside_is_refused_by_its_place(tmp_path: Path) -> None:
    put(tmp_path, "a/.git/config", "a/own.txt")
    with pytest.raises(Trouble) as caught:
        names(tmp_path, set())
    assert str(caught.value) == (
        f"the folder {str(tmp_path)!r} holds 'a/.git', a repository; name a folder for the site alone"
    )


def test_another_disk_inside_is_refused_by_its_place(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    put(tmp_path, "a/own.txt")
    stat = os.stat

    def elsewhere(path: str, *_: object, **__: object) -> object:
        return SimpleNamespace(st_dev=-1) if path == str(tmp_path) else stat(path)

    with monkeypatch.context() as patch:
        patch.setattr(os, "stat", elsewhere)
        with pytest.raises(Trouble) as caught:
            names(tmp_path, set())
    assert str(caught.value) == (
        f"in the folder {str(tmp_path)!r}, 'a' is another disk; name a folder for the site alone"
    )


def test_what_is_carried_has_its_place_in_both_and_is_the_same_file(tmp_path: Path) -> None:
    old, new, known = put(tmp_path / "old", "a/own.txt", "a/c/deep.txt", "page.html"), tmp_path / "new", Known()
    put(new, "page.html")
    (old / "a" / "gone").symlink_to("nowhere")
    (old / "a").chmod(0o750)
    assert carried(old, new, known, frozenset({"page.html"})) == ""
    assert files(new) == ["a", "a/c", "a/c/deep.txt", "a/gone", "a/own.txt", "page.html"]
    assert (new / "a" / "own.txt").samefile(old / "a" / "own.txt")
    assert os.readlink(new / "a" / "gone") == "nowhere"
    assert (new / "a").stat().st_mode & 0o777 == 0o750
    assert sorted(known) == ["a/c/deep.txt", "a/gone", "a/own.txt"]
    found = os.lstat(old / "a" / "own.txt")
    assert known["a/own.txt"] == [found.st_ino, 9, found.st_mtime_ns]


def test_what_is_carried_already_is_passed_over_and_what_has_changed_since_is_told(tmp_path: Path) -> None:
    old, new, known = put(tmp_path / "old", "own.txt"), tmp_path / "new", Known()
    assert carried(old, new, known) == ""
    (new / "own.txt").unlink()
    assert carried(old, new, known) == ""
    assert files(new) == []  # known to have had its place: whoever took it from there meant to
    put(new, "own.txt")
    known["own.txt"][1] += 1
    assert carried(old, new, known) == "own.txt"


@pytest.mark.parametrize("there", ["a", "ab.txt/page.html", "z.txt"])
def test_what_has_no_place_is_named_and_all_else_is_carried(there: str, tmp_path: Path) -> None:
    """A file where a folder would be, a folder where a file would be, and another file."""
    old, new, known = put(tmp_path / "old", "a/own.txt", "ab.txt", "z.txt"), tmp_path / "new", Known()
    put(new, there)
    clash = there.partition("/")[0]
    assert carried(old, new, known) == clash
    assert sorted(known) == [name for name in ("a/own.txt", "ab.txt", "z.txt") if name.split("/")[0] != clash]
    assert (new / there).read_text() == there


def test_a_folder_that_is_there_already_takes_what_the_old_one_held(tmp_path: Path) -> None:
    old, new, known = put(tmp_path / "old", "a/own.txt"), put(tmp_path / "new", "a/page.html"), Known()
    (old / "a").chmod(0o750)
    (new / "a").chmod(0o755)
    assert carried(old, new, known) == ""
    assert files(new) == ["a", "a/own.txt", "a/page.html"]
    assert (new / "a").stat().st_mode & 0o777 == 0o755


@pytest.mark.parametrize("refused", [OSError(errno.EPERM, "no"), NotImplementedError()], ids=["not allowed", "unable"])
def test_where_a_file_has_no_second_name_it_is_copied(
    refused: Exception, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def link(*_: object, **__: object) -> None:
        raise refused

    old, new, known = put(tmp_path / "old", "own.txt"), tmp_path / "new", Known()
    (old / "gone").symlink_to("nowhere")
    os.utime(old / "own.txt", (7, 11))
    monkeypatch.setattr(os, "link", link)
    synced: list[int] = []
    monkeypatch.setattr(os, "fsync", synced.append)
    assert carried(old, new, known) == ""
    assert (new / "own.txt").read_text() == "own.txt"
    assert not (new / "own.txt").samefile(old / "own.txt")
    assert (new / "own.txt").stat().st_mtime == 11
    assert os.readlink(new / "gone") == "nowhere"
    assert len(synced) == 1  # what a link stands for is no file of ours


def test_another_disk_is_never_copied_off_and_a_pipe_never_read(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old, new = put(tmp_path / "old", "own.txt"), tmp_path / "new"
    failures = {"own.txt": errno.EXDEV, "pipe": errno.EPERM}

    def link(source: str, *_: object, **__: object) -> None:
        raise OSError(failures[os.path.basename(source)], "no")

    monkeypatch.setattr(os, "link", link)
    with pytest.raises(OSError, match="no"):
        carried(old, new, {})
    (old / "own.txt").unlink()
    os.mkfifo(old / "pipe")
    with pytest.raises(OSError, match="no"):
        carried(old, new, {})
    assert files(new) == []


def test_an_old_site_goes_whole_where_all_of_it_is_known(tmp_path: Path) -> None:
    old, new, known = put(tmp_path / "old", "index.html", "a/page.html", "a/own.txt", MARKER), tmp_path / "new", Known()
    made = frozenset({"index.html", "a/page.html"})
    assert carried(old, new, known, made) == ""
    assert remove_made(str(old), made, known)
    assert not old.exists()
    assert files(new) == ["a", "a/own.txt"]


def test_what_came_to_an_old_site_at_the_last_moment_stays_with_its_marker(tmp_path: Path) -> None:
    old = put(tmp_path / "old", "index.html", "a/page.html", "a/late.txt", "b/page.html", "c/d/late.txt", MARKER)
    (old / "b" / "index.html").symlink_to("page.html")
    made = frozenset({"index.html", "a/page.html", "b/page.html", "b/index.html"})
    assert not remove_made(str(old), made, {})
    assert files(old) == [MARKER, "a", "a/late.txt", "b", "b/index.html", "c", "c/d", "c/d/late.txt"]


def test_a_file_is_known_by_more_than_its_name(tmp_path: Path) -> None:
    old = put(tmp_path / "old", "own.txt", MARKER)
    mark = Kept("own.txt", os.lstat(old / "own.txt")).mark
    assert not remove_made(str(old), frozenset(), {"own.txt": [*mark[:2], mark[2] + 1], "other.txt": mark})
    assert files(old) == [MARKER, "own.txt"]
    assert remove_made(str(old), frozenset(), {"own.txt": mark})


def test_a_folder_that_is_write_protected_is_opened_before_it_is_emptied(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The superuser may write anywhere, so what is asked of the rights is answered here."""
    old = put(tmp_path / "old", "a/page.html")
    (old / "a").chmod(0o500)
    monkeypatch.setattr(os, "access", lambda path, mode: mode == os.W_OK and not str(path).endswith("a/"))
    opened: list[tuple[str, int]] = []
    monkeypatch.setattr(os, "chmod", lambda path, mode: opened.append((os.path.relpath(path, old), mode)))
    if os.geteuid() == 0:
        assert remove_made(str(old), frozenset({"a/page.html"}), {})
    else:
        with pytest.raises(PermissionError):
            remove_made(str(old), frozenset({"a/page.html"}), {})
    assert opened == [("a", 0o700)]
