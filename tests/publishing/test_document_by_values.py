"""A document of every kind of part, as values, in the forms that people read: HTML by its elements, Markdown whole."""

import base64
import re
from dataclasses import replace

import pytest
from coloraide import Color
from lxml import html

from lintarsia.publishing.document.html import to_html
from lintarsia.publishing.document.markdown import to_markdown
from lintarsia.publishing.document.model import (
    Glossary,
    Key,
    Part,
    PatternDocument,
    Picture,
    Pictures,
    Prose,
    Rows,
    Table,
)
from lintarsia.publishing.imprint import DAY, LAMP, Imprint
from lintarsia.settings.designer import Designer
from straytext import stray

DRAWN = '<svg xmlns="http://www.w3.org/2000/svg"/>'
FACE = Picture("fabric", DRAWN, "front as knitted", 84.5)
CHART = Picture("chart", DRAWN, "chart of front", 127.0, "small")
SHEET = Picture("chart", DRAWN, "sheet 2 of front", 210.0, "", whole_page=True)
PARTS = (
    Part("Materials", (
        Table(("Yarn", "small", "large"), (("Moor <DK>", "2 balls", "3 balls"), ("Silk", "1 ball", "1 ball")), (1, 2),
              "With 10% to spare"),
        Glossary((("Buttons", "3 (5)"), ("Tapestry needle", ""), ("", "a safety pin"))),
    )),
    Part("Notes", (Prose("Paint it *green*."), Prose("# 2 of them"))),
    Part("Front", (
        Key((("B", "Dusk blue", "#27406b"), ('"7"', "Moss", "#5b7443"))),
        Rows((("Row 1 (RS)", "k3 B, p2 B. (5 sts)"), ("Row 2 (WS)", "p5 B. (5 sts)"))),
        Pictures((CHART, SHEET)),
    ), level=2, fresh=True),
)  # fmt: skip
DOCUMENT = PatternDocument(
    "Fence & gate", "A gate with two posts.", FACE, (("Sizes", "small (large)"), ("Gauge", "20 sts")), PARTS,
    "version 2.1 · fingerprint 0123456789abcdef",
)  # fmt: skip
OWN = Imprint(Designer(name="Mill <Lane>", copyright="© 2026 Mill", contact="https://mill.example/a?b&c"))
MARKDOWN = """\
# Fence \\& gate

A gate with two posts.

![front as knitted](<drawings/fabric.svg>)

- **Sizes**: small (large)
- **Gauge**: 20 sts

## Materials

With 10% to spare:

| Yarn | small | large |
| --- | ---: | ---: |
| Moor \\<DK\\> | 2 balls | 3 balls |
| Silk | 1 ball | 1 ball |

- **Buttons**: 3 (5)
- **Tapestry needle**
- a safety pin

## Notes

Paint it \\*green\\*.

\\# 2 of them

### Front

- **B**: Dusk blue
- **"7"**: Moss

- **Row 1 (RS):** k3 B, p2 B. (5 sts)
- **Row 2 (WS):** p5 B. (5 sts)

![chart of front](<drawings/chart.svg>)
![sheet 2 of front](<drawings/chart-2.svg>)

---

version 2.1 · fingerprint 0123456789abcdef
"""


def test_in_markdown() -> None:
    assert to_markdown(DOCUMENT, "drawings") == MARKDOWN
    bare = to_markdown(DOCUMENT)
    assert bare == "".join(f"{line}\n" for line in MARKDOWN.splitlines() if not line.startswith("!")).replace(
        "\n\n\n", "\n\n"
    )


def test_whose_it_is_in_markdown() -> None:
    told = to_markdown(replace(DOCUMENT, imprint=OWN), "drawings")
    assert "\n*Design: Mill \\<Lane\\>*\n" in told
    assert told.endswith(
        "---\n\n© 2026 Mill\n\nQuestions: <https://mill.example/a?b&c>\n\nversion 2.1 · fingerprint 0123456789abcdef\n"
    )


def words(element: "html.HtmlElement") -> list[str]:
    return [text.strip() for text in element.itertext() if text.strip()]


