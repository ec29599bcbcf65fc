"""A file replaced whole, or made where there is none: what it holds, its mode, and what is left beside it."""

import os
import stat
from pathlib import Path

import pytest

from lintarsia.ground.replacing import LONGEST_NAME, create_file, replace_file
from lintarsia.ground.trouble import Trouble


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "a.chart.yaml"


def told(*args: object, **more: object) -> str:
    with pytest.raises(Trouble) as trouble:
        replace_file(*args, **more)  # type: ignore[arg-type]
    return str(trouble.value)


@pytest.mark.parametrize("data", [b"new text", [b"new ", b"", b"text"]], ids=["whole", "in pieces"])
@pytest.mark.parametrize("name", ["a.chart.yaml", "x" * LONGEST_NAME, "x" * (LONGEST_NAME + 1), "x" * 255])
def test_it_holds_the_new_and_nothing_is_beside_it(name: str, data: bytes | list[bytes], tmp_path: Path) -> None:
    file = tmp_path / name
    for old in (None, "old"):
        if old:
            file.write_text(old)
            file.chmod(0o640)
        replace_file(str(file), data)
        assert file.read_bytes() == b"new text"
        assert os.listdir(tmp_path) == [name]
    assert stat.S_IMODE(file.stat().st_mode) == 0o640


def test_a_relative_name_and_a_link_that_leads_to_nothing_yet(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "b").mkdir()
    (tmp_path / "link").symlink_to("b/real")
    replace_file("link", b"one")
    replace_file("plain", b"two")
    assert os.readlink("link") == "b/real"
    assert [(tmp_path / name).read_bytes() for name in ("b/real", "plain")] == [b"one", b"two"]
    assert (sorted(os.listdir()), os.listdir("b")) == (["b", "link", "plain"], ["real"])


def test_only_what_was_read_is_replaced(file: Path) -> None:
    file.write_bytes(b"mine")
    assert told(str(file), b"new", expect=b"other") == f"{str(file)!r} has been changed meanwhile; it was left as it is"
    assert (file.read_bytes(), os.listdir(file.parent)) == (b"mine", [file.name])
    replace_file(str(file), b"new", expect=b"mine")
    assert file.read_bytes() == b"new"
    file.unlink()
    assert "has been changed meanwhile" in told(str(file), b"new", expect=b"mine")
    assert os.listdir(file.parent) == []


def test_a_failure_on_the_way_leaves_the_old(file: Path) -> None:
    def pieces():
        yield b"half"
        raise KeyboardInterrupt

    file.write_bytes(b"mine")
    with pytest.raises(KeyboardInterrupt):
        replace_file(str(file), pieces())
    assert (file.read_bytes(), os.listdir(file.parent)) == (b"mine", [file.name])


def test_what_cannot_be_is_told(tmp_path: Path) -> None:
    none = str(tmp_path / "none" / "a")
    assert told(none, b"x") == f"{none!r} cannot be written (No such file or directory)"
    assert told("a\0b", b"x") == "'a\\x00b' cannot be written (no file can have this name)"
    assert told(str(tmp_path), b"x") == f"{str(tmp_path)!r} cannot be written (Is a directory)"


def test_a_pipe_is_written_to_as_it_is(tmp_path: Path) -> None:
    """As a device is; none of the machine's own, which a slip would replace where the superuser runs this."""
    pipe = str(tmp_path / "pipe")
    os.mkfifo(pipe)
    reader = os.open(pipe, os.O_RDONLY | os.O_NONBLOCK)
    replace_file(pipe, b"x")
    replace_file(pipe, [b"y", b"z"])
    assert os.read(reader, 9) == b"xyz"
    os.close(reader)
    assert stat.S_ISFIFO(os.stat(pipe).st_mode)
    assert os.listdir(tmp_path) == ["pipe"]


def test_making_takes_the_place_of_nothing(file: Path) -> None:
    create_file(str(file), b"one")
    assert (file.read_bytes(), os.listdir(file.parent)) == (b"one", [file.name])
    with pytest.raises(Trouble) as trouble:
        create_file(str(file), b"two")
    assert str(trouble.value) == f"{str(file)!r} is there already; it was left as it is"
    assert (file.read_bytes(), os.listdir(file.parent)) == (b"one", [file.name])


@pytest.mark.parametrize("there", [True, False])
def test_making_on_a_disk_without_links(there: bool, file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError

    monkeypatch.setattr(os, "link", refuse)
    if there:
        file.write_bytes(b"one")
        with pytest.raises(Trouble, match="is there already"):
            create_file(str(file), b"two")
    else:
        create_file(str(file), b"one")
    assert (file.read_bytes(), os.listdir(file.parent)) == (b"one", [file.name])


def test_what_cannot_be_made_is_told(tmp_path: Path) -> None:
    for name, why in (
        (str(tmp_path / "none" / "a"), "No such file or directory"),
        ("a\0b", "no file can have this name"),
    ):
        with pytest.raises(Trouble) as trouble:
            create_file(name, b"x")
        assert str(trouble.value) == f"{name!r} cannot be written ({why})"
