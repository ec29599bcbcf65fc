"""Lines of the list of rows, each told whole: its link, what stands around its number, its stitches, its
yarns and how many hang; as small elements and, of a large chart, in words alone."""

import html
import re

import pytest

from lintarsia.planning.planner import make_plan
from lintarsia.publishing.pages import rowview
from lintarsia.publishing.pages.keyview import make_key
from lintarsia.publishing.pages.rowview import Line, listed_steps, row_lines
from lintarsia.reading.reader import read_chart

HEAD = """\
lintarsia: 1
title: Lopsided
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Sea <1>, shade: "#27406b"}
  B: {name: Bone, shade: "#efe9dc"}
  R: {name: Rust, shade: "#b8743c"}
"""
RESTING = f"{HEAD}limits: {{idle: 4}}\nchart: |\n  AABBBAA\n  AAAAAAA\n  ARRRBBB\n  AABBBRR\n"
PARTED = f"""{HEAD}shaping: {{4: {{right: -1, neck-left: -1}}}}
divide: {{3: {{by: bind-off, sides: left-first}}}}
stitches: |
  pp..kk.
  .......
  .......
  ...kkpp
  ggggggg
chart: |
  AA..AA.
  AA..AA.
  AAA.AAA
  AABBAAA
  AABBAAA
"""
ROUND = f"{HEAD}worked: round\ntechnique: stranded\nchart: |\n  {'A' + 'BBA' * 6}\n  {'A' + 'BBA' * 6}\n"


def lines(text: str) -> list[Line]:
    chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    plan = make_plan(chart)
    return row_lines(chart, plan, make_key(chart, plan), listed_steps(chart, plan))


def plain(markup: str) -> str:
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", markup)).split())


def told(line: Line) -> str:
    """`first-last id class half: number and ways | stitches | yarns | how many | crossings`."""
    head = re.findall(r'<tr id="(.*?)" class="(.*?)"(?: data-half="(.*?)")?>', line.html)[0]
    cells = map(plain, re.findall(r"<t[hd][ >].*?</t[hd]>", line.html))
    return f"{line.first}-{line.last} {' '.join(filter(None, head))}: {' | '.join(cells)}"


