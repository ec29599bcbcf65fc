"""The drawn figures of the page on speed: bars and lines as SVG, from the numbers in speed.yaml and nothing else."""

from html import escape
from math import log10
from pathlib import Path
from typing import Any

import yaml

FIGURES: dict[str, dict[str, Any]] = yaml.safe_load(Path(__file__).with_name("speed.yaml").read_text(encoding="utf-8"))
WIDE, LINE, MARGIN = 360, 44, 4
STEP, LEFT, HIGH = 70, 44, 230  # of the drawn lines
DASHES = ("", "7 4", "2 4", "10 3 2 3")  # never colour alone


def plot(name: str) -> str:
    """A figure as SVG with its title, its unit and the command that gives its numbers again."""
    figure = FIGURES[name]
    body, high = _bars(figure) if "bars" in figure else _lines(figure)
    told = f"{figure['title']}: {figure['unit']}. {_in_words(figure)}"
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="plot" viewBox="0 0 {WIDE} {high}" role="img" '
        f'aria-labelledby="plot-{name}"><title id="plot-{name}">{escape(told)}</title>{body}</svg>'
    )
    caption = (
        f"<strong>{escape(figure['title'])}</strong>, {escape(figure['unit'])}. "
        f"Again with <code>{escape(figure['command'])}</code>."
    )
    return f'<figure class="plotted">{svg}<figcaption>{caption}</figcaption></figure>'


def figures_table(name: str) -> str:
    """The same numbers as a Markdown table."""
    figure = FIGURES[name]
    if "bars" in figure:
        return "| | ratio |\n|---|---|\n" + "".join(f"| {k} | {v} |\n" for k, v in figure["bars"].items())
    head = f"| stitches | {' | '.join(figure['across'])} |\n|---|{'---|' * len(figure['across'])}\n"
    return head + "".join(f"| {k} | {' | '.join(values)} |\n" for k, values in figure["lines"].items())


def _in_words(figure: dict[str, Any]) -> str:
    if "bars" in figure:
        return ", ".join(f"{k} {v}" for k, v in figure["bars"].items())
    return "; ".join(f"{k}: {', '.join(values)}" for k, values in figure["lines"].items())


def _bars(figure: dict[str, Any]) -> tuple[str, int]:
    values = {label: float(value) for label, value in figure["bars"].items()}
    room = WIDE - 2 * MARGIN - 44
    most = max(*values.values(), figure.get("aim", 0))
    parts = []
    for number, (label, value) in enumerate(values.items()):
        y, wide = number * LINE, value / most * room
        parts.append(
            f'<text x="{MARGIN}" y="{y + 15}">{escape(label)}</text>'
            f'<rect class="bar" x="{MARGIN}" y="{y + 20}" width="{wide:.1f}" height="14" rx="3"/>'
            f'<text class="value" x="{MARGIN + wide + 6:.1f}" y="{y + 32}">{escape(figure["bars"][label])}</text>'
        )
    high = len(values) * LINE
    if "aim" in figure:
        x = MARGIN + figure["aim"] / most * room
        parts.append(
            f'<path class="aim" d="M{x:.1f} 0V{high}"/>'
            f'<text class="soft" x="{x - 4:.1f}" y="{high + 13}" text-anchor="end">the aim: {figure["aim"]}</text>'
        )
        high += 18
    return "".join(parts), high


def _lines(figure: dict[str, Any]) -> tuple[str, int]:
    lines = {label: [float(value) for value in values] for label, values in figure["lines"].items()}
    every = [value for values in lines.values() for value in values]
    low, top = int(log10(min(every)) // 1), int(-(-log10(max(every)) // 1))

    def y(value: float) -> float:
        return 10 + (top - log10(value)) / (top - low) * (HIGH - 40)

    parts = []
    for power in range(low, top + 1):
        at = y(10.0**power)
        parts.append(
            f'<path class="rule" d="M{LEFT} {at:.1f}H{LEFT + 3 * STEP + 8}"/>'
            f'<text class="soft" x="{LEFT - 6}" y="{at + 4:.1f}" text-anchor="end">{10.0**power:g}</text>'
        )
    for number, label in enumerate(figure["across"]):
        x = LEFT + 4 + number * STEP
        parts.append(f'<text class="soft" x="{x}" y="{HIGH - 8}" text-anchor="middle">{label}</text>')
    for number, values in enumerate(lines.values()):
        way = "L".join(f"{LEFT + 4 + i * STEP} {y(value):.1f}" for i, value in enumerate(values))
        dashes = f' stroke-dasharray="{DASHES[number]}"' if DASHES[number] else ""
        parts.append(f'<path class="line line-{number}"{dashes} d="M{way}"/>')
        parts.extend(
            f'<circle class="dot line-{number}" cx="{LEFT + 4 + i * STEP}" cy="{y(value):.1f}" r="3"/>'
            for i, value in enumerate(values)
        )
    for number, label in enumerate(lines):  # a key of its own: the lines' ends are too close together for names
        at = HIGH + 12 + number * 22
        dashes = f' stroke-dasharray="{DASHES[number]}"' if DASHES[number] else ""
        parts.append(
            f'<path class="line line-{number}"{dashes} d="M{LEFT} {at}H{LEFT + 40}"/>'
            f'<text x="{LEFT + 48}" y="{at + 4}">{escape(label)}</text>'
        )
    return "".join(parts), HIGH + 12 + len(lines) * 22
