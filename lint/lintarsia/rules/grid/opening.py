"""grid/opening: an opening that the grid and `divide` disagree about, or that nothing divides."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.chart import Chart
from lintarsia.ground.kinds import Kind
from lintarsia.result import Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.pieces import on_pieces
from lintarsia.telling.counts import stitch_count

if TYPE_CHECKING:
    from lintarsia.chart.openings import Columns, OpeningFault

Options = NoOptions
INFO = RuleInfo(
    name="grid/opening",
    level=Level.ERROR,
    summary="an opening that the chart does not show as it is declared",
    why=(
        "Where the work is parted, each side is knitted with its own yarns, and no yarn crosses the opening. Which "
        "stitches are bound off or held, in which row, and where the sides begin has to be plain before yarn is wound."
    ),
    remedy="say in `divide` in which row and how the work is parted, and draw the opening as `.` from that row up",
    keys={
        "not-divided": "stitches are bound off in the middle of a row, and nothing parts the work",
        "no-opening": "the work is to be parted in a row that shows no opening",
        "several-openings": "more than one opening begins in the row",
        "parted-already": "the work is parted a second time while it is in two sides",
        "nothing-comes-off": "stitches are to be bound off or held, and the row below has none there",
        "stitches-left": "nothing is to be bound off, and stitches of the row below end in the opening",
        "other-number": "the inner edges say another number than the opening has stitches",
        "in-rounds": "a chart that is not worked flat is to be parted",
        "no-sides": "an inner edge is shaped in a row that is not parted",
    },
    sources=("common practice: each side of a neck is worked with its own yarn",),
    subjects=(Kind.CHART, Kind.PATTERN),
)

_KEYS = {  # by the value of an Amiss
    "in rounds": "in-rounds",
    "no opening": "no-opening",
    "several": "several-openings",
    "parted already": "parted-already",
    "nothing comes off": "nothing-comes-off",
    "stitches left": "stitches-left",
    "other number": "other-number",
}


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each parting that does not fit, for each bind-off in the middle of an undivided row, and for the
    first row of each stretch that shapes inner edges without being parted."""
    chart = work.chart
    if not chart.divide and not chart.shaping:
        return
    from lintarsia.rules.shared.taken_off import taken_off_inside

    for fault in work.sides.faults:
        yield _disagreement(chart, fault)
    for row, columns in taken_off_inside(work):
        yield _not_divided(chart, row, columns)
    yield from _no_sides(work)


check_pattern = on_pieces(INFO.name, check, outline=True)


def _disagreement(chart: Chart, fault: "OpeningFault") -> Finding:
    row = chart.row_name(fault.row)
    message, remedy = _told(chart, fault, row)
    region = chart.places.key("divide", str(fault.row))
    stitches = (1, len(chart.grid.rows[fault.row - 1]))
    pattern = f"{fault.amiss} {chart.grid.rows[fault.row - 1]}"
    fixes = _later(chart, fault)
    return Finding(_KEYS[fault.amiss], message, region, fault.row, stitches, None, remedy, fixes, pattern)


def _later(chart: Chart, fault: "OpeningFault") -> tuple[Fix, ...]:
    """The work parted where the opening is drawn to begin. Not safe: the opening may have been drawn too late."""
    if not fault.begins or fault.begins in chart.divide:
        return ()
    edit = Edit(chart.places.key("divide", str(fault.row)), str(fault.begins))
    return (Fix(f"part the work in row {fault.begins}, where the opening begins", (edit,), safe=False),)


