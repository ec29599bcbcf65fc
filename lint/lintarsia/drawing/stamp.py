"""What state of a chart a drawing shows, written into its file: XMP's own words in SVG, a text chunk in PNG, a keyword
in PDF. It is read back from the SVG, so that whoever turns it into another format need not be told again."""

import re
import struct
import zlib
from html import unescape

from lintarsia.drawing.svg import escape

RDF, DC = "http://www.w3.org/1999/02/22-rdf-syntax-ns#", "http://purl.org/dc/elements/1.1/"
_STAMP = re.compile(r"<dc:identifier>([^<]*)</dc:identifier>")
_AFTER_HEADER = 8 + 25  # a PNG's signature and its header chunk


def stamped(svg: str, words: str) -> str:
    """The drawing with `<metadata>` (SVG 1.1, 21) that holds a Dublin Core identifier."""
    told = (
        f'<metadata><rdf:RDF xmlns:rdf="{RDF}" xmlns:dc="{DC}"><rdf:Description rdf:about="">'
        f"<dc:identifier>{escape(words)}</dc:identifier></rdf:Description></rdf:RDF></metadata>"
    )
    return svg.replace("</desc>", f"</desc>{told}", 1)


def stamp_of(svg: str) -> str:
    """What `stamped` wrote; "" where there is nothing."""
    found = _STAMP.search(svg)
    return unescape(found[1]) if found else ""


def stamp_png(data: bytes, words: str) -> bytes:
    """The picture with the words as its `Description`: an iTXt chunk (PNG, W3C 2003, 11.3.4.5), plain UTF-8."""
    if not words:
        return data
    body = b"iTXt" + b"Description\0\0\0\0\0" + words.encode("utf-8", "replace")
    chunk = struct.pack(">I", len(body) - 4) + body + struct.pack(">I", zlib.crc32(body))
    return data[:_AFTER_HEADER] + chunk + data[_AFTER_HEADER:]