def test_in_html() -> None:
    page = html.document_fromstring(to_html(DOCUMENT))
    assert page.findtext(".//title") == "Fence & gate"
    assert [h.text for h in page.iter("h1")] == ["Fence & gate"]
    assert [p.text for p in page.xpath("//p[@class='lede']")] == ["A gate with two posts."]
    facts = [(dt.text, dt.getnext().text) for dt in page.xpath("//dl[@class='facts']//dt")]
    assert facts == [("Sizes", "small (large)"), ("Gauge", "20 sts")]
    contents = {a.text: a.get("href") for a in page.xpath("//nav//li/a")}
    assert contents == {"Materials": "#part-0", "Notes": "#part-1"}, "parts of parts are not listed"
    headings = [(h.tag, h.get("id"), h.text) for h in page.xpath("//main//*[self::h2 or self::h3]")]
    assert headings == [("h2", "part-0", "Materials"), ("h2", "part-1", "Notes"), ("h3", "part-2", "Front")]
    assert [s.get("class") for s in page.xpath("//main/section")] == [None, None, "fresh"]
    assert words(page.xpath("//footer")[0]) == ["version 2.1 · fingerprint 0123456789abcdef"]
    assert page.xpath("//p[@class='by'] | //img[@class='logo'] | //script") == []


def test_every_word_of_it_stands_in_html_once_and_in_order() -> None:
    page = html.document_fromstring(to_html(replace(DOCUMENT, imprint=OWN)))
    assert words(page.find("body")) == [
        "Fence & gate", "Design: Mill <Lane>", "A gate with two posts.", "Sizes", "small (large)", "Gauge", "20 sts",
        "Materials", "Notes",
        "Materials", "With 10% to spare", "Yarn", "small", "large", "Moor <DK>", "2 balls", "3 balls", "Silk", "1 ball",
        "1 ball", "Buttons", "3 (5)", "Tapestry needle", "a safety pin",
        "Notes", "Paint it *green*.", "# 2 of them",
        "Front", "B", "Dusk blue", '"7"', "Moss", "Row 1 (RS):", "k3 B, p2 B. (5 sts)", "Row 2 (WS):", "p5 B. (5 sts)",
        "small", "© 2026 Mill", "Questions:", "https://mill.example/a?b&c",
        "version 2.1 · fingerprint 0123456789abcdef",
    ]  # fmt: skip
    assert stray(page) == []
    assert page.xpath("//nav/@aria-label") == ["In this pattern"]


def test_its_own_style_knows_all_its_classes() -> None:
    page = html.document_fromstring(to_html(replace(DOCUMENT, imprint=replace(OWN, logo=b"x", logo_name="logo.png"))))
    known = set(re.findall(r"\.([a-z][\w-]*)", "".join(page.xpath("//style/text()"))))
    assert {name for one in page.xpath("//body//@class") for name in one.split()} <= known


def test_it_is_a_whole_page_that_fetches_nothing() -> None:
    """What a policy allows: W3C, "Content Security Policy Level 3", 2024."""
    made = to_html(DOCUMENT)
    page = html.document_fromstring(made)
    assert made.startswith('<!doctype html>\n<html lang="en">\n<head>\n')
    assert [(m.get("charset"), m.get("http-equiv"), m.get("name"), m.get("content")) for m in page.iter("meta")] == [
        ("utf-8", None, None, None),
        (None, "Content-Security-Policy", None, "default-src 'none'; img-src data:; style-src 'unsafe-inline'"),
        (None, None, "viewport", "width=device-width, initial-scale=1"),
    ]
    assert [one.tag for one in page.find("head")] == ["meta"] * 3 + ["title", "style"]


def test_the_accent_reads_by_day_and_by_lamplight() -> None:
    """At least 4.5 to 1 (WCAG 2.2, success criterion 1.4.3), by a colour library."""
    for accent in (None, "#ffe060", "#102060"):
        imprint = Imprint(Designer(accent=accent or ""))
        style = html.document_fromstring(to_html(replace(DOCUMENT, imprint=imprint))).findtext(".//style") or ""
        day, lamp = re.findall(r"--accent: (#[0-9a-f]{6})", style)[-2:]
        assert all(Color(day).contrast(ground, method="wcag21") >= 4.5 - 1e-3 for ground in DAY)
        assert all(Color(lamp).contrast(ground, method="wcag21") >= 4.5 - 1e-3 for ground in LAMP)
        assert re.search(
            r"@media screen and \(prefers-color-scheme: dark\) \{ :root \{ --accent: #[0-9a-f]{6} \} \}", style
        )


