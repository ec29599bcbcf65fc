"""A new site that comes to its place, or does not: what is said, what stands where afterwards, and what a later build
makes of folders that a killed one has left. Folders hold a page or two; no chart is drawn."""

import errno
import json
import os
from pathlib import Path

import pytest

from lintarsia.ground.scratch import Held, abandoned, hold
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site import swapping
from lintarsia.publishing.site.marker import HEAD, MARKER, PUBLIC_HEAD
from lintarsia.publishing.site.swapping import CARRIED, MADE, OLD, SITE, beside, clear, replacing


def folder(path: Path, text: str, head: str = HEAD) -> Path:
    path.mkdir(parents=True)
    (path / "index.html").write_text(text)
    (path / MARKER).write_text(f"{head}index.html\n")
    return path


def build(site: Path, text: str = "new", *, more: tuple[str, ...] = (), public: bool = False) -> None:
    with replacing(str(site), public=public) as fresh:
        for name in ("index.html", *more):
            Path(fresh, name).write_text(text)


def page(site: Path) -> str:
    return (site / "index.html").read_text()


def left(parent: Path) -> list[str]:
    return sorted(entry.name.partition(".making-")[0] for entry in parent.iterdir())


def test_a_first_site_and_the_folders_above_it_are_made(tmp_path: Path) -> None:
    old = os.umask(0o027)
    try:
        with replacing(str(tmp_path / "a" / "b" / "site")) as fresh:
            Path(fresh, "sub").mkdir()
            Path(fresh, "sub", "page.html").write_text("new")
            aside = beside(fresh, "scratch")
            assert os.path.dirname(aside) == os.path.dirname(fresh)
            assert os.path.isdir(aside)
        assert os.umask(0o027) == 0o027
    finally:
        os.umask(old)
    site = tmp_path / "a" / "b" / "site"
    assert (site / MARKER).read_text() == f"{HEAD}sub/page.html\n"
    assert site.stat().st_mode & 0o777 == 0o750
    assert left(tmp_path / "a" / "b") == ["site"]


def test_the_rights_of_the_old_folder_and_what_is_not_ours_stay(tmp_path: Path) -> None:
    site = folder(tmp_path / "site", "old")
    (site / "own").mkdir()
    (site / "own" / "notes.txt").write_text("mine")
    site.chmod(0o705)
    build(site)
    assert (page(site), (site / "own" / "notes.txt").read_text()) == ("new", "mine")
    assert site.stat().st_mode & 0o777 == 0o705
    assert left(tmp_path) == ["site"]


def test_a_site_for_everybody_says_so(tmp_path: Path) -> None:
    build(tmp_path / "site", public=True)
    assert (tmp_path / "site" / MARKER).read_text().startswith(PUBLIC_HEAD)
    with pytest.raises(Trouble, match="holds a site for everybody, made with --public"):
        build(tmp_path / "site", "worked")
    assert page(tmp_path / "site") == "new"


def test_a_page_whose_place_is_taken_is_told_by_the_place(tmp_path: Path) -> None:
    site = folder(tmp_path / "site", "old")
    (site / "fox.html").mkdir()
    (site / "fox.html" / "mine.txt").write_text("mine")
    with pytest.raises(Trouble) as caught:
        build(site, more=("fox.html",))
    assert str(caught.value) == (
        f"{str(site / 'fox.html')!r} was made by no build, and a page has its place; move it away"
    )
    assert page(site) == "old"
    assert left(tmp_path) == ["site"]


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(Trouble) as caught:
        build(tmp_path / "file" / "site")
    assert str(caught.value) == f"no folder can be made in {str(tmp_path / 'file')!r} (File exists)"


