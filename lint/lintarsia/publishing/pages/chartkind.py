"""The template of a chart's page, filled in once for all pages of a kind."""

from functools import lru_cache
from typing import NamedTuple

from lintarsia.chart import Wearer
from lintarsia.publishing.pages.cutting import Cut, Marks
from lintarsia.publishing.pages.saying import GAPS
from lintarsia.publishing.pages.templates import fill
from lintarsia.telling.languages import ENGLISH


class PageKind(NamedTuple):
    """What the template of a chart's page may ask about: pages of one kind differ in their texts alone."""

    word: str  # "row" or "round"
    layers: tuple[tuple[str, str], ...]  # name and words of each that the drawing has
    apart: bool  # the wrong side and the paths of the yarns are pictures of their own
    sheets: int  # 2 stands for any number above 1
    lying: bool  # the sheets lie on their side
    wearer: Wearer | None
    gauge_assumed: bool
    sewn: bool
    ends_listed: bool
    winding: bool  # something is to be wound
    on_balls: bool  # some supply stays on its ball
    parted: bool  # the work is in two sides somewhere
    turned: bool  # a tube that is turned at the end of every row
    rests: bool  # in some row more supplies hang than any row works with
    repeats: bool = False  # the chart has a repeat, so its figures are no measure to buy by
    in_rows: bool = True  # rows are worked back and forth
    ends_in_table: bool = True
    changed: bool = False  # there is a page of changes
    said: bool = False  # test knitters have said something of it
    says: bool = True  # they can say something of it here
    judged: bool = True  # what was found is told, and where that leads
    language: str = ENGLISH


# Texts of a page, by the names that the template has for them.
_MARKS = Marks(
    "slug", "sprite", "crumb", "around", "pattern", "title", "heading", "summary", "state", "state_mark", "verdict",
    "guide_to_infants",
    "guide_to_techniques", "guide_to_hands", "guide_to_garments", "drawing", "supplies", "fullest", "hanging", "fabric",
    "back", "back_drawing", "paths",
    "fabric_width", "fabric_height", "paths_width", "paths_height", "key", "results", "size", "gauge", "allowed",
    "gauge_word", "ends", "yarn", "allowance", "yarns", "number_of_sheets", "sheets", "winding", "on_balls", "ways",
    "rows", "sewn", "number_of_ends", "list_of_ends", "fingerprint", "row_marks", "stamp", "data", "beside",
    "since", "changes", "earlier", "said", *GAPS,
)  # fmt: skip


@lru_cache(maxsize=64)  # a site has a handful
def cut_of(kind: PageKind) -> Cut:
    return _MARKS.cut(fill("chart.html", kind=kind, page=_MARKS))