def _told(chart: Chart, fault: "OpeningFault", row: str) -> tuple[str, str | None]:
    from lintarsia.chart.openings import Amiss

    below = chart.row_name(fault.row - 1) if fault.row > 1 else ""
    by = chart.divide[fault.row].by
    match fault.amiss:
        case Amiss.IN_ROUNDS:
            message = f"{row} is to be parted, and the chart is worked {_worked(chart)}; expected flat work"
            return message, "chart the parted rows as a chart of their own that is worked flat"
        case Amiss.NO_OPENING:
            message = f"{row} is to be parted and shows no squares without a stitch between its stitches"
            if fault.begins:
                message += f"; the opening begins in {chart.row_name(fault.begins)}"
            return (
                message,
                "draw the opening as `.` from this row up; for a slit, say `at:` which stitch it runs",
            )
        case Amiss.SEVERAL:
            message = f"{fault.found} openings begin in {row}; expected one"
            return message, "say `at:` which stitch of the right-hand side stands next to the opening"
        case Amiss.PARTED_ALREADY:
            return f"{row} is to be parted and {below} is in two sides already; expected one opening at a time", None
        case Amiss.NOTHING_COMES_OFF:
            done = "bound off" if by == "bind-off" else "held"
            expected = f"some of {below}" if below else "stitches of a row below it"
            message = f"the opening of {row} has no stitches below it; expected {expected} to be {done}"
            if fault.begins:
                message += f"; it begins in {chart.row_name(fault.begins)}"
            where = f"row {fault.begins}," if fault.begins else "the row"
            return message, f"write `by: nothing`, or part the work in {where} where the stitches end"
        case Amiss.STITCHES_LEFT:
            message = f"{stitch_count(fault.found)} of {below} end in the opening of {row}; expected none, by: nothing"
            return message, "write `by: bind-off` or `by: hold`, or say in `shaping` how many the inner edges lose"
        case Amiss.OTHER_NUMBER:
            message = f"the opening of {row} has {stitch_count(fault.found)}; its edges in `shaping` say {fault.stated}"
            return message, "leave the opening's own stitches out of `shaping`: `divide` counts them from the grid"


def _worked(chart: Chart) -> str:
    return "in rounds" if chart.worked == "round" else "as a tube that is turned"


def _not_divided(chart: Chart, row: int, columns: "Columns") -> Finding:
    first, last = chart.grid.stitch(columns[1] - 1), chart.grid.stitch(columns[0])
    below = chart.row_name(row - 1)
    message = (
        f"stitches {first}–{last} of {below} end in the middle of {chart.row_name(row)}, and nothing parts the work; "
        "expected `divide`"
    )
    remedy = f"say how the work is parted: `divide: {{{row}: {{by: bind-off, sides: together}}}}`, or by: hold"
    region = chart.places.cells(row, first, last)
    pattern = chart.grid.rows[row - 1]
    return Finding("not-divided", message, region, row, (first, last), None, remedy, _dividing(chart, row), pattern)


def _dividing(chart: Chart, row: int) -> tuple[Fix, ...]:
    """The usual parting written down. Not safe: a neck may as well be held, or worked one side after the other."""
    editor = chart.places.editor
    if editor is None or chart.divide:
        return ()
    edit = editor.section_before("chart", ("divide:", f"  {row}: {{by: bind-off, sides: together}}"))
    told = f"part the work in row {row}: bound off between the sides, both worked together"
    return (Fix(told, (edit,), safe=False),) if edit else ()


def _no_sides(work: Work) -> Iterator[Finding]:
    """The first of each run of shaped rows whose inner edges are not there. Stitches that close an opening may be."""
    chart, told = work.chart, False
    for row, shaping in sorted(chart.shaping.items()):
        if not (shaping.neck_left or shaping.neck_right):
            continue
        parted = work.sides.opening(row) or work.sides.opening(row - 1) or row in chart.divide
        if not parted and not told:
            edge = "neck-left" if shaping.neck_left else "neck-right"
            message = f"{chart.row_name(row)} is shaped at {edge}, and the row is not in two sides"
            remedy = "say in `divide` from which row up the work is parted, or name the edge left or right"
            region = chart.places.key("shaping", str(row))
            stitches = (1, len(chart.grid.rows[row - 1]))
            yield Finding("no-sides", message, region, row, stitches, remedy=remedy, pattern=chart.grid.rows[row - 1])
        told = not parted
