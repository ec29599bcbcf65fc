"""What every page must be, whatever it says: by the HTML standard (WHATWG, "HTML", 3.2.6 and the elements' own
sections, from memory), by what styles and scripts know, and by the words that the house writes anywhere in its docs."""

import posixpath
import re
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import unquote, urldefrag

from lintarsia.ground.resources import resource
from soundness import ELEMENTS, attribute_faults
from straytext import drawn_left_out, stray

Page = Any  # an element of lxml's, which has no types of its own

ROOT = Path(__file__).parents[2]
GLOBAL = "id class hidden lang role tabindex title"
ATTRIBUTES: Mapping[str, str] = {
    "a": "href rel download target", "button": "type disabled", "details": "open", "fieldset": "disabled",
    "form": "method action novalidate", "html": "", "img": "src alt width height loading decoding", "label": "for",
    "input": "type name value checked placeholder autocomplete min max step accept capture inputmode multiple "
             "enterkeyhint spellcheck maxlength required",
    "link": "rel href type sizes media blocking", "meta": "charset name content http-equiv property",
    "ol": "start reversed",
    "option": "value selected", "output": "for name", "script": "src type defer async", "select": "name",
    "td": "colspan rowspan", "th": "scope colspan rowspan", "textarea": "name rows cols maxlength placeholder required",
    "time": "datetime",
}  # fmt: skip
ENUMERATED = {
    "type": "button|submit|radio|checkbox|search|text|number|date|file|email|application/json|image/svg\\+xml|module",
    "scope": "col|row", "loading": "lazy", "decoding": "async", "autocomplete": "off|nickname", "rel": "[a-z -]+",
    "tabindex": "0|-1", "width": r"[0-9.]+", "height": r"[0-9.]+", "colspan": "[0-9]+", "lang": "[a-z]{2}",
    "role": "region|status|search|img|group|list|alert|dialog|presentation|note", "id": r"[A-Za-z][\w-]*",
}  # fmt: skip
FOR_OTHERS = frozenset(
    "ltr rtl is-blocks is-error is-warning is-note is-clear state-error language-yaml".split()  # noqa: SIM905
)
"""Classes that a designer's own style may go by."""
SPOKEN = ("aria-label", "alt", "title", "placeholder", "aria-description")
LEADS = ("aria-labelledby", "aria-describedby", "aria-controls", "for")
_WORD = re.compile(r"(?<!\w)[^\W\d_]+(?:[’'][^\W\d_]+)*(?!\w)")


@cache
def known_names() -> frozenset[str]:
    """Every name that a style sheet, a script or the list of what scripts read has."""
    site = Path(str(resource("site")))
    files = [*site.rglob("*.css"), *site.rglob("*.js"), *site.rglob("*.md"), *site.rglob("*.html")]
    return frozenset(re.findall(r"[A-Za-z][\w-]*", " ".join(file.read_text("utf-8") for file in files))) | FOR_OTHERS


@cache
def vocabulary() -> frozenset[str]:
    """Every word of the docs, of the guide, and of what the sources explain in docstrings and remarks."""
    texts = [file.read_text("utf-8") for folder in ("docs", "site/guide") for file in (ROOT / folder).rglob("*.md")]
    texts += [file.read_text("utf-8") for file in ROOT.glob("*.md")]
    for file in (ROOT / "lint").rglob("*.py"):
        texts += _EXPLAINED.findall(file.read_text("utf-8"))
    texts.append((Path(__file__).parent / "words.txt").read_text("utf-8"))
    return frozenset(word.casefold() for text in texts for word in _WORD.findall(text))


# Docstrings, which begin a line, and remarks; to parse six hundred files for them takes seconds.
_EXPLAINED = re.compile(r'^ *"""(?:.*?)"""|(?:^|\s)# .*?$', re.DOTALL | re.MULTILINE)


def faults(page: Page) -> list[str]:
    """What the standard does not know, or neither styles nor scripts, and references that lead nowhere on the page."""
    ids = [element.get("id") for element in page.iter() if element.get("id")]
    found = [f"id {name} twice" for name, times in Counter(ids).items() if times > 1]
    known = set(ids)
    for element in drawn_left_out(page):
        for name, value in element.attrib.items():
            if fault := _fault(element, str(name), str(value), known):
                found.append(f"<{element.tag} {name}={value!r}>: {fault}")
    for drawing in page.iter("svg"):
        for element in drawing.iter():
            if isinstance(element.tag, str):
                found += [fault for fault in _drawn(element, known) if fault not in found]
    return [*found, *stray(page)]


