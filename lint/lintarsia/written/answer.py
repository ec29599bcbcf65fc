"""A chart's rows in words as one text, or those of several charts, for the command and for scripts."""

from collections.abc import Sequence

from lintarsia.chart import HOUSE_RECKONING, Chart, Reckoning
from lintarsia.telling.terms import Terms
from lintarsia.written.formats import FORMATS
from lintarsia.written.page import RowsPage, rows_page
from lintarsia.written.style import Style


def rows_in_words(
    chart: Chart,
    format: str = "text",
    *,
    terms: str = Terms.AMERICAN,
    supplies: Reckoning | None = None,
    first: int = 1,
    last: int | None = None,
    in_full: bool = False,
    reckoning: Reckoning = HOUSE_RECKONING,
) -> str:
    """The rows `first` to `last` (None: all there are), as `text`, `markdown` or `html`.

    `terms` are `american` or `british`. With `supplies`, each supply is named, as planned by that reckoning. `in_full`
    folds no repeats and merges no rows. `reckoning` is that of the settings, by which words without supplies know
    whether a yarn hangs on the work already.
    Raises ValueError for rows that the chart does not have.
    """
    style = style_of(terms, in_full=in_full, reckoning=reckoning)
    return FORMATS[format](chart.title, [page_of(chart, style, supplies, first, last)])


def pages_in_words(pages: Sequence[RowsPage], title: str, format: str) -> str:
    """Pages that are made already, as one text."""
    return FORMATS[format](title, pages)


def style_of(terms: str, *, in_full: bool, reckoning: Reckoning = HOUSE_RECKONING) -> Style:
    """How rows are written: the words that are used, and whether anything is folded or merged."""
    return Style(fold=not in_full, stars=not in_full, merge=not in_full, terms=Terms(terms), reckoning=reckoning)


def page_of(
    chart: Chart, style: Style, supplies: Reckoning | None, first: int = 1, last: int | None = None
) -> RowsPage:
    """The page of a chart; the arguments are those of `rows_in_words`."""
    plan, reckoning = None, supplies or HOUSE_RECKONING
    if supplies is not None:
        from lintarsia.planning.planner import make_plan

        plan = make_plan(chart, reckoning)
    return rows_page(chart, plan=plan, first=first, last=last, style=style, allowance=reckoning.allowance)
