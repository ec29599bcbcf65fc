"""float/stacked: long floats of neighbouring rows that would be caught in the same place."""

from collections.abc import Iterator

from lintarsia.chart.grid import row_number
from lintarsia.result import Basis, Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.citing import FLOATS_TRAPPED
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.rules.shared.planned import stretch
from lintarsia.telling.names import row_word

Options = NoOptions
INFO = RuleInfo(
    name="float/stacked",
    level=Level.NOTE,
    summary="floats of two rows, one above the other, would be caught between the same two stitches",
    why=(
        "A float too long to lie loose is caught behind a stitch on its way. Caught between the same two stitches row "
        "after row, the strands stack up to a ridge, and the colour peeps through to the right side in a column."
    ),
    remedy="catch the float a stitch or two earlier or later than in the row below",
    keys={"same-place": "evenly spaced catches of two neighbouring rows fall between the same two stitches"},
    sources=(f"{FLOATS_TRAPPED}: not between the same two stitches on successive rows",),
    judges_by=frozenset({Basis.SYMBOLS}),
    subjects=(Kind.CHART, Kind.PATTERN),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each place and pair of rows, at the two stitches of the upper row. Floats longer than the
    limit are caught (float/too-long says which those are), or as often as the file says.
    """
    chart, threads = work.chart, work.plan.threads
    if not threads.cover.same_row.any():
        return
    from lintarsia.planning.catches import catches

    places: dict[tuple[int, int, int], int] = {}
    word = row_word(chart)
    most = work.bounds.float_stitches if chart.caught_stitches is None else chart.caught_stitches
    for caught in catches(chart, threads, most):
        below = places.get((caught.row - 1, caught.left, caught.right))
        places[caught.row, caught.left, caught.right] = caught.run
        if below is None:
            continue
        row = row_number(caught.row)
        place = stretch(chart, row, caught.left, caught.right)
        low, high = place.stitches
        message = (
            f"the long floats of {word}s {row - 1} and {row} would both be caught between stitches {low} and {high}"
        )
        yield Finding("same-place", message, place.region, row, place.stitches, pattern=place.text)


check_pattern = on_pieces(INFO.name, check)
