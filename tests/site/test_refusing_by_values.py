"""Folders that no site is written to, each with the whole of what is said; and those that are fine."""

import os
from pathlib import Path

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.marker import HEAD, MARKER, PUBLIC_HEAD
from lintarsia.publishing.site.refusing import check_output, spare


def site(folder: Path, head: str = HEAD, *more: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / MARKER).write_text(f"{head}index.html\n")
    for name in ("index.html", *more):
        (folder / name).write_text(name)
    return folder


def refused(output: Path | str, *, public: bool = False) -> str:
    with pytest.raises(Trouble) as caught:
        check_output(str(output), public=public)
    return str(caught.value)


def test_what_is_not_there_is_empty_or_a_site_of_ours_is_fine(tmp_path: Path) -> None:
    (tmp_path / "empty").mkdir()
    assert check_output(str(tmp_path / "none")) == check_output(str(tmp_path / "empty")) == []
    own = site(tmp_path / "site", HEAD, "notes.txt")
    assert [kept.name for kept in check_output(str(own))] == ["notes.txt"]
    face = site(tmp_path / "face", PUBLIC_HEAD)
    assert check_output(str(face), public=True) == []
    (tmp_path / "first").mkdir()
    (tmp_path / "first" / MARKER).write_text("an old one\n")
    assert check_output(str(tmp_path / "first")) == []  # nothing but the marker: nobody's work


def test_what_holds_somebodys_work_is_refused(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("")
    assert refused(tmp_path / "file") == f"{str(tmp_path / 'file')!r} is a file; name a folder for the site"
    (tmp_path / "work").mkdir()
    (tmp_path / "work" / "notes.txt").write_text("")
    assert refused(tmp_path / "work") == (
        f"the folder {str(tmp_path / 'work')!r} holds files that are no site of ours; name an empty or a new one"
    )
    (tmp_path / "work" / MARKER).write_text("an old one\n")
    assert refused(tmp_path / "work") == (
        f"the folder {str(tmp_path / 'work')!r} holds a site without a list of its files, as the first releases made "
        "them, so that nobody knows what in it is yours; move that out and delete the folder, or name another"
    )
    inner = site(tmp_path / "site") / "a" / "b"
    inner.mkdir(parents=True)
    monkeypatch.chdir(inner)
    for output in (tmp_path, tmp_path / "site", inner, "..", "."):
        assert refused(output) == (
            f"{str(output)!r} is the folder this runs in, or holds it; name another for the site"
        )
    assert refused("/") == "'/' is the folder this runs in, or holds it; name another for the site"
    monkeypatch.chdir(tmp_path)
    assert check_output("site") != []


def test_the_other_face_of_a_site_is_refused(tmp_path: Path) -> None:
    for head, public, told in (
        (PUBLIC_HEAD, False, "holds a site for everybody, made with --public, and this one would show them results; "
         "name another folder, make it with --public, or delete that folder first"),
        (HEAD, True, "holds a working site, with results; name another folder for the public one, or delete that "
         "folder first"),
    ):  # fmt: skip
        folder = site(tmp_path / str(public), head)
        assert refused(folder, public=public) == f"the folder {str(folder)!r} {told}"


def test_a_folder_that_cannot_be_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = site(tmp_path / "site")

    def listdir(path: str) -> list[str]:
        raise PermissionError(13, "no leave")

    monkeypatch.setattr(os, "listdir", listdir)
    assert refused(folder) == f"the folder {str(folder)!r} cannot be read (no leave)"


def test_where_the_folder_this_runs_in_is_gone_any_other_is_fine(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def getcwd() -> str:
        raise FileNotFoundError

    monkeypatch.setattr(os, "getcwd", getcwd)
    assert check_output(str(site(tmp_path / "site"))) == []


@pytest.mark.parametrize("named", ["site/fox.yaml", "site/a/b/fox.yaml", "elsewhere/link.yaml", "linked/fox.yaml"])
def test_what_the_site_is_made_from_is_spared_by_its_name_and_by_what_it_leads_to(tmp_path: Path, named: str) -> None:
    for folder in ("site/a/b", "elsewhere", "sites"):
        (tmp_path / folder).mkdir(parents=True)
    for name in ("site/fox.yaml", "site/a/b/fox.yaml", "elsewhere/fox.yaml", "sites/fox.yaml"):
        (tmp_path / name).write_text("")
    (tmp_path / "elsewhere" / "link.yaml").symlink_to("../site/fox.yaml")
    (tmp_path / "site" / "out.yaml").symlink_to("../elsewhere/fox.yaml")
    (tmp_path / "linked").symlink_to("site")
    file, output = str(tmp_path / named), str(tmp_path / "site")
    others = [str(tmp_path / name) for name in ("elsewhere/fox.yaml", "sites/fox.yaml", "none/fox.yaml")]
    spare(output, others)
    for files in ([file], [*others, file]):
        with pytest.raises(Trouble) as caught:
            spare(output, files)
        assert str(caught.value) == (
            f"the folder {output!r} holds {file!r}, which this site is made from; name another folder"
        )
    with pytest.raises(Trouble, match=r"out\.yaml"):
        spare(output, [str(tmp_path / "site" / "out.yaml")])
    spare(str(tmp_path / "not there"), [file])


def test_a_bare_name_is_in_the_folder_this_runs_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "site").mkdir()
    monkeypatch.chdir(tmp_path)
    spare("site", ["fox.yaml"])
    with pytest.raises(Trouble, match=r"holds 'fox\.yaml'"):
        spare(os.curdir, ["fox.yaml"])
