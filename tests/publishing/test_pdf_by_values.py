"""A document as PDF: what stands in its head and on its pages, read by another's program (Poppler's pdfinfo and
pdftotext), and what goes to the program that sets it."""

import json
import re
import subprocess
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
import typst
from coloraide import Color
from test_document_by_values import DOCUMENT, FACE, OWN, PARTS

from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.document.model import PatternDocument, Picture
from lintarsia.publishing.document.pdf import to_pdf
from lintarsia.publishing.imprint import Imprint
from lintarsia.settings.designer import Designer

DRAWN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 3"><path d="M0 0h2v3z"/></svg>'
SIGNED = replace(
    DOCUMENT,
    face=replace(FACE, svg=DRAWN),
    parts=tuple(
        replace(part, blocks=tuple(block for block in part.blocks if not hasattr(block, "pictures"))) for part in PARTS
    ),
    imprint=replace(OWN, logo=DRAWN.encode(), logo_name="logo.svg"),
)


def told(folder: Path, document: PatternDocument, paper: str = "A4") -> tuple[dict[str, str], str]:
    """What pdfinfo tells of the PDF, and the words on its pages."""
    file = folder / "made.pdf"
    file.write_bytes(to_pdf(document, paper))
    info = subprocess.run(["pdfinfo", str(file)], capture_output=True, text=True, check=True).stdout
    text = subprocess.run(["pdftotext", "-layout", str(file), "-"], capture_output=True, text=True, check=True).stdout
    return dict(re.findall(r"^([\w ]+): +(.*)$", info, re.MULTILINE)), " ".join(text.split())


@pytest.fixture(scope="module")
def signed(tmp_path_factory: pytest.TempPathFactory) -> tuple[dict[str, str], str]:
    return told(tmp_path_factory.mktemp("pdf"), SIGNED)


def test_its_head_says_what_it_is_whose_and_which_state(signed: tuple[dict[str, str], str]) -> None:
    head, _ = signed
    assert head["Title"] == "Fence & gate"
    assert head["Author"] == "Mill <Lane>"
    assert head["Keywords"] == "version 2.1 · fingerprint 0123456789abcdef"
    assert head["Tagged"] == "yes"
    assert head["Page size"] == "595.276 x 841.89 pts (A4)"


def test_its_pages_say_all_parts(signed: tuple[dict[str, str], str]) -> None:
    _, pages = signed
    for words in (
        "Fence & gate", "Design: Mill <Lane>", "A gate with two posts.", "small (large)", "20 sts", "Materials",
        "Moor <DK>", "2 balls", "With 10% to spare.", "Tapestry needle", "a safety pin", "Paint it *green*.",
        "# 2 of them", "Dusk blue", "Row 1 (RS): k3 B, p2 B. (5 sts)", "© 2026 Mill", "https://mill.example/a?b&c",
    ):  # fmt: skip
        assert words in pages, words
    assert "version 2.1 · fingerprint 0123456789abcdef" in pages


def test_nobody_s_document_has_no_author_and_may_have_another_paper(tmp_path: Path) -> None:
    head, pages = told(tmp_path, replace(SIGNED, imprint=Imprint(), face=None), "Letter")
    assert "Author" not in head
    assert head["Page size"] == "612 x 792 pts (letter)"
    assert "Design:" not in pages
    assert "©" not in pages


Given = list[tuple[dict[str, bytes], dict[str, Any]]]


@pytest.fixture
def given(monkeypatch: pytest.MonkeyPatch) -> Given:
    """What typst is asked, in its place."""
    asked: Given = []

    def compile(files: dict[str, bytes], **named: Any) -> bytes:
        asked.append((files, named))
        return b"%PDF-"

    monkeypatch.setattr(typst, "compile", compile)
    return asked


def test_what_is_set(given: Given) -> None:
    sheet = Picture("sheet", "<svg>2</svg>", "sheet 2", 279.0, "", whole_page=True)
    document = replace(DOCUMENT, parts=(*PARTS[:2], replace(PARTS[2], blocks=(*PARTS[2].blocks[:2], pictures(sheet)))))
    assert to_pdf(document) == b"%PDF-"
    [(files, named)] = given
    assert named == {"pdf_standards": ["ua-1"]}
    assert sorted(files) == ["doc.json", "main.typ", "p0.svg", "p1.svg"]
    assert files["main.typ"].startswith(b"// A pattern on paper.")
    assert files["p1.svg"] == b"<svg>2</svg>"
    doc = json.loads(files["doc.json"])
    assert doc["face"] == {
        "file": "p0.svg", "alt": "front as knitted", "wide": 84.5, "caption": "", "page": False, "lying": False,
    }  # fmt: skip
    assert {name: doc[name] for name in ("paper", "title", "by", "author", "keywords", "lede", "stamp")} == {
        "paper": "a4", "title": "Fence & gate", "by": "", "author": [], "keywords": [DOCUMENT.stamp],
        "lede": "A gate with two posts.", "stamp": DOCUMENT.stamp,
    }  # fmt: skip
    assert [doc[name] for name in ("copyright", "contact", "link", "logo")] == ["", "", "", None]
    assert doc["facts"] == [["Sizes", "small (large)"], ["Gauge", "20 sts"]]
    assert [(part["title"], part["level"], part["fresh"]) for part in doc["parts"]] == [
        ("Materials", 1, False), ("Notes", 1, False), ("Front", 2, True),
    ]  # fmt: skip
    table, terms = doc["parts"][0]["blocks"]
    assert table == {
        "kind": "table", "head": ["Yarn", "small", "large"], "right": [1, 2], "caption": "With 10% to spare",
        "rows": [["Moor <DK>", "2 balls", "3 balls"], ["Silk", "1 ball", "1 ball"]],
    }  # fmt: skip
    assert terms == {"kind": "terms", "lines": [["Buttons", "3 (5)"], ["Tapestry needle", ""], ["", "a safety pin"]]}
    assert doc["parts"][1]["blocks"][0] == {"kind": "prose", "text": "Paint it *green*."}
    key, rows, drawn = doc["parts"][2]["blocks"]
    assert key["kind"] == "key"
    assert [colour[:3] for colour in key["colours"]] == [["B", "Dusk blue", "#27406b"], ['"7"', "Moss", "#5b7443"]]
    # Ink on a patch of colour: at least 4.5 to 1 (WCAG 2.2, 1.4.3), by a colour library.
    assert all(Color(ink).contrast(shade, method="wcag21") >= 4.5 for _, _, shade, ink in key["colours"])
    assert rows == {"kind": "rows", "lines": [list(line) for line in PARTS[2].blocks[1].lines]}  # type: ignore[union-attr]
    assert drawn == {"kind": "pictures", "pictures": [
        {"file": "p1.svg", "alt": "sheet 2", "wide": 279.0, "caption": "", "page": True, "lying": True},
    ]}  # fmt: skip


