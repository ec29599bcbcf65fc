"""Shades: luminance, contrast, inks that can be read on them, and the lighter and darker tones of a yarn.

Contrast and relative luminance are those of WCAG 2.2 (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio).
"""

from functools import lru_cache

PAPER = "#fbf8f1"
INK = "#2b2622"
MUTED = "#6d655c"
ACCENT = "#b4472e"
TEXT_CONTRAST = 4.5
GRAPHIC_CONTRAST = 3.0
NO_STITCH = "#d9d5ce"  # a square that no stitch stands in
UNKNOWN = "#ffffff"  # the ground of a symbol that the key lacks

RGB = tuple[float, float, float]


def rgb(shade: str) -> RGB:
    """`"#rrggbb"` as three numbers from 0 to 1."""
    return (int(shade[1:3], 16) / 255, int(shade[3:5], 16) / 255, int(shade[5:7], 16) / 255)


def hexed(colour: RGB) -> str:
    return "#" + "".join(f"{min(255, max(0, round(part * 255))):02x}" for part in colour)


def _linear(part: float) -> float:
    return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4


@lru_cache(maxsize=4096)
def luminance(shade: str) -> float:
    """Relative luminance, 0 black to 1 white."""
    red, green, blue = map(_linear, rgb(shade))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1 to 21."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


@lru_cache(maxsize=4096)
def mix(one: str, other: str, share: float) -> str:
    """`one` with `share` (0 to 1) of `other` in it, in sRGB."""
    first, second = rgb(one), rgb(other)
    return hexed(
        (
            first[0] + (second[0] - first[0]) * share,
            first[1] + (second[1] - first[1]) * share,
            first[2] + (second[2] - first[2]) * share,
        )
    )


@lru_cache(maxsize=4096)
def ink_on(shade: str, least: float = TEXT_CONTRAST + 0.2) -> str:
    """The quietest tint of `shade` itself that reads on it at `least`, or black or white if no tint does.

    One of black and white always has 4.58 or more, so text at WCAG's 4.5 is always possible.
    """
    towards = "#ffffff" if contrast(shade, "#ffffff") > contrast(shade, "#000000") else "#000000"
    if contrast(shade, towards) < least:
        return towards
    low, high = 0.0, 1.0
    for _ in range(8):
        middle = (low + high) / 2
        if contrast(shade, mix(shade, towards, middle)) < least:
            low = middle
        else:
            high = middle
    return mix(shade, towards, high)


@lru_cache(maxsize=4096)
def edge_on(shade: str, ground: str = PAPER, least: float = GRAPHIC_CONTRAST) -> str:
    """A darker tone of `shade` whose line is seen on `ground` at `least`; always somewhat darker than the shade."""
    share = 0.3
    while share < 1 and contrast(mix(shade, "#000000", share), ground) < least:
        share += 0.05
    return mix(shade, "#000000", min(share, 1.0))


@lru_cache(maxsize=64)
def readable(shade: str, grounds: tuple[str, ...], least: float = TEXT_CONTRAST) -> str:
    """`shade` itself where it reads on all the `grounds` at `least`, else as little darker or lighter as does it.

    Whichever of black and white reads better on the ground that is worst for it is what the shade is moved towards;
    grounds of one page are all light or all dark, so that one of the two is enough.
    """
    towards = max(("#000000", "#ffffff"), key=lambda end: min(contrast(end, ground) for ground in grounds))
    for hundredths in range(101):
        moved = mix(shade, towards, hundredths / 100)
        if min(contrast(moved, ground) for ground in grounds) >= least:
            return moved
    return towards
