"""The `supplies:` section written into a chart file's text, everything else left to the last blank as it was."""

from collections.abc import Iterator, Mapping, Sequence
from math import ceil

from lintarsia.chart import Chart, StatedSupply
from lintarsia.chart.measure import Length
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.model import Plan
from lintarsia.reading.applying import edited
from lintarsia.reading.editing import Editing
from lintarsia.reading.source import CannotRead
from lintarsia.reading.tree import compose
from lintarsia.result import Edit
from lintarsia.telling.lengths import METRES_PER_YARD, is_imperial

Wanted = Mapping[str, Sequence[StatedSupply]]


def needed(chart: Chart, plan: Plan) -> dict[str, list[StatedSupply]]:
    """What the plan wants of each colour, in the order joined. Colours used in duplicate stitch only get one."""
    wanted: dict[str, list[StatedSupply]] = {symbol: [] for symbol in plan.colours}
    unit = "yd" if is_imperial(chart) else "m"
    for supply in plan.supplies:
        value = supply.metres / (METRES_PER_YARD if unit == "yd" else 1)
        wanted[supply.colour].append(StatedSupply(supply.holder, _length(value, unit)))
    for patch in chart.duplicate:
        stated = chart.supplies.get(patch.colour) if chart.supplies else None
        if patch.colour not in wanted and not (stated and stated.count):
            wanted[patch.colour] = [StatedSupply()]
    return {symbol: wanted[symbol] for symbol in sorted(wanted, key=chart.grid.symbols.index)}


def _length(value: float, unit: str) -> Length:
    return Length(ceil(value * 10 - 1e-9) / 10, unit)


def state_supplies(text: str, wanted: Wanted) -> str:
    """The text with its `supplies:` section as wanted. Raises Trouble where that cannot be done by adding alone."""
    editor = _editor(text)
    if editor.keys(("colours",)) is None:
        raise Trouble("the file has no colours: section; nothing was written")
    edits = _mend(editor, wanted) if "supplies" in (editor.keys() or ()) else [_new_section(editor, wanted)]
    return edited(text, [_certain(edit) for edit in edits])


def _editor(text: str) -> Editing:
    try:
        return Editing(compose(text), text)
    except CannotRead as error:
        mapping = error.finding.key in ("empty", "not-a-mapping")
        raise Trouble(f"the file is {'no mapping of keys' if mapping else 'not YAML'}; nothing was written") from None


def _certain(edit: Edit | None) -> Edit:
    if edit is None:
        raise Trouble("the layout of the file leaves a doubt where its supplies: belong; nothing was written")
    return edit


def _new_section(editor: Editing, wanted: Wanted) -> Edit | None:
    """Right below the colours, which it counts."""
    return editor.section_after("colours", "supplies", [_count(editor, symbol, wanted) for symbol in wanted])


def _count(editor: Editing, symbol: str, wanted: Wanted) -> str:
    """An entry; its key is spelled as among the colours, since YAML would take some symbols for something else."""
    return f"{editor.spelling(('colours', symbol)) or symbol}: {len(wanted[symbol])}"


def _mend(editor: Editing, wanted: Wanted) -> Iterator[Edit | None]:
    stated = editor.keys(("supplies",))
    if stated is None:
        raise Trouble("supplies: is no mapping of colours; nothing was written")
    for symbol, each in wanted.items():
        if symbol in stated:
            yield from _mend_colour(editor, symbol, each)
    missing = [_count(editor, symbol, wanted) for symbol in wanted if symbol not in stated]
    if missing:
        yield editor.adding(("supplies",), *missing)


def _mend_colour(editor: Editing, symbol: str, each: Sequence[StatedSupply]) -> Iterator[Edit | None]:
    path = ("supplies", symbol)
    have, said = editor.length(path), editor.value(path)
    if have is not None:
        yield from _mend_list(editor, symbol, have, each)
    elif said is None:
        raise Trouble(f"supplies: {symbol} is neither a count nor a list; nothing was written")
    elif said != str(len(each)):
        yield editor.replacing(path, str(len(each)))


def _mend_list(editor: Editing, symbol: str, have: int, each: Sequence[StatedSupply]) -> Iterator[Edit | None]:
    """Add what the list lacks; cut what it has too much, unless a comment would go with it."""
    path = ("supplies", symbol)
    if have > len(each) > 0:
        cut = editor.shortening(path, len(each))
        if cut is None:
            raise Trouble(f"supplies: {symbol} lists {have} and the plan needs {len(each)}; a comment is in the way")
        yield cut
    elif more := [f"{{holder: {supply.holder}, length: {supply.length}}}" for supply in each[have:]]:
        yield editor.adding(path, *more)