def pictures(*one: Picture) -> Any:
    from lintarsia.publishing.document.model import Pictures

    return Pictures(one)


@pytest.mark.parametrize(
    ("paper", "wide", "lying"),
    [("A4", 210.0, False), ("A4", 211.0, True), ("Letter", 211.0, False), ("Letter", 217.0, True)],
)
def test_a_sheet_that_is_wider_than_the_paper_lies(given: Given, paper: str, wide: float, lying: bool) -> None:
    """A4 is 210 mm wide (ISO 216), Letter 216 (ASME Y14.1: 8.5 in)."""
    to_pdf(replace(DOCUMENT, face=replace(FACE, wide_mm=wide), parts=()), paper)
    doc = json.loads(given[0][0]["doc.json"])
    assert (doc["paper"], doc["face"]["lying"]) == ({"A4": "a4", "Letter": "us-letter"}[paper], lying)


def test_whose_it_is_is_set_with_it(given: Given) -> None:
    accent = "#ffe060"
    own = Imprint(replace(OWN.designer, accent=accent, logo="art/logo.png"), b"\x89PNG", "logo.png")
    to_pdf(replace(DOCUMENT, imprint=own, face=None, parts=()))
    files = given[0][0]
    doc = json.loads(files["doc.json"])
    assert files["logo.png"] == b"\x89PNG"
    assert doc["face"] is None
    assert [doc[name] for name in ("by", "author", "copyright", "contact", "link", "logo")] == [
        "Mill <Lane>", ["Mill <Lane>"], "© 2026 Mill", "https://mill.example/a?b&c", "https://mill.example/a?b&c",
        "logo.png",
    ]  # fmt: skip
    assert Color(doc["accent"]).contrast("white", method="wcag21") >= 4.5 - 1e-3  # WCAG 2.2, 1.4.3
    given.clear()
    to_pdf(replace(DOCUMENT, parts=()))
    assert json.loads(given[0][0]["doc.json"])["accent"] == "#8a3b2a"


def failing(asked: list[dict[str, Any]], *failures: Exception | None) -> Any:
    """A program that fails so many times, in order, where an exception stands."""
    left = list(failures)

    def compile(files: Any, **named: Any) -> bytes:
        asked.append({"files": files, **named})
        if failure := left.pop(0):
            raise failure
        return b"%PDF-"

    return compile


def test_an_older_program_that_knows_no_standard_is_asked_without(monkeypatch: pytest.MonkeyPatch) -> None:
    for failure in (TypeError("pdf_standards"), ValueError("ua-1"), RuntimeError("no alternative text")):
        asked: list[dict[str, Any]] = []
        monkeypatch.setattr(typst, "compile", failing(asked, failure, None))
        assert to_pdf(DOCUMENT) == b"%PDF-"
        assert ["pdf_standards" in one for one in asked] == [True, False]


def test_what_cannot_be_set_is_said_and_a_logo_only_if_it_is_its_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    fault = RuntimeError("so it is")
    own = replace(DOCUMENT, imprint=Imprint(Designer(logo="art/mark.svg"), b"<svg/>", "logo.svg"))
    for document, failures, said in (
        (DOCUMENT, (fault, fault), "the PDF could not be made (so it is)"),
        (own, (fault, fault, fault), "art/mark.svg: the logo cannot be set in a PDF (so it is)"),
        (own, (fault, fault, None), "the PDF could not be made (so it is)"),
    ):
        asked: list[dict[str, Any]] = []
        monkeypatch.setattr(typst, "compile", failing(asked, *failures))
        with pytest.raises(Trouble) as told:
            to_pdf(document)
        assert str(told.value) == said
        assert len(asked) == len(failures)
        if document is own:
            assert asked[-1] == {"files": {"main.typ": b'#image("logo.svg")', "logo.svg": b"<svg/>"}}


def test_a_logo_that_is_damaged_is_said_by_its_name() -> None:
    torn = Imprint(Designer(logo="art/mark.png"), b"\x89PNG\r\n\x1a\n torn", "logo.png")
    with pytest.raises(Trouble, match=r"^art/mark\.png: the logo cannot be set in a PDF \("):
        to_pdf(replace(DOCUMENT, imprint=torn, face=None, parts=()))
