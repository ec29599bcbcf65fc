"""Charts for the drawing tests, and what it takes to look into an SVG."""

import re

from lxml import etree

from lintarsia.chart import Chart, Colour, Gauge, Technique, Worked
from lintarsia.grid import build_grid
from lintarsia.measure import Length

SVG = "{http://www.w3.org/2000/svg}"

KEY = {
    "B": ("Dusk blue", "#27406b"),
    "W": ("Bone", "#efe9dc"),
    "R": ("Rust", "#b8743c"),
    "M": ("Moss", "#6f8f5a"),
}

MOON = """
BBBBBBBBBBBBBBBB
BBBBBWWWWWBBBBBB
BBBBWWWWWWWBBBBB
BBBWWWRRRWWWBBBB
BBBWWRRRRRWWBBBB
BBBWWRRMRRWWBBBB
BBBWWWRRRWWWBBBB
BBBBWWWWWWWBBBBB
BBBBBWWWWWBBBBBB
MMBBBBBBBBBBBBMM
MMMMBBBBBBBBMMMM
MMMMMMMMMMMMMMMM
"""

PILLAR = "BBBBWWWW\n" * 6


def make_chart(
    text: str = MOON,
    key: dict[str, tuple[str, str]] | None = None,
    *,
    title: str = "Moon",
    stitches: float = 22,
    rows: float = 30,
    worked: str = "flat",
    technique: str = "intarsia",
    **more: object,
) -> Chart:
    """A chart from its text (top line first); only colours that the text uses are in the key, unless one is given."""
    lines = text.strip("\n").split("\n")
    used = key if key is not None else {s: v for s, v in KEY.items() if any(s in line for line in lines)}
    return Chart(
        path="t.chart.yaml",
        title=title,
        gauge=Gauge(stitches, rows, Length(10, "cm")),
        colours={symbol: Colour(symbol, name, shade) for symbol, (name, shade) in used.items()},
        grid=build_grid(lines[::-1], list(used)),
        worked=Worked(worked),
        technique=Technique(technique),
        **more,  # type: ignore[arg-type]
    )


def parse(svg: str) -> etree._Element:
    """The root element; fails for anything that is not well-formed XML."""
    return etree.fromstring(svg.encode())


def rectangles(path: str) -> list[tuple[float, float, float, float]]:
    """(left, top, right, bottom) of a path made of `MxyHxvyHxz` boxes, as cells are drawn."""
    found = re.findall(r"M([-\d.]+) ([-\d.]+)H([-\d.]+)v([-\d.]+)H([-\d.]+)z", path)
    boxes = []
    for left, top, right, high, back in found:
        assert left == back
        boxes.append((float(left), float(top), float(right), float(top) + float(high)))
    return boxes


def dangers(svg: str) -> list[str]:
    """Whatever a strict content security policy would block, or would load something from elsewhere."""
    root = parse(svg)
    bad = []
    for element in root.iter():
        name = etree.QName(element).localname
        if name in ("script", "style", "foreignObject", "image", "iframe", "a", "animate", "set"):
            bad.append(name)
        for attribute, value in element.attrib.items():
            local = etree.QName(attribute).localname
            if local == "style" or local.startswith("on"):
                bad.append(local)
            if local == "href" and not value.startswith("#"):
                bad.append(value)
            if "url(" in value and not re.fullmatch(r"url\(#[A-Za-z][\w-]*\)", value):
                bad.append(value)
    return bad
