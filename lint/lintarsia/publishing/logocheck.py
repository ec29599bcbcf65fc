"""Whether a file is a picture and nothing more, before it stands on pages and in documents as a designer's logo."""

import re
from collections.abc import Iterator
from xml.parsers.expat import ExpatError, ParserCreate
from zlib import crc32

_PNG = b"\x89PNG\r\n\x1a\n"
_SVG = "http://www.w3.org/2000/svg"
_PAGES = "http://www.w3.org/1999/xhtml"
_ACTING = frozenset({"script", "foreignobject", "iframe", "animate", "set", "handler", "listener", "style"})
_ALONE = "a logo is a picture alone"
# What style sheets fetch by (W3C, "CSS Values and Units Level 4" and "CSS Images Level 4", from memory).
_FETCHING = re.compile(r"""url\(\s*["']?\s*[^\s"'#]|(?:image|image-set|src|cross-fade)\(|javascript:|@import""")
_ESCAPED = re.compile(r"\\(?:([0-9a-f]{1,6})\s?|(.))", re.DOTALL)  # of style sheets: `\75 rl(` is `url(`


def no_png(data: bytes) -> str:
    """Why a PNG is not taken, "" where it is: its parts one by one, each with the sum that proves it whole
    (W3C, "Portable Network Graphics (PNG) Specification", 2003, section 5)."""
    if not data.startswith(_PNG):
        return "is no PNG, whatever its name says"
    kinds = list(_chunks(data))
    if kinds[:1] != [b"IHDR"] or b"IDAT" not in kinds or kinds[-1] != b"IEND":
        return "is a PNG that breaks off, or is damaged"
    return ""


def _chunks(data: bytes) -> Iterator[bytes]:
    """The kinds of its parts, up to the first that is not whole."""
    at = len(_PNG)
    while at + 12 <= len(data):
        end = at + 8 + int.from_bytes(data[at : at + 4], "big")
        if crc32(data[at + 4 : end]).to_bytes(4, "big") != data[end : end + 4]:
            return
        yield data[at + 4 : at + 8]
        at = end + 4


def no_drawing(data: bytes) -> tuple[int, str]:
    """In which line, and why, an SVG is not taken; why is "" where it is."""
    found: list[tuple[int, str]] = []
    parser = ParserCreate(namespace_separator=" ")

    def tell(why: str) -> None:
        if not found:
            found.append((parser.CurrentLineNumber, why))

    def element(name: str, attributes: dict[str, str]) -> None:
        space, _, local = name.rpartition(" ")
        if not seen and (space, local) != (_SVG, "svg"):
            tell(f"begins with <{local}>, and is no SVG")
        seen.append(local)
        if space == _PAGES or local.lower() in _ACTING or any(_acts(*each) for each in attributes.items()):
            tell(f"holds a <{local}> that could act or fetch something; {_ALONE}")

    def document_type(*_: object) -> None:
        tell("states a document type, which can stand for anything; take the DOCTYPE out")

    def instruction(target: str, _: str) -> None:
        if target.lower() == "xml-stylesheet":
            tell(f"names a style sheet, which could fetch something; {_ALONE}")

    seen: list[str] = []
    parser.StartElementHandler = element
    parser.StartDoctypeDeclHandler = document_type
    parser.ProcessingInstructionHandler = instruction
    try:
        parser.Parse(data, True)
    except (ExpatError, ValueError):
        tell("is no SVG that can be read from here on")
    return found[0] if found else (0, "")


def _acts(name: str, value: str) -> bool:
    space, _, local = name.lower().rpartition(" ")
    if local.startswith("on") or (local == "base" and space):
        return True
    if local in ("href", "src"):
        return not value.strip().startswith("#")
    return bool(_FETCHING.search(_unescaped(value.lower())))


def _unescaped(style: str) -> str:
    """A style as it is read: without the escapes and the remarks that could hide a word."""
    bare = re.sub(r"/\*.*?(?:\*/|\Z)", "", style, flags=re.DOTALL)
    return _ESCAPED.sub(lambda found: chr(min(int(found[1], 16), 0x10FFFF)) if found[1] else found[2], bare).lower()
