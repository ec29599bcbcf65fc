"""supply/row-limit: a row that needs more supplies than hands can manage."""

from collections.abc import Iterator

import numpy as np

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.names import row_word

Options = NoOptions
INFO = RuleInfo(
    name="supply/row-limit",
    level=Level.ERROR,
    summary="a row needs more supplies than the limit",
    why=(
        "Every supply hangs from the needle and has to be laid out in order before the row. Beyond a handful the yarns "
        "spend more time being untangled than being knitted; many full balls in one row cannot be handled at all."
    ),
    remedy=(
        "join blocks of one colour, strand or duplicate-stitch the small ones, or raise `limits: supplies` if your "
        "knitters manage more"
    ),
    keys={"too-many-supplies": "the row works with more supplies than the limit"},
    sources=("many full balls in one row are awkward to handle: common practice; the limit of 8 is a house value",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose supplies, in the plan with the fewest, are more than `limits: supplies`."""
    chart, limit = work.chart, work.bounds.supplies
    needs, be = work.plan.threads.needs, "is" if limit == 1 else "are"
    for row in (np.flatnonzero(needs > limit) + 1).tolist():
        message = f"{row_word(chart)} {row} needs {needs[row - 1]} supplies; at most {limit} {be} allowed"
        text = chart.grid.rows[row - 1]
        yield Finding("too-many-supplies", message, chart.places.row(row), row, (1, len(text)), pattern=text)
