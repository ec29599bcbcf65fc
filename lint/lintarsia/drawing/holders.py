"""What a supply hangs from: a loose strand, a butterfly, a bobbin, a ball. Small drawings of our own.

Each is drawn around x = 0 with the yarn arriving from above at (0, 0), about 40 wide and 44 high.
"""

from functools import cache

from lintarsia.drawing.shades import INK, edge_on, luminance, mix
from lintarsia.drawing.svg import document, num

HOLDERS = ("loose strand", "butterfly", "bobbin", "ball")


def cord(path: str, shade: str, width: float = 4.0) -> str:
    """A length of yarn along a path: edge, shade and a gleam."""
    return (
        f'<path stroke="{edge_on(shade)}" stroke-width="{num(width + 1.4)}" d="{path}"/>'
        f'<path stroke="{shade}" stroke-width="{num(width)}" d="{path}"/>'
        f'<path stroke="{gleam_on(shade)}" stroke-width="{num(width * 0.28)}" stroke-opacity=".6" d="{path}"/>'
    )


def gleam_on(shade: str) -> str:
    """The light along a yarn."""
    return mix(shade, "#ffffff", 0.3 if luminance(shade) < 0.4 else 0.6)


@cache
def hanging_yarn(holder: str) -> str:
    """A yarn as it hangs from the needle, down to what it is wound on: 52 wide and 92 high from (-26, 6). Whoever uses
    it gives its tones as the styles `--yarn`, `--yarn-edge` and `--yarn-gleam`, so that one drawing serves all shades.
    """
    shade = "#717375"  # of none of the drawings, so that it is known again
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    hung = f'{cord("M0 8C4 22-4 34 0 50", shade)}<g transform="translate(0 50)">{draw_holder(holder, shade)}</g>'
    for tone, name in ((shade, "yarn"), (edge_on(shade), "yarn-edge"), (gleam_on(shade), "yarn-gleam")):
        hung = hung.replace(f'"{tone}"', f'"var(--{name})"')
    return f"<g {look}>{hung}</g>"


def draw_holder(holder: str, shade: str) -> str:
    """The holder of that name; anything unknown hangs as a loose strand."""
    draw = {"butterfly": _butterfly, "bobbin": _bobbin, "ball": _ball}.get(holder, _strand)
    return draw(shade)


def holder_svg(holder: str, shade: str, *, prefix: str = "") -> str:
    """One holder as a picture of its own, for winding lists."""
    look = 'fill="none" stroke-linecap="round" stroke-linejoin="round"'
    body = f'<g transform="translate(26 4)" {look}>{draw_holder(holder, shade)}</g>'
    title = holder or "loose strand"
    return document(
        body, kind="holder", width=52, height=54, title=title, desc="What the yarn is wound on.", prefix=prefix
    )


def _strand(shade: str) -> str:
    return cord("M0 0C5 7 7 11 2 18S-9 29-3 35 4 41 1 45", shade)


def _butterfly(shade: str) -> str:
    """A figure of eight wound around the fingers and wrapped at the waist."""
    loops = []
    for spread, lift in ((19, 10.5), (15.5, 7.5), (12, 4.6)):
        loops.append(
            cord(
                f"M0 22C{num(-spread * 0.6)} {num(22 - lift * 1.5)} {num(-spread * 1.25)} {num(22 - lift)} "
                f"{num(-spread)} 22S{num(-spread * 0.6)} {num(22 + lift * 1.5)} 0 22"
                f"C{num(spread * 0.6)} {num(22 - lift * 1.5)} {num(spread * 1.25)} {num(22 - lift)} {num(spread)} 22"
                f"S{num(spread * 0.6)} {num(22 + lift * 1.5)} 0 22z",
                shade,
                2.6,
            )
        )
    waist = "".join(_across(4.4, y, 1.4, shade, 2.6) for y in (17, 21, 25))
    return cord("M0 0C1 6 0 10 0 16", shade, 3) + "".join(loops) + waist


def _bobbin(shade: str) -> str:
    """A flat card with a waist, wound full."""
    card = (
        "M-15 8C-15 4-8 4-8 8 -8 11 8 11 8 8 8 4 15 4 15 8L12 24 15 40"
        "C15 44 8 44 8 40 8 37-8 37-8 40-8 44-15 44-15 40L-12 24z"
    )
    wound = "".join(_across(13, y, 2.6, shade, 3.2) for y in range(14, 35, 4))
    thread = cord("M0 0C3 5 9 7 11 13", shade, 3)
    return f'<path fill="#d9c7a3" stroke="{INK}" stroke-width="1.2" d="{card}"/>{wound}{thread}'


def _across(half: float, y: float, sag: float, shade: str, width: float) -> str:
    """One turn of yarn across the front."""
    bow = num(y + sag)
    return cord(
        f"M{num(-half)} {num(y)}C{num(-half * 0.4)} {bow} {num(half * 0.4)} {bow} {num(half)} {num(y)}", shade, width
    )


def _ball(shade: str) -> str:
    edge = edge_on(shade)
    arcs = (
        "M-17 21C-9 10 6 6 14 12",
        "M-18 26C-8 13 9 10 17 18",
        "M-16 32C-7 19 10 16 19 25",
        "M-10 8C-1 14 8 28 8 42",
        "M-3 6C6 14 13 26 13 38",
        "M-15 13C-8 20-2 32 0 44",
    )
    lines = "".join(f'<path stroke="{edge}" stroke-width="1.1" stroke-opacity=".75" d="{arc}"/>' for arc in arcs)
    return (
        f"{cord('M0 0C-2 3-3 4-4 7', shade, 3)}"
        f'<circle cx="0" cy="25" r="19" fill="{shade}" stroke="{edge}" stroke-width="1.3"/>{lines}'
    )
