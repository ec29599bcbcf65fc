"""The winding list and the ends list as table rows.

Put together here rather than in a template, like the rows of a chart: they are half of a page's small parts. Every text
that comes from the chart is escaped where its part is made.
"""

from collections.abc import Sequence

from lintarsia.publishing.chartview import EndLine, WindLine
from lintarsia.publishing.drawing.svg import escape
from lintarsia.publishing.words import count


def winding_html(lines: Sequence[WindLine], chips: Sequence[str]) -> str:
    """A `<tr>` for every supply to wind, or for every kind where they are gathered."""
    names = {line.name: escape(line.name) for line in lines}
    return "\n".join([_wind(number, line, names[line.name], chips) for number, line in enumerate(lines, 1)])


def _wind(number: int, line: WindLine, name: str, chips: Sequence[str]) -> str:
    known, holder = escape(line.id), escape(line.holder)
    marks = f' data-supply="{known}" data-colour="{name}" data-holder="{holder}"' if known else ""
    return (
        f'<tr{marks}><td class="tick"><label><input type="checkbox" data-tick="{known or number}">'
        f'<span class="aside">wound: {known or name}</span></label></td>'
        f'<th scope="row">{known or count(line.number, "supply", "supplies")}</th><td>{chips[line.key]} {name}</td>'
        f'<td class="n">{escape(line.length)}</td><td>{holder}</td><td>{escape(line.where)}</td></tr>'
    )


def ends_html(lines: Sequence[EndLine], chips: Sequence[str]) -> str:
    """A `<tr>` for every end to weave in."""
    return "\n".join([_end(line, chips) for line in lines])


def _end(line: EndLine, chips: Sequence[str]) -> str:
    supply = escape(line.supply)
    what = ("joined" if line.kind == "join" else "finishes") + (", closes the gap" if line.closes_gap else "")
    along = f"the edge with {escape(line.along)}" if line.along else "the edge of the piece"
    return (
        f'<tr><td class="tick"><label><input type="checkbox" data-tick="{supply}-{line.kind}">'
        f'<span class="aside">woven in: {supply}, {line.kind}</span></label></td>'
        f'<th scope="row">{chips[line.key]} {supply}</th><td class="n"><a href="#row-{line.row}">{line.row}</a></td>'
        f'<td class="n">{line.stitch}</td><td>{what}</td><td>{along}</td><td class="n">{escape(line.room)}</td></tr>'
    )
