"""The page that shows every chart: a wall of swatches, and the same as a table. What blocks release comes first."""

from collections.abc import Sequence

from markupsafe import Markup

from lintarsia.publishing.chartpage import verdict
from lintarsia.publishing.entry import Entry
from lintarsia.publishing.layout import Layout
from lintarsia.publishing.templates import fill
from lintarsia.publishing.words import count

# Name to sort by ("" where sorting says nothing), heading, whether it is a number.
COLUMNS = (
    ("order", "State", False),
    ("title", "Chart", False),
    ("stitches", "Stitches × rows", True),
    ("", "Size", True),
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
    return fill(
        "overview.html",
        title=title,
        counted=_counted(entries),
        entries=sorted(entries, key=lambda entry: entry.order),
        blocked=sum(1 for entry in entries if entry.blocks),
        techniques=sorted({entry.figures.technique for entry in entries if entry.figures}),
        columns=COLUMNS,
        link=lambda entry: layout.link(page, layout.chart(entry.slug)),
        picture=lambda entry: layout.file_link(page, layout.picture(entry.cover, "fabric.svg")),
        verdict=verdict,
        facts=_facts,
    )


def _counted(entries: Sequence[Entry]) -> str:
    """`9 charts`, `9 charts and 1 pattern`"""
    patterns = sum(entry.pattern for entry in entries)
    charts = count(len(entries) - patterns, "chart")
    return f"{charts} and {count(patterns, 'pattern')}" if patterns else charts


def _facts(entry: Entry) -> Markup:
    """What the script sorts and filters by, as `data-` attributes."""
    facts: dict[str, object] = {
        "title": entry.title,
        "file": entry.file,
        "state": entry.state,
        "errors": entry.errors,
        "warnings": entry.warnings,
        "notes": entry.notes,
    }
    if entry.figures:
        f = entry.figures
        facts |= {
            "technique": f.technique,
            "stitches": f.stitches * f.rows,
            "supplies": f.supplies,
            "fullest": f.fullest,
            "ends": f.ends,
            "metres": f.metres,
        }
    return Markup("").join(Markup(' data-{}="{}"').format(name, value) for name, value in facts.items())
