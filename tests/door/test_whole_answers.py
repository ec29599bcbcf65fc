"""What the Python door says, spelt out: every message whole, and what a notebook is given, to the last tag."""

import re
from pathlib import Path

import pytest

import lintarsia
from lintarsia.door import showing
from lintarsia.result import Level, Region, Report, Result

CHART = """\
lintarsia: 1
title: Speck
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Rust & moss, shade: "#a4552e"}
  B: {name: Bone, shade: "#efe9dc"}
chart: |
  AAAAAAA
  AABBAAA
  AAAAAAA
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "a.chart.yaml").write_text(CHART, encoding="utf-8")
    (tmp_path / "b.pattern.yaml").write_text("lintarsia-pattern: 1\n", encoding="utf-8")
    (tmp_path / "c.knit.yaml").write_text("lintarsia-knit: 1\n", encoding="utf-8")
    (tmp_path / "folder").mkdir()
    (tmp_path / "lost.chart.yaml").symlink_to("nowhere")
    return tmp_path


def said(failure: type[Exception], ask: str) -> str:
    with pytest.raises(failure) as caught:
        eval(ask, {"lintarsia": lintarsia})
    return str(caught.value)


@pytest.mark.parametrize(
    ("ask", "told"),
    [
        ("read('none.chart.yaml')", "there is no file 'none.chart.yaml'"),
        ("read('folder')", "'folder' is a folder; expected one chart or pattern"),
        ("pieces('a.chart.yaml')", "'a.chart.yaml' is no pattern: those are named NAME.pattern.yaml"),
        ("read('c.knit.yaml')", "'c.knit.yaml' is the log of a test knit; expected a chart or a pattern"),
        ("plan('c.knit.yaml')", "'c.knit.yaml' is the log of a test knit; expected a chart or a pattern"),
        ("write('a.chart.yaml', rows=(0, 2))", "the rows of the chart are 1 to 3; asked for 0 to 2"),
        ("write('a.chart.yaml', rows=(3, 2))", "the rows of the chart are 1 to 3; asked for 3 to 2"),
        ("write('a.chart.yaml', rows=(2, 4))", "the rows of the chart are 1 to 3; asked for 2 to 4"),
        ("read(text='lintarsia: 1\\n', name='b/new.chart.yaml')", None),
    ],
)
def test_what_cannot_be_worked_with_is_told_whole(here: Path, ask: str, told: str | None) -> None:
    message = said(lintarsia.Trouble, f"lintarsia.{ask}")
    assert message == told if told else re.match(r"b/new\.chart\.yaml:1:1: .* \[file/schema\](\n|$)", message)


@pytest.mark.parametrize(
    ("ask", "failure", "told"),
    [
        ("write('a.chart.yaml', format='pdf')", ValueError, "format is 'pdf'; expected text, markdown or html"),
        ("check()", TypeError, "check needs a path, or text="),
        ("check(['a.chart.yaml'])", TypeError, "check takes paths one by one: check(*paths)"),
        ("check(text='', since='HEAD')", TypeError, "since looks at files; it knows nothing of a text"),
        ("plan('a.chart.yaml', size='4')", TypeError, "piece= and size= are of a pattern's file; a chart has neither"),
        (
            "plan(lintarsia.read('a.chart.yaml'), size='4')",
            TypeError,
            "piece= and size= are of a pattern's file; a chart has neither",
        ),
        ("read()", TypeError, "expected the path of a chart, or text=, one of them"),
        ("read('a.chart.yaml', text='')", TypeError, "expected the path of a chart, or text=, one of them"),
    ],
)
def test_a_slip_in_a_call_is_told_whole(here: Path, ask: str, failure: type[Exception], told: str) -> None:
    assert said(failure, f"lintarsia.{ask}") == told


def test_a_link_to_nowhere_is_there_and_cannot_be_read(here: Path) -> None:
    told = "lost.chart.yaml:1:1: there is no such file (it is a link to something that is gone) [file/unreadable]"
    assert said(lintarsia.Unreadable, "lintarsia.read('lost.chart.yaml')") == told


def test_the_first_and_the_last_row_can_be_asked_for_alone(here: Path) -> None:
    whole = lintarsia.write("a.chart.yaml", in_full=True)
    for row in (1, 2, 3):
        assert re.findall(r"^Row (\d)", lintarsia.write("a.chart.yaml", rows=(row, row)), re.MULTILINE) == [f"{row}"]
    assert lintarsia.write("a.chart.yaml", rows=(1, 3), in_full=True) == whole


def test_faults_of_a_text_are_told_where_they_stand(here: Path) -> None:
    broken = CHART.replace("  AABBAAA\n", "  AABCAAA\n").replace("worked: flat", "worked: flt")
    with pytest.raises(lintarsia.Unreadable) as caught:
        lintarsia.read(text=broken, name="new.chart.yaml")
    lines = str(caught.value).split("\n")
    assert len(lines) == len(caught.value.findings) == 1
    assert lines[0].startswith("new.chart.yaml:3:9: ")
    assert lines[0].endswith(" [file/schema]")
    assert caught.value.file == "new.chart.yaml"


def test_a_plan_for_a_notebook(here: Path) -> None:
    """Three yarns of two colours: A in rows 1 to 3, B's two stitches, A again where B cuts it off (strand is 0)."""
    plan = lintarsia.plan("a.chart.yaml")
    told = plan._repr_html_()
    assert told is not None
    drawing = told[told.index("<svg") : told.index("</svg>") + 6]
    bare = told.replace(drawing, "<svg/>")
    metres = [f"{supply.metres * 100:.0f} cm" for supply in plan.supplies]
    lines = "".join(
        f"<tr><td>{s.id}</td><td>{'Bone' if s.colour == 'B' else 'Rust &amp; moss'}</td><td>{s.first_row}</td>"
        f"<td>{s.last_row}</td><td>{s.stitches}</td><td>{length}</td><td>{s.holder}</td></tr>"
        for s, length in zip(plan.supplies, metres, strict=True)
    )
    whole = f"{plan.totals.metres:.1f} m"
    assert bare == (
        f"<p>3 supplies, 6 ends, at most 3 in a row; {whole}, allowance not included</p><svg/>"
        "<table><thead><tr><th>supply</th><th>colour</th><th>first row</th><th>last row</th><th>stitches</th>"
        f"<th>yarn</th><th>wind as</th></tr></thead><tbody>{lines}</tbody></table>"
    )