@pytest.mark.parametrize("number", [errno.ENOSPC, errno.EACCES, errno.ENAMETOOLONG])
def test_a_disk_that_takes_no_more_is_told_and_the_old_site_stays(tmp_path: Path, number: int) -> None:
    site = folder(tmp_path / "site", "old")
    with pytest.raises(Trouble) as caught, replacing(str(site)):
        raise OSError(number, "no room")
    assert str(caught.value) == f"the site in {str(site)!r} cannot be made (no room)"
    assert page(site) == "old"
    assert left(tmp_path) == ["site"]


def test_a_failure_of_another_kind_is_the_programs_own(tmp_path: Path) -> None:
    with pytest.raises(OSError, match="odd"), replacing(str(tmp_path / "site")):
        raise OSError(errno.ENOTCONN, "odd")
    assert left(tmp_path) == []


@pytest.mark.parametrize("back", [True, False])
def test_a_folder_that_cannot_be_replaced_is_told_and_the_old_site_brought_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, back: bool
) -> None:
    """`back`: whether it can be at once; else it is on the way out."""
    site, rename = folder(tmp_path / "knits", "old"), os.rename
    monkeypatch.setattr(swapping, "exchange", lambda one, other: False)
    refused: list[str] = []

    def renamed(one: str, other: str) -> None:
        if os.path.basename(one) == SITE or (os.path.basename(one) == OLD and not back and len(refused) < 2):
            refused.append(one)
            raise OSError(errno.EBUSY, "in use")
        rename(one, other)

    monkeypatch.setattr(os, "rename", renamed)
    with pytest.raises(Trouble) as caught:
        build(site)
    assert str(caught.value) == f"the folder {str(site)!r} cannot be replaced (in use)"
    assert len(refused) == (1 if back else 2)
    assert page(site) == "old"
    assert left(tmp_path) == ["knits"]


@pytest.mark.parametrize("able", [True, False])
def test_where_another_build_was_quicker_the_two_change_places_or_it_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, able: bool
) -> None:
    site, rename, exchange = tmp_path / "knits", os.rename, swapping.exchange
    monkeypatch.setattr(swapping, "exchange", exchange if able else lambda one, other: False)

    def renamed(one: str, other: str) -> None:
        if os.path.basename(one) == SITE and not site.exists():
            folder(site, "quicker")
            (site / "mine.txt").write_text("mine")
        rename(one, other)

    monkeypatch.setattr(os, "rename", renamed)
    if able and exchange(str(folder(tmp_path / "x", "")), str(folder(tmp_path / "y", ""))):
        build(site)
        assert (page(site), (site / "mine.txt").read_text()) == ("new", "mine")
    else:
        with pytest.raises(Trouble, match="cannot be replaced"):
            build(site)
        assert page(site) == "quicker"


def test_what_comes_to_the_old_site_at_the_last_moment_goes_along_or_is_kept_and_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    site = folder(tmp_path / "site", "old")
    exchange = swapping.exchange

    def late(one: str, other: str) -> bool:
        (site / "late.txt").write_text("late")
        (site / "fox.html").mkdir(exist_ok=True)
        (site / "fox.html" / "mine.txt").write_text("mine")
        return exchange(one, other)

    monkeypatch.setattr(swapping, "exchange", late)
    with pytest.raises(Trouble) as caught:
        build(site, more=("fox.html",))
    kept = next(tmp_path.glob(".site.making-*"))
    place = kept / (OLD if (kept / OLD).exists() else SITE)
    assert str(caught.value) == (
        f"the new site is in {str(site)!r}; what was put there while it came to its place is kept in {str(place)!r}"
    )
    assert (place / "fox.html" / "mine.txt").read_text() == "mine"
    assert (page(site), (site / "late.txt").read_text(), (site / "fox.html").read_text()) == ("new", "late", "new")


