"""The page that shows every chart: a wall of swatches, and the same as a table. What blocks release comes first."""

from collections import Counter
from collections.abc import Sequence

from lintarsia.ground.kinds import Kind
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.swatches import swatch, table_row
from lintarsia.publishing.pages.templates import fill
from lintarsia.telling.counts import count, one_and_all
from lintarsia.telling.languages import marked, phrase

# Name to sort by, heading, whether it is a number.
COLUMNS: tuple[tuple[str, str, bool], ...] = (
    ("title", marked("Chart")[0], False),
    ("state", marked("State")[0], False),
    ("stitches", marked("Stitches × rows")[0], True),
    ("area", marked("Size")[0], True),
    ("technique", marked("Technique")[0], False),
    ("supplies", marked("Supplies")[0], True),
    ("fullest", marked("Fullest row")[0], True),
    ("ends", marked("Ends")[0], True),
    ("metres", marked("Yarn")[0], True),
    ("errors", marked("Errors")[0], True),
    ("warnings", marked("Warnings")[0], True),
    ("notes", marked("Notes")[0], True),
)


JUDGED = frozenset({"state", "errors", "warnings", "notes"})


def overview_page(title: str, entries: Sequence[Entry], layout: Layout, *, public: bool = False) -> str:
    """The overview's content as HTML; for a `public` site, by title and without what was found."""
    page = layout.overview
    titles = Counter(entry.title for entry in entries)
    wall, rows = [], []
    for number, entry in enumerate(sorted(entries, key=_by_title if public else lambda entry: entry.order)):
        link = layout.link(page, layout.chart(entry.slug))
        picture = layout.file_link(page, layout.fabric(entry.cover))
        file = entry.file if not public and titles[entry.title] > 1 and entry.file != entry.title else ""
        wall.append(swatch(number, entry, link, picture, file, public=public))
        rows.append(table_row(number, entry, link, file, public=public))
    return fill(
        "overview.html",
        title=title,
        public=public,
        how_many=_counted(entries),
        blocked=sum(1 for entry in entries if entry.tally.blocks),
        techniques=sorted({entry.figures.technique for entry in entries if entry.figures}),
        columns=[(name, phrase(told), n) for name, told, n in COLUMNS if not (public and name in JUDGED)],
        wall="".join(wall),
        rows="".join(rows),
    )


def _by_title(entry: Entry) -> tuple[bool, str, str]:
    """What gathers others first, as patterns do."""
    return (entry.kind.whole, entry.title.casefold(), entry.slug)


def _counted(entries: Sequence[Entry]) -> str:
    """`9 charts`, `9 charts and 1 pattern`"""
    by_kind = Counter(entry.kind for entry in entries)
    if not by_kind:
        return count(0, Kind.CHART.noun)
    return one_and_all([count(by_kind[kind], kind.noun) for kind in Kind if kind in by_kind])
