"""A chart's rows in words as one text, for the command and for scripts."""

from lintarsia.chart import HOUSE_RECKONING, Chart, Reckoning
from lintarsia.written.formats import FORMATS
from lintarsia.written.page import rows_page
from lintarsia.written.shapingphrases import Terms
from lintarsia.written.writer import Style


def rows_in_words(
    chart: Chart,
    format: str = "text",
    *,
    terms: str = Terms.AMERICAN,
    supplies: Reckoning | None = None,
    first: int = 1,
    last: int | None = None,
    in_full: bool = False,
) -> str:
    """The rows `first` to `last` (None: all there are), as `text`, `markdown` or `html`.

    `terms` are `american` or `british`. With `supplies`, each supply is named, as planned by that reckoning. `in_full`
    folds no repeats and merges no rows.
    Raises ValueError for rows that the chart does not have.
    """
    plan, reckoning = None, supplies or HOUSE_RECKONING
    if supplies is not None:
        from lintarsia.planning.planner import make_plan

        plan = make_plan(chart, reckoning)
    style = Style(fold=not in_full, stars=not in_full, merge=not in_full, terms=Terms(terms))
    return FORMATS[format](
        rows_page(chart, plan=plan, first=first, last=last, style=style, allowance=reckoning.allowance)
    )
