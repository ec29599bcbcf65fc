"""The output folder: only ours is emptied, nothing is written beside it, and a failure leaves the old site."""

import os
from pathlib import Path

import pytest

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site import swapping
from lintarsia.publishing.site.marker import HEAD, MARKER
from lintarsia.publishing.site.placing import look_again, write_all_inside, write_inside
from lintarsia.publishing.site.refusing import check_output
from lintarsia.publishing.site.swapping import exchange, replacing


@pytest.mark.parametrize("name", ["../a", "a/../../b", "/etc/a", "", "a//b", "a/./b", "a\\..\\b", "a\0b", ".."])
def test_nothing_is_written_outside(tmp_path: Path, name: str) -> None:
    (tmp_path / "site").mkdir()
    with pytest.raises(ValueError, match="is no place inside the site"):
        write_inside(str(tmp_path / "site"), name, "x")
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["site"]


@pytest.mark.parametrize(("folder", "name"), [("a", "../b"), ("a/..", "b"), ("", ".."), ("a", ""), ("a", "b/c")])
def test_of_several_files_none_is_written_where_one_would_be_outside(tmp_path: Path, folder: str, name: str) -> None:
    (tmp_path / "site").mkdir()
    with pytest.raises(ValueError, match=r"is no place inside the site$"):
        write_all_inside(str(tmp_path / "site"), folder, {"fine.svg": "x", name: "y"})
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["site"]


def test_several_files_are_written_into_one_folder(tmp_path: Path) -> None:
    write_all_inside(str(tmp_path), "a/b", {"one.svg": "é", "two.bin": b"\xff\0"})
    write_all_inside(str(tmp_path), "", {"three": "x" * 200_000})
    assert (tmp_path / "a" / "b" / "one.svg").read_bytes() == "é".encode()
    assert (tmp_path / "a" / "b" / "two.bin").read_bytes() == b"\xff\0"
    assert (tmp_path / "three").stat().st_size == 200_000


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


def build(out: Path, *names: str, text: str = "made") -> None:
    with replacing(str(out)) as fresh:
        for name in names:
            Path(fresh, name).parent.mkdir(parents=True, exist_ok=True)
            Path(fresh, name).write_text(text)


def names(folder: Path) -> list[str]:
    return sorted(str(p.relative_to(folder)) for p in folder.rglob("*") if not p.is_dir() or p.is_symlink())


def test_the_marker_lists_what_was_made(tmp_path: Path) -> None:
    build(tmp_path / "out", "index.html", "charts/a.fabric.svg")
    assert (tmp_path / "out" / MARKER).read_text() == f"{HEAD}charts/a.fabric.svg\nindex.html\n"