RIGHT, WRONG = "right side ← right to left", "wrong side → left to right"
LEAVE = "leave the right-hand side on a holder; from here the left-hand side alone, to its top"


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (
            RESTING,
            [
                f"1-1 row-1 rtl: 1 {RIGHT} | 2 Rust R1 3 Bone B1 2 Sea <1> A1 | R1 new B1 new A1 new | 3 | –",
                f"2-2 row-2 ltr: 2 {WRONG} | 1 Sea <1> A1 3 Rust R1 3 Bone B1 | A1 R1 last row B1 | 3 | 2 1 to cross",
                f"3-3 row-3 rtl: 3 {RIGHT} | 7 Sea <1> A2 | A2 new Resting: B1, A1 | 1 of 3 hanging | –",
                f"4-4 row-4 ltr: 4 {WRONG} | 2 Sea <1> A2 3 Bone B1 2 Sea <1> A1 | "
                "A2 last row B1 last row A1 last row | 3 | 2 1 to cross",
            ],
        ),
        (
            PARTED,
            [
                f"1-1 row-1 rtl: 1 {RIGHT} | 3 Sea <1> A1 2 Bone B1 2 Sea <1> A2 | A1 new B1 new A2 new | 3 | –",
                f"2-2 row-2 ltr: 2 {WRONG} | knit and purl p5, k2 2 Sea <1> A2 2 Bone B1 3 Sea <1> A1 | "
                "A2 B1 last row A1 | 3 | 2",
                f"3-3 row-3 rtl right: 3 {RIGHT} right-hand side | the work parts here 3 Sea <1> A1 | A1 | 1 | –",
                f"3-3 row-3-left rtl left: 3 {RIGHT} left-hand side | take up A2, which hangs there; bind off 1 "
                f"between the two sides; {LEAVE} 3 Sea <1> A2 | A2 Left hanging on the other side: A1 | 1 of 2 "
                "hanging | –",
                f"4-4 row-4 ltr left: 4 {WRONG} left-hand side | decrease 1 at the end: 3 to 2 stitches 2 Sea <1> A2 "
                "| A2 Left hanging on the other side: A1 | 1 of 2 hanging | –",
                f"5-5 row-5 rtl left: 5 {RIGHT} left-hand side | after this row leave the 2 stitches of this side on a "
                "holder, or bind them off; knit and purl p2 2 Sea <1> A2 | A2 last row Left hanging on the other "
                "side: A1 | 1 of 2 hanging | –",
                f"4-4 row-4-right ltr right: 4 {WRONG} right-hand side | the other side is finished: back to row 4, "
                "and now the right-hand side; take up A1, which hangs there; decrease 1 at the end: 3 to 2 stitches "
                "2 Sea <1> A1 | A1 | 1 | –",
                f"5-5 row-5-right rtl right: 5 {RIGHT} right-hand side | after this row leave the 2 stitches of this "
                "side on a holder, or bind them off 2 Sea <1> A1 | A1 last row | 1 | –",
            ],
        ),
        (
            ROUND,
            [
                "1-1 row-1 rtl: 1 ← right to left | 3 stitches, 6 times: 1 Sea <1> A1 2 Bone B1 then 1 Sea <1> A1 "
                "| A1 new B1 new | 2 | –",
                "2-2 row-2 rtl: 2 ← right to left | 3 stitches, 6 times: 1 Sea <1> A1 2 Bone B1 then 1 Sea <1> A1 "
                "| A1 last round B1 last round | 2 | –",
            ],
        ),
    ],
    ids=["resting", "parted", "round"],
)
def test_every_line_of_a_small_chart(text: str, expected: list[str]) -> None:
    assert [told(line) for line in lines(text)] == expected


