"""What a chart's page stands among, and what state of the chart it shows."""

from dataclasses import dataclass
from typing import NamedTuple

from lintarsia.publishing.pages.edgenotes import NO_NOTES, EdgeNotes
from lintarsia.publishing.pages.layout import Layout
from lintarsia.telling.languages import phrase


class StateShown(NamedTuple):
    """What state of a chart its page shows: `stamp` in words; a revision that its page of changes begins with, and the
    slug of that page; what those are told who began with an earlier state, as HTML; "" where there is none."""

    stamp: str = ""
    since: str = ""
    changes: str = ""
    earlier: str = ""


@dataclass(frozen=True, slots=True)
class Setting:
    """What a chart's page stands among: the way up and what is around it (HTML); the slug of the pattern that it is a
    piece of, ""; whether it tells what was found in the chart; how the piece begins and ends."""

    crumb: str
    around: str = ""
    heading: str = ""  # as HTML, where it is not the chart's title alone
    pattern: str = ""
    judged: bool = True
    edges: EdgeNotes = NO_NOTES


def crumb(layout: Layout, page: str, words: str = "") -> str:
    """The way up from a page to all of them."""
    return f'<a class="home" href="{layout.link(page, layout.overview)}">{words or phrase("All charts")}</a>'
