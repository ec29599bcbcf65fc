"""suppress/unknown-rule: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="suppress/unknown-rule",
    level=Level.ERROR,
    summary="a suppression names a rule that does not exist",
    why="A misspelt name accepts nothing, and the reason written beside it is lost on everybody.",
    remedy="write the rule's name as `lintarsia explain` lists it",
    keys={
        "unknown-rule": "the name is no rule's",
    },
    sources=("common practice",),
    made_by=Maker.ENGINE,
)
