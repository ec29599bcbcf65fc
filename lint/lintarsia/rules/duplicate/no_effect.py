"""duplicate/no-effect: duplicate stitches that change nothing, or cover each other."""

from collections.abc import Iterator

from lintarsia.chart import Chart
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.names import colour_and_symbol, row_word

Options = NoOptions
INFO = RuleInfo(
    name="duplicate/no-effect",
    level=Level.WARNING,
    summary="a duplicate stitch has no effect, or covers another",
    why=(
        "Duplicate stitch is laid over a knitted stitch of another colour. Over its own colour it only thickens the "
        "fabric, and over another duplicate stitch it makes a lump: mostly the row or the stitch numbers are a slip, "
        "and the detail is missing where it was meant."
    ),
    remedy="correct its row, stitches or colour; the chart's grid shows what is knitted beneath",
    keys={
        "same-colour": "the knitted stitch already has the colour",
        "twice": "another duplicate stitch covers the same place",
    },
    sources=("duplicate stitch doubles the thickness: common practice",),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """At most one finding of each key for each entry of `duplicate-stitch`, at the entry's stitches in the file."""
    chart = work.chart
    covered: dict[tuple[int, int], int] = {}
    for index, entry in enumerate(chart.duplicate):
        if not 1 <= entry.row <= chart.grid.height:
            continue  # the reader has said so, as it does where there is no stitch to cover
        same, twice = [], []
        for stitch in range(entry.stitches[0], min(entry.stitches[1], chart.grid.width) + 1):
            if chart.grid.text(entry.row, stitch, stitch) == entry.colour:
                same.append(stitch)
            if covered.setdefault((entry.row, stitch), index) != index:
                twice.append(stitch)
        name, where = colour_and_symbol(chart, entry.colour), f"{row_word(chart)} {entry.row}"
        if same:
            yield _finding("same-colour", f"is over {name} already, at {_at(same)} of {where}", chart, index, same)
        if twice:
            first = covered[entry.row, twice[0]] + 1
            what = f"covers {_at(twice)} of {where}, which entry {first} of the list covers already"
            yield _finding("twice", what, chart, index, twice)


def _at(stitches: list[int]) -> str:
    if len(stitches) == 1:
        return f"stitch {stitches[0]}"
    return f"stitches {stitches[0]}–{stitches[-1]}"


def _finding(key: str, what: str, chart: Chart, index: int, stitches: list[int]) -> Finding:
    entry = chart.duplicate[index]
    region = chart.places.value("duplicate-stitch", index, "stitches")
    message = f"the duplicate stitch in {colour_and_symbol(chart, entry.colour)} {what}"
    place = (stitches[0], stitches[-1])
    return Finding(key, message, region, entry.row, place, pattern=f"{entry.colour} {place}")
