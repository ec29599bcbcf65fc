"""The release card as text and as a page, whole: every heading, box and bracket of it, from results made up here."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

from lxml import html
from test_pieces_by_hand import chart_file, pattern

from lintarsia.ground.regions import Region
from lintarsia.pattern.card import Card, CheckedChart, make_card
from lintarsia.pattern.cardformats import card_body, card_html, card_text
from lintarsia.result import Level, Report, Result

TEXT = """\
version: "2.1"
pieces:
  front: {chart: f.chart.yaml, times: 2, measures: {width: 3 cm}}
  side: {chart: g.chart.yaml, times: 3}
"""


def result(rule: str, line: int, message: str, level: Level = Level.ERROR, justification: str = "") -> Result:
    place = Region(line, 7, line, 9)
    return Result(
        rule, "k", level, message, "f.chart.yaml", place, suppressed=bool(justification), justification=justification
    )


RESULTS = (
    result("grid/stitch-count", 4, "row 2 has 3 stitches <too few>"),
    result("float/too-long", 5, "a float of 9", Level.WARNING),
    result("float/too-long", 6, "a float of 8", Level.NOTE),
    *(result("area/single-stitch", line, f"lone stitch {line}", Level.WARNING, "an eye") for line in range(11, 18)),
    result("area/single-stitch", 31, "lone stitch 31", Level.WARNING, "a star & more"),
)
RAN = ("grid/stitch-count", "grid/opening", "grid/unknown-colour", "key/disagrees", "seam/continuity", "float/too-long")


def card(folder: Path, results: tuple[Result, ...] = RESULTS, **more: Any) -> Card:
    work = pattern(folder, TEXT, f=chart_file("BBW BBB"), g=chart_file("BWRB", "worked: round\ntechnique: stranded\n"))
    made = make_card(work, Report(3, results, version="9.9"), RAN, ("words/side", "area/x"))
    charts = (CheckedChart("f.chart.yaml", "Field", "3 stitches, 2 rows"), CheckedChart("g", "it has no rows", ""))
    return replace(
        made, **{"file": "mat.pattern.yaml", "charts": charts, "stamps": (("f.chart.yaml", "fingerprint 1"),)} | more
    )


def parts(text: str) -> dict[str, list[str]]:
    """The lines of the text by the heading above them."""
    found: dict[str, list[str]] = {"": []}
    for line in text.splitlines():
        if line and not line.startswith((" ", "=", "Made", "version", "Checked", "Not ready", "Nothing")):
            found[line] = []
        elif line:
            list(found.values())[-1].append(line)
    return found


def test_the_text_part_by_part(tmp_path: Path) -> None:
    text = card_text(card(tmp_path))
    found = parts(text)
    assert text.startswith(
        "Cushion, version 2.1\n====================\n\nNot ready: 1 result blocks release.\n\nWhat blocks"
    )
    assert found["What blocks release (1)"] == [
        "  f.chart.yaml:4:7  error grid/stitch-count",
        "    row 2 has 3 stitches <too few>",
    ]
    assert found["What stands and does not block (2)"] == [
        "  f.chart.yaml:5:7  warning float/too-long",
        "    a float of 9",
        "  f.chart.yaml:6:7  note float/too-long",
        "    a float of 8",
    ]
    assert found["What was accepted, and why (8)"] == [
        "  f.chart.yaml:11:7  area/single-stitch",
        "    lone stitch 11",
        "    and at f.chart.yaml:12:7, f.chart.yaml:13:7, f.chart.yaml:14:7,",
        "    f.chart.yaml:15:7 and 2 more places",
        "    accepted: an eye",
        "  f.chart.yaml:31:7  area/single-stitch",
        "    lone stitch 31",
        "    accepted: a star & more",
    ]
    heads = [head for head in found if head and not head.startswith("Cushion")]
    assert all(f"\n\n{head}\n" in text for head in heads), "a blank line stands above every heading"
    checked = [head for head in found if head.startswith("What was checked")]
    assert checked == ["What was checked and found nothing (3 rules, the pattern and 2 charts)"]
    assert found[checked[0]] == [
        "  Field (f.chart.yaml): 3 stitches, 2 rows",
        "  g: it has no rows",
        "  grid: opening, unknown-colour",
        "  key: disagrees",
        "  nothing to look at: duplicate, pieces, repeat, seam, symmetry, words",
        "  switched off in the settings: area/x, words/side",
    ]
    figures = " ".join(" ".join(found["What it comes to"]).split())
    assert figures.startswith(
        "one size front, twice: 3 sts cast on, 2 rows; 1.5 cm wide, 0.7 cm high; stated width 3 cm; "
    )
    assert " side, 3 times: 4 sts cast on, 1 row; 2 cm around, 0.3 cm high; fingerprint " in figures
    assert "\n  one size\n    front, twice: " in text
    signed = "Checked by ______________________   Date ______________\n\nMade by lintarsia 9.9 from mat.pattern.yaml\n"
    assert f"\n\n{signed}version 2.1 · fingerprint " in text
    assert text.endswith("\n  f.chart.yaml: fingerprint 1\n")


def test_one_more_place_and_four_that_are_named(tmp_path: Path) -> None:
    accepted = [r for r in RESULTS if r.justification == "an eye"]
    told = {number: " ".join(card_text(card(tmp_path, tuple(accepted[:number]))).split()) for number in (1, 2, 5, 6)}
    assert "and at" not in told[1]
    assert " and at f.chart.yaml:12:7 accepted: an eye " in told[2]
    assert " f.chart.yaml:15:7 accepted: an eye " in told[5]
    assert " f.chart.yaml:15:7 and 1 more place accepted: an eye " in told[6]


def test_nothing_of_a_kind_has_no_heading(tmp_path: Path) -> None:
    made = card(tmp_path, (), idle=(), off=())
    text = card_text(made)
    for head in (
        "What blocks",
        "What stands",
        "What was accepted",
        "nothing to look at",
        "switched off",
        "Who has knitted",
    ):
        assert head not in text
        assert head.casefold() not in card_body(made).casefold()
    assert "Nothing that can be checked by machine keeps this pattern from release." in text
    assert made.ready


def test_what_is_long_goes_on_set_in(tmp_path: Path) -> None:
    """A word longer than the line stays whole; words with hyphens are not broken at them."""
    file = "f" * 90 + ".chart.yaml"
    text = card_text(
        card(tmp_path, knitted=("small: " + "well-knitted " * 9,), ticked=("T" + " ick" * 25,), stamps=((file, "x"),))
    )
    who = parts(text)["Who has knitted it"]
    assert who[0].startswith("  small: well-knitted")
    assert who[1].startswith("      well-knitted")
    assert all(len(line) <= 80 and not line.endswith("-") for line in who)
    assert who[2].startswith("  [x] T ick")
    assert who[3].startswith("      ick")
    assert f"  {file}:" in text
    boxes = parts(text.partition("\nChecked by")[0])["What no program can check: a person must"]
    assert all(line.startswith(("  [ ] ", "      ")) for line in boxes)
    assert sum(line.startswith("  [ ] ") for line in boxes) == 9


def test_the_page_is_well_formed_and_says_the_same(tmp_path: Path) -> None:
    made = card(
        tmp_path, knitted=("Ann <knitted> it",), ticked=("Every size",), stamps=(("f & g", "fingerprint 1"), ("h", "2"))
    )
    body = card_body(made)
    page = html.fromstring(card_html(made))
    assert page.xpath("string(//title)") == "Release card: Cushion, version 2.1"
    assert page.xpath("string(//h1)") == "Cushion, version 2.1"
    heads = [head.text_content() for head in page.xpath("//h2")]
    assert heads == [
        "What blocks release (1)",
        "What stands and does not block (2)",
        "What was accepted, and why (8)",
        "What was checked and found nothing (3 rules, the pattern and 2 charts)",
        "What it comes to",
        "Who has knitted it",
        "What no program can check: a person must",
    ]
    first, *rest = body.split("\n")
    assert first == '<p class="blocked">Not ready: 1 result blocks release.</p>'
    blocks = "<h2>What blocks release (1)</h2><ul><li>row 2 has 3 stitches &lt;too few&gt;<br>"
    assert rest[0] == f'{blocks}<span class="quiet">f.chart.yaml:4:7 grid/stitch-count (error)</span></li></ul>'
    accepted = next(line for line in rest if "What was accepted" in line)
    assert "<b>Accepted:</b> a star &amp; more<br>" in accepted
    assert accepted.count("<li>") == accepted.count("</li>") == 2
    assert "(warning)</span><br>and at f.chart.yaml:12:7, f.chart.yaml:13:7, f.chart.yaml:14:7, " in accepted
    assert "<ul><li>Ann &lt;knitted&gt; it</li><li>Every size ✓</li></ul>" in body
    rules = '<dl class="key"><dt>grid</dt><dd>opening, unknown-colour</dd><dt>key</dt><dd>disagrees</dd></dl>'
    idle = "<p>Nothing to look at: duplicate, pieces, repeat, seam, symmetry, words</p>"
    stands = '<span class="quiet">f.chart.yaml:{} float/too-long ({})</span></li>'
    assert rest[1] == (
        "<h2>What stands and does not block (2)</h2><ul>"
        f"<li>a float of 9<br>{stands.format('5:7', 'warning')}<li>a float of 8<br>{stands.format('6:7', 'note')}</ul>"
    )
    assert rest[3] == (
        "<h2>What was checked and found nothing (3 rules, the pattern and 2 charts)</h2>"
        "<ul><li>Field (f.chart.yaml): 3 stitches, 2 rows</li><li>g: it has no rows</li></ul>"
    )
    assert accepted.endswith("</li></ul>")
    assert rest[6] == "<h2>Who has knitted it</h2><ul><li>Ann &lt;knitted&gt; it</li><li>Every size ✓</li></ul>"
    figures = re.sub("fingerprint [0-9a-f]{16}", "fingerprint …", rest[5])
    row = '<tr><th scope="row">{}</th><td>{}</td></tr>'
    state = "fingerprint …"
    front = ("3 sts cast on, 2 rows", "1.5 cm wide, 0.7 cm high", "stated width 3 cm", "", state)
    side = ("4 sts cast on, 1 row", "2 cm around, 0.3 cm high", "", "", state)
    yarn = ("6.6 m needed", "7.3 m with the allowance", "1 ball")
    lines = [
        row.format(name, "</td><td>".join(cells))
        for name, cells in (("front, twice", front), ("side, 3 times", side), ("Fjord DK", yarn))
    ]
    tabled = f"<table>{lines[0]}{lines[1]}</table><table>{lines[2]}</table>"
    assert figures == f"<h2>What it comes to</h2><h3>one size</h3>{tabled}"
    assert f"{rules}{idle}<p>Switched off in the settings: area/x, words/side</p>" in rest
    tables = page.xpath("//table")
    assert [cell.text_content() for cell in tables[0][0]][:4] == [
        "front, twice", "3 sts cast on, 2 rows", "1.5 cm wide, 0.7 cm high", "stated width 3 cm",
    ]  # fmt: skip
    assert [row[0].get("scope") for row in tables[0]] == ["row", "row"]
    assert [row[0].text_content() for row in tables[1]] == ["Fjord DK"]
    assert body.count("<h3>one size</h3><table><tr><th") == 1
    boxes = page.xpath("//ul[@class='tick']/li")
    assert len(boxes) == 9
    assert boxes[0].xpath("string(span[2]/span[@class='quiet'])").startswith("(yarn in a stitch")
    assert rest[-2].endswith("</ul><p>Checked by ______________________   Date ______________</p>")
    assert rest[-1].startswith(
        '<p class="quiet">Made by lintarsia 9.9 from mat.pattern.yaml<br>version 2.1 · fingerprint '
    )
    assert rest[-1].endswith("<br>f &amp; g: fingerprint 1<br>h: 2</p>")


def test_a_loop_that_was_measured_needs_no_weighing(tmp_path: Path) -> None:
    measured = chart_file("BBW BBB").replace("over: 10 cm", "over: 10 cm, loop: 20 mm")
    assert "loop: 20 mm" in measured
    work = pattern(tmp_path, "pieces:\n  front: {chart: f.chart.yaml}\n", f=measured)
    tasks = [duty.task for duty in make_card(work, Report(1, ()), (), ()).duties]
    assert not [task for task in tasks if task.startswith("Weigh")]


def test_what_came_before_is_a_task(tmp_path: Path) -> None:
    work = pattern(tmp_path, "pieces:\n  front: {chart: f.chart.yaml}\n", f=chart_file("BBW BBB"))
    first, *_ = make_card(work, Report(1, ()), (), (), before="1.4").duties
    assert first.task == "A line says what has changed since version 1.4 (lintarsia compare tells it)."
