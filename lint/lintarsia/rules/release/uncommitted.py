"""release/uncommitted: made by `lintarsia release`; here are its words and its level."""

from lintarsia.result import Kind, Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="release/uncommitted",
    level=Level.WARNING,
    summary="a file of the release is not what its commit has",
    why="What goes out should be found again: a knitter's question next year is about these very rows.",
    remedy="commit the file, and tag the commit with the version",
    keys={"uncommitted": "a file differs from the commit that is checked out, or is in none"},
    sources=("common practice",),
    subjects=(Kind.CHART, Kind.PATTERN),
    made_by=Maker.ENGINE,
    acceptable=False,
)