def test_a_table_names_its_rows_and_columns() -> None:
    (table,) = html.document_fromstring(to_html(DOCUMENT)).iter("table")
    assert table.findtext("caption") == "With 10% to spare"
    cells = [[(c.tag, c.get("scope"), c.get("class"), c.text) for c in row] for row in table.iter("tr")]
    assert cells == [
        [("th", "col", None, "Yarn"), ("th", "col", "n", "small"), ("th", "col", "n", "large")],
        [("th", "row", None, "Moor <DK>"), ("td", None, "n", "2 balls"), ("td", None, "n", "3 balls")],
        [("th", "row", None, "Silk"), ("td", None, "n", "1 ball"), ("td", None, "n", "1 ball")],
    ]


def test_terms_key_and_rows() -> None:
    page = html.document_fromstring(to_html(DOCUMENT))
    terms = [(dt.text, dt.getnext().text) for dt in page.xpath("//dl[@class='terms']/dt")]
    assert terms == [("Buttons", "3 (5)"), ("Tapestry needle", None), (None, "a safety pin")]
    key = [
        (li.findtext("b"), words(li)[-1], li.find("span").get("style")) for li in page.xpath("//ul[@class='key']/li")
    ]
    assert key == [("B", "Dusk blue", "background:#27406b"), ('"7"', "Moss", "background:#5b7443")]
    rows = [words(li) for li in page.xpath("//ol[@class='rows']/li")]
    assert rows == [["Row 1 (RS):", "k3 B, p2 B. (5 sts)"], ["Row 2 (WS):", "p5 B. (5 sts)"]]
    assert [p.text for p in page.xpath("//section[2]/p")] == ["Paint it *green*.", "# 2 of them"]


def test_drawings_are_inside_and_as_wide_as_they_say() -> None:
    """A millimetre is 96/25.4 px (CSS Values 4, absolute lengths)."""
    page = html.document_fromstring(to_html(DOCUMENT))
    images = [(i.get("alt"), int(i.get("width"))) for i in page.iter("img")]
    assert images == [("front as knitted", 319), ("chart of front", 480), ("sheet 2 of front", 794)]
    for image in page.iter("img"):
        kind, _, data = image.get("src").partition(";base64,")
        assert (kind, base64.b64decode(data).decode()) == ("data:image/svg+xml", DRAWN)
    figures = [(f.get("class"), f.findtext("figcaption")) for f in page.xpath("//div[@class='pictures']/figure")]
    assert figures == [(None, "small"), ("page", None)]
    assert [f.get("class") for f in page.xpath("//header/figure")] == ["face"]


@pytest.mark.parametrize(("name", "kind"), [("logo.png", "image/png"), ("logo.svg", "image/svg+xml")])
def test_whose_it_is_in_html(name: str, kind: str) -> None:
    own = replace(OWN, logo=b"a picture", logo_name=name)
    page = html.document_fromstring(to_html(replace(DOCUMENT, imprint=own)))
    (logo,) = page.xpath("//img[@class='logo']")
    assert logo.get("src") == f"data:{kind};base64,{base64.b64encode(b'a picture').decode()}"
    assert logo.get("alt") == "Logo of Mill <Lane>"
    assert [p.text for p in page.xpath("//p[@class='by']")] == ["Design: Mill <Lane>"]
    assert [words(p) for p in page.xpath("//footer/p")] == [
        ["© 2026 Mill"], ["Questions:", "https://mill.example/a?b&c"], ["version 2.1 · fingerprint 0123456789abcdef"],
    ]  # fmt: skip
    assert [a.get("href") for a in page.xpath("//footer//a")] == [own.designer.link]


def test_without_a_face_there_is_no_empty_frame() -> None:
    page = html.document_fromstring(to_html(replace(DOCUMENT, face=None)))
    assert page.xpath("//header/figure") == []
    assert "fabric" not in to_markdown(replace(DOCUMENT, face=None), "drawings")


def test_every_drawing_has_a_name_of_its_own() -> None:
    names = list(DOCUMENT.file_names.values())
    assert names == ["fabric", "chart", "chart-2"]
    assert [DOCUMENT.file_names[id(p)] for p in (FACE, CHART, SHEET)] == names
