"""A comparison as people read it, whatever it is written on: headings, sentences, pictures and figures in order."""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.comparing.consequences import means_in_all
from lintarsia.comparing.model import (
    Bought,
    ChartChange,
    Comparison,
    FileChange,
    Numbers,
    PatternChange,
    PieceChange,
    RowChange,
    State,
)
from lintarsia.comparing.pairing import WORKING_TREE
from lintarsia.comparing.patterns import in_sizes
from lintarsia.comparing.telling import fact_words, motif_words, safe_words, told
from lintarsia.ground.values import dataclass
from lintarsia.result import Result
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import is_imperial, yarn_lengths

PICTURED = 4  # rows of a change that are shown; those between are alike
ROOM = 60  # stitches of a row that are shown
AROUND = 6  # stitches on either side of those that differ


@dataclass(frozen=True, slots=True)
class Strip:
    """A row in both states, from the chart's left to its right, as much of it as differs; "" where there is none.

    `marks` has `^` beneath the stitches that differ. `more`: the row goes on at the left, at the right.
    """

    label: str
    was: str
    now: str
    marks: str
    was_words: str = ""
    now_words: str = ""
    more: tuple[bool, bool] = (False, False)


@dataclass(frozen=True, slots=True)
class ChangeItem:
    """A change: what it is, what it means to whoever has knitted past it, and how it looks."""

    words: str
    means: str = ""
    strips: tuple[Strip, ...] = ()
    left_out: int = 0  # strips


@dataclass(frozen=True, slots=True)
class FileChanges:
    """What there is to say of a file. `figures` are (what, was, now); `shades` those of the symbols in the strips."""

    heading: str
    lead: str
    items: tuple[ChangeItem, ...] = ()
    figures: tuple[tuple[str, str, str], ...] = ()
    new: tuple[Result, ...] = ()
    gone: tuple[Result, ...] = ()
    charts: tuple[Chart, ...] = ()


def outline(comparison: Comparison) -> list[FileChanges]:
    """A section for each file of which there is anything to say."""
    sections = (_section(file) for file in comparison.files)
    return [s for s in sections if s is not None]


def headline(comparison: Comparison) -> str:
    """`from v1.0 to the working tree: 2 files differ, 1 was moved, 5 are the same`."""
    words = {State.CHANGED: "changed", State.ADDED: "new", State.REMOVED: "gone", State.MOVED: "moved"}
    number = {state: sum(file.state is state for file in comparison.files) for state in State}
    parts = [f"{number[state]} {word}" for state, word in words.items() if number[state]]
    parts += [f"{number[State.SAME]} the same"] if number[State.SAME] else []
    files = count(len(comparison.files), "file")
    told = f": {', '.join(parts)}" if parts else ""
    verdict = "" if comparison.differs else "; nothing differs for the knitter"
    new = "the working tree" if comparison.new == WORKING_TREE else comparison.new
    return f"From {comparison.old} to {new}, {files}{told}{verdict}."


def _section(file: FileChange) -> FileChanges | None:
    moved = f" (was {file.was_file})" if file.was_file != file.file else ""
    heading = f"{file.title or file.file}: {file.file}{moved}" if file.title else f"{file.file}{moved}"
    if file.state is State.SAME and not (file.new_results or file.gone_results):
        return None
    return FileChanges(
        heading,
        _lead(file),
        (*_chart_items(file.chart), *_pattern_items(file.pattern)),
        tuple(_figures(file)),
        file.new_results,
        file.gone_results,
        (file.chart.was, file.chart.now) if file.chart else (),
    )


def _lead(file: FileChange) -> str:
    """What a knitter wants to know first."""
    if "now" in file.unreadable:
        return "it cannot be read now" if "was" not in file.unreadable else "it can be read in neither state"
    if "was" in file.unreadable:
        return "it could not be read before"
    simple = {
        State.ADDED: "new",
        State.REMOVED: "gone",
        State.MOVED: "moved; nothing differs for the knitter",
        State.SAME: "nothing differs for the knitter",
    }
    if file.state in simple:
        return simple[file.state]
    return safe_words(file.chart) if file.chart is not None else _sizes_told(file.pattern)


def _sizes_told(pattern: PatternChange | None) -> str:
    changed = {} if pattern is None else pattern.changed
    if pattern is None or not changed:
        return "every piece is knitted as before"
    sizes = [size for size in pattern.sizes if any(size in own for own in changed.values())]
    return in_sizes(f"{count(len(changed), 'piece')} changed", sizes)