class Leftover:
    """The hidden folder of a build that was killed, with what it had made by then."""

    def __init__(self, parent: Path) -> None:
        self.parent, self.site = parent, parent / "site"
        self.held: Held = hold(str(parent), ".site.making-")
        self.path = Path(self.held.path)

    def fresh(self, *, told: bool = True, ended: bool = True) -> Path:
        made = folder(self.path / SITE, "half")
        if told:
            (self.path / MADE).write_text(f"{made.stat().st_ino}" + "\n" * ended)
        return made

    def clear(self) -> None:
        clear(self.held, str(self.site))


def test_a_new_site_that_was_never_put_in_place_goes(tmp_path: Path) -> None:
    left_over = Leftover(tmp_path)
    folder(left_over.site, "old")
    locked = left_over.fresh() / "locked"
    locked.mkdir()
    (locked / "page.html").write_text("")
    locked.chmod(0o500)
    left_over.clear()
    assert left(tmp_path) == ["site"]
    assert page(left_over.site) == "old"


def test_an_old_site_that_had_stood_aside_comes_back(tmp_path: Path) -> None:
    left_over = Leftover(tmp_path)
    folder(left_over.path / OLD, "old")
    left_over.fresh()
    left_over.clear()
    assert page(left_over.site) == "old"
    assert left(tmp_path) == ["site"]


def test_an_old_site_whose_place_is_taken_is_removed_by_its_list_alone(tmp_path: Path) -> None:
    left_over = Leftover(tmp_path)
    folder(left_over.site, "new")
    old = folder(left_over.path / OLD, "old")
    (old / "mine.txt").write_text("mine")
    (left_over.path / CARRIED).write_text(json.dumps({}))
    left_over.clear()
    assert (page(left_over.site), (left_over.site / "mine.txt").read_text()) == ("new", "mine")
    assert left(tmp_path) == ["site"]


@pytest.mark.parametrize("text", [None, "", "{", "[1"])
def test_an_old_site_of_which_nobody_knows_what_was_carried_stays(tmp_path: Path, text: str | None) -> None:
    left_over = Leftover(tmp_path)
    folder(left_over.site, "new")
    folder(left_over.path / OLD, "old")
    if text is not None:
        (left_over.path / CARRIED).write_text(text)
    left_over.clear()
    assert page(left_over.path / OLD) == "old"
    assert left(tmp_path) == [".site", "site"]


@pytest.mark.parametrize(("told", "ended"), [(False, True), (True, False)])
def test_a_folder_that_may_be_the_old_site_is_not_taken_for_the_new_one(
    tmp_path: Path, told: bool, ended: bool
) -> None:
    left_over = Leftover(tmp_path)
    folder(left_over.site, "new")
    (left_over.fresh(told=told, ended=ended) / "mine.txt").write_text("mine")
    left_over.clear()
    assert page(left_over.path / SITE) == "half"
    (left_over.path / SITE / "mine.txt").unlink()
    assert page(left_over.site) == "new"


@pytest.mark.parametrize("told", [None, "", "12"])
def test_an_empty_one_can_only_be_the_new_one(tmp_path: Path, told: str | None) -> None:
    left_over = Leftover(tmp_path)
    (left_over.path / SITE).mkdir()
    if told is not None:
        (left_over.path / MADE).write_text(told)
    left_over.clear()
    assert left(tmp_path) == []


def test_the_next_build_clears_away_what_a_killed_one_has_left(tmp_path: Path) -> None:
    left_over = Leftover(tmp_path)
    left_over.fresh()
    left_over.held.release()
    build(left_over.site)
    assert page(left_over.site) == "new"
    assert left(tmp_path) == ["site"]
    assert list(abandoned(str(tmp_path), ".site.making-")) == []


@pytest.mark.parametrize(("letters", "short"), [(200, False), (201, True)])
def test_the_hidden_folder_of_a_long_name_has_a_short_one(tmp_path: Path, letters: int, short: bool) -> None:
    with replacing(str(tmp_path / ("s" * letters))) as fresh:
        name = Path(fresh).parent.name.partition(".making-")[0]
        assert len(name) == (1 + 16 if short else 1 + letters)
