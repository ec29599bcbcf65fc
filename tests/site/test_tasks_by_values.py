"""What each page of a site is to be made of: from a folder of charts and a pattern, in a repository and outside of one;
and which files a page is made from, which the site must not be written over."""

import os
import subprocess
from pathlib import Path

import pytest
from smallchart import small_chart

from lintarsia.engine.checking import shown
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.said import Spot
from lintarsia.publishing.site.gather import files_read, tasks
from lintarsia.publishing.site.makers.pattern import _elsewhere
from lintarsia.publishing.site.task import Task
from lintarsia.result import Level, Region, Result
from lintarsia.settings import SettingsFinder

ROWS = ("BBBWW", "BBWWW")
PATTERN = """\
lintarsia-pattern: 1
title: {title}
version: "1.0"
pieces:
  front: {{chart: {chart}, rows: 2}}
"""
LOG = """\
lintarsia-knit: 1
{of}
knitter: Wren
rows:
  - {{{piece}row: 1, kind: trouble, said: {words}}}
"""


def put(folder: Path) -> Path:
    for name in ("a/kite", "a/b/kite", "lone"):
        file = folder / f"{name}.chart.yaml"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(small_chart(name, ROWS))
    (folder / "set.pattern.yaml").write_text(PATTERN.format(title="A set", chart="a/kite.chart.yaml"))
    (folder / "two.pattern.yaml").write_text(PATTERN.format(title="Two", chart="a/kite.chart.yaml"))
    (folder / "torn.pattern.yaml").write_text("lintarsia-pattern: 1\ntitle: [\n")
    (folder / "lone.wren.knit.yaml").write_text(LOG.format(of="chart: lone.chart.yaml", piece="", words="odd"))
    (folder / "set.wren.knit.yaml").write_text(
        LOG.format(of="pattern: set.pattern.yaml", piece="piece: front, ", words="wide")
    )
    return folder


@pytest.fixture(scope="module")
def charts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return put(tmp_path_factory.mktemp("shelf") / "charts")


def made(*paths: Path | str, public: bool = False) -> dict[str, Task]:
    found = tasks([str(path) for path in paths], SettingsFinder(), Layout(), "site", "scratch", public=public)
    assert [task.number for task in found] == list(range(len(found))) or public
    return {task.slug: task for task in found}


def test_slugs_and_names_are_the_way_below_the_folder_that_was_named(charts: Path) -> None:
    found = made(charts)
    assert {slug: task.name for slug, task in found.items()} == {
        "a/kite": "a/kite.chart.yaml", "a/b/kite": "a/b/kite.chart.yaml", "lone": "lone.chart.yaml",
        "set-pattern": "set.pattern.yaml", "two-pattern": "two.pattern.yaml", "torn-pattern": "torn.pattern.yaml",
    }  # fmt: skip
    assert {task.target.path for task in made(charts / "a", charts / "lone.chart.yaml").values()} == {
        str(charts / name) for name in ("a/kite.chart.yaml", "a/b/kite.chart.yaml", "lone.chart.yaml")
    }
    assert sorted(made(charts / "a", charts / "lone.chart.yaml")) == ["b/kite", "kite", "lone"]
    both = made(charts, charts / "a" / "b")
    assert both["kite" if "kite" in both else "a/b/kite"].name == "kite.chart.yaml"
    assert {(task.site, task.scratch, task.cards, task.frame, task.revision) for task in found.values()} == {
        ("site", "scratch", False, None, "")
    }


