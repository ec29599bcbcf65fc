"""mill/busy-edge: the edge stitch changes colour so often that no seam hides the joins."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from enum import Enum

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import Work


class Edge(Enum):
    RIGHT = "right"
    LEFT = "left"
    BOTH = "both"


@dataclass(frozen=True)
class Options:
    most: int = field(default=4, metadata={"help": "the most changes along one edge"})
    edge: Edge = field(default=Edge.BOTH, metadata={"help": "which edge is looked at"})


INFO = RuleInfo(
    name="mill/busy-edge",
    level=Level.WARNING,
    summary="the edge stitch changes colour many times",
    why="Each change at the edge leaves two ends in the seam allowance, and a seam hides only so many.",
    remedy="keep one stitch of a single colour at the edge",
    keys={"busy": "more changes along an edge than the option allows"},
)


def check(work: Work, options: Options) -> Iterator[Finding]:
    """One finding for each edge, where its first change is."""
    grid = work.chart.grid
    for edge, stitch in ((Edge.RIGHT, 1), (Edge.LEFT, grid.width)):
        colours = [text[grid.width - stitch] for text in grid.rows]
        changes = [row for row in range(2, grid.height + 1) if colours[row - 1] != colours[row - 2]]
        if options.edge in (edge, Edge.BOTH) and len(changes) > options.most:
            message = f"the {edge.value} edge changes colour {len(changes)} times; at most {options.most} are expected"
            region = work.chart.places.cells(changes[0], stitch, stitch)
            yield Finding("busy", message, region, changes[0], (stitch, stitch), pattern="".join(colours))
