"""How a row's stitch count changes: at which edge, in which way, by how many; and where the work is parted in two.

Left and right are those of the chart as printed. `neck-left` and `neck-right` are the inner edges of an opening:
`neck-right` belongs to the right-hand side of the work.
"""

from enum import StrEnum

from lintarsia.ground.values import dataclass


class Edge(StrEnum):
    LEFT = "left"
    RIGHT = "right"
    NECK_LEFT = "neck-left"
    NECK_RIGHT = "neck-right"

    @property
    def inner(self) -> bool:
        """Whether it is an edge of an opening."""
        return self in (Edge.NECK_LEFT, Edge.NECK_RIGHT)

    @property
    def mirrored(self) -> "Edge":
        """The edge that stands for this one in a mirror."""
        return _MIRRORED[self]

    @property
    def words(self) -> str:
        """`the left edge`, `the inner edge (neck-left)`."""
        return f"the inner edge ({self})" if self.inner else f"the {self} edge"


_MIRRORED = {
    Edge.LEFT: Edge.RIGHT, Edge.RIGHT: Edge.LEFT, Edge.NECK_LEFT: Edge.NECK_RIGHT, Edge.NECK_RIGHT: Edge.NECK_LEFT,
}  # fmt: skip


class ChangeKind(StrEnum):
    DECREASE = "decrease"
    INCREASE = "increase"
    BIND_OFF = "bind-off"
    CAST_ON = "cast-on"
    HOLD = "hold"

    @property
    def adds(self) -> bool:
        return self in (ChangeKind.INCREASE, ChangeKind.CAST_ON)


# "Decrease 5" is not said: "bind off 5" (common practice). One or two stitches are decreased or increased.
FEWEST_BOUND_OFF = 3


@dataclass(frozen=True, slots=True)
class Change:
    """So many stitches that come or go at an edge. `edge` is None where the file does not say it.

    `name` is the designer's own stitch for it ("ssk"), and `after` how many stitches stand between it and the edge.
    """

    kind: ChangeKind
    stitches: int
    edge: Edge | None = None
    name: str = ""
    after: int = 0

    @property
    def net(self) -> int:
        return self.stitches if self.kind.adds else -self.stitches


@dataclass(frozen=True, slots=True)
class Shaping:
    """Change of stitch count made in a row. A bare number in the file is `net` with no side said.

    `left` and `right` are None where the file gives a bare number; the neck's edges are 0 where nothing is said of
    them. `stated` holds what the file says outright (`{bind-off: 4}`); it is within the numbers of its edge.
    """

    net: int
    left: int | None = None
    right: int | None = None
    neck_left: int = 0
    neck_right: int = 0
    stated: tuple[Change, ...] = ()

    @property
    def changes(self) -> tuple[Change, ...]:
        """Every change, by kind: as stated, or as the number of stitches makes it."""
        outright = {change.edge for change in self.stated}
        numbers = ((Edge.RIGHT, self.right), (Edge.LEFT, self.left), *self._inner)
        found = [*self.stated, *(usual_change(n, edge) for edge, n in numbers if n and edge not in outright)]
        if self.left is None and self.right is None and (bare := self.net - self.neck_left - self.neck_right):
            found.append(usual_change(bare, None))
        return tuple(found)

    @property
    def _inner(self) -> tuple[tuple[Edge, int], ...]:
        return (Edge.NECK_RIGHT, self.neck_right), (Edge.NECK_LEFT, self.neck_left)


def usual_change(number: int, edge: Edge | None) -> Change:
    """The change that a signed number of stitches stands for where the file says no kind."""
    if abs(number) < FEWEST_BOUND_OFF:
        return Change(ChangeKind.INCREASE if number > 0 else ChangeKind.DECREASE, abs(number), edge)
    return Change(ChangeKind.CAST_ON if number > 0 else ChangeKind.BIND_OFF, abs(number), edge)


class Parting(StrEnum):
    """What becomes of the stitches between the two sides in the row that parts the work."""

    BIND_OFF = "bind-off"
    HOLD = "hold"
    NOTHING = "nothing"  # a slit: there are none


class Order(StrEnum):
    """In which order the two sides of an opening are worked."""

    TOGETHER = "together"  # each row on one side and then, with other supplies, on the other
    RIGHT_FIRST = "right-first"  # the right-hand side to its top, then the left rejoined
    LEFT_FIRST = "left-first"


@dataclass(frozen=True, slots=True)
class Divide:
    """From row `row` up the work is in two sides. `at` is the stitch after which a slit runs, counted from the right in
    the chart; `to` is the last row that is parted. Both are None where the grid is to show it."""

    row: int
    by: Parting
    sides: Order = Order.TOGETHER
    at: int | None = None
    to: int | None = None


@dataclass(frozen=True, slots=True)
class Decreases:
    """How the designer works decreases at the edges: leaning along with the edge or against it, and how many stitches
    stand between them and the edge."""

    along: bool = True
    after: int = 0
