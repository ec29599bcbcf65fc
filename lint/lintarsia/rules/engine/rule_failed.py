"""engine/rule-failed: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="engine/rule-failed",
    level=Level.ERROR,
    summary="a rule, or the reader, failed on this chart",
    why=(
        "A check that broke off has not looked at the whole chart, so the chart must not pass for checked. The "
        "fault is the rule's or the reader's, never the chart's."
    ),
    remedy="please report it with the chart; until it is mended the rule can be switched off in the settings",
    keys={
        "rule-failed": "a rule broke off",
        "reader-failed": "the reader broke off",
    },
    sources=("common practice",),
    made_by=Maker.ENGINE,
    blinds=True,
)
