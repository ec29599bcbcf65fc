"""A chart or a pattern that cannot be finished in its time has a page that says so, and nothing of what there was."""

from pathlib import Path

import pytest
from lxml import html
from smallsite import write

from lintarsia.ground.kinds import kind_of
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.gather import Gathering, tasks
from lintarsia.publishing.site.publish import publish_late
from lintarsia.settings import SettingsFinder
from straytext import stray


@pytest.fixture
def jobs(tmp_path: Path) -> list:
    write(tmp_path / "charts")
    (tmp_path / "pages").mkdir()
    finder = SettingsFinder(None)
    return tasks([str(tmp_path / "charts")], finder, Layout(), str(tmp_path / "site"), str(tmp_path / "pages"))


def test_its_page_says_so_and_its_pictures_are_gone(jobs: list, tmp_path: Path) -> None:
    for task in jobs:
        fabric = Path(task.site, task.layout.fabric(task.slug))
        picture = Path(task.site, task.layout.picture(task.slug, "chart.svg"))
        for file in (fabric, picture):
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_text("<svg/>")
        entry = publish_late(task, 2.5)
        name = task.name
        assert (entry.file, entry.slug, entry.title) == (name, task.slug, name.rpartition("/")[2])
        assert entry.kind is kind_of(name)
        assert entry.figures is None
        assert [(one.file, one.rule) for one in entry.results] == [(name, "engine/out-of-time")]
        assert not fabric.exists()
        assert not picture.parent.exists()
        page = html.fragment_fromstring(
            (tmp_path / "pages" / f"{task.number}.html").read_text("utf-8"), create_parent="div"
        )
        said = " ".join(page.text_content().split())
        assert "2.5 s" in said
        assert "engine/out-of-time" in said
        assert stray(page) == []


def test_those_whose_time_is_up_are_told_and_have_an_entry_each(jobs: list) -> None:
    gathering = Gathering(jobs, 1, 1e-6)
    try:
        entries = list(gathering)
    finally:
        gathering.close()
    assert [entry.file for entry in entries] == [task.name for task in jobs]
    assert set(gathering.late) <= {task.name for task in jobs}
    assert gathering.late
    assert {entry.file for entry in entries if entry.figures is None and entry.results} >= set(gathering.late)
