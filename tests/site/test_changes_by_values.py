"""Which pages of a site have changed since revisions that went out, and what they tell, from one repository and no
built site."""

import subprocess
from pathlib import Path

import pytest
from lxml import html
from smallchart import small_chart

from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.changes import Changed, changes_of
from lintarsia.publishing.site.gather import tasks
from lintarsia.settings import SettingsFinder

PATTERN = """\
lintarsia-pattern: 1
title: Kite cushion
version: "{version}"
pieces:
  front: {{chart: kite.chart.yaml, rows: {rows}}}
"""
ROWS = ["BBBBW", "BBBWW", "BBWWW", "BWWWW", "BBWWB", "BBBWB"]  # row 1 first
NEW = [*ROWS[:2], "WBWBW", *ROWS[2:]]


class Shelf:
    """Charts `kite` and `lone` and a pattern that names the first, with a tag for each state."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.git("init", "-q")

    def git(self, *words: str, day: str = "2026-03-04") -> None:
        who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
        env = {"GIT_AUTHOR_DATE": f"{day}T12:00:00Z", "GIT_COMMITTER_DATE": f"{day}T12:00:00Z", "PATH": "/usr/bin:/bin"}
        subprocess.run(["git", *who, *words], cwd=self.folder, check=True, capture_output=True, env=env)

    def chart(self, name: str, rows: list[str]) -> None:
        (self.folder / f"{name}.chart.yaml").write_text(small_chart(name.capitalize(), reversed(rows)))

    def state(self, rows: list[str], version: str, tag: str, day: str) -> None:
        self.chart("kite", rows)
        self.chart("lone", ROWS[:3])
        (self.folder / "kite.pattern.yaml").write_text(PATTERN.format(version=version, rows=len(rows)))
        self.git("add", "-A")
        self.git("commit", "-q", "-m", "state", day=day)
        self.git("tag", tag)

    def changed(self, *revisions: str, public: bool = False) -> dict[str, Changed]:
        own = tasks([str(self.folder)], SettingsFinder(), Layout(), "site", "scratch", public=public)
        return changes_of(own, [str(self.folder)], revisions, None)


@pytest.fixture(scope="module")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Shelf:
    shelf = Shelf(tmp_path_factory.mktemp("shelf"))
    shelf.state(ROWS, "1.0", "v1", "2026-03-04")
    shelf.state(NEW, "1.1", "v2", "2026-05-06")
    shelf.state([*NEW[:6], "WWWWW"], "1.2", "v3", "2026-07-08")
    return shelf


def items(markup: str) -> list[tuple[str, str, list[tuple[str, str, str]]]]:
    """Of each list, rows that came and went, and of each of its lines the rows now and before and the words."""
    lists = html.fromstring(f"<div>{markup}</div>").xpath("ul")
    return [
        (
            one.get("data-come"),
            one.get("data-gone"),
            [(item.get("data-now"), item.get("data-before"), item.text_content()) for item in one.xpath("li")],
        )
        for one in lists
    ]


def test_only_what_has_changed_is_told_since_each_revision_once_and_with_its_day(shelf: Shelf) -> None:
    changed = shelf.changed("v1", "v2", "v1")
    assert sorted(changed) == ["kite", "kite-pattern"]
    assert [(one.revision, one.day) for one in changed["kite"].sections] == [("v1", "2026-03-04"), ("v2", "2026-05-06")]
    assert [changed[slug].title for slug in sorted(changed)] == ["Kite", "Kite cushion"]
    assert {one.since for one in changed.values()} == {"v1"}
    assert {one.dated for one in changed.values()} == {"2026-07-08"}
    assert list(shelf.changed("v3")) == []


def test_a_chart_tells_each_earlier_state_and_a_pattern_those_of_its_pieces(shelf: Shelf) -> None:
    changed = shelf.changed("v1")
    kite = items(changed["kite"].earlier)
    assert [one[:2] for one in kite] == [("", ""), ("3", "")]  # of v2, then of v1
    assert [line[:2] for line in kite[0][2]] == [("7", "7")]
    assert [line[:2] for line in kite[1][2]] == [("3", ""), ("7", "6")]
    assert changed["kite"].pieces == {}
    assert changed["kite-pattern"].earlier == ""
    ((piece, markup),) = changed["kite-pattern"].pieces.items()
    assert piece == ("front", "one size")
    assert [one[:2] for one in items(markup)] == [("3", "")]
    twice = shelf.changed("v1", "v2")["kite-pattern"].pieces[piece]
    assert [one[:2] for one in items(twice)] == [("3", ""), ("", "")]


def test_the_words_of_a_page_are_found_by_a_search(shelf: Shelf) -> None:
    told = shelf.changed("v2")["kite"].told
    assert len(told) == 1
    assert told[0].startswith("since v2, ")
    assert "row 7" in told[0]
    both = shelf.changed("v2", "v1")["kite-pattern"].told
    assert [line.partition(",")[0] for line in both] == ["since v2", "since v2", "since v1", "since v1"]


def test_files_are_called_by_their_way_below_and_no_path_of_the_disk_is_told(shelf: Shelf) -> None:
    for public in (False, True):
        changed = shelf.changed("v1", public=public)
        files = {file.file for one in changed.values() for part in one.sections for file in part.comparison.files}
        assert all("kite" in file and "lone" not in file for file in files)
        page = changed["kite-pattern"].page("kite-pattern", Layout())
        assert "Kite cushion" in page
        assert "Since v1" in " ".join(html.fromstring(page).text_content().split())


def test_what_is_not_committed_yet_is_of_today(shelf: Shelf, monkeypatch: pytest.MonkeyPatch) -> None:
    from datetime import date

    from lintarsia.comparing import errata

    monkeypatch.setattr(errata, "today", lambda: date(2027, 1, 2))
    shelf.chart("lone", ROWS[:4])
    try:
        changed = shelf.changed("v3")
        assert list(changed) == ["lone"]
        assert (changed["lone"].dated, changed["lone"].title) == ("2027-01-02", "Lone")
        assert [one[:2] for one in items(changed["lone"].earlier)] == [("4", "")]
    finally:
        shelf.chart("lone", ROWS[:3])
