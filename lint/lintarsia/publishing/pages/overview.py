"""The page that shows every chart: a wall of swatches, and the same as a table. What blocks release comes first."""

from collections import Counter
from collections.abc import Sequence

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.swatches import swatch, table_row
from lintarsia.publishing.pages.templates import fill
from lintarsia.telling.counts import count

# Name to sort by, heading, whether it is a number.
COLUMNS = (
    ("title", "Chart", False),
    ("state", "State", False),
    ("stitches", "Stitches × rows", True),
    ("area", "Size", True),
    ("technique", "Technique", False),
    ("supplies", "Supplies", True),
    ("fullest", "Fullest row", True),
    ("ends", "Ends", True),
    ("metres", "Yarn", True),
    ("errors", "Errors", True),
    ("warnings", "Warnings", True),
    ("notes", "Notes", True),
)


def overview_page(title: str, entries: Sequence[Entry], layout: Layout) -> str:
    """The overview's content as HTML."""
    page = layout.overview
    titles = Counter(entry.title for entry in entries)
    wall, rows = [], []
    for number, entry in enumerate(sorted(entries, key=lambda entry: entry.order)):
        link = layout.link(page, layout.chart(entry.slug))
        picture = layout.file_link(page, layout.fabric(entry.cover))
        file = entry.file if titles[entry.title] > 1 and entry.file != entry.title else ""
        wall.append(swatch(number, entry, link, picture, file))
        rows.append(table_row(number, entry, link, file))
    return fill(
        "overview.html",
        title=title,
        counted=_counted(entries),
        blocked=sum(1 for entry in entries if entry.tally.blocks),
        techniques=sorted({entry.figures.technique for entry in entries if entry.figures}),
        columns=COLUMNS,
        wall="".join(wall),
        rows="".join(rows),
    )


def _counted(entries: Sequence[Entry]) -> str:
    """`9 charts`, `9 charts and 1 pattern`"""
    patterns = sum(entry.pattern for entry in entries)
    charts = count(len(entries) - patterns, "chart")
    return f"{charts} and {count(patterns, 'pattern')}" if patterns else charts
