"""knit/unknown-size: the size that a log says was knitted is one of the pattern's."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.guessing import did_you_mean

if TYPE_CHECKING:
    from lintarsia.knits.work import KnitWork

Options = NoOptions
INFO = RuleInfo(
    name="knit/unknown-size",
    level=Level.ERROR,
    summary="a log's size is none of the pattern's",
    why=(
        "Yarn, rows and stitches differ from size to size: without its size a test knit can be held against no plan, "
        "and the size that was knitted looks as if nobody had taken it."
    ),
    remedy="state the size as the pattern calls it",
    keys={"not-a-size": "the pattern has no such size", "unsaid": "the pattern has sizes and the log states none"},
    subjects=(Kind.KNIT,),
)


def check_knit(work: "KnitWork", options: NoOptions) -> Iterator[Finding]:
    """One finding at most."""
    log, knitted = work.log, work.knitted
    if knitted is None or work.size is not None:
        return
    sizes = knitted.pattern.sizes
    its = f"it has {', '.join(sizes)}"
    if log.size is None:
        message = f"the log states no size; the pattern has several, {', '.join(sizes)}"
        yield Finding("unsaid", message, log.places.key(str(log.of)), pattern="unsaid")
        return
    hint = did_you_mean(log.size, sizes) or (f"; {its}" if knitted.pattern.sized else "; it has no sizes")
    message = f"the {log.of} has no size {log.size!r}{hint}"
    yield Finding("not-a-size", message, log.places.value("size"), pattern=log.size)
