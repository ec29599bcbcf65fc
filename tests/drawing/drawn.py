"""Charts for the drawing tests, and what it takes to look into an SVG."""

import re

from lxml import etree

from lintarsia.chart import Chart, Colour, Gauge, Technique, Worked
from lintarsia.chart.grid import build_grid
from lintarsia.chart.measure import Length

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


def moved(element: etree._Element) -> tuple[float, float]:
    """(x, y) of the `translate` that an element begins its transform with; (0, 0) where it has none."""
    found = re.match(r"translate\(([-\d.]+) ([-\d.]+)\)", element.get("transform") or "translate(0 0)")
    assert found
    return float(found[1]), float(found[2])


def strokes(path: str) -> list[tuple[float, float, float]]:
    """(left, right, y) of each line of a path of horizontal lines, as cells are drawn."""
    found, x, y = [], 0.0, 0.0
    for command, numbers in re.findall(r"([Mmh])([^Mmh]*)", path):
        values = [float(v) for v in re.findall(r"-?[\d.]+", numbers)]
        if command == "h":
            [long] = values
            found.append((x, x + long, y))
            x += long
        else:
            x, y = values if command == "M" else (x + values[0], y + values[1])
    return found


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