def test_a_plan_whose_chart_nobody_knows_has_symbols_and_no_drawing(here: Path) -> None:
    plan = lintarsia.plan("a.chart.yaml")
    showing._charts.pop(plan)
    told = showing.plan_html(plan)
    assert "</p><table>" in told
    assert "<td>A1</td><td>A</td>" in told


def test_inches_where_the_gauge_has_them(here: Path) -> None:
    (here / "a.chart.yaml").write_text(CHART.replace("over: 10 cm", "over: 4 in"), encoding="utf-8")
    told = lintarsia.plan("a.chart.yaml")._repr_html_() or ""
    assert " yd, allowance not included</p>" in told
    assert " in</td>" in told


def result(line: int, level: Level, *, suppressed: bool = False) -> Result:
    return Result(
        "area/x", "x", level, f"found <{line}>", "x.chart.yaml", Region(line, 1, line, 2), remedy="mend & mind",
        suppressed=suppressed,
    )  # fmt: skip


def test_a_report_for_a_notebook() -> None:
    own = (result(3, Level.ERROR), result(5, Level.NOTE), result(6, Level.NOTE, suppressed=True), result(0, Level.NOTE))
    assert showing.report_html(Report(charts=2, results=own)) == (
        "<p>2 charts: 1 error, 2 notes; 1 suppressed</p>"
        "<table><thead><tr><th>level</th><th>where</th><th>what</th><th>mend</th><th>rule</th></tr></thead><tbody>"
        "<tr><td>error</td><td>x.chart.yaml:3</td><td>found &lt;3&gt;</td><td>mend &amp; mind</td><td>area/x</td></tr>"
        "<tr><td>note</td><td>x.chart.yaml:5</td><td>found &lt;5&gt;</td><td>mend &amp; mind</td><td>area/x</td></tr>"
        "<tr><td>note</td><td>x.chart.yaml</td><td>found &lt;0&gt;</td><td>mend &amp; mind</td><td>area/x</td></tr>"
        "</tbody></table>"
    )
    assert showing.report_html(Report(charts=1, results=())) == "<p>1 chart: nothing to mend</p>"


