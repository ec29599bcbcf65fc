"""A comparison as HTML: a file that stands alone, or the inside of a page of a site. Pictures are SVG."""

from collections.abc import Mapping
from html import escape

from lintarsia.comparing.model import Comparison
from lintarsia.comparing.outline import ChangeItem, FileChanges, Strip, headline, outline
from lintarsia.comparing.text import printable
from lintarsia.telling.counts import count
from lintarsia.written.sheet import html_sheet

CELL = 14  # px
LABEL = 28  # px that `was` and `now` take beside their rows


def comparison_html(comparison: Comparison) -> str:
    """A whole file that needs nothing else."""
    return html_sheet("Changes for the knitter", f"<h1>Changes for the knitter</h1>\n{comparison_body(comparison)}")


def comparison_body(comparison: Comparison, level: int = 2) -> str:
    """HTML for the inside of a page, headings from `h2` or what `level` says."""
    head = [f"<p>{_text(headline(comparison))}</p>"] if level == 2 else []
    return "\n".join([*head, *(_section(section, level) for section in outline(comparison))])


def _section(section: FileChanges, level: int) -> str:
    colours = {s: colour for chart in section.charts for s, colour in chart.colours.items()}
    shades = {symbol: colour.shade for symbol, colour in colours.items()}
    items = "".join(_item(item, shades) for item in section.items)
    heading = f"<h{level}>{_text(section.heading)}</h{level}>"
    parts = [heading, f"<p><strong>{_text(section.lead)}</strong></p>"]
    seen = "".join(strip.was + strip.now for item in section.items for strip in item.strips)
    key = " · ".join(f"{_text(symbol)} {_text(colour.name)}" for symbol, colour in colours.items() if symbol in seen)
    parts += [f'<p class="key">{key}</p>'] if key else []
    parts += [f'<ul class="changed-rows">{items}</ul>'] if items else []
    if section.figures:
        rows = "".join(
            f'<tr><th scope="row">{_text(what)}</th><td>{_text(was)}</td><td>{_text(now)}</td></tr>'
            for what, was, now in section.figures
        )
        head = '<tr><th scope="col">What it comes to</th><th scope="col">was</th><th scope="col">now</th></tr>'
        parts.append(f'<table class="was-now"><thead>{head}</thead><tbody>{rows}</tbody></table>')
    for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
        if results:
            lines = "".join(f"<li>{r.level}: {_text(r.message)} ({_text(r.rule)})</li>" for r in results)
            parts.append(f"<p>{title}:</p><ul>{lines}</ul>")
    return "\n".join(parts)


def _item(item: ChangeItem, shades: Mapping[str, str]) -> str:
    means = f"<br>If you are past it: {_text(item.means)}." if item.means else ""
    strips = "".join(_strip(strip, shades) for strip in item.strips)
    more = f"<p>and {count(item.left_out, 'more row')} of the kind</p>" if item.left_out else ""
    return f"<li>{_text(item.words)}{means}{strips}{more}</li>"


def _strip(strip: Strip, shades: Mapping[str, str]) -> str:
    words = "".join(
        f"<br>{label}: {_text(said)}" for label, said in (("was", strip.was_words), ("now", strip.now_words)) if said
    )
    return f"<figure>{strip_svg(strip, shades)}<figcaption>{_text(strip.label)}{words}</figcaption></figure>"


def strip_svg(strip: Strip, shades: Mapping[str, str]) -> str:
    """Was above now, stitch over stitch, as squares in their shades; those that differ have a line beneath."""
    both = (("was", strip.was, strip.was_words), ("now", strip.now, strip.now_words))
    rows = [(label, cells) for label, cells, _ in both if cells]
    said = "; ".join(f"{label}: {words or cells}" for label, cells, words in both if cells)
    wide, high = LABEL + max(len(cells) for _, cells in rows) * CELL, len(rows) * CELL + 5
    drawn = []
    for number, (label, cells) in enumerate(rows):
        top = number * CELL
        drawn.append(f'<text x="0" y="{top + CELL - 3.5}" text-anchor="start" fill="currentColor">{label}</text>')
        drawn += [_square(symbol, at, top, shades) for at, symbol in enumerate(cells)]
    drawn += [
        f'<rect x="{LABEL + at * CELL + 1}" y="{high - 4}" width="{CELL - 2}" height="3" fill="#c0392b"/>'
        for at, mark in enumerate(strip.marks)
        if mark == "^"
    ]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" width="{wide}" height="{high}" '
        f'role="img" aria-label="{_text(said)}" font-size="10" text-anchor="middle" font-family="sans-serif">'
        f"{''.join(drawn)}</svg>"
    )


def _square(symbol: str, at: int, top: int, shades: Mapping[str, str]) -> str:
    shade = shades.get(symbol)
    if shade is None:
        return ""
    left = LABEL + at * CELL
    return (
        f'<rect x="{left}" y="{top}" width="{CELL}" height="{CELL}" fill="{shade}" stroke="#777" stroke-width=".5"/>'
        f'<text x="{left + CELL / 2:g}" y="{top + CELL - 3.5}" fill="{_ink(shade)}">{_text(symbol)}</text>'
    )


def _ink(shade: str) -> str:
    """Black or white, whichever is read more easily on a shade (relative luminance, WCAG 2.2)."""
    red, green, blue = (int(shade[at : at + 2], 16) / 255 for at in (1, 3, 5))
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (red, green, blue)]
    return "#000" if 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2] > 0.179 else "#fff"


def _text(text: str) -> str:
    return escape(printable(text))
