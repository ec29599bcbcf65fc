"""How a pattern's piece begins and ends, said at its first and at its last row."""

from collections.abc import Sequence

from lintarsia.chart import Chart
from lintarsia.ground.values import dataclass
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.steps import Step
from lintarsia.telling.languages import phrase
from lintarsia.telling.names import colour_name, row_word


@dataclass(frozen=True, slots=True)
class EdgeNotes:
    """Sentences, "" where there is nothing to say; `onward` are the names of the colours in which the next piece begins
    on this one's stitches: their yarns are not cut."""

    begins: str = ""
    ends: str = ""
    onward: frozenset[str] = frozenset()


NO_NOTES = EdgeNotes()


def with_edge_notes(
    listed: Sequence[tuple[Step, str]], notes: EdgeNotes, chart: Chart, plan: Plan
) -> list[tuple[Step, str]]:
    """The steps of the work, the first and the last of them saying it too."""
    told = list(listed)
    if not told:
        return told
    step, said = told[0]
    told[0] = step, _joined(_inside(notes.begins), said)
    step, said = told[-1]
    colours = {supply.id: supply.colour for supply in plan.supplies}
    cut = tuple(s for s in step.row.finishes if colour_name(chart, colours[s]) not in notes.onward)
    word = row_word(chart)
    last = notes.ends.replace(phrase("After the last {word}", word), phrase("After this {word}", word))
    told[-1] = step._replace(row=step.row._replace(finishes=cut)), _joined(said, _inside(last))
    return told


def _joined(*said: str) -> str:
    return "; ".join(filter(None, said))


def _inside(sentence: str) -> str:
    """As other notes of a row stand: no capital, no full stop."""
    return sentence[:1].lower() + sentence[1:].removesuffix(".")
