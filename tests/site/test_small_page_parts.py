"""Small parts of pages at their edges, from values: openings that are closed again, an accent as a style sheet, marks
of what was said, names of pieces' pages, charts that cannot be read, results that were accepted."""

from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from lxml import html

from lintarsia.ground.kinds import Kind
from lintarsia.knits.model import RemarkKind
from lintarsia.planning.planner import make_plan
from lintarsia.publishing.imprint import Imprint
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.pictures import _said_mark
from lintarsia.publishing.pages.piecepages import _Both
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.said import Said, Spot
from lintarsia.publishing.pages.steps import steps
from lintarsia.publishing.site.gather import tasks
from lintarsia.publishing.site.plugin import LintarsiaPlugin, _is_our_theme
from lintarsia.publishing.site.publish import publish, publish_late
from lintarsia.reading.reader import read_chart
from lintarsia.result import Level, Region, Result, RuleInfo
from lintarsia.settings import SettingsFinder
from lintarsia.settings.designer import Designer

HEAD = """\
lintarsia: 1
title: Slit
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Deep sea, shade: "#27406b"}
  B: {name: Bone, shade: "#efe9dc"}
"""
SLIT = f"""{HEAD}divide: {{2: {{by: nothing, at: 3, to: 3, sides: %s}}}}
shaping: {{5: {{right: -1}}}}
chart: |
  AAAABBB.
  AAAABBBB
  AAAABBBB
  AAAABBBB
  AAAABBBB
"""
BACK = "first put the stitches of the side that waits back on the needle"


SLIT_JOIN, ALONE = "join B2 at the slit", "the {} alone, to its top"
RIGHT, LEFT = "right-hand side", "left-hand side"


@pytest.mark.parametrize(
    ("sides", "said"),
    [
        (
            "together",
            {
                "2": f"the work parts here: the {LEFT} first, and each side with yarns of its own from here",
                "2-right": SLIT_JOIN, "3": "", "3-left": "", "4": "",
            },
        ),
        (
            "right-first",
            {
                "2": "the work parts here",
                "2-right": f"{SLIT_JOIN}; leave the {LEFT} on a holder; from here {ALONE.format(RIGHT)}",
                "3": "", "3-left": "", "4": BACK,
            },
        ),
        (
            "left-first",
            {
                "2": f"the work parts here: {ALONE.format(LEFT)}; leave the other 3 stitches on a holder, and turn",
                "3": "",
                "2-right": f"the other side is finished: back to row 2, and now the {RIGHT}; {SLIT_JOIN}",
                "3-right": "", "4": BACK,
            },
        ),
    ],
)  # fmt: skip
def test_where_an_opening_is_closed_again_the_side_that_waits_comes_back(sides: str, said: dict[str, str]) -> None:
    """Row 2 shows its wrong side, so that it begins at the chart's left; a slit leaves nothing on a holder for good."""
    chart = read_chart("x.chart.yaml", (SLIT % sides).encode()).chart
    assert chart is not None
    found = {step.name: step.shaped for step in steps(chart, make_plan(chart))}
    assert found == {"1": "", **said, "5": "decrease 1 at the start: 8 to 7 stitches"}
    assert list(found) == ["1", *said, "5"]


def test_a_first_row_that_parts_the_work_has_no_others_to_leave() -> None:
    chart = read_chart("x.chart.yaml", (SLIT % "right-first").replace("{2: {by", "{1: {by").encode()).chart
    assert chart is not None
    found = {step.name: step.shaped for step in steps(chart, make_plan(chart))}
    assert found["1"] == "the work parts here: the right-hand side alone, to its top"