_DRAWN = frozenset(name.lower() for name in ELEMENTS)


def _drawn(element: Page, ids: set[str | None]) -> Iterator[str]:
    """Of an element of a drawing in the page, where names are small letters and need no namespace."""
    if element.tag not in _DRAWN:
        yield f"<{element.tag}> in a drawing"
    if element.tag not in ("text", "tspan", "title", "desc", "a") and (element.text or "").strip():
        yield f"text in <{element.tag}>: {element.text}"
    if element.tag != "svg" and (element.tail or "").strip():
        yield f"text behind <{element.tag}>: {element.tail}"
    for name, value in element.attrib.items():
        if name == "href" and str(value).startswith("#said-"):
            continue  # the words on the page, which a chart alone has not
        spelt = {"viewbox": "viewBox", "markerunits": "markerUnits", "xmlns": ""}.get(str(name), str(name))
        if name == "class":
            strange = [one for one in str(value).split() if one not in known_names() and not one.startswith("lx")]
            yield from (f"no style and no script knows {one}" for one in strange)
        elif spelt:
            yield from attribute_faults(element.tag, spelt, str(value), ids)


def _fault(element: Page, name: str, value: str, ids: set[str | None]) -> str:
    if name == "class":
        strange = [token for token in value.split() if token not in known_names()]
        return f"no style and no script knows {strange}" if strange else ""
    if name.startswith("data-"):
        return "" if name in known_names() or _camel(name) in known_names() else "no style and no script knows it"
    if name in LEADS:
        return "" if all(one in ids for one in value.split()) else "leads nowhere"
    if name.startswith("aria-"):
        return "" if value else "says nothing"
    if name not in _may_have(element.tag):
        return "the element has no such attribute"
    allowed = ENUMERATED.get(name)
    return "" if allowed is None or re.fullmatch(allowed, value) else "no such value"


@cache
def _may_have(tag: str) -> frozenset[str]:
    return frozenset(f"{GLOBAL} {ATTRIBUTES.get(tag, '')}".split())


def _camel(name: str) -> str:
    """As scripts read `data-row-marks`: `rowMarks`."""
    return re.sub(r"-([a-z])", lambda found: found[1].upper(), name.removeprefix("data-"))


def misspelt(page: Page, own: str) -> set[str]:
    """Words of a page that nobody writes anywhere else; `own` are the words of the charts themselves."""
    said = [element.get(name) or "" for element in page.iter() for name in SPOKEN]
    said += [text for text in page.itertext(*_READ) if text]
    names = {word.casefold() for word in _WORD.findall(own)}
    return {
        word for text in said for word in _WORD.findall(text)
        if len(word) > 1 and word.casefold() not in vocabulary() and word.casefold() not in names
    }  # fmt: skip


_READ = tuple(
    "a b button caption code dd desc div dt em figcaption h1 h2 h3 h4 i label legend li option output p small span "  # noqa: SIM905
    "strong summary td th title".split()
)


def dead_links(pages: Mapping[str, Page], folder: Path) -> list[str]:
    """Links of built pages that lead to no file, or to no element of a page."""
    ids = {name: {element.get("id") for element in page.iter()} for name, page in pages.items()}
    files = {file.relative_to(folder).as_posix() for file in folder.rglob("*") if file.is_file()}
    found = []
    for name, page in pages.items():
        for element, attribute, link, _ in page.iterlinks():
            address, anchor = urldefrag(unquote(link))
            if address.startswith(("https:", "data:")) or element.tag == "meta":
                continue
            target = posixpath.normpath(posixpath.join(posixpath.dirname(name), address)) if address else name
            if target.startswith(("/", "..")):
                found.append(f"{name}: {attribute} {link} leads outside")
            elif target not in files:
                found.append(f"{name}: {attribute} {link} leads nowhere")
            elif anchor and target in ids and not _is_there(anchor, ids[target]):
                found.append(f"{name}: {attribute} {link} leads to no part of the page")
    return found


def _is_there(anchor: str, ids: set[str | None]) -> bool:
    """A part of the page, or stitches, for scripts: `row-14-s7-9`."""
    return anchor in ids or re.sub(r"-s[0-9-]+$", "", anchor) in ids
