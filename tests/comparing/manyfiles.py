"""A comparison with a file of each kind in it, as values: what is told of it is spelt out in the tests."""

from planted import ROWS, compared, top, with_row

from lintarsia.comparing.model import (
    Bought,
    Comparison,
    Fact,
    FileChange,
    How,
    Numbers,
    PatternChange,
    PieceChange,
    RowChange,
    State,
)
from lintarsia.ground.regions import Region
from lintarsia.result import Level, Result


def result(rule: str, level: Level, message: str, row: int) -> Result:
    return Result(rule, "key", level, message, "kite.chart.yaml", Region(20, 3, 20, 9), row, (2, 5), "mend it")


NEW = result("area/single-stitch", Level.WARNING, "row 9 has a lone stitch of W", 9)
GONE = result("grid/stitch-count", Level.ERROR, "row 3 has 15 stitches, not 16", 3)
WAS = Numbers(3, 6, 3, 224, 4.51, {"w": Bought("Plain DK", 1, 4.51)})
NOW = Numbers(4, 8, 3, 240, 5.02, {"w": Bought("Plain DK", 2, 5.02), "m": Bought("Moss", None, 0.31)})

EDITED = list(with_row(9, "BBRWRWRBBBBBBBBB"))
EDITED[top(12) : top(12)] = [ROWS[top(12)]]
KITE = compared(EDITED)

PIECE = compared(with_row(3, "BBBBBBBBBWWWBBBB"))
MOVED = RowChange(4, 4, How.SHIFTED, ((5, 9),), 2)
PATTERN = PatternChange(
    facts=(Fact("the version", "1.0", "1.1"), Fact("seams", None, "front left to back right")),
    pieces=(
        PieceChange("front", "small", State.CHANGED, "a" * 16, "b" * 16, "kite.chart.yaml", PIECE),
        PieceChange("front", "large", State.CHANGED, "c" * 16, "d" * 16, "kite.chart.yaml", PIECE),
        PieceChange("hood", "large", State.ADDED, None, "e" * 16, "hood.chart.yaml"),
        PieceChange("bow", "small", State.REMOVED, "f" * 16, None, "bow.chart.yaml"),
        PieceChange("cuff", "small", State.CHANGED, "1" * 16, "2" * 16, "", None),
    ),
    yarns={
        "w": {"small": (Bought("Plain DK", 2, 180.5), Bought("Plain DK", 2, 190.25)),
              "large": (Bought("Plain DK", 3, 290.0), Bought("Plain DK", 4, 310.0))},
        "m": {"large": (None, Bought("Moss", 1, 12.0))},
        "o": {"small": (Bought("Old gold", None, 9.0), None)},
    },
    was_version="1.0",
    now_version="1.1",
    sizes=("small", "medium", "large"),
    stated={"belt": ("large",)},
)  # fmt: skip

FILES = (
    FileChange("gone.chart.yaml", "gone.chart.yaml", State.REMOVED, "3" * 16, None, title="Gone"),
    FileChange(
        "kite.chart.yaml", "kite.chart.yaml", State.CHANGED, "4" * 16, "5" * 16, KITE, None, WAS, NOW, (NEW,), (GONE,),
        title="Kite",
    ),
    FileChange("new.chart.yaml", "new.chart.yaml", State.ADDED, None, "6" * 16, now_numbers=WAS, title="New"),
    FileChange("sub/moved.chart.yaml", "old.chart.yaml", State.MOVED, "7" * 16, "7" * 16, title="Moved"),
    FileChange("same.chart.yaml", "same.chart.yaml", State.SAME, "8" * 16, "8" * 16, title="Same"),
    FileChange("held.chart.yaml", "held.chart.yaml", State.SAME, "8" * 16, "8" * 16, new_results=(NEW,)),
    FileChange("torn.chart.yaml", "torn.chart.yaml", State.CHANGED, "9" * 16, None, unreadable=("now",)),
    FileChange("mended.chart.yaml", "mended.chart.yaml", State.CHANGED, None, "9" * 16, unreadable=("was",)),
    FileChange("both.chart.yaml", "both.chart.yaml", State.CHANGED, unreadable=("was", "now")),
    FileChange("set.pattern.yaml", "set.pattern.yaml", State.CHANGED, "a" * 16, "b" * 16, None, PATTERN, title="Set"),
)  # fmt: skip
MANY = Comparison("v1.0", "working tree", FILES)
