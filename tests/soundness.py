"""What any SVG of ours must be, by the standard alone (SVG 1.1, W3C 2011: chapters 7 to 11; SVG 2 for `href`): elements
and attributes that exist, values that their grammar allows, references that lead somewhere, no text beside the text.

And where things lie: every path, rectangle, circle and letter with its transforms and uses worked out.
"""

import math
import re
from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from lxml import etree

Matrix = tuple[float, float, float, float, float, float]
Point = tuple[float, float]

SVG = "{http://www.w3.org/2000/svg}"
UNIT: Matrix = (1, 0, 0, 1, 0, 0)
NUMBER = r"[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:e[-+]?[0-9]+)?"
_NUMBERS = re.compile(rf"{NUMBER}(?:[ ,]+{NUMBER})*")
_TRANSFORM = re.compile(r"(translate|scale|rotate|matrix)\(([^)]*)\)")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}

ELEMENTS = {
    "svg",
    "g",
    "defs",
    "switch",
    "use",
    "path",
    "rect",
    "circle",
    "ellipse",
    "line",
    "text",
    "tspan",
    "title",
    "desc",
    "marker",
    "symbol",
    "a",
}
GRAMMAR = {
    "number": ("x y width height cx cy r rx ry x1 y1 x2 y2 stroke-width font-size dx dy",
               rf"{NUMBER}(?:%|mm)?(?: {NUMBER})*"),
    "share": ("opacity fill-opacity stroke-opacity", r"0?\.[0-9]+|0|1"),
    "paint": ("fill stroke", r"none|currentColor|#[0-9a-f]{3}|#[0-9a-f]{6}|var\(--yarn(?:-[a-z]+)?\)"),
    "cap": ("stroke-linecap", "butt|round|square"),
    "joint": ("stroke-linejoin", "miter|round|bevel"),
    "anchor": ("text-anchor", "start|middle|end"),
    "weight": ("font-weight", "[1-9]00"),
    "rule": ("fill-rule", "evenodd|nonzero"),
    "dashes": ("stroke-dasharray", rf"{NUMBER}(?:[ ,]{NUMBER})*"),
    "display": ("display", "none"),
    "overflow": ("overflow", "visible"),
    "units": ("markerUnits", "userSpaceOnUse|strokeWidth"),
    "box": ("viewBox", rf"{NUMBER} {NUMBER} {NUMBER} {NUMBER}"),
    "focus": ("focusable", "false"),
    "name": ("id", r"[A-Za-z][\w-]*"),
    "classes": ("class", r"lx[a-z0-9-]*(?: lx-[a-z0-9-]+)*"),
    "role": ("role", "img"),
    "hidden": ("aria-hidden", "true"),
    "font": ("font-family", r"(?:system-ui, 'Segoe UI', Roboto, 'Noto Sans', 'DejaVu Sans', )?sans-serif"),
    "told": ("aria-label", r"\S.*"),
    "space": ("{http://www.w3.org/XML/1998/namespace}space", "preserve"),
}  # fmt: skip
_PATTERNS = {name: re.compile(pattern) for names, pattern in GRAMMAR.values() for name in names.split()}
_ANY = re.compile(r"\S.*")
_COUNT = re.compile(r"[0-9]+(?:\.[0-9]+)?")
_DATA = {
    "side": re.compile("RS|WS"), "half": re.compile("left|right"), "part": re.compile("row-numbers"),
    "supply": re.compile(r"\S[0-9a-z]+"),
    **dict.fromkeys("row first last columns rows left top cell-width cell-height said".split(), _COUNT),  # noqa: SIM905
}  # fmt: skip
_LEADS = re.compile(r"url\(#([\w-]+)\)|#([\w-]+)")


def faults(svg: str) -> list[str]:
    """What the standard does not know, or what leads nowhere; nothing of a drawing that is in order."""
    root = etree.fromstring(svg.encode())
    ids = [element.get("id") for element in root.iter() if element.get("id")]
    found = [f"id {name} twice" for name in set(ids) if ids.count(name) > 1]
    for element in root.iter():
        found += _element(element, set(ids))
    return found


