"""Bars and lines as SVG, for pages as narrow as a phone. Dashes tell lines apart without colour."""

from collections.abc import Mapping, Sequence
from html import escape
from math import ceil, floor, log10

WIDE, LINE, MARGIN = 360, 44, 4
LEFT, HIGH = 48, 230  # of the drawn lines
DASHES = ("", "7 4", "2 4", "10 3 2 3", "1 3", "12 4")

Line = Sequence[float | None]  # None where nothing was measured


def bars(values: Mapping[str, str], aim: float | None = None) -> tuple[str, int]:
    """A bar for each number, as it is written, and the height of the drawing. `aim` is a line across all of them."""
    room = WIDE - 2 * MARGIN - 44
    most = max(*map(float, values.values()), aim or 0)
    parts = []
    for number, (label, written) in enumerate(values.items()):
        y, wide = number * LINE, float(written) / most * room
        parts.append(
            f'<text x="{MARGIN}" y="{y + 15}">{escape(label)}</text>'
            f'<rect class="bar" x="{MARGIN}" y="{y + 20}" width="{wide:.1f}" height="14" rx="3"/>'
            f'<text class="value" x="{MARGIN + wide + 6:.1f}" y="{y + 32}">{escape(written)}</text>'
        )
    high = len(values) * LINE
    if aim is not None:
        x = MARGIN + aim / most * room
        parts.append(
            f'<path class="aim" d="M{x:.1f} 0V{high}"/>'
            f'<text class="soft" x="{x - 4:.1f}" y="{high + 13}" text-anchor="end">the aim: {aim:g}</text>'
        )
        high += 18
    return "".join(parts), high


def lines(across: Sequence[str], values: Mapping[str, Line]) -> tuple[str, int]:
    """A line for each row of numbers over equal steps, with a logarithmic height, and the height of the drawing."""
    every = [value for line in values.values() for value in line if value]
    low, top = floor(log10(min(every))), ceil(log10(max(every)))
    step = (WIDE - LEFT - 28) / max(1, len(across) - 1)

    def x(place: int) -> float:
        return LEFT + 6 + place * step

    def y(value: float) -> float:
        return 10 + (top - log10(value)) / max(1, top - low) * (HIGH - 40)

    parts = []
    for power in range(low, top + 1):
        at = y(10.0**power)
        parts.append(
            f'<path class="rule" d="M{LEFT} {at:.1f}H{WIDE - 8}"/>'
            f'<text class="soft" x="{LEFT - 6}" y="{at + 4:.1f}" text-anchor="end">{10.0**power:,.6g}</text>'
        )
    for place, label in enumerate(across):
        parts.append(f'<text class="soft" x="{x(place):.1f}" y="{HIGH - 8}" text-anchor="middle">{label}</text>')
    for number, line in enumerate(values.values()):
        points = [(x(place), y(value)) for place, value in enumerate(line) if value]
        way = "L".join(f"{across:.1f} {up:.1f}" for across, up in points)
        parts.append(f'<path class="line line-{number}"{_dashes(number)} d="M{way}"/>')
        parts.extend(f'<circle class="dot line-{number}" cx="{a:.1f}" cy="{b:.1f}" r="3"/>' for a, b in points)
    for number, label in enumerate(values):  # a key of its own: the lines' ends are too close together for names
        at = HIGH + 12 + number * 22
        parts.append(
            f'<path class="line line-{number}"{_dashes(number)} d="M{LEFT} {at}H{LEFT + 40}"/>'
            f'<text x="{LEFT + 48}" y="{at + 4}">{escape(label)}</text>'
        )
    return "".join(parts), HIGH + 12 + len(values) * 22


def _dashes(number: int) -> str:
    return f' stroke-dasharray="{DASHES[number]}"' if DASHES[number] else ""


def figure(name: str, title: str, unit: str, command: str, told: str, drawn: tuple[str, int]) -> str:
    """A drawing with its title, its unit, the command that gives its numbers again, and the numbers in words."""
    body, high = drawn
    return (
        f'<figure class="plotted"><svg xmlns="http://www.w3.org/2000/svg" class="plot" viewBox="0 0 {WIDE} {high}" '
        f'role="img" aria-labelledby="plot-{name}"><title id="plot-{name}">{escape(f"{title}: {unit}. {told}")}</title>'
        f"{body}</svg><figcaption><strong>{escape(title)}</strong>, {escape(unit)}. "
        f"Again with <code>{escape(command)}</code>.</figcaption></figure>"
    )