def _chart_items(change: ChartChange | None) -> Iterator[ChangeItem]:
    for one in told(change) if change is not None else ():
        assert change is not None
        shown = [*one.rows[: PICTURED - 1], one.rows[-1]] if len(one.rows) > PICTURED else list(one.rows)
        strips = tuple(strip(change, row) for row in shown)
        yield ChangeItem(one.words, one.means, strips, len(one.rows) - len(shown))


def strip(change: ChartChange, row: RowChange) -> Strip:
    """How a row looked and looks."""
    was = change.was.grid.rows[row.was_row - 1] if row.was_row else ""
    now = change.now.grid.rows[row.row - 1] if row.row else ""
    wide = max(len(was), len(now))
    first, last = (row.stitches[0][0], row.stitches[-1][1]) if row.stitches else (1, wide)
    low, high = max(1, first - AROUND), min(wide, last + AROUND)
    if wide <= ROOM:
        low, high = 1, wide
    high = min(high, low + ROOM - 1)
    marks = "".join(
        "^" if any(a <= stitch <= b for a, b in row.stitches) else " " for stitch in range(high, low - 1, -1)
    )
    before, after = (text.rjust(wide)[wide - high : wide - low + 1] if text else "" for text in (was, now))
    label = change.now.row_name(row.row) if row.row else f"{change.was.row_name(row.was_row or 1)} of before"
    both = bool(was and now)
    return Strip(label, before, after, marks if both else "", row.was_words, row.now_words, (high < wide, low > 1))


def _pattern_items(pattern: PatternChange | None) -> Iterator[ChangeItem]:
    if pattern is None:
        return
    yield from (ChangeItem(fact_words(fact)) for fact in pattern.facts)
    for (piece, words, past), sizes in _by_piece(pattern.pieces).items():
        yield ChangeItem(f"{in_sizes(piece, sizes)}: {words}", past)


def _by_piece(pieces: Sequence[PieceChange]) -> dict[tuple[str, str, str], list[str]]:
    """Sizes by piece, what is said of it in them, and what that means: said once where it is the same in several."""
    found: dict[tuple[str, str, str], list[str]] = {}
    for piece in pieces:
        past = "" if piece.change is None else means_in_all(piece.change)
        found.setdefault((piece.piece, _of_piece(piece), past), []).append(piece.size)
    return found


def _of_piece(piece: PieceChange) -> str:
    if piece.change is None:
        return {State.ADDED: "new", State.REMOVED: "no longer knitted"}.get(piece.state, "cannot be laid out")
    number = len(piece.change.rows)
    rows = f"{count(number, 'row')} changed; " if number else ""
    if piece.change.motif:
        besides = f"{count(number, 'row')} changed besides; " if number else ""
        rows = f"{motif_words(piece.change.motif)}; {besides}"
    return f"{rows}{safe_words(piece.change)}"


def _figures(file: FileChange) -> Iterator[tuple[str, str, str]]:
    was, now = file.was_numbers, file.now_numbers
    if was and now and file.chart:
        yield from _numbers(was, now, file.chart.now)
    for yarn, sizes in (file.pattern.yarns if file.pattern else {}).items():
        for size, (old, new) in sizes.items():
            name = (new or old or Bought(yarn, None, 0)).name
            if _balls(old) != _balls(new):
                yield in_sizes(f"balls of {name}", [size]), _balls(old), _balls(new)


def _numbers(was: Numbers, now: Numbers, chart: Chart) -> Iterator[tuple[str, str, str]]:
    words = {"supplies": "supplies", "ends": "ends to weave in", "most_in_a_row": "supplies in the fullest row",
             "stitches": "stitches"}  # fmt: skip
    for name, what in words.items():
        old, new = getattr(was, name), getattr(now, name)
        if old != new:
            yield what, f"{old:,}", f"{new:,}"
    if abs(was.metres - now.metres) >= 0.005:
        yield "yarn worked", *yarn_lengths((was.metres, now.metres), is_imperial(chart))
    for yarn in dict.fromkeys([*now.yarns, *was.yarns]):
        one, other = was.yarns.get(yarn), now.yarns.get(yarn)
        if _balls(one) != _balls(other):
            yield f"balls of {(other or one or Bought(yarn, None, 0)).name}", _balls(one), _balls(other)


def _balls(bought: Bought | None) -> str:
    return "none" if bought is None else "–" if bought.balls is None else str(bought.balls)
