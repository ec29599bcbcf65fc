"""The output folder: only ours is emptied, nothing is written beside it, and a failure leaves the old site."""

import os
from pathlib import Path

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.output import MARKER, check_output, look_again, replacing, write_inside


@pytest.mark.parametrize("name", ["../a", "a/../../b", "/etc/a", "", "a//b", "a/./b", "a\\..\\b", "a\0b", ".."])
def test_nothing_is_written_outside(tmp_path: Path, name: str) -> None:
    (tmp_path / "site").mkdir()
    with pytest.raises(ValueError, match="is no place inside the site"):
        write_inside(str(tmp_path / "site"), name, "x")
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["site"]


def test_nothing_is_written_through_a_link_that_leads_out(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "site" / "charts").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(ValueError, match="leads out of the site"):
        write_inside(str(tmp_path / "site"), "charts/a.svg", "x")
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_folder_that_became_a_link_is_found_by_the_next_build(tmp_path: Path) -> None:
    (tmp_path / "site").mkdir()
    (tmp_path / "elsewhere").mkdir()
    write_inside(str(tmp_path / "site"), "charts/a.svg", "x")
    (tmp_path / "site" / "charts").rename(tmp_path / "before")
    (tmp_path / "site" / "charts").symlink_to(tmp_path / "elsewhere")
    look_again()
    with pytest.raises(ValueError, match="leads out of the site"):
        write_inside(str(tmp_path / "site"), "charts/a.svg", "x")
    assert list((tmp_path / "elsewhere").iterdir()) == []


def test_a_folder_with_other_files_is_refused(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    with pytest.raises(Trouble, match="holds files that are no site of ours"):
        check_output(str(tmp_path))
    assert (tmp_path / "notes.txt").read_text() == "mine"


def test_a_file_is_refused(tmp_path: Path) -> None:
    (tmp_path / "out").write_text("mine")
    with pytest.raises(Trouble, match="is a file"):
        check_output(str(tmp_path / "out"))


def test_the_folder_this_runs_in_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    with pytest.raises(Trouble, match="is the folder this runs in"):
        check_output(".")


def test_a_new_site_takes_the_old_one_s_place(tmp_path: Path) -> None:
    out = tmp_path / "out"
    for text in ("old", "new"):
        with replacing(str(out)) as fresh:
            Path(fresh, f"{text}.html").write_text(text)
    assert sorted(p.name for p in out.iterdir()) == [MARKER, "new.html"]
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out"]


def test_a_failure_leaves_the_old_site_and_nothing_beside_it(tmp_path: Path) -> None:
    out = tmp_path / "out"
    with replacing(str(out)) as fresh:
        Path(fresh, "old.html").write_text("old")

    def fail() -> None:
        with replacing(str(out)) as fresh:
            Path(fresh, "new.html").write_text("new")
            raise ZeroDivisionError

    with pytest.raises(ZeroDivisionError):
        fail()
    assert (out / "old.html").read_text() == "old"
    assert sorted(p.name for p in tmp_path.iterdir()) == ["out"]


def test_a_folder_that_is_filled_while_the_site_is_made_is_left_alone(tmp_path: Path) -> None:
    out = tmp_path / "out"

    def make() -> None:
        with replacing(str(out)) as fresh:
            Path(fresh, "new.html").write_text("new")
            out.mkdir()
            (out / "notes.txt").write_text("mine")

    with pytest.raises(Trouble, match="holds files"):
        make()
    assert [p.name for p in out.iterdir()] == ["notes.txt"]


def test_a_link_to_a_folder_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    (tmp_path / "out").symlink_to(tmp_path / "real")
    with replacing(str(tmp_path / "out")) as fresh:
        Path(fresh, "a.html").write_text("a")
    assert (tmp_path / "out").is_symlink()
    assert (tmp_path / "real" / "a.html").exists()


def test_the_site_can_be_read_by_those_whom_the_umask_lets(tmp_path: Path) -> None:
    with replacing(str(tmp_path / "out")):
        pass
    mask = os.umask(0)
    os.umask(mask)
    assert (tmp_path / "out").stat().st_mode & 0o777 == 0o777 & ~mask