def test_what_no_build_made_stays_and_what_one_made_goes(tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html", "charts/a.html", "charts/gone/card.png")
    (out / "CNAME").write_text("knits.example")
    (out / ".nojekyll").write_text("")
    (out / "charts" / "notes.txt").write_text("mine")
    (out / "charts" / "gone" / "mine").mkdir()
    same = (out / "CNAME").stat().st_ino
    build(out, "index.html", text="new")
    assert names(out) == [MARKER, ".nojekyll", "CNAME", "charts/notes.txt", "index.html"]
    assert (out / "charts" / "gone" / "mine").is_dir()
    assert (out / "index.html").read_text() == "new"
    assert (out / "CNAME").stat().st_ino == same  # the file itself, so that whoever has it open writes to it


@pytest.mark.parametrize(
    "line",
    ["../mine.html", "/etc/mine.html", "charts/../../mine.html", "CNAME", "a.chart.yaml", ".git/config", "C:mine.html",
     "charts//mine.html", "..\\mine.html", "out/a.html", "", "charts", "*.html"],
)  # fmt: skip
def test_an_edited_marker_is_no_leave_to_remove(line: str, tmp_path: Path) -> None:
    out, elsewhere = tmp_path / "out", tmp_path / "elsewhere"
    build(out, "index.html", "charts/a.html")
    elsewhere.mkdir()
    for file in (tmp_path / "mine.html", elsewhere / "a.html", out / "CNAME", out / "a.chart.yaml"):
        file.write_text("mine")
    (out / "out").symlink_to("../elsewhere")
    with (out / MARKER).open("a") as marker:
        marker.write(f"{line}\n")
    build(out, "index.html")
    for file in (tmp_path / "mine.html", elsewhere / "a.html", out / "CNAME", out / "a.chart.yaml"):
        assert file.read_text() == "mine"
    assert (out / "out").is_symlink()


def test_a_link_in_the_place_of_a_page_is_not_ours(tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html", "charts/a.html")
    (tmp_path / "charts").mkdir()
    (out / "charts" / "a.html").rename(tmp_path / "charts" / "a.html")
    (out / "charts").rmdir()
    (out / "charts").symlink_to("../charts")
    build(out, "index.html")
    assert (out / "charts").is_symlink()
    assert (tmp_path / "charts" / "a.html").exists()
    with pytest.raises(Trouble, match=r"'.*charts' was made by no build, and a page has its place; move it away"):
        build(out, "index.html", "charts/a.html")
    assert (tmp_path / "charts" / "a.html").read_text() == "made"


@pytest.mark.parametrize("again", [True, False])
def test_a_link_in_the_place_of_a_page_s_file_stays(again: bool, tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html", "charts/a.html", text="old")
    (tmp_path / "mine.html").write_text("mine")
    (out / "charts" / "a.html").unlink()
    (out / "charts" / "a.html").symlink_to("../../mine.html")
    if again:
        with pytest.raises(Trouble, match=r"charts/a\.html' was made by no build"):
            build(out, "index.html", "charts/a.html", text="new")
    else:
        build(out, "index.html")
    assert (out / "charts" / "a.html").is_symlink()
    assert (out / "charts" / "a.html").read_text() == "mine"


@pytest.mark.parametrize("name", ["search.html", "rules/index.html", "rules"])
def test_a_page_takes_nobody_else_s_place(name: str, tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html", text="old")
    (out / name).parent.mkdir(exist_ok=True)
    (out / name).write_text("mine")
    with pytest.raises(Trouble, match=f"{name}' was made by no build"):
        build(out, "index.html", "search.html", "rules/index.html")
    assert (out / name).read_text() == "mine"
    assert (out / "index.html").read_text() == "old"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_site_of_the_first_releases_is_refused(tmp_path: Path) -> None:
    """They removed the whole folder, and so their marker does not say what in it was theirs."""
    out = tmp_path / "out"
    out.mkdir()
    text = "This folder is made by `lintarsia site`, which replaces it whole. Keep nothing of your own in it.\n"
    (out / MARKER).write_text(text)
    build(out, "index.html")  # nothing in it, nothing to lose
    (out / MARKER).write_text(text)
    (out / "a.chart.yaml").write_text("mine")
    with pytest.raises(Trouble, match="without a list of its files"):
        build(out, "index.html", text="new")
    assert names(out) == [MARKER, "a.chart.yaml", "index.html"]
    assert (out / "index.html").read_text() == "made"


@pytest.mark.parametrize("text", ["", "\n", "made\n", "\xff\n", f"{HEAD[:20]}\nindex.html\n"])
def test_a_marker_that_says_nothing_gives_no_leave(text: str, tmp_path: Path) -> None:
    build(tmp_path / "out", "index.html")
    (tmp_path / "out" / MARKER).write_text(text)
    with pytest.raises(Trouble, match="without a list of its files"):
        build(tmp_path / "out", "index.html")


def test_a_marker_that_leads_elsewhere_is_none(tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html")
    (out / MARKER).rename(tmp_path / "marker")
    (out / MARKER).symlink_to("../marker")
    with pytest.raises(Trouble, match="without a list of its files"):
        build(out, "index.html")
    assert (tmp_path / "marker").read_text().startswith(HEAD)


@pytest.mark.parametrize("place", [".git", "docs/.git"])
def test_a_folder_that_holds_a_repository_is_refused(place: str, tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html")
    (out / place).mkdir(parents=True)
    (out / place / "HEAD").write_text("ref: refs/heads/main")
    with pytest.raises(Trouble, match=r"\.git', a repository"):
        build(out, "index.html")
    assert (out / place / "HEAD").exists()


@pytest.mark.parametrize("name", [".", "..", "../..", "../../../site", "link"])
def test_the_folder_this_runs_in_and_those_above_it_are_refused(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    build(tmp_path / "site", "index.html")
    (tmp_path / "site" / "mine" / "here").mkdir(parents=True)
    (tmp_path / "site" / "mine" / "here" / "link").symlink_to(tmp_path / "site")
    monkeypatch.chdir(tmp_path / "site" / "mine" / "here")
    with pytest.raises(Trouble, match="is the folder this runs in, or holds it"):
        check_output(name)


def test_what_comes_while_the_new_site_comes_to_its_place_is_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "out"
    build(out, "index.html")
    (out / "CNAME").write_text("first.example")

    def late(one: str, other: str) -> bool:
        (out / "late.txt").write_text("mine")
        (out / "other.txt").write_text("changed")
        (out / "other.txt").replace(out / "CNAME")
        return exchange(one, other)

    monkeypatch.setattr(swapping, "exchange", late)
    with pytest.raises(Trouble, match=r"the new site is in .*; what was put there .* is kept in '(.*)'") as told:
        build(out, "index.html", text="new")
    assert (out / "index.html").read_text() == "new"
    assert (out / "late.txt").read_text() == "mine"
    assert (out / "CNAME").read_text() == "first.example"
    left = str(told.value).split("'")[-2]
    assert names(Path(left)) == [MARKER, "CNAME"]
    monkeypatch.undo()
    build(out, "index.html")
    assert Path(left, "CNAME").read_text() == "changed"  # nobody's to remove but the user's


def test_sites_within_sites_stand_by_themselves(tmp_path: Path) -> None:
    build(tmp_path / "out", "index.html")
    build(tmp_path / "out" / "inner", "index.html", text="inner")
    build(tmp_path / "out", "search.html")
    assert names(tmp_path / "out") == [MARKER, "inner/.lintarsia-site", "inner/index.html", "search.html"]
    build(tmp_path / "out" / "inner", "search.html")
    assert names(tmp_path / "out") == [MARKER, "inner/.lintarsia-site", "inner/search.html", "search.html"]


def test_modes_stay(tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html")
    (out / "mine").mkdir()
    (out / "mine" / "a.txt").write_text("mine")
    (out / "mine" / "a.txt").chmod(0o640)
    (out / "mine").chmod(0o550)
    out.chmod(0o2751)
    build(out, "index.html")
    modes = [path.stat().st_mode & 0o7777 for path in (out, out / "mine", out / "mine" / "a.txt")]
    assert modes == [0o2751, 0o550, 0o640]
    (out / "mine").chmod(0o750)
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_pipe_stays_and_nobody_waits_for_it(tmp_path: Path) -> None:
    out = tmp_path / "out"
    build(out, "index.html")
    os.mkfifo(out / "pipe")
    build(out, "index.html")
    assert (out / "pipe").is_fifo()
