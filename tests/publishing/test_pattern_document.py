"""A pattern as a document: read as the knitter of the largest size would, in each of its three forms.

What a printed pattern holds: sizes, materials, gauge, abbreviations, instructions, charts with keys, schematic,
finishing (Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, 2021; from memory).
"""

import base64
import json
import os
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import markdown  # MkDocs' own
import pytest
from lxml import etree, html

from lintarsia.cli.main import main
from lintarsia.written.page import ABBREVIATIONS

CHART = """\
lintarsia: 1
title: Gate
gauge: {stitches: 20, rows: 30, over: 10 cm, needle: 4 mm}
wearer: child
yarns:
  blue: {name: Moor DK in blue, length: 100 m, mass: 50 g}
  bone: {name: Moor DK in bone, length: 100 m, mass: 50 g}
  red: {name: Moor DK in red, length: 100 m, mass: 50 g}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: blue}
  W: {name: Bone, shade: "#efe9dc", yarn: bone}
  R: {name: Rust <red>, shade: "#b8743c", yarn: red}
duplicate-stitch:
  - {colour: R, row: 2, stitches: [3, 4]}
chart: |
  BBBBBBBB
  BBBWWBBB
  BBWWWBBB
  BBBBBBBB
"""
PATTERN = """\
lintarsia-pattern: 1
title: "Fence & #gate <b> $x_1$"
version: "2.1"
about: A gate & *two* posts.
notes: [Paint it <green>.]
sizes: [small, large]
pieces:
  front: {chart: gate.chart.yaml, plain: B, cast-on: {small: 10, large: 15}, rows: {small: 6, large: 9}, at: {row: 3}}
  hem: {colour: B, stitch: "k2, p2 rib", cast-on: 12, rows: 4, times: {small: 1, large: 2}}
seams:
  - {join: [front left, hem right]}
"""
SETTINGS = """\
designer:
  name: Mill <Lane>
  accent: "#ffe060"
  logo: logo.svg
  copyright: "© 2026 Mill & Lane"
  contact: ask@knits.example
"""
LOGO = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 3"><path d="M0 0h2v3z"/></svg>'
Write = Callable[..., str]


