"""The rows of a chart as its page lists them: shaping, the stitches run by run, and the yarns in the order of use.

Yarns are listed and not drawn here: a list in the order of use reads like the runs beside it and can be wrapped, while
a drawing of what hangs says something false as soon as it is cut in two. They are drawn on the card of one row.

Rows that say the same are one line, and a stretch that a row repeats is told once, as on the card: a list says what to
do, and the card is there to do it. A page has thousands of these small parts, so they are put together here rather
than in a template; every text that comes from the chart is escaped once, where its part is made.
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from lintarsia.chart import Chart
from lintarsia.chart.sides import Sides
from lintarsia.drawing.svg import escape
from lintarsia.planning.model import Plan, RowPlan
from lintarsia.publishing.pages.folding import Fold, Folding, Told, times_words
from lintarsia.publishing.pages.keyview import Key, chip
from lintarsia.publishing.pages.names import isolated, shortened
from lintarsia.publishing.pages.steps import Step, steps
from lintarsia.publishing.pages.words import side_words
from lintarsia.telling.languages import counted, phrase
from lintarsia.telling.names import half_words, row_word
from lintarsia.telling.terms import Terms
from lintarsia.written.kindwords import kind_words

# Above this, runs are told in words alone: with a key and three small elements each, the list of a large chart weighed
# more than all the rest of its page.
MOST_DRAWN_RUNS = 400


class Line(NamedTuple):
    """A line of the list: its first and last row, and its `<tr>`."""

    first: int
    last: int
    html: str


def listed_steps(chart: Chart, plan: Plan, terms: Terms = Terms.AMERICAN) -> list[tuple[Step, str]]:
    """The steps of the work, each with what is said of it before its runs: shaping, and stitches that are not those of
    stocking stitch."""
    listed = steps(chart, plan, terms)
    if chart.texture is None:
        return [(step, step.shaped) for step in listed]
    sides = Sides(chart)
    pieces = {(piece.row, piece.half): piece for piece in sides.in_order}
    worked = [kind_words(chart, pieces[step.row.row, step.half]) for step in listed]
    return [
        (step, "; ".join(filter(None, [step.shaped, words and phrase("knit and purl {words}", words=words)])))
        for step, words in zip(listed, worked, strict=True)
    ]


def row_lines(chart: Chart, plan: Plan, key: Key, listed: Sequence[tuple[Step, str]]) -> list[Line]:
    """A line for every row, from row 1 up, or for rows that say the same, and for each side's part of a row where the
    work is parted, in the order of working. Every step can be linked to: `#row-N`, and `#row-N-left` or `#row-N-right`
    for the part that is worked later."""
    worded = len(plan.runs) > MOST_DRAWN_RUNS
    cells = (_Worded if worded else _Drawn)(plan, key, row_word(chart))
    ways = {way: _Way(chart, way, brief=worded) for way in ("right-to-left", "left-to-right")}
    told = [cells.of(step, said) for step, said in listed]
    lines, at = [], 0
    for end in _ends(told, [step for step, _ in listed]):
        alike = [step for step, _ in listed[at:end]]
        lines.append(Line(alike[0].row.row, alike[-1].row.row, _line(alike, ways, told[at])))
        at = end
    return lines


def _ends(told: Sequence[str], listed: Sequence[Step]) -> list[int]:
    """Where stretches of steps that say the same end: the place after each.

    Shaped rows stand alone: `5–8: decrease 1` would leave open how often. So does each side of an opening.
    """
    ends = []
    for i, step in enumerate(listed):
        after = listed[i + 1] if i + 1 < len(listed) else None
        goes_on = (
            after is not None
            and told[i] == told[i + 1]
            and not step.shaped
            and step.half is after.half
            and step.row.row + 1 == after.row.row
        )
        if not goes_on:
            ends.append(i + 1)
    return ends


def _line(alike: Sequence[Step], ways: Mapping[str, "_Way"], cells: str) -> str:
    """`alike` are steps that say the same, one of them or several: where those go to and fro, no side and no arrow
    holds for all of them."""
    step, row = alike[0], alike[0].row
    way = ways[row.direction]
    named = f' <span class="half">{half_words(step.half)}</span>' if step.half else ""
    others = "".join([f'<i id="row-{other.name}"></i>' for other in alike[1:]])
    to = f"–{alike[-1].row.row}" if others else ""
    after = way.after if not others or alike[1].row.direction == row.direction else ""
    half = f' data-half="{step.half}"' if step.half else ""
    return (
        f'<tr id="row-{step.name}" class="{way.kind}"{half}><th scope="row">'
        f'<a href="#row-{step.name}">{row.row}{to}</a>{others}{after}{named}</th>{cells}</tr>'
    )


class _Way:
    """What stands around a row's number, alike in all rows of one direction: they show one side, or are all rounds."""

    def __init__(self, chart: Chart, direction: str, *, brief: bool = False) -> None:
        """`brief`: the arrow alone, where the side says which way it is worked."""
        leftward = direction == "right-to-left"
        arrow, words, to = (
            ("←", phrase("right to left"), "left") if leftward else ("→", phrase("left to right"), "right")
        )
        rows = next((row for row in (1, 2) if chart.leftward(row) is leftward), 1)
        self.kind = "rtl" if leftward else "ltr"
        side = side_words(chart, rows)
        told = "" if brief and side else f'<span class="aside"> {words}</span>'
        self.after = (f' <span class="side">{side}</span>' if side else "") + (
            f' <span class="way" data-way="{to}">{arrow}{told}</span>'
        )


