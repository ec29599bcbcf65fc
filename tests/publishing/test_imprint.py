"""A designer's accent can be read on every page by day and by lamplight; a logo is a picture and nothing more."""

import re
from pathlib import Path
from zlib import compress, crc32

import pytest
from coloraide import Color

from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.imprint import DAY, LAMP, Imprint, imprint_of
from lintarsia.settings.designer import Designer
from lintarsia.settings.reader import read_settings

SHADES = ["#ffffff", "#000000", "#e0a030", "#35603a", "#ff00ff", "#7f7f7f", "#00ffd0", "#102060", "#f7f2e8", "#1c1611"]


def chunk(kind: bytes, data: bytes) -> bytes:
    return len(data).to_bytes(4, "big") + kind + data + crc32(kind + data).to_bytes(4, "big")


# One grey pixel, put together by the parts that the PNG specification names (W3C, 2003).
PNG = (
    b"\x89PNG\r\n\x1a\n"
    + chunk(b"IHDR", b"\0\0\0\1\0\0\0\1\x08\0\0\0\0")
    + chunk(b"IDAT", compress(b"\0\x7f"))
    + chunk(b"IEND", b"")
)


def settings_with(folder: Path, said: str):
    (folder / ".git").mkdir(exist_ok=True)
    (folder / "lintarsia.yaml").write_text(f"designer: {said}\n", encoding="utf-8")
    return read_settings(str(folder / "lintarsia.yaml"))


@pytest.mark.parametrize("shade", SHADES)
def test_any_accent_reads_on_every_ground(shade: str) -> None:
    # WCAG 2.2, success criterion 1.4.3: 4.5 for text; contrast by a colour library.
    styles = Imprint(Designer(accent=shade)).styles
    day, *evenings = re.findall(r"--li-accent: (#[0-9a-f]{6})", styles)
    on_day, *on_evening = re.findall(r"--li-on-accent: (#[0-9a-f]{6})", styles)
    assert len(evenings) == len(on_evening) == 2
    for accent, on, grounds in ((day, on_day, DAY), *zip(evenings, on_evening, (LAMP, LAMP), strict=True)):
        for ground in (*grounds, on):
            assert Color(accent).contrast(ground, method="wcag21") >= 4.5 - 1e-3, (accent, ground)


def test_an_accent_that_reads_is_left_alone() -> None:
    assert "--li-accent: #35603a" in Imprint(Designer(accent="#35603a")).styles


def test_the_grounds_are_those_of_the_styles() -> None:
    assets = resource("site") / "assets"
    base, theme = ((assets / name).read_text() for name in ("lintarsia.css", "theme.css"))
    grounds = ("paper", "card", "wash")
    assert tuple(re.findall(rf"--li-{name}: (#\w+)", base)[0] for name in grounds) == DAY
    assert LAMP[:3] == tuple(re.findall(rf"--li-{name}: (#\w+)", theme)[0] for name in grounds)
    assert LAMP[3] in theme


