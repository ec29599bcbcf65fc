"""Shaping as the words of a stint have it: what is bound off, cast on, held, decreased or increased, and where."""

from collections.abc import Sequence

from lintarsia.chart.model import Chart
from lintarsia.chart.shaping import Change, ChangeKind, Decreases, Edge
from lintarsia.chart.sides import Stint
from lintarsia.ground.values import dataclass
from lintarsia.telling.terms import Terms


def shaping_phrase(stint: Stint, terms: Terms) -> str:
    """`dec 1 st at each end`, `BO 3 sts at beg (right edge)`, `dec 2 sts`; "" where nothing changes."""
    start, end = stint.start, stint.end
    if len(start) == len(end) == 1 and _like(start[0], end[0]):
        said = [f"{change_phrase(start[0], terms)} at each end"]
    else:
        said = [_placed(change, "beg", terms) for change in start] + [_placed(change, "end", terms) for change in end]
    said += [_inside(change, terms) for change in stint.inside]
    edged = all(change.kind in (ChangeKind.DECREASE, ChangeKind.INCREASE) for change in stint.changes)
    return (" and " if edged else "; ").join(said)


def last_of_side(stint: Stint, terms: Terms) -> str:
    """`BO rem 3 sts`, `place rem 3 sts on a holder`: the whole of what a side has left; "" where stitches stay."""
    if stint.columns[0] < stint.columns[1] or len(stint.changes) != 1:
        return ""
    change = stint.changes[0]
    if change.kind is ChangeKind.HOLD:
        return f"place rem {sts(change.stitches)} on a holder"
    return f"{_VERBS[terms][change.kind]} rem {sts(change.stitches)}" if change.kind is ChangeKind.BIND_OFF else ""


def fastened(stint: Stint) -> str:
    """What is done with the yarn where a side has no stitch left."""
    held = stint.changes[-1].kind is ChangeKind.HOLD
    return "cut the yarn" if held else "fasten off"


def change_phrase(change: Change, terms: Terms) -> str:
    """`BO 3 sts`, `cast off 3 sts`, `CO 3 sts`, `place 5 sts on a holder`, `dec 1 st`."""
    number = sts(change.stitches)
    if change.kind is ChangeKind.HOLD:
        return f"place {number} on a holder"
    return f"{_VERBS[terms][change.kind]} {number}"


def last_phrase(change: Change, terms: Terms, yarn: str = "") -> str:
    """What is done behind the last stitch of a stint: `CO 3 sts`, `place last 2 sts on a holder`."""
    if change.kind is ChangeKind.HOLD:
        return _placed(change, "end", terms)
    return f"{change_phrase(change, terms)}{f' {yarn}' if yarn else ''}"


def sts(number: int) -> str:
    """`1 st`, `2 sts`."""
    return f"{number} {'st' if number == 1 else 'sts'}"


_VERBS = {
    Terms.AMERICAN: {
        ChangeKind.DECREASE: "dec",
        ChangeKind.INCREASE: "inc",
        ChangeKind.BIND_OFF: "BO",
        ChangeKind.CAST_ON: "CO",
    },
    Terms.BRITISH: {
        ChangeKind.DECREASE: "dec",
        ChangeKind.INCREASE: "inc",
        ChangeKind.BIND_OFF: "cast off",
        ChangeKind.CAST_ON: "cast on",
    },
}


def _like(one: Change, other: Change) -> bool:
    """Whether both ends take one phrase: "at each end" is said of decreases and increases alone."""
    return one.kind in (ChangeKind.DECREASE, ChangeKind.INCREASE) and (one.kind, one.stitches) == (
        other.kind,
        other.stitches,
    )


def _placed(change: Change, where: str, terms: Terms) -> str:
    if change.kind is ChangeKind.HOLD:
        return f"place {'first' if where == 'beg' else 'last'} {sts(change.stitches)} on a holder"
    assert change.edge is not None
    edge = "neck edge" if change.edge.inner else f"{change.edge} edge"
    return f"{change_phrase(change, terms)} at {where} ({edge})"


def _inside(change: Change, terms: Terms) -> str:
    """A change at no edge of the stint: anywhere in it, or over an opening that it closes."""
    over = " over the opening" if change.edge is not None and change.edge.inner else ""
    return f"{change_phrase(change, terms)}{over}"


@dataclass(frozen=True, slots=True)
class Named:
    """Decreases that the words name stitch by stitch: `name` worked `times`, `after` stitches from the edge."""

    name: str
    times: int
    after: int


def named(chart: Chart, stint: Stint, changes: Sequence[Change]) -> Named | None:
    """The one decrease of an edge by the designer's own name, or by how the chart's decreases lean; along the edge, at
    the very edge, where the file says neither."""
    if len(changes) != 1 or changes[0].kind is not ChangeKind.DECREASE:
        return None
    change, how = changes[0], chart.decreases or Decreases()
    if change.name:
        return Named(change.name, change.stitches, change.after)
    if change.edge is None:
        return None
    leans_left = (change.edge in (Edge.RIGHT, Edge.NECK_LEFT)) == how.along  # an edge at the right goes to the left
    purled = not stint.leftward
    name = ("ssp" if leans_left else "p2tog") if purled else ("ssk" if leans_left else "k2tog")
    return Named(name, change.stitches, how.after)
