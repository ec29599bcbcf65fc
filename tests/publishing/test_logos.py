"""Which files are pictures and nothing more. What SVG and style sheets can fetch by: SVG 2, CSS Values 4, CSS Images 4
(W3C, from memory); the parts of a PNG: W3C, "Portable Network Graphics (PNG) Specification", 2003."""

import pytest
from test_imprint import PNG, chunk

from lintarsia.publishing.logocheck import no_drawing, no_png

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="http://www.w3.org/1999/xlink" viewBox="0 0 2 3">'
START, DATA, END = PNG[:33], PNG[33:-12], PNG[-12:]
TORN = "is a PNG that breaks off, or is damaged"
SIGNATURE = b"\x89PNG\r\n\x1a\n"


def drawn(inside: str) -> tuple[int, str]:
    """The answer for a drawing whose second line is `inside`."""
    return no_drawing(f"{HEAD}\n{inside}\n</svg>".encode())


@pytest.mark.parametrize(
    ("data", "why"),
    [
        (PNG, ""),
        (PNG + b"more", ""),  # behind its end nobody reads
        (START + chunk(b"tEXt", b"a\0b") + DATA + END, ""),
        (b"", "is no PNG, whatever its name says"),
        (b"GIF89a", "is no PNG, whatever its name says"),
        (b"\x89PNG\n\x1a\n" + PNG[8:], "is no PNG, whatever its name says"),
        (SIGNATURE, TORN),
        (PNG[:-1], TORN),
        (START + DATA, TORN),
        (START + END, TORN),
        (SIGNATURE + DATA + END, TORN),
        (SIGNATURE + DATA + START[8:] + END, TORN),
        (START + DATA[:-1] + b"?" + END, TORN),
        (START + DATA[:9] + b"?" + DATA[10:] + END, TORN),
        (START + DATA + chunk(b"IENX", b""), TORN),
    ],
)
def test_a_png_is_whole(data: bytes, why: str) -> None:
    assert no_png(data) == why


@pytest.mark.parametrize(
    "inside",
    [
        '<path d="M0 0h2v3z"/>', '<use href="#a"/>', '<use x:href=" #a"/>', '<rect fill="url(#a)"/>',
        '<rect style="fill:url( &quot;#a&quot; )"/>', '<rect style="fill: #aabbcc; opacity: .5"/>', "<title>on</title>",
        '<g id="one" class="base"/>', '<g base="a"/>', "<!-- url(x) -->", '<text font-family="image"/>', "<setting/>",
    ],
)  # fmt: skip
def test_a_drawing_of_shapes_is_taken(inside: str) -> None:
    assert drawn(inside) == (0, "")


@pytest.mark.parametrize(
    ("inside", "name"),
    [
        *((f"<{name}/>", name) for name in (
            "script", "foreignObject", "iframe", "animate", "set", "handler", "listener", "style", "SCRIPT",
        )),
        ('<g xmlns:h="http://www.w3.org/1999/xhtml"><h:b/></g>', "b"),
        ('<g onclick="a()"/>', "g"), ('<g ONLOAD="a()"/>', "g"), ('<g xml:base="a"/>', "g"),
        ('<use href="a.svg#a"/>', "use"), ('<use x:href="a.svg"/>', "use"), ('<image src="a.png"/>', "image"),
        ('<g style="fill:url(a)"/>', "g"), ('<g style="fill:URL( &quot;a&quot;)"/>', "g"),
        ('<g style="fill:u/**/rl(a)"/>', "g"), ('<g style="fill:url/* x"/><g fill="src(a)"/>', "g"),
        ('<g style="fill:\\75 rl(a)"/>', "g"), ('<g style="fill:\\000075rl(a)"/>', "g"),
        ('<g style="fill:\\55\\52L(a)"/>', "g"),
        *((f'<g style="mask:{how}(a)"/>', "g") for how in ("image", "image-set", "src", "cross-fade")),
        ('<g style="@import x"/>', "g"), ('<g fill="javascript:a()"/>', "g"),
    ],
)  # fmt: skip
def test_what_could_act_or_fetch_is_told_by_its_line_and_name(inside: str, name: str) -> None:
    assert drawn(inside) == (2, f"holds a <{name}> that could act or fetch something; a logo is a picture alone")


@pytest.mark.parametrize(
    ("drawing", "line", "why"),
    [
        ("<html/>", 1, "begins with <html>, and is no SVG"),
        ("\n<svg/>", 2, "begins with <svg>, and is no SVG"),
        ('<g xmlns="http://www.w3.org/2000/svg"/>', 1, "begins with <g>, and is no SVG"),
        (f"{HEAD}\n<g>\n</svg>", 3, "is no SVG that can be read from here on"),
        ("", 1, "is no SVG that can be read from here on"),
        (f"{HEAD}\n&#0;</svg>", 2, "is no SVG that can be read from here on"),
        ("\n<!DOCTYPE svg>" + HEAD + "</svg>", 2,
         "states a document type, which can stand for anything; take the DOCTYPE out"),
        (f'\n\n<?xml-stylesheet href="a.css"?>{HEAD}</svg>', 3,
         "names a style sheet, which could fetch something; a logo is a picture alone"),
        (f"<?XML-Stylesheet a?>{HEAD}</svg>", 1,
         "names a style sheet, which could fetch something; a logo is a picture alone"),
        (f"{HEAD}\n<set/>\n<script/></svg>", 2,
         "holds a <set> that could act or fetch something; a logo is a picture alone"),
    ],
)  # fmt: skip
def test_what_is_no_drawing_is_told_by_the_line_of_the_first_fault(drawing: str, line: int, why: str) -> None:
    assert no_drawing(drawing.encode()) == (line, why)


def test_another_instruction_is_left_alone() -> None:
    assert no_drawing(f"<?made-by hand?>{HEAD}<g/></svg>".encode()) == (0, "")


def test_an_escape_beyond_all_letters_is_no_failure() -> None:
    """`\\ffffff` stands for no letter (CSS Syntax 3, section 4.3.7)."""
    assert drawn('<g style="a:\\ffffff "/>') == (0, "")