def _element(element: etree._Element, ids: set[str | None]) -> Iterator[str]:
    name = etree.QName(element).localname
    if name not in ELEMENTS or not element.tag.startswith(SVG):
        yield f"element {element.tag}"
    if name not in ("text", "tspan", "title", "desc") and (element.text or "").strip():
        yield f"text in {name}: {element.text}"
    if (element.tail or "").strip():
        yield f"text behind {name}: {element.tail}"
    if name == "text" and not "".join(element.itertext()).strip():
        yield "text without letters"
    for attribute, value in element.attrib.items():
        yield from attribute_faults(name, str(attribute), str(value), ids)


def attribute_faults(element: str, name: str, value: str, ids: set[str | None]) -> Iterator[str]:
    """Of one attribute of an element in a document with these ids."""
    said = f"{element} {name}={value!r}"
    if name in _PATTERNS:
        if not _PATTERNS[name].fullmatch(value):
            yield said
    elif name == "d":
        try:
            segments(value)
        except ValueError as fault:
            yield f"{said}: {fault}"
    elif name == "transform":
        if _TRANSFORM.sub("", value).strip() or not all(_NUMBERS.fullmatch(n) for _, n in _TRANSFORM.findall(value)):
            yield said
    elif name == "href" or name.startswith("marker-"):
        lead = _LEADS.fullmatch(value)
        if lead is None or (lead[1] or lead[2]) not in ids:
            yield f"{said} leads nowhere"
    elif name == "aria-labelledby":
        yield from (f"{said} leads nowhere" for one in value.split() if one not in ids)
    elif name.startswith("data-"):
        if not (_DATA.get(name[5:], _ANY)).fullmatch(value):
            yield said
    else:
        yield f"attribute {said}"


