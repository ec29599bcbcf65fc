"""The mark: two yarns that cross once, the twist that makes one fabric of two."""

from lintarsia.drawing.shades import ACCENT, PAPER
from lintarsia.drawing.svg import document

BLUE = "#27406b"


def mark_svg(*, ground: bool = True, prefix: str = "") -> str:
    """The mark, 64 x 64; with `ground` on a paper square with round corners, as a favicon on a dark bar needs."""
    left = "M14 10C14 26 22 30 32 32S50 38 50 54"
    right = "M50 10C50 26 42 30 32 32S14 38 14 54"
    sheet = f'<rect width="64" height="64" rx="15" fill="{PAPER}"/>' if ground else ""
    body = (
        f'{sheet}<g fill="none" stroke-linecap="round"><path stroke="{BLUE}" stroke-width="9" d="{left}"/>'
        f'<path stroke="{PAPER}" stroke-width="14" d="M42 26.5C39 29.5 36 31 32 32S25 34.5 22 37.5"/>'
        f'<path stroke="{ACCENT}" stroke-width="9" d="{right}"/></g>'
    )
    return document(
        body, kind="mark", width=64, height=64, title="lintarsia", desc="Two yarns that cross once.", prefix=prefix
    )
