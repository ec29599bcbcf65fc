"""The page of what has changed since a chart or pattern went out, and what its own page tells whoever began then."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from lintarsia.comparing import errata
from lintarsia.comparing.html import comparison_body
from lintarsia.comparing.model import ChartChange, Comparison
from lintarsia.comparing.telling import ToldChange, told
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.templates import escaped, fill
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH


@dataclass(frozen=True, slots=True)
class ChangesSince:
    """A revision that went out, its day, and what differs from it now."""

    revision: str
    day: str
    comparison: Comparison


def changes_page(title: str, slug: str, sections: Sequence[ChangesSince], dated: str, layout: Layout) -> str:
    """The page's content as HTML. `dated` is the day of the corrections (ISO 8601)."""
    page = layout.changes(slug)
    return fill(
        "changes.html",
        title=title,
        back=layout.link(page, layout.chart(slug)),
        dated=dated,
        sections=[_section(one) for one in sections],
    )


def _section(one: ChangesSince) -> tuple[ChangesSince, str, str]:
    """What differs and what is corrected, with rows in words: in English, as these are."""
    with speaking(ENGLISH):
        return one, comparison_body(one.comparison, level=3), errata.body(one.comparison, level=4)


def earlier_html(states: Iterable[tuple[str, ChartChange]]) -> str:
    """For the page's script: a list for each earlier state, with rows that came and went, and each change in words."""
    return "".join(_state(mark, change) for mark, change in states)


def _state(mark: str, change: ChartChange) -> str:
    come = [row.row for row in change.rows if row.was_row is None]
    gone = [row.was_row for row in change.rows if row.row is None]
    count = len(change.turned)  # the script says that itself, of the row where the knitter is
    lines = told(change)[: -count or None]
    items = "".join(_item(one) for one in lines)
    return f'<ul data-was="{mark}" data-come="{_numbers(come)}" data-gone="{_numbers(gone)}">{items}</ul>'


def _item(one: ToldChange) -> str:
    rows = _numbers([row.row for row in one.rows])
    before = _numbers([row.was_row for row in one.rows])
    means = f"<i>{escaped(one.means)}</i>" if one.means else ""
    return f'<li data-now="{rows}" data-before="{before}"><b>{escaped(one.words)}</b>{means}</li>'


def _numbers(rows: Iterable[int | None]) -> str:
    return " ".join(str(row) for row in rows if row is not None)