def segments(path: str) -> list[list[Point]]:
    """A path's subpaths as points along them, curves in sixteen steps. Raises ValueError for what is no path data."""
    rest = re.sub(rf"[MLHVCSQTAZmlhvcsqtaz]|{NUMBER}|[ ,\n]+", "", path)
    if rest:
        raise ValueError(f"{rest!r} is no path data")
    found: list[list[Point]] = []
    here, start, control = (0.0, 0.0), (0.0, 0.0), None
    last = ""
    for command, numbers in _commands(path):
        letter, relative = command.upper(), command.islower()
        x0, y0 = here if relative else (0.0, 0.0)
        if letter == "Z":
            found[-1].append(start)
            here, last = start, letter
            continue
        if letter == "H":
            ends = [(x0 + numbers[0], here[1])]
        elif letter == "V":
            ends = [(here[0], y0 + numbers[0])]
        elif letter == "A":
            ends = _arc(here, (x0 + numbers[5], y0 + numbers[6]), numbers)
        else:
            ends = [(x0 + x, y0 + y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]
        if letter == "M":
            found.append([ends[0]])
            start = ends[0]
        elif letter in "LHVA":
            found[-1] += ends if last != "Z" else [start, *ends]
        else:
            if letter in "ST":
                mirrored = control if control is not None and last in ("CS" if letter == "S" else "QT") else here
                ends = [(2 * here[0] - mirrored[0], 2 * here[1] - mirrored[1]), *ends]
            found[-1] += [_bezier([here, *ends], step / 16) for step in range(1, 17)]
            control = ends[-2]
        here, last = ends[-1], letter
    return found


def _commands(path: str) -> Iterator[tuple[str, list[float]]]:
    for command, text in re.findall(r"([MLHVCSQTAZmlhvcsqtaz])([^MLHVCSQTAZmlhvcsqtaz]*)", path):
        numbers = [float(number) for number in re.findall(NUMBER, text)]
        takes = _TAKES[command.upper()]
        if takes == 0:
            yield command, []
            continue
        if not numbers or len(numbers) % takes:
            raise ValueError(f"{command} with {len(numbers)} numbers")
        for at in range(0, len(numbers), takes):
            again = {"M": "L", "m": "l"}.get(command, command) if at else command
            yield again, numbers[at : at + takes]


def _arc(here: Point, end: Point, numbers: list[float]) -> list[Point]:
    """Points along an arc of a circle (SVG 1.1, appendix F.6.5, for equal radii)."""
    if numbers[0] != numbers[1]:
        raise ValueError("an arc that is no circle's")
    across, down = end[0] - here[0], end[1] - here[1]
    half = math.hypot(across, down) / 2
    radius = max(numbers[0], half)
    away = math.sqrt(radius**2 - half**2) / (2 * half) * (1 if numbers[3] == numbers[4] else -1)
    x, y = (here[0] + end[0]) / 2 + down * away, (here[1] + end[1]) / 2 - across * away
    first, last = math.atan2(here[1] - y, here[0] - x), math.atan2(end[1] - y, end[0] - x)
    turn = (last - first) % (2 * math.pi) if numbers[4] else -((first - last) % (2 * math.pi))
    angles = [first + turn * step / 16 for step in range(1, 17)]
    return [(x + radius * math.cos(angle), y + radius * math.sin(angle)) for angle in angles]


def _bezier(points: list[Point], share: float) -> Point:
    while len(points) > 1:
        points = [(a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share) for a, b in pairwise(points)]
    return points[0]


class Piece(NamedTuple):
    """Something that is painted: its points in the drawing's own units, how it is painted, and what it belongs to."""

    kind: str
    lines: list[list[Point]]
    fill: str
    stroke: str
    width: float
    within: tuple[str, ...]  # classes around it, the outermost first
    text: str
    size: float  # of letters
    anchor: str
    data: dict[str, str]
    dashes: str = ""
    opacity: float = 1.0
    cap: str = "butt"

    @property
    def box(self) -> tuple[float, float, float, float]:
        xs = [x for line in self.lines for x, _ in line]
        ys = [y for line in self.lines for _, y in line]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def middle(self) -> Point:
        left, top, right, foot = self.box
        return (left + right) / 2, (top + foot) / 2


_INHERITED = ("fill", "stroke", "stroke-width", "font-size", "text-anchor", "stroke-dasharray", "stroke-linecap")


def pieces(svg: str, *, hidden: bool = False) -> list[Piece]:
    """All that is painted, in the order in which it is; `hidden`: what is not displayed as well."""
    root = etree.fromstring(svg.encode())
    named = {element.get("id"): element for element in root.iter() if element.get("id")}
    box = [float(number) for number in (root.get("viewBox") or "0 0 0 0").split()]
    first = {"fill": "#000", "stroke": "none", "stroke-width": "1", "font-size": "16", "text-anchor": "start"}
    return list(_painted(root, UNIT, first, (), {}, named, box, hidden))


def _painted(
    element: etree._Element, matrix: Matrix, style: dict[str, str], within: tuple[str, ...], data: dict[str, str],
    named: dict[str | None, etree._Element], box: list[float], hidden: bool,
) -> Iterator[Piece]:  # fmt: skip
    name = etree.QName(element).localname
    if name in ("defs", "title", "desc", "marker") or (element.get("display") == "none" and not hidden):
        return
    matrix = times(matrix, _matrix(element.get("transform") or ""))
    style = style | {key: str(element.get(key)) for key in _INHERITED if element.get(key) is not None}
    style["opacity"] = str(float(style.get("opacity", "1")) * float(element.get("opacity") or 1))
    within = (*within, *(element.get("class") or "").split())
    data = data | {str(k)[5:]: str(v) for k, v in element.attrib.items() if str(k).startswith("data-")}
    if name == "use":
        moved = times(matrix, (1, 0, 0, 1, float(element.get("x") or 0), float(element.get("y") or 0)))
        used = named[(element.get("href") or "")[1:]]
        yield from _painted(used, moved, style, within, data, named, box, hidden)
        return
    for lines, text in _own(element, name, box):
        placed = [[put(matrix, point) for point in line] for line in lines]
        scale = math.sqrt(abs(matrix[0] * matrix[3] - matrix[1] * matrix[2]))
        yield Piece(
            name, placed, style["fill"], style["stroke"], float(style["stroke-width"]) * scale, within, text,
            float(style["font-size"]) * scale, style["text-anchor"], data, style.get("stroke-dasharray", ""),
            float(style["opacity"]), style.get("stroke-linecap", "butt"),
        )  # fmt: skip
    for child in element:
        yield from _painted(child, matrix, style, within, data, named, box, hidden)


def _own(element: etree._Element, name: str, box: list[float]) -> Iterator[tuple[list[list[Point]], str]]:
    def number(key: str, whole: float = 0) -> float:
        value = element.get(key) or "0"
        return float(value[:-1]) / 100 * whole if value.endswith("%") else float(value)

    if name == "path":
        yield segments(element.get("d") or "M0 0"), ""
    elif name == "rect":
        x, y = number("x"), number("y")
        wide, high = number("width", box[2]), number("height", box[3])
        yield [[(x, y), (x + wide, y), (x + wide, y + high), (x, y + high), (x, y)]], ""
    elif name == "circle":
        x, y, r = number("cx"), number("cy"), number("r")
        around = [2 * math.pi * step / 32 for step in range(33)]
        yield [[(x + r * math.cos(turn), y + r * math.sin(turn)) for turn in around]], ""
    elif name == "text":
        xs = [float(x) for x in (element.get("x") or "0").split()]
        y = float((element.get("y") or "0").split()[0])
        letters = "".join(element.itertext())
        for at, x in enumerate(xs):
            yield [[(x, y)]], letters if len(xs) == 1 else letters[at]


def _matrix(transform: str) -> Matrix:
    found = UNIT
    for kind, text in _TRANSFORM.findall(transform):
        n = [float(number) for number in re.findall(NUMBER, text)]
        if kind == "translate":
            one: Matrix = (1, 0, 0, 1, n[0], n[1] if len(n) > 1 else 0)
        elif kind == "scale":
            one = (n[0], 0, 0, n[1] if len(n) > 1 else n[0], 0, 0)
        elif kind == "rotate":
            turn = math.radians(n[0])
            one = (math.cos(turn), math.sin(turn), -math.sin(turn), math.cos(turn), 0, 0)
        else:
            one = (n[0], n[1], n[2], n[3], n[4], n[5])
        found = times(found, one)
    return found


def times(one: Matrix, other: Matrix) -> Matrix:
    a, b, c, d, e, f = one
    g, h, i, j, k, m = other
    return a * g + c * h, b * g + d * h, a * i + c * j, b * i + d * j, a * k + c * m + e, b * k + d * m + f


def put(matrix: Matrix, point: Point) -> Point:
    a, b, c, d, e, f = matrix
    x, y = point
    return a * x + c * y + e, b * x + d * y + f


def seen_at(found: list[Piece], point: Point) -> str:
    """The colour that is painted last at a point; "" for none. Letters are not looked at."""
    shade = ""
    for piece in found:
        if piece.kind == "text":
            continue
        if piece.fill != "none" and _inside(piece.lines, point):
            shade = piece.fill
        if piece.stroke != "none" and _near(piece.lines, point, piece.width / 2, piece.cap == "butt"):
            shade = piece.stroke
    return shade


def _inside(lines: list[list[Point]], point: Point) -> bool:
    x, y = point
    inside = False
    for line in lines:
        for (x1, y1), (x2, y2) in zip(line, [*line[1:], line[0]], strict=True):
            if (y1 > y) != (y2 > y) and x < x1 + (y - y1) / (y2 - y1) * (x2 - x1):
                inside = not inside
    return inside


def _near(lines: list[list[Point]], point: Point, reach: float, blunt: bool) -> bool:
    return any(_distance(point, one, two, blunt) <= reach for line in lines for one, two in pairwise(line))


def _distance(point: Point, one: Point, two: Point, blunt: bool) -> float:
    """From a stretch; `blunt`: nothing of it is beyond its ends."""
    (x, y), (x1, y1), (x2, y2) = point, one, two
    long = (x2 - x1) ** 2 + (y2 - y1) ** 2
    share = 0.0 if long == 0 else ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / long
    if blunt and not 0 <= share <= 1:
        return math.inf
    share = max(0.0, min(1.0, share))
    return math.hypot(x - x1 - share * (x2 - x1), y - y1 - share * (y2 - y1))
