"""SVG text to PNG and PDF, through libraries that are asked for only here (the `images` and `pdf` extras)."""

import re
from collections.abc import Iterator, Sequence

from lintarsia.drawing.bands import in_bands, wants_bands
from lintarsia.drawing.geometry import CELL
from lintarsia.drawing.stamp import stamp_of, stamp_png
from lintarsia.drawing.svg import FONT
from lintarsia.ground.installing import how_to_install
from lintarsia.ground.trouble import Trouble

WIDEST = 8000  # pixels; a picture of 8000 x 8000 takes 256 MB while it is drawn
STITCH_MM = 5.0  # width of a stitch in a PDF that is not cut into sheets
MOST_LETTERS = 100_000  # stitches of a page of PDF with a letter in each; they take four kilobytes a letter
MOST_SHEETS = 24  # of one PDF; each takes some 17 MB while it is made
FORGETS = 12
LONGEST_MM = 1189.0  # the long side of an A0 poster; larger drawings are shrunk to it

_SIZE = re.compile(r'<svg [^>]*?viewBox="0 0 ([0-9.]+) ([0-9.]+)" width="([0-9.]+)(mm)?" height="([0-9.]+)(?:mm)?"')


def size_of(svg: str) -> tuple[float, float]:
    """Width and height of a drawing's view box, in user units."""
    match = _SIZE.match(svg)
    if not match:
        raise ValueError("this is no drawing of ours")
    return float(match[1]), float(match[2])


def to_png(svg: str, width: int) -> bytes:
    """The drawing as PNG, `width` pixels wide; no side is made longer than WIDEST.

    Raises Trouble where resvg-py is not installed, or a drawing is refused by it.
    """
    try:
        from resvg_py import svg_to_bytes
    except ImportError:
        raise Trouble(f"PNG needs one more library: {how_to_install('images')}") from None
    wide, high = size_of(svg)
    width = max(1, min(width, WIDEST, int(WIDEST * wide / high)))

    def draw(drawing: str) -> bytes:
        return bytes(svg_to_bytes(svg_string=drawing, width=width, dpi=96))

    try:
        return stamp_png(in_bands(svg, width, draw) if wants_bands(svg) else draw(svg), stamp_of(svg))
    except ValueError as failure:
        raise Trouble(f"the PNG could not be drawn ({failure})") from None


def letters_drawn() -> bool:
    """Whether this machine has one of the drawings' fonts; without one PNGs have no letters.

    Asked for as the drawings do: by `sans-serif` alone the library finds none where a system's settings give that name
    to a font that is not installed, as Debian's do.
    """
    text = f'<text x="2" y="16" font-size="16" font-family="{FONT}">B</text>'
    empty = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20" width="20" height="20">{}</svg>'
    return to_png(empty.format(text), 20) != to_png(empty.format(""), 20)


def to_pdf(svgs: Sequence[str]) -> bytes:
    """The drawings as one PDF, a page each, in vectors and without a date (the same drawing gives the same bytes).

    Raises Trouble where typst is not installed, or a drawing is refused by it.
    """
    try:
        import typst
    except ImportError:
        raise Trouble(f"PDF needs one more library: {how_to_install('pdf')}") from None
    told = dict.fromkeys(filter(None, map(stamp_of, svgs)))
    files = {f"k{number}": words for number, words in enumerate(told)}
    keywords = "".join(f"sys.inputs.{name}, " for name in files)
    pages = [f"#set document(date: none, keywords: ({keywords}))"]
    for number, svg in enumerate(svgs):
        wide, high = page_size(svg)
        files[f"p{number}"] = svg
        image = f'image(bytes(sys.inputs.p{number}), format: "svg", width: 100%, height: 100%)'
        pages.append(f"#page(width: {wide:.3f}mm, height: {high:.3f}mm, margin: 0pt, {image})")
    try:
        made = typst.compile("\n".join(pages).encode(), sys_inputs=files)
    except RuntimeError as failure:
        raise Trouble(f"the PDF could not be made ({failure})") from None
    assert isinstance(made, bytes)
    return made


def to_pdfs(svgs: Sequence[str], most: int) -> Iterator[bytes]:
    """The drawings as PDFs of `most` pages each, one at a time, so that memory does not grow with their number."""
    for first in range(0, len(svgs), most):
        yield to_pdf(svgs[first : first + most])
        import typst

        for _ in range(FORGETS):  # what the library keeps of earlier pages goes once as many runs have not asked for it
            typst.compile(b"-")


def page_size(svg: str) -> tuple[float, float]:
    """Width and height of the page for a drawing, mm: its own where it states millimetres, else 5 mm a stitch."""
    match = _SIZE.match(svg)
    if match and match[4]:
        return float(match[3]), float(match[5])
    wide, high = size_of(svg)
    scale = min(STITCH_MM / CELL, LONGEST_MM / max(wide, high))
    return wide * scale, high * scale
