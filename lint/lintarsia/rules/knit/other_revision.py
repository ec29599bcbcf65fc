"""knit/other-revision: what was knitted is what the files say now."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions

if TYPE_CHECKING:
    from lintarsia.knits.work import KnitWork

Options = NoOptions
AGAIN = "and have the size knitted again where that matters"
INFO = RuleInfo(
    name="knit/other-revision",
    level=Level.NOTE,
    summary="a log is of another revision than the files are now",
    why=(
        "What was knitted and what goes out are two things where the chart has changed in between. A change of a few "
        "rows may not want another test knit; a change of sleeves does, and only the designer can tell."
    ),
    remedy=f"look at what has changed since with `lintarsia compare`, {AGAIN}",
    keys={"other": "the fingerprint is neither the pattern's nor one of its pieces'"},
    sources=("common practice: a test knit tests the text that was knitted from",),
    subjects=(Kind.KNIT,),
)


def check_knit(work: "KnitWork", options: NoOptions) -> Iterator[Finding]:
    """One finding at most, at the fingerprint; none where the log states no fingerprint."""
    from lintarsia.knits.since import since_words  # the rows are aligned by numpy, which few logs need

    if work.current is False:
        stated = work.log.fingerprint
        message = f"{stated} was knitted; the {work.log.of} is another now"
        remedy = None
        if work.before is not None:
            then, when = work.before
            changed = since_words(then, work) or "no row of it is another"
            message = f"{stated} was knitted, as it was in {when}; since then {changed}"
            commit = when.partition(" ")[0]
            remedy = f"look at it with `lintarsia compare {work.log.names} --from {commit}`, {AGAIN}"
        yield Finding("other", message, work.log.places.value("fingerprint"), remedy=remedy, pattern=stated)