@pytest.mark.parametrize(
    ("text", "cells"),
    [
        (
            RESTING,
            [
                "2~Rust~R1~· 3~Bone~B1~· 2~Sea~&lt;1&gt;~A1</td><td>new R1, B1, A1</td>",
                "1~Sea~&lt;1&gt;~A1~· 3~Rust~R1~· 3~Bone~B1</td><td>last row of R1</td>",
                '7~Sea~&lt;1&gt;~A2</td><td>new A2<p class="rests">Resting: B1, A1</p></td>',
                "2~Sea~&lt;1&gt;~A2~· 3~Bone~B1~· 2~Sea~&lt;1&gt;~A1</td><td>last row of A2, B1, A1</td>",
            ],
        ),
        (
            ROUND,
            [
                '<b class="again">3 stitches, 6 times:</b> 1~Sea~&lt;1&gt;~A1~· 2~Bone~B1 <span class="then">then'
                f"</span> 1~Sea~&lt;1&gt;~A1</td><td>{said} {yarns}</td>"
                for said, yarns in (("new", "A1, B1"), ("last round of", "B1, A1"))
            ],
        ),
    ],
    ids=["resting", "round"],
)
def test_lines_in_words_alone(text: str, cells: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    """No run is parted at a line's end (~ is a space that keeps its neighbours together), and where the side says which
    way a row is worked, its arrow says it alone."""
    monkeypatch.setattr(rowview, "MOST_DRAWN_RUNS", 3)
    found = [re.findall(r'<td class="runs">(.*?</td><td>.*?</td>)', line.html)[0] for line in lines(text)]
    assert [cell.replace("\u00a0", "~") for cell in found] == cells
    ways = [plain(re.findall(r'<span class="way" data-way="(?:left|right)">(.*)</span></th>', one.html)[0])
            for one in lines(text)]  # fmt: skip
    assert ways == (["←", "→", "←", "→"] if text is RESTING else ["← right to left"] * 2)


def test_a_line_to_the_letter() -> None:
    """Row 1 has yarns that are new, row 4 one that goes, and row 3 one that stays in its colour."""
    found = {one.first: one.html for one in lines(f"{HEAD}chart: |\n  AAAAB\n  AAABB\n  AAABB\n  AABBB\n")}
    key = '<svg class="key" aria-hidden="true"><use href="#key-{}"/></svg>'
    assert found[3] == (
        '<tr id="row-3" class="rtl"><th scope="row"><a href="#row-3">3</a> <span class="side">right side</span> '
        '<span class="way" data-way="left">←<span class="aside"> right to left</span></span></th><td class="runs">'
        f'<span class="run"><b>2</b>{key.format(1)}<span>Bone</span> <em>B1</em></span> '
        f'<span class="run"><b>3</b>{key.format(0)}<span>Sea &lt;1&gt;</span> <em>A1</em></span> </td><td>'
        '<ol class="hangs"><li><b>B1</b></li><li><b>A1</b></li></ol></td><td class="n">2</td><td class="n">1</td></tr>'
    )
    hung = '<td><ol class="hangs"><li class="{0}"><b>{2}</b>{1}</li><li class="{0}"><b>{3}</b>{1}</li></ol></td>'
    assert hung.format("new", " <i>new</i>", "B1", "A1") in found[1]
    assert hung.format("last", " <i>last row</i>", "A1", "B1") in found[4]
    once = lines(f"{HEAD}chart: |\n  AAAAB\n")[0].html
    assert hung.format("new last", " <i>new</i> <i>last row</i>", "B1", "A1") in once


def test_a_stretch_that_leaves_no_rest() -> None:
    (line,) = lines(f"{HEAD}worked: round\ntechnique: stranded\nchart: |\n  {'BA' * 7}\n")
    assert told(line).split(" | ")[1] == "2 stitches, 7 times: 1 Sea <1> A1 1 Bone B1"
    assert "</em></span> </td>" in line.html


def test_a_chart_of_few_runs_is_drawn_and_of_one_more_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(rowview, "MOST_DRAWN_RUNS", 10)  # as many as the chart has
    assert all('class="key"' in line.html for line in lines(RESTING))
    monkeypatch.setattr(rowview, "MOST_DRAWN_RUNS", 9)
    assert not any('class="key"' in line.html for line in lines(RESTING))


def test_rows_that_say_the_same_are_one_line_with_an_anchor_for_each() -> None:
    """To and fro, no side and no arrow holds for all; rounds all go one way, and the arrow stays."""
    grid = "chart: |\n" + "  AAAAA\n" * 5
    to_and_fro, rounds = lines(HEAD + grid), lines(f"{HEAD}worked: round\n{grid}")
    assert [told(line).partition(" |")[0] for line in to_and_fro] == [
        f"1-1 row-1 rtl: 1 {RIGHT}", "2-4 row-2 ltr: 2–4", f"5-5 row-5 rtl: 5 {RIGHT}",
    ]  # fmt: skip
    assert [told(line).partition(" |")[0] for line in rounds] == [
        "1-1 row-1 rtl: 1 ← right to left", "2-4 row-2 rtl: 2–4 ← right to left", "5-5 row-5 rtl: 5 ← right to left",
    ]  # fmt: skip
    assert '<a href="#row-2">2–4</a><i id="row-3"></i><i id="row-4"></i>' in rounds[1].html


def test_a_row_of_no_stitches_says_so_unless_its_shaping_does() -> None:
    grid = "chart: |\n  AAAAA\n  .....\n  AAAAA\n"
    assert told(lines(HEAD + grid)[1]) == f"2-2 row-2 ltr: 2 {WRONG} | no stitches | – Resting: A1 | – of 1 hanging | –"
    assert [told(line).split(" | ")[1] for line in lines(f"{HEAD}shaping: {{2: {{left: -5}}}}\n{grid}")][1] == (
        "bind off the 5 stitches that are left, and fasten off"
    )