def test_an_accent_is_a_style_sheet_by_day_and_by_lamplight_to_the_letter() -> None:
    evening = "{ --li-accent: #90a893; --li-on-accent: #1c1611; }"
    assert Imprint(Designer(accent="#35603a")).styles == (
        ":root { --li-accent: #35603a; --li-on-accent: #ffffff; }\n"
        f'@media screen and (prefers-color-scheme: dark) {{ :root:not([data-lamp="day"]) {evening} }}\n'
        f'@media screen {{ :root[data-lamp="evening"] {evening} }}\n'
    )
    assert (Imprint().styles, Imprint().accents) == ("", None)


def test_what_was_said_is_marked_with_its_words() -> None:
    said = Said(RemarkKind.QUESTION, "which <way>?", "Wren", "", "", 9, None, "", "", "/p")
    made = _said_mark(said, Spot(4, (2, 3)))
    assert tuple(made) == (4, (2, 3), "note", "question: which <way>?")


def test_pages_of_pieces_take_no_name_that_another_page_has() -> None:
    both = _Both({"a"}, {"b"})
    assert ["a" in both, "b" in both, "c" in both, "a" in _Both({"a"}, {"a"})] == [True, True, False, True]


INFO = RuleInfo("area/lone", Level.WARNING, "a stitch stands alone", "", "choose", {"lone": "a stitch stands alone"})
LONE = Result("area/lone", "lone", Level.WARNING, "stitch 3 of row 2 is `alone`", "a.chart.yaml",
              Region(9, 3, 9, 4), 2, (3, 3), "", (), "print")  # fmt: skip


def test_a_page_of_nothing_to_mend_and_of_what_was_accepted_to_the_letter() -> None:
    entry = Entry("a.chart.yaml", "a", "A", "", None, (), Level.ERROR)
    clear = f'<p class="clear">{mark("clear")} Nothing to mend.</p>\n'
    head = '<section class="results" aria-labelledby="results">\n<h2 id="results">Results</h2>\n'
    assert results_html(None, entry, Layout(), {}) == f"{head}{clear}</section>"
    kept = replace(LONE, suppressed=True, justification="an <eye>")
    told = (
        '<p data-of-row="2" data-of-stitches="3 3"><b>Row 2, stitch 3</b>: '
        "stitch 3 of row 2 is <code>alone</code>. <i>an &lt;eye&gt;</i> "
        '<a class="rule" href="../rules/area/lone.html">area/lone</a></p>\n'
    )
    summary = "<summary>{} accepted by the designer</summary>"
    for number in (1, 2):
        made = results_html(None, replace(entry, results=(kept,) * number), Layout(), {INFO.name: INFO})
        assert made == (
            f'{head}{clear}<details class="kept">{summary.format(number)}\n{told * number}</details>\n</section>'
        )


def made_of(folder: Path, text: str, name: str = "kite.chart.yaml") -> tuple[Entry, str, Any]:
    """Entry and content of the page of one file, and its task."""
    (folder / name).write_text(text, encoding="utf-8")
    for part in ("site", "scratch"):
        (folder / part).mkdir(exist_ok=True)
    places = (str(folder / "site"), str(folder / "scratch"))
    (task,) = tasks([str(folder / name)], SettingsFinder(), Layout(), *places)
    (entry,) = publish([task])
    return entry, (folder / "scratch" / "0.html").read_text(encoding="utf-8"), task


def test_a_chart_that_cannot_be_read_is_called_by_its_file_and_has_no_numbers(tmp_path: Path) -> None:
    entry, page, _ = made_of(tmp_path, "lintarsia: [\n")
    assert (entry.title, entry.summary, entry.figures, entry.cover) == ("kite.chart.yaml", "", None, "")
    assert [result.rule for result in entry.results] == ["file/unreadable"]
    assert "kite.chart.yaml" in page
    entry, _, _ = made_of(tmp_path, "lintarsia-pattern: [\n", "set.pattern.yaml")
    assert (entry.title, entry.summary, entry.figures, entry.kind) == ("set.pattern.yaml", "", None, Kind.PATTERN)