@pytest.mark.parametrize(
    "drawing",
    [
        '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"/>',
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="urn:x"><a x:href="javascript:alert(1)"/></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg"><image href="https://example.org/a.png"/></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg"><rect fill="url(https://example.org/a)"/></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg"><style>@import url(x)</style></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg"><foreignObject/></svg>',
        '<!DOCTYPE svg [<!ENTITY a "b">]><svg xmlns="http://www.w3.org/2000/svg"/>',
        '<?xml-stylesheet href="https://example.org/a.css"?><svg xmlns="http://www.w3.org/2000/svg"/>',
        '<svg xmlns="http://www.w3.org/2000/svg"><rect style="fill: \\75\\72 l(https://example.org/a)"/></svg>',
        '<svg xmlns="http://www.w3.org/2000/svg"><rect style="mask: u\\rl(https://example.org/a)"/></svg>',
        """<svg xmlns="http://www.w3.org/2000/svg"><rect fill="url( 'https://example.org/a')"/></svg>""",
        """<svg xmlns="http://www.w3.org/2000/svg"><g style="mask: image-set('https://example.org/a' 1x)"/></svg>""",
        '<svg xmlns="http://www.w3.org/2000/svg" xml:base="https://example.org/"><use href="#a"/></svg>',
        """<svg xmlns="http://www.w3.org/2000/svg" xmlns:h="http://www.w3.org/1999/xhtml">
        <h:meta http-equiv="refresh" content="0; https://example.org/"/></svg>""",
        "<svg",
        '<svg viewBox="0 0 2 3"/>',
        "<html/>",
    ],
)
def test_a_logo_that_is_more_than_a_picture_is_refused(tmp_path: Path, drawing: str) -> None:
    (tmp_path / "logo.svg").write_text(drawing)
    with pytest.raises(Trouble, match=r"lintarsia\.yaml:1: the logo 'logo\.svg' .*, in its line [12]$"):
        imprint_of(settings_with(tmp_path, "{logo: logo.svg}"))


def test_the_lines_are_those_of_the_settings_and_of_the_logo(tmp_path: Path) -> None:
    (tmp_path / "logo.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg">\n\n<script/></svg>')
    settings = settings_with(tmp_path, "\n  name: Mill Lane\n  logo: logo.svg")
    with pytest.raises(Trouble) as told:
        imprint_of(settings)
    why = "holds a <script> that could act or fetch something; a logo is a picture alone, in its line 3"
    assert str(told.value) == f"{tmp_path / 'lintarsia.yaml'}:3: the logo 'logo.svg' {why}"


def test_a_logo_is_taken_from_within_the_repository(tmp_path: Path) -> None:
    head = '<?xml version="1.0"?><svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 3">'
    rect = """<rect fill="url(#b)" style="mask: url( '#c' )" xml:space="preserve"/>"""
    drawing = f'{head}<use href="#a"/>{rect}</svg>'
    (tmp_path / "logo.svg").write_text(drawing)
    (tmp_path / "mark.png").write_bytes(PNG)
    assert imprint_of(settings_with(tmp_path, "{logo: logo.svg}")).logo == drawing.encode()
    assert imprint_of(settings_with(tmp_path, "{logo: mark.png}")).logo_name == "logo.png"


def test_a_logo_from_elsewhere_is_refused(tmp_path: Path) -> None:
    inside = tmp_path / "shop"
    inside.mkdir()
    (tmp_path / "logo.png").write_bytes(PNG)
    (inside / "linked.png").symlink_to(tmp_path / "logo.png")
    (inside / "words.png").write_text("not a picture")
    (inside / "short.png").write_bytes(PNG[:-20])
    (inside / "wrong.png").write_bytes(PNG[:45] + b"?" + PNG[46:])
    for name, why in (
        ("../logo.png", "within"),
        ("linked.png", "within"),
        ("none.png", "cannot"),
        ("words.png", "no PNG"),
        ("short.png", "breaks off"),
        ("wrong.png", "damaged"),
    ):
        with pytest.raises(Trouble, match=rf"lintarsia\.yaml:1: the logo .*{why}"):
            imprint_of(settings_with(inside, f"{{logo: {name}}}"))


@pytest.mark.parametrize(
    "contact",
    ["javascript:alert(1)", "data:text/html,x", "mailto:a@b", "https://a b", "nobody", '"https://a.example/\\"x"'],
)
def test_a_contact_is_an_address_of_the_web_or_of_mail(tmp_path: Path, contact: str) -> None:
    with pytest.raises(Trouble, match="contact in designer"):
        settings_with(tmp_path, f"{{contact: {contact}}}")


def test_where_a_contact_leads(tmp_path: Path) -> None:
    assert settings_with(tmp_path, "{contact: ask@example.org}").designer.link == "mailto:ask@example.org"
    assert settings_with(tmp_path, "{contact: 'https://example.org/@ask'}").designer.link == "https://example.org/@ask"