@pytest.fixture
def write(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> Write:
    monkeypatch.chdir(tmp_path)
    files = {"gate.chart.yaml": CHART, "fence.pattern.yaml": PATTERN, "lintarsia.yaml": SETTINGS, "logo.svg": LOGO}
    for name, text in files.items():
        Path(name).write_text(text, encoding="utf-8")

    def write(*said: str) -> str:
        assert main(["write", "fence.pattern.yaml", *said]) == 0, capsys.readouterr().err
        return capsys.readouterr().out

    return write


def words(part: html.HtmlElement) -> str:
    return " ".join(part.text_content().split())


@pytest.mark.parametrize(
    "note", ["-- list", "- a", "1. Wash it", "2) Block it", "+ more", "---", "    code", "# no", "> q"]
)
def test_a_note_is_a_paragraph_whatever_it_begins_with(write: Write, note: str) -> None:
    """Seen through another's reader of Markdown."""
    Path("fence.pattern.yaml").write_text(PATTERN.replace("[Paint it <green>.]", f"[{json.dumps(note)}]"), "utf-8")
    page = html.fromstring(markdown.markdown(write("--format", "markdown"), extensions=["tables"]))
    [heading] = [head for head in page.iter("h2") if head.text == "Notes"]
    told = heading.getnext()
    assert told is not None
    assert told.tag == "p"
    assert words(told) == note.strip()


def test_the_whole_of_it_stands_in_html(write: Write) -> None:
    page = html.fromstring(write("--format", "html"))
    assert words(page.xpath("//h1")[0]) == "Fence & #gate <b> $x_1$"
    assert words(page.xpath("//*[@class='by']")[0]) == "Design: Mill <Lane>"
    assert [words(head) for head in page.xpath("//main//h2")] == [
        "Sizes and measurements", "Materials", "Gauge", "Notes", "Abbreviations",
        "Front, small", "Hem, small", "Front, large", "Hem, large", "Finishing",
    ]  # fmt: skip
    foot = words(page.xpath("//footer")[0])
    assert "© 2026 Mill & Lane" in foot
    assert re.search(r"version 2\.1 · fingerprint [0-9a-f]{16}", foot)
    assert page.xpath("//footer//a/@href") == ["mailto:ask@knits.example"]
    assert page.xpath("//script | //link | //*[starts-with(@src, 'http')]") == []
    assert not [src for src in page.xpath("//@src") if not src.startswith("data:image/svg+xml;base64,")]


def section(page: html.HtmlElement, title: str) -> html.HtmlElement:
    (found,) = (s for s in page.xpath("//section") if words(s.xpath("h2 | h3")[0]) == title)
    return found


def test_what_the_knitter_of_the_large_size_reads(write: Write) -> None:
    page = html.fromstring(write("--format", "html", "--size", "large"))
    # 15 stitches at 20 to 10 cm are 7.5 cm, 9 rows at 30 are 3 cm; 12 stitches 6 cm, 4 rows 1.3 cm.
    measures = [[words(cell) for cell in row] for row in section(page, "Sizes and measurements").xpath(".//tbody/tr")]
    assert measures == [
        ["front", "width at the cast-on", "7.5 cm / 3 in"], ["", "height", "3 cm / 1¼ in"],
        ["hem", "width at the cast-on", "6 cm / 2¼ in"], ["", "height", "1.3 cm / ½ in"],
    ]  # fmt: skip
    materials = section(page, "Materials")
    assert [words(cell) for cell in materials.xpath(".//thead//th")] == ["Yarn", "large"]
    assert [words(row[0]) for row in materials.xpath(".//tbody/tr")] == [
        f"Moor DK in {c}" for c in ("blue", "bone", "red")
    ]
    assert "4 mm" in words(materials)
    front = section(page, "Front, large")
    rows = [words(row) for row in front.xpath(".//ol[@class='rows']/li")]
    # The motif's rows 1 to 4 are the piece's rows 3 to 6; 7 stitches over, 3 at its right and 4 at its left.
    assert any(row.startswith("Row 4 (WS): p6 B, p3 W, p6 B. (15 sts)") for row in rows), rows
    assert words(front.xpath(".//ul[@class='key']")[0]) == "B Dusk blue W Bone R Rust <red>"
    assert "row 4, stitches 6–7" in words(front)
    assert "Knit 2." in words(section(page, "Hem, large"))
    assert words(page.xpath("//p[@class='lede']")[0]) == "A gate & *two* posts."
    assert words(section(page, "Notes")).startswith("Notes Paint it <green>.")
    assert "Small fingers and toes" in words(section(page, "Notes"))
    finishing = words(section(page, "Finishing"))
    assert "weave in" in finishing
    assert "join front left to hem right" in finishing
    ends = section(page, "Ends of front, large").xpath(".//tbody/tr")
    told = re.search(r"Ends of front weave in (\d+)", finishing)
    assert told is not None
    assert len(ends) == int(told[1])


def test_every_abbreviation_and_no_other(write: Write) -> None:
    for said in (("--size", "large"), ("--nested",), ()):
        page = html.fromstring(write("--format", "html", *said))
        listed = [words(term) for term in section(page, "Abbreviations").xpath(".//dt")]
        rows = " ".join(words(part) for part in page.xpath("//ol[@class='rows']"))
        used = {short for short in ABBREVIATIONS if len(short) > 1 and re.search(rf"\b{short}\b", rows)}
        used |= {kind for kind in "kp" if re.search(rf"\b{kind}[0-9]", rows)}
        assert set(listed) == used
        assert len(listed) == len(set(listed))


def test_charts_and_schematics_are_vectors(write: Write) -> None:
    page = html.fromstring(write("--format", "html"))
    kinds = []
    for picture in page.xpath("//main//img"):
        root = etree.fromstring(base64.b64decode(picture.get("src").partition(",")[2]))
        kinds.append(root.get("class"))
        assert picture.get("alt")
        assert root.find(".//{*}image") is None
    assert kinds == ["lx lx-schematic", "lx lx-schematic", "lx lx-chart", "lx lx-chart"]


def test_markdown_has_its_drawings_beside_it(write: Write, tmp_path: Path) -> None:
    os.makedirs("out")
    write("--format", "markdown", "-o", "out/fence.md")
    text = Path("out/fence.md").read_text(encoding="utf-8")
    links = re.findall(r"!\[[^\n]*\]\(<([^>\n]+)>\)", text)
    assert sorted(links) == sorted(f"fence-pictures/{f.name}" for f in Path("out/fence-pictures").iterdir())
    assert len(links) == 5
    assert "# Fence \\& \\#gate \\<b\\> \\$x\\_1\\$" in text
    assert "- **Row 1 (RS):** k10 B\\. " in text or "- **Row 1 (RS):** k10 B. " in text
    assert "![" not in write("--format", "markdown")


def _pdf_text(file: str) -> str:
    return subprocess.run(["pdftotext", "-layout", file, "-"], capture_output=True, text=True, check=True).stdout


def test_a_pdf_is_vectors_with_bookmarks_and_tags(write: Write) -> None:
    write("--format", "pdf", "-o", "fence.pdf")
    data = Path("fence.pdf").read_bytes()
    assert data.startswith(b"%PDF-")
    assert b"/StructTreeRoot" in data
    assert b"/Outlines" in data
    assert b"pdfuaid" in data  # the standard for accessible documents, ISO 14289-1
    assert b"/Subtype /Image" not in data
    assert b"/Subtype/Image" not in data
    write("--format", "pdf", "-o", "again.pdf")
    assert Path("again.pdf").read_bytes() == data, "the same pattern gives the same bytes"


@pytest.mark.slow  # needs a program that reads it
def test_a_pdf_says_what_the_html_says(write: Write) -> None:
    write("--format", "pdf", "--size", "large", "--paper", "Letter", "-o", "fence.pdf")
    told = " ".join(_pdf_text("fence.pdf").split())
    for words_of_it in (
        "Fence & #gate <b> $x_1$", "Design: Mill <Lane>", "7.5 cm / 3 in", "Row 4 (WS): p6 B, p3 W, p6 B. (15 sts)",
        "Rust <red>", "row 4, stitches 6–7", "join front left to hem right", "© 2026 Mill & Lane", "version 2.1",
        "ask@knits.example",
    ):  # fmt: skip
        assert words_of_it in told, words_of_it
    assert re.search(r"\b(\d+)/\1\b", told), "the last page has the number of pages"


def test_what_a_pdf_cannot_be(write: Write, capsys: pytest.CaptureFixture[str]) -> None:
    for said, why in (
        (["fence.pattern.yaml"], "say where to put it with --output"),
        (["gate.chart.yaml", "-o", "gate.pdf"], "a PDF is made of a pattern"),
        (["fence.pattern.yaml", "--rows", "2", "-o", "x.pdf"], "a PDF has all rows"),
    ):
        assert main(["write", *said, "--format", "pdf"]) == 2
        assert why in capsys.readouterr().err
    assert not Path("gate.pdf").exists()


def test_a_large_piece_has_sheets_of_its_own(write: Write) -> None:
    text = Path("fence.pattern.yaml").read_text(encoding="utf-8").replace("large: 15", "large: 95")
    Path("fence.pattern.yaml").write_text(text, encoding="utf-8")
    page = html.fromstring(write("--format", "html", "--size", "large"))
    front = section(page, "Front, large")
    assert "The chart fills the pages behind the rows." in words(front)
    assert len(front.xpath(".//figure[@class='page']")) >= 2
    write("--format", "pdf", "--size", "large", "-o", "fence.pdf")


@pytest.mark.parametrize(
    ("terms", "said", "other"),
    [
        ("british", ("Tension", "cast off"), ("Gauge", "bind off")),
        ("american", ("Gauge", "bind off"), ("Tension", "cast off")),
    ],
)
def test_headings_and_keys_are_in_the_terms_of_the_words(
    write: Write, terms: str, said: tuple[str, str], other: tuple[str, str]
) -> None:
    """The two sides of a slit leave their stitches in the last row, which says what becomes of them: the head of the
    piece does not bid to bind them off as well."""
    Path("lintarsia.yaml").write_text(f"words: {{terms: {terms}}}\n", "utf-8")
    own = "\n    shaping: {small: {3: {right: {bind-off: 3}}}}\n    divide: {small: {5: {by: nothing, at: 6}}}\n  hem:"
    front = "  front:\n    chart: gate.chart.yaml\n    plain: B\n    cast-on: {small: 10, large: 15}\n"
    front += "    rows: {small: 6, large: 9}\n    at: {row: 3}"
    lines = [line for line in PATTERN.splitlines() if not line.startswith("  front:")]
    text = "\n".join(lines).replace("  hem:", front + own) + "\n"
    Path("fence.pattern.yaml").write_text(text, "utf-8")
    page = html.fromstring(write("--format", "html", "--size", "small"))
    told = words(page)
    assert all(word in told for word in said)
    assert not any(word in told for word in other)
    assert f"Leave rem sts of each side on a holder or {said[1]}." in told
    assert told.count(f"After the last row, {said[1]}.") == 1  # of the hem
