"""words/wrong-count: how many stitches a written row comes to, and says it comes to, against the chart."""

from collections.abc import Iterator

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.counts import stitch_count

Options = NoOptions
INFO = RuleInfo(
    name="words/wrong-count",
    level=Level.ERROR,
    summary="a written row has, or is said to have, another count of stitches than the chart",
    why=(
        "A row that comes to a stitch too few or too many cannot be worked into the one below. Knitters count after a "
        "row and compare, too: a count that is wrong in print sends them looking for a mistake they have not made, "
        "often by ripping back."
    ),
    remedy="give the count that the row has when it is finished, or mend the row",
    keys={
        "wrong-count": "the count in brackets differs from the stitches of the charted row",
        "words-come-to": "no count is given, and the words come to another one than the charted row has",
    },
    sources=("common practice: counts are given for the end of the row",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row whose stated count is wrong, or that states none and whose words come to a wrong one.
    Where a repeat does not come out even the words come to no count at all: words/mismatch says so.
    """
    for row in work.written:
        if row.spoken is None or row.made is None:
            continue
        name, stated = work.chart.row_name(row.row), row.spoken.stated
        charted, made = len(row.charted), len(row.symbols)
        if stated is not None and stated != charted:
            words = "" if made == charted else f", and the words come to {made}"
            message = f"{name} is said to have {stitch_count(stated)}; the chart has {charted}{words}"
            yield Finding("wrong-count", message, row.region, row.row, pattern=row.words)
        elif stated is None and made != charted and not row.made.uneven:
            message = f"the words of {name} come to {stitch_count(made)}; the chart has {charted}"
            yield Finding("words-come-to", message, row.region, row.row, pattern=row.words)
