"""What whoever began with an earlier state is told, as HTML: the lists that the page's script reads, to the letter; and
the page of changes with the two parts of each revision."""

from dataclasses import replace

from lxml import html

from lintarsia.comparing import errata
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.html import comparison_body
from lintarsia.comparing.model import ChartChange, Comparison, FileChange, State
from lintarsia.publishing.pages.changespage import ChangesSince, changes_page, earlier_html
from lintarsia.publishing.pages.layout import Layout
from lintarsia.reading import read_chart

HEAD = """\
lintarsia: 1
title: Kite & tail
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk <blue>, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
chart: |
"""
ROWS = ["BBBBW", "BBBWW", "BBWWW", "BWWWW", "BBWWB", "BBBWB", "WWWWB"]  # row 1 first


def change(was: list[str], now: list[str]) -> ChartChange:
    charts = [
        read_chart("kite.chart.yaml", (HEAD + "".join(f"  {row}\n" for row in reversed(rows))).encode()).chart
        for rows in (was, now)
    ]
    assert charts[0] is not None
    assert charts[1] is not None
    return compare_charts(charts[0], charts[1])


def test_no_state_no_list() -> None:
    assert earlier_html([]) == ""


def test_the_lists_of_two_states_to_the_letter() -> None:
    gone = change([*ROWS[:2], "WBWBW", "BWBWB", *ROWS[2:]], ROWS)
    new = change(ROWS, [*ROWS[:3], "WBWBB", *ROWS[3:]])
    first, second = earlier_html([("aa", gone)]), earlier_html([("bb", new)])
    assert first.startswith('<ul data-was="aa" data-come="" data-gone="3 4"><li data-now="" data-before="3 4"><b>')
    assert second.startswith('<ul data-was="bb" data-come="4" data-gone=""><li data-now="4" data-before=""><b>')
    assert earlier_html([("aa", gone), ("bb", new)]) == first + second
    for markup in (first, second):
        assert markup.endswith("</b><i>" + markup.rpartition("<i>")[2])
        assert markup.endswith("</i></li></ul>")
        (item,) = html.fromstring(f"<div>{markup}</div>").xpath("ul/li")
        assert [child.tag for child in item] == ["b", "i"]
        assert item.text is None
        assert item.text_content() == "".join(child.text_content() for child in item)


def test_each_change_is_a_line_with_its_rows_now_and_before() -> None:
    now = [*ROWS[:1], "WWBBB", "BBBWW", *ROWS[2:5], "BWBWB", ROWS[6]]
    lists = html.fromstring(f"<div>{earlier_html([('aa', change(ROWS, now))])}</div>").xpath("ul")
    assert [(one.get("data-come"), one.get("data-gone")) for one in lists] == [("2", "")]
    lines = [(item.get("data-now"), item.get("data-before")) for item in lists[0].xpath("li")]
    assert lines == [("2", ""), ("7", "6")]


def test_what_a_line_says_cannot_act() -> None:
    renamed = read_chart("kite.chart.yaml", (HEAD + "  BBW\n").encode()).chart
    assert renamed is not None
    other = replace(renamed, title="<script>")
    markup = earlier_html([("aa", compare_charts(renamed, other))])
    assert "<script>" not in markup
    assert markup.startswith('<ul data-was="aa" data-come="" data-gone="">')


def test_a_page_of_changes_says_what_differs_and_what_is_corrected_since_each_revision() -> None:
    new = change(ROWS, [*ROWS[:3], "WBWBB", *ROWS[3:]])
    file = FileChange("kite.chart.yaml", "kite.chart.yaml", State.CHANGED, title="Kite & tail", chart=new)
    files = (file, replace(file, file="tail.chart.yaml", title="Tail"))
    sections = [
        ChangesSince(name, day, Comparison(name, "", files)) for name, day in (("v1", "2026-03-04"), ("v2", ""))
    ]
    made = changes_page("Kite & tail", "a/kite", sections, "2026-05-06", Layout())
    page = html.fromstring(f"<div>{made}</div>")
    assert page.xpath("//h1")[0].text_content().endswith("Kite & tail")
    assert "../../charts/a/kite.html" in page.xpath("//a/@href")
    assert ["v1" in head.text_content() for head in page.xpath("//h2")] == [True, False]
    assert comparison_body(sections[0].comparison, level=3) in made
    assert errata.body(sections[0].comparison, level=4) in made
    told = " ".join(page.text_content().split())
    for words in ("2026-03-04", "2026-05-06", "row 4 (WS) is new"):
        assert words in told