class _Cells:
    """What lines say, without their numbers and ways. In working order, so it holds for rows in either direction."""

    def __init__(self, plan: Plan, key: Key, word: str) -> None:
        """`word`: what a row is called."""
        self.runs, self.fold, self.word = plan.runs, Folding(plan), word
        self.names = {supply.id: escape(supply.id) for supply in plan.supplies}
        self.run_by = {supply.id: self.run(key, supply.colour, self.names[supply.id]) for supply in plan.supplies}

    def run(self, key: Key, symbol: str, supply: str) -> str:
        """What follows the number of stitches of a run that a supply works."""
        raise NotImplementedError

    def told(self, runs: Sequence[Told]) -> str:
        """Runs one after the other."""
        raise NotImplementedError

    def yarns(self, row: RowPlan) -> str:
        """The yarns that a row works with."""
        raise NotImplementedError

    def of(self, step: Step, said: str) -> str:
        row = step.row
        shaped = f'<p class="shaped">{said}</p>' if said else ""
        hanging = f" <small>{phrase('of {n} hanging', n=row.hangs)}</small>" if row.hangs > row.needs else ""
        crossings = f'<span class="crossings">{phrase("{n} to cross", n=row.crossings)}</span>' if row.crossings else ""
        yarns = f"{self.yarns(row)}{self._resting(step)}"
        return (
            f'<td class="runs">{shaped}{self._stitches(step)}</td><td>{yarns}</td>'
            f'<td class="n">{row.needs or "–"}{hanging}</td><td class="n">{row.interlocks or "–"}{crossings}</td>'
        )

    def _stitches(self, step: Step) -> str:
        row = step.row
        fold = self.fold(row)
        if fold is not None:
            return self._folded(fold)
        runs = [(self.runs[run].stitches, by) for run, by in zip(row.runs, row.by, strict=True)]
        return self.told(runs) or ("" if step.shaped else phrase("no stitches"))

    def _folded(self, fold: Fold) -> str:
        rest = f' <span class="then">{phrase("then")}</span> {self.told(fold.rest)}' if fold.rest else ""
        wide = counted(fold.wide, "{n} stitch", "{n} stitches")
        said = phrase("{stitches}, {times}:", stitches=wide, times=times_words(fold.times))
        again = f'<b class="again">{said}</b>'
        return f"{again} {self.told(fold.stretch)}{rest}"

    def _resting(self, step: Step) -> str:
        aside = [phrase("Resting: {yarns}", yarns=self._listed(step.row.waiting))] if step.row.waiting else []
        if step.held:
            aside.append(phrase("Left hanging on the other side: {yarns}", yarns=self._listed(step.held)))
        return f'<p class="rests">{". ".join(aside)}</p>' if aside else ""

    def _listed(self, yarns: Sequence[str]) -> str:
        return ", ".join([self.names[name] for name in yarns])


class _Drawn(_Cells):
    """Each run with the key of its colour, each yarn by itself."""

    def __init__(self, plan: Plan, key: Key, word: str) -> None:
        super().__init__(plan, key, word)
        self._notes = _notes(word)

    def run(self, key: Key, symbol: str, supply: str) -> str:
        return f"</b>{chip(key.number[symbol])}<span>{escape(key.name[symbol])}</span> <em>{supply}</em></span> "

    def told(self, runs: Sequence[Told]) -> str:
        return "".join([f'<span class="run"><b>{stitches}{self.run_by[by]}' for stitches, by in runs])

    def yarns(self, row: RowPlan) -> str:
        items = "".join([self._item(name, name in row.joins, name in row.finishes) for name in row.line_up])
        return f'<ol class="hangs">{items}</ol>' if items else "–"

    def _item(self, supply: str, new: bool, last: bool) -> str:
        kind, notes = self._notes[new, last]
        return f"<li{kind}><b>{self.names[supply]}</b>{notes}</li>"


def _notes(word: str) -> dict[tuple[bool, bool], tuple[str, str]]:
    """Attributes and notes of a yarn, by whether it is new in a row and whether the row is its last."""
    new, last = f" <i>{phrase('new')}</i>", f" <i>{phrase('last {word}', word)}</i>"
    return {
        (False, False): ("", ""),
        (True, False): (' class="new"', new),
        (False, True): (' class="last"', last),
        (True, True): (' class="new last"', new + last),
    }


class _Worded(_Cells):
    """In words alone. Runs name their yarns in the order of use, so that only what changes is said of those."""

    def run(self, key: Key, symbol: str, supply: str) -> str:
        name = escape(isolated(shortened(key.name[symbol])))
        return f" {name} {supply}".replace(" ", "\u00a0")  # a run is never parted at the end of a line

    def told(self, runs: Sequence[Told]) -> str:
        return "\u00a0· ".join([f"{stitches}{self.run_by[by]}" for stitches, by in runs])

    def yarns(self, row: RowPlan) -> str:
        lists = ((phrase("new"), row.joins), (phrase("last {word} of", self.word), row.finishes))
        return "; ".join([f"{said} {', '.join([self.names[one] for one in who])}" for said, who in lists if who])
