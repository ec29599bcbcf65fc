"""suppress/unmatched: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="suppress/unmatched",
    level=Level.WARNING,
    summary="an accepted result is not there any more",
    why=(
        "A suppression that matches nothing is a note about a fault that has gone. Left in, it will one day hide "
        "a new one."
    ),
    remedy="take the suppression out, or correct its rule, row or stitches",
    keys={
        "unmatched": "no result is where the suppression says",
        "not-suppressible": "a rule is named whose results cannot be accepted",
    },
    sources=("common practice",),
    made_by=Maker.ENGINE,
)