@pytest.mark.parametrize(("number", "more"), [(200, ""), (201, "<p>and 1 more</p>"), (1405, "<p>and 1,205 more</p>")])
def test_a_long_report_is_cut_short_and_says_so(number: int, more: str) -> None:
    told = showing.report_html(Report(charts=1, results=tuple(result(at, Level.NOTE) for at in range(1, number + 1))))
    assert told.count("<tr>") == 201
    assert told.endswith(f"</tbody></table>{more}")


def test_ids_of_drawings_count_up() -> None:
    one, other = showing._prefix(), showing._prefix()
    assert re.fullmatch(r"lx\d+-", one)
    assert int(other[2:-1]) == int(one[2:-1]) + 1


def test_whoever_asks_has_the_settings_that_are_named(here: Path) -> None:
    """Over those above the file, for every question."""
    (here / "lintarsia.yaml").write_text("limits: {supplies: 4}\nmax-stitches: 20\n", encoding="utf-8")
    (here / "other.yaml").write_text("limits: {supplies: 5}\n", encoding="utf-8")
    assert "at most 20 are read" in said(lintarsia.Unreadable, "lintarsia.read('a.chart.yaml')")
    chart = lintarsia.read("a.chart.yaml", settings="other.yaml")
    assert lintarsia.plan(chart).bounds.supplies == 4
    assert lintarsia.plan(chart, settings="other.yaml").bounds.supplies == 5
    assert [r.key for r in lintarsia.check("a.chart.yaml").results] == ["too-many-stitches"]
    assert "too-many-stitches" not in {r.key for r in lintarsia.check("a.chart.yaml", settings="other.yaml").results}


PIECES = "lintarsia-pattern: 1\ntitle: Mat\nsizes: [small, large]\npieces:\n"


@pytest.mark.parametrize(("number", "more"), [(1, ""), (3, ""), (4, " and 2 more")])
def test_a_pattern_of_several_pieces_names_some_of_them(here: Path, number: int, more: str) -> None:
    """Each in two sizes, of which six are named."""
    text = PIECES + "".join(f"  p{at}: {{chart: a.chart.yaml}}\n" for at in range(number))
    (here / "c.pattern.yaml").write_text(text, encoding="utf-8")
    names = [f"p{at}, {size}" for size in ("small", "large") for at in range(number)]
    told = f"'c.pattern.yaml' has {2 * number} of these; name one by piece= and size=: {'; '.join(names[:6])}{more}"
    assert said(lintarsia.Trouble, "lintarsia.plan('c.pattern.yaml')") == told
    assert [one.piece for one in lintarsia.pieces("c.pattern.yaml")] == [name.partition(",")[0] for name in names]
    assert lintarsia.plan("c.pattern.yaml", piece="p0", size="large").totals.supplies == 3


def test_a_chart_in_a_notebook_has_paper_title_and_key(here: Path) -> None:
    drawn = lintarsia.read("a.chart.yaml")._repr_svg_() or ""
    assert 'class="lx-paper"' in drawn
    assert ">Speck</text>" in drawn
    assert "Rust &amp; moss" in drawn.partition("</desc>")[2]
