"""A document as PDF, through typst (the `pdf` extra): vectors, bookmarks, page numbers, tagged where typst can.

What the pattern says goes to typst as data, never as code: a title cannot do anything there but be set.
"""

import json
from typing import Any

from lintarsia.drawing.shades import ink_on, readable
from lintarsia.drawing.sheets import PAPERS
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.document.model import (
    Block,
    Glossary,
    Key,
    PatternDocument,
    Picture,
    Pictures,
    Prose,
    Rows,
    Table,
)

WHITE, ACCENT = "#ffffff", "#8a3b2a"
_PAPER = {"A4": "a4", "Letter": "us-letter"}


def to_pdf(document: PatternDocument, paper: str = "A4") -> bytes:
    """The document on "A4" or "Letter". Raises Trouble where typst is not installed, or cannot make it."""
    try:
        import typst
    except ImportError:
        raise Trouble(f"PDF needs one more library: {how_to_install('pdf')}") from None
    files = {
        "main.typ": (resource("site") / "document" / "pattern.typ").read_bytes(),
        "doc.json": json.dumps(_data(document, paper)).encode(),
    }
    files |= {f"p{number}.svg": picture.svg.encode() for number, picture in enumerate(document.pictures)}
    if document.imprint.logo:
        files[document.imprint.logo_name] = document.imprint.logo
    try:
        return bytes(_tagged(typst, files))
    except RuntimeError as failure:
        designer = document.imprint.designer
        if designer.logo and not _sets(typst, document.imprint.logo_name, document.imprint.logo):
            raise Trouble(f"{designer.logo}: the logo cannot be set in a PDF ({failure})") from None
        raise Trouble(f"the PDF could not be made ({failure})") from None


def _sets(typst: Any, name: str, picture: bytes) -> bool:
    """Whether a picture by itself can be set."""
    try:
        typst.compile({"main.typ": f'#image("{name}")'.encode(), name: picture})
    except RuntimeError:
        return False
    return True


def _tagged(typst: Any, files: dict[str, bytes]) -> bytes:
    """By the standard for accessible documents (ISO 14289-1), where this release of typst knows it and the document
    meets it; as it comes elsewhere."""
    try:
        made = typst.compile(files, pdf_standards=["ua-1"])
    except (RuntimeError, ValueError, TypeError):
        made = typst.compile(files)
    assert isinstance(made, bytes)
    return made


def _data(document: PatternDocument, paper: str) -> dict[str, Any]:
    designer, logo = document.imprint.designer, document.imprint.logo_name
    numbers = {id(picture): number for number, picture in enumerate(document.pictures)}
    return {
        "paper": _PAPER[paper],
        "title": document.title,
        "by": designer.name,
        "author": [designer.name] if designer.name else [],
        "keywords": [document.stamp],
        "lede": document.lede,
        "stamp": document.stamp,
        "copyright": designer.copyright,
        "contact": designer.contact,
        "link": designer.link,
        "accent": readable(designer.accent or ACCENT, (WHITE,)),
        "logo": logo or None,
        "face": _picture(document.face, numbers, paper) if document.face else None,
        "facts": document.facts,
        "parts": [
            {
                "title": part.title,
                "level": part.level,
                "fresh": part.fresh,
                "blocks": [_block(block, numbers, paper) for block in part.blocks],
            }
            for part in document.parts
        ],
    }


def _picture(picture: Picture, numbers: dict[int, int], paper: str) -> dict[str, Any]:
    return {
        "file": f"p{numbers[id(picture)]}.svg",
        "alt": picture.alt,
        "wide": picture.wide_mm,
        "caption": picture.caption,
        "page": picture.whole_page,
        "lying": picture.wide_mm > PAPERS[paper][0],
    }


def _block(block: Block, numbers: dict[int, int], paper: str) -> dict[str, Any]:
    match block:
        case Prose():
            return {"kind": "prose", "text": block.text}
        case Glossary():
            return {"kind": "terms", "lines": block.lines}
        case Table():
            return {
                "kind": "table", "head": block.head, "rows": block.rows, "right": block.right, "caption": block.caption,
            }  # fmt: skip
        case Key():
            colours = [(symbol, name, shade, ink_on(shade)) for symbol, name, shade in block.colours]
            return {"kind": "key", "colours": colours}
        case Rows():
            return {"kind": "rows", "lines": block.lines}
        case Pictures():
            return {"kind": "pictures", "pictures": [_picture(one, numbers, paper) for one in block.pictures]}
