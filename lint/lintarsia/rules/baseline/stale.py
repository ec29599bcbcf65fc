"""baseline/stale: made where a report is held against a baseline; here are its words and its level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="baseline/stale",
    level=Level.NOTE,
    summary="the baseline accepts a result that is not there any more",
    why=(
        "An entry that nothing meets is a fault that somebody mended. Left in, it would wave the same fault through "
        "when it comes back into the knitting."
    ),
    remedy="run the check again with --baseline and --update, which leaves it out",
    keys={"stale": "an entry of the baseline meets no result"},
    sources=("common practice",),
    made_by=Maker.ENGINE,
    acceptable=False,
)