def test_a_file_named_by_its_way_from_here_is_told_by_it(charts: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(charts.parent)
    assert {task.name for task in made("charts").values()} == {""}


def test_a_chart_knows_its_patterns_and_a_pattern_the_pages_of_all(charts: Path) -> None:
    found = made(charts)
    assert {slug: task.patterns for slug, task in found.items() if task.patterns} == {
        "a/kite": (("set-pattern", "A set"), ("two-pattern", "Two"))
    }
    pages = {os.path.realpath(task.target.path): slug for slug, task in found.items()}
    assert found["set-pattern"].slugs == pages
    assert found["a/kite"].slugs == {}
    assert made(charts / "a")["kite"].patterns == ()


def test_remarks_go_with_the_chart_whose_stitches_they_are_of_and_all_with_every_pattern(charts: Path) -> None:
    said = {slug: sorted(one.words for one in task.said) for slug, task in made(charts).items()}
    assert said == {
        "a/kite": ["wide"], "a/b/kite": [], "lone": ["odd"],
        "set-pattern": ["odd", "wide"], "two-pattern": ["odd", "wide"], "torn-pattern": ["odd", "wide"],
    }  # fmt: skip


def test_for_everybody_patterns_stand_for_their_charts_and_nothing_that_was_said_is_told(charts: Path) -> None:
    found = made(charts, public=True)
    assert sorted(found) == ["a/b/kite", "lone", "set-pattern", "torn-pattern", "two-pattern"]
    assert all(task.public and task.said == () for task in found.values())


def test_in_a_repository_each_has_the_state_it_is_in(tmp_path: Path) -> None:
    folder = put(tmp_path / "charts")
    who = ("-c", "user.name=Designer", "-c", "user.email=designer@example.org")
    for words in (("init", "-q"), ("add", "-A"), ("commit", "-q", "-m", "state")):
        subprocess.run(["git", *who, *words], cwd=folder, check=True, capture_output=True)
    (folder / "lone.chart.yaml").write_text(small_chart("other", ROWS))
    revisions = {slug: task.revision for slug, task in made(folder).items()}
    assert revisions["a/kite"] == revisions["a/b/kite"] != revisions["lone"]
    assert all(revisions.values())


def test_what_a_page_is_made_from(tmp_path: Path) -> None:
    folder = put(tmp_path / "charts")
    (folder / "lintarsia.yaml").write_text("baseline: known.json\n")
    (folder / "known.json").write_text("{}")
    found = made(folder)

    def read(slug: str) -> list[str]:
        return sorted({os.path.relpath(os.path.realpath(file), folder) for file in files_read(found[slug])})

    assert read("lone") == ["known.json", "lintarsia.yaml", "lone.chart.yaml"]
    assert read("set-pattern") == [
        "a/kite.chart.yaml", "known.json", "lintarsia.yaml", "set.pattern.yaml", "set.wren.knit.yaml",
    ]  # fmt: skip
    (folder / "lintarsia.yaml").unlink()
    bare = {task.slug: task for task in tasks([str(folder)], SettingsFinder(), Layout(), "site", "scratch")}
    assert [os.path.basename(file) for file in files_read(bare["lone"])] == ["lone.chart.yaml"]


PLACED = """\
lintarsia-pattern: 1
title: Placed
pieces:
  front: {chart: kite.chart.yaml, plain: B, cast-on: 9, rows: 4, at: {row: 2, stitch: 3}}
"""


@pytest.mark.parametrize(
    ("row", "stitches", "spot", "in_chart"),
    [
        (2, "[1, 4]", Spot(2, (1, 4)), Spot(1, (1, 2))),
        (3, "[7, 9]", Spot(3, (7, 9)), Spot(2, (5, 5))),
        (3, "[2, 9]", Spot(3, (2, 9)), Spot(2, (1, 5))),
        (2, "[8, 9]", Spot(2, (8, 9)), None),
        (2, "", Spot(2, None), Spot(1, None)),
        (1, "[3, 4]", Spot(1, (3, 4)), None),
        (2, "[5, 12]", Spot(2, None), Spot(1, None)),
        (4, "", Spot(4, None), None),
        (5, "", None, None),
    ],
)
def test_a_remark_on_a_piece_is_laid_where_it_is_in_the_chart(
    tmp_path: Path, row: int, stitches: str, spot: Spot | None, in_chart: Spot | None
) -> None:
    """The chart is five stitches wide and two rows high; it stands from stitch 3 and row 2 of the piece."""
    (tmp_path / "kite.chart.yaml").write_text(small_chart("Kite", ROWS))
    (tmp_path / "placed.pattern.yaml").write_text(PLACED)
    where = f"row: {row}" + (f", stitches: {stitches}" if stitches else "")
    log = LOG.format(of="pattern: placed.pattern.yaml", piece="piece: front, ", words="odd")
    (tmp_path / "placed.wren.knit.yaml").write_text(log.replace("row: 1", where))
    task = made(tmp_path)["placed-pattern"]
    (said,) = task.said
    assert (said.spot, said.spot_in_chart, said.piece, said.size, said.knitter) == (spot, in_chart, "front", "", "Wren")
    assert said.chart == (os.path.realpath(tmp_path / "kite.chart.yaml") if spot else "")


def test_results_in_a_patterns_charts_are_told_by_their_way_with_what_blocks_there(tmp_path: Path) -> None:
    folder = put(tmp_path / "charts")
    (folder / "a" / "lintarsia.yaml").write_text("block: warning\n")
    task = made(folder)["set-pattern"]
    where = (shown(str(folder / "set.pattern.yaml")), shown(str(folder / "a" / "kite.chart.yaml")))
    results = tuple(Result("a/b", "k", Level.WARNING, "m", file, Region(1, 1, 1, 2)) for file in where)
    told = task.tidy(results)
    assert [result.file for result in told] == ["set.pattern.yaml", "a/kite.chart.yaml"]
    assert _elsewhere(task, results, told) == {"a/kite.chart.yaml": Level.WARNING}
