"""words/wrong-count: the stitch count given in brackets against the chart."""

from collections.abc import Iterator

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.telling import stitch_count

Options = NoOptions
INFO = RuleInfo(
    name="words/wrong-count",
    level=Level.ERROR,
    summary="the stitch count given with a written row is not that of the chart",
    why=(
        "Knitters count after a row and compare. A count that is wrong in print sends them looking for a mistake they "
        "have not made, often by ripping back."
    ),
    remedy="give the count that the row has when it is finished, or mend the row",
    keys={"wrong-count": "the count in brackets differs from the stitches of the charted row"},
    sources=("common practice: counts are given for the end of the row",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose count is stated and wrong."""
    for row in work.written:
        if row.spoken is None or row.made is None or row.spoken.stated is None:
            continue
        stated, charted, made = row.spoken.stated, len(row.charted), len(row.symbols)
        if stated != charted:
            words = "" if made == charted else f", and the words come to {made}"
            message = (
                f"{work.chart.row_name(row.row)} is said to have {stitch_count(stated)}; the chart has {charted}{words}"
            )
            yield Finding("wrong-count", message, row.region, row.row, pattern=row.words)
