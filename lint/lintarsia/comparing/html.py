"""A comparison as HTML: a file that stands alone, or the inside of a page of a site. Pictures are SVG."""

from collections.abc import Mapping
from html import escape

from lintarsia.comparing.model import Comparison
from lintarsia.comparing.outline import ChangeItem, FileChanges, Strip, headline, outline
from lintarsia.comparing.text import printable
from lintarsia.written.sheet import html_sheet

CELL = 14  # px


def comparison_html(comparison: Comparison) -> str:
    """A whole file that needs nothing else."""
    return html_sheet("Changes for the knitter", f"<h1>Changes for the knitter</h1>\n{comparison_body(comparison)}")


def comparison_body(comparison: Comparison) -> str:
    """HTML for the inside of a page, headings from `h2`."""
    parts = [f"<p>{_text(headline(comparison))}</p>", *map(_section, outline(comparison))]
    return "\n".join(parts)


def _section(section: FileChanges) -> str:
    shades = {s: colour.shade for chart in section.charts for s, colour in chart.colours.items()}
    items = "".join(_item(item, shades) for item in section.items)
    parts = [f"<h2>{_text(section.heading)}</h2>", f"<p><strong>{_text(section.lead)}</strong></p>"]
    parts += [f"<ul>{items}</ul>"] if items else []
    if section.figures:
        rows = "".join(
            f'<tr><th scope="row">{_text(what)}</th><td>{_text(was)}</td><td>{_text(now)}</td></tr>'
            for what, was, now in section.figures
        )
        head = '<tr><th scope="col">What it comes to</th><th scope="col">was</th><th scope="col">now</th></tr>'
        parts.append(f"<table><thead>{head}</thead><tbody>{rows}</tbody></table>")
    for title, results in (("New results", section.new), ("Results that are gone", section.gone)):
        if results:
            lines = "".join(f"<li>{r.level}: {_text(r.message)} ({_text(r.rule)})</li>" for r in results)
            parts.append(f"<p>{title}:</p><ul>{lines}</ul>")
    return "\n".join(parts)


def _item(item: ChangeItem, shades: Mapping[str, str]) -> str:
    means = f"<br>If you are past it: {_text(item.means)}." if item.means else ""
    strips = "".join(_strip(strip, shades) for strip in item.strips)
    more = f"<p>and {item.left_out} more rows of the kind</p>" if item.left_out else ""
    return f"<li>{_text(item.words)}{means}{strips}{more}</li>"


def _strip(strip: Strip, shades: Mapping[str, str]) -> str:
    parts = [f"<p>{_text(strip.label)}</p>"]
    for label, cells, words in (("was", strip.was, strip.was_words), ("now", strip.now, strip.now_words)):
        if cells:
            marks = strip.marks if label == "now" else ""
            said = f" {_text(words)}" if words else ""
            parts.append(f"<p>{label}: {row_svg(cells, marks, shades, f'{label}: {words or cells}')}{said}</p>")
    return "".join(parts)


def row_svg(cells: str, marks: str, shades: Mapping[str, str], title: str) -> str:
    """A row as squares in their shades; those that differ have a line beneath."""
    wide, high = len(cells) * CELL, CELL + 4
    drawn = []
    for at, symbol in enumerate(cells):
        if symbol in shades:
            drawn.append(
                f'<rect x="{at * CELL}" width="{CELL}" height="{CELL}" fill="{shades[symbol]}" stroke="#777" '
                f'stroke-width=".5"/><text x="{at * CELL + CELL / 2:g}" y="{CELL - 3.5}" fill="{_ink(shades[symbol])}">'
                f"{_text(symbol)}</text>"
            )
        if marks[at : at + 1] == "^":
            drawn.append(f'<rect x="{at * CELL + 1}" y="{CELL + 1}" width="{CELL - 2}" height="3" fill="#b00020"/>')
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}" width="{wide}" height="{high}" '
        f'role="img" aria-label="{_text(title)}" font-size="10" text-anchor="middle" font-family="sans-serif">'
        f"{''.join(drawn)}</svg>"
    )


def _ink(shade: str) -> str:
    """Black or white, whichever is read more easily on a shade (relative luminance, WCAG 2.2)."""
    red, green, blue = (int(shade[at : at + 2], 16) / 255 for at in (1, 3, 5))
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in (red, green, blue)]
    return "#000" if 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2] > 0.179 else "#fff"


def _text(text: str) -> str:
    return escape(printable(text))