def test_a_chart_that_takes_too_long_is_told_and_nothing_of_it_stays(tmp_path: Path) -> None:
    entry, page, task = made_of(tmp_path, f"{HEAD}chart: |\n  AAABB\n  AABBB\n")
    assert entry.figures is not None
    assert "kite.chart.yaml" in entry.file
    assert [path.name for path in (tmp_path / "site").rglob("*.fabric.svg")] == ["kite.fabric.svg"]
    late = publish_late(task, 2.5)
    assert (late.title, late.figures, late.summary) == ("kite.chart.yaml", None, "")
    assert "2.5" in late.results[0].message
    assert list((tmp_path / "site").rglob("*.svg")) == []
    assert (tmp_path / "scratch" / "0.html").read_text(encoding="utf-8") != page


@pytest.mark.parametrize(
    ("wide", "high", "sheets", "heads"),
    [
        (12, 8, 0, []),
        (48, 30, 1, ["A sheet to print"]),
        (61, 50, 2, ["Sheets to print"]),
        (150, 40, 3, ["Sheets to print"]),
    ],
)
def test_a_page_says_how_many_sheets_there_are_to_print(
    tmp_path: Path, wide: int, high: int, sheets: int, heads: list[str]
) -> None:
    grid = f"chart: |\n{('  ' + 'A' * (wide // 3) + 'B' * (wide - wide // 3) + chr(10)) * high}"
    _, page, _ = made_of(tmp_path, HEAD.replace("stitches: 22, rows: 30", "stitches: 20, rows: 20") + grid)
    told = html.fromstring(page)
    titles = [" ".join(head.text_content().split()) for head in told.xpath("//h2[@id='sheets-title']")]
    assert titles == heads
    assert len(told.xpath("//nav/a[@href='#sheets-title']")) == len(heads)
    assert (f"cut into {sheets} sheets" in " ".join(told.text_content().split())) is (sheets > 1)
    assert len(list((tmp_path / "site").rglob("sheet-*.svg"))) == sheets


class Making:
    """Stands for a build in one language; what it says is said in that."""

    def speaking(self) -> Any:
        from lintarsia.telling.catalogues import speaking

        return speaking("nb")


def test_in_another_theme_a_page_says_that_nobody_has_read_its_words_yet(monkeypatch: pytest.MonkeyPatch) -> None:
    plugin = LintarsiaPlugin()
    assert plugin._from_memory() == ""
    plugin._making = Making()  # type: ignore[assignment]
    monkeypatch.setattr("lintarsia.publishing.site.plugin.unread", lambda: True)
    told = plugin._from_memory()
    assert told.startswith('<p class="lintarsia hint">')
    assert told.endswith("</p>")
    assert len(told) > 40
    monkeypatch.setattr("lintarsia.publishing.site.plugin.unread", lambda: False)
    assert plugin._from_memory() == ""
    plugin._ours = True
    monkeypatch.setattr("lintarsia.publishing.site.plugin.unread", lambda: True)
    assert plugin._from_memory() == ""


def test_while_a_site_is_served_its_charts_are_watched(monkeypatch: pytest.MonkeyPatch) -> None:
    plugin, watched = LintarsiaPlugin(), list[str]()
    monkeypatch.setattr(plugin, "_own_plan", lambda config: SimpleNamespace(paths=["charts", "b"]))
    server = SimpleNamespace(watch=watched.append)
    given: Any = server
    config: Any = None
    assert plugin.on_serve(given, config=config, builder=print) is given
    assert watched == ["charts", "b"]


def test_our_own_theme_is_known_by_its_folder(tmp_path: Path) -> None:
    from lintarsia.ground.resources import resource

    ours, other = str(resource("site") / "theme"), str(tmp_path)
    for dirs, own in (([other, ours], True), ([other], False), ([], False)):
        config: Any = SimpleNamespace(theme=SimpleNamespace(dirs=dirs))
        assert _is_our_theme(config) is own
