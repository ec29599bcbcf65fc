"""knit/missing-pattern: what a log says was knitted is there, readable, and inside the repository."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions

if TYPE_CHECKING:
    from lintarsia.knits.work import KnitWork

Options = NoOptions
INFO = RuleInfo(
    name="knit/missing-pattern",
    level=Level.ERROR,
    summary="the pattern or chart that a log names cannot be used",
    why=(
        "A test knit counts for the pattern that it names. Where that cannot be found, its yarn, its gauge and its "
        "troubles are about nothing, and the size looks as if nobody had knitted it."
    ),
    remedy="name the pattern or chart by its path from the log's own folder, and mend what keeps it from being read",
    keys={
        "not-there": "there is no such file",
        "unreadable": "the file holds no pattern or chart that can be read",
        "outside": "the path is absolute or leads out of the repository",
    },
    subjects=(Kind.KNIT,),
)


def check_knit(work: "KnitWork", options: NoOptions) -> Iterator[Finding]:
    """One finding at most, at the path."""
    if work.knitted is None:
        region = work.log.places.value(str(work.log.of))
        yield Finding(work.key, work.fault + work.hint, region, pattern=work.log.names)
