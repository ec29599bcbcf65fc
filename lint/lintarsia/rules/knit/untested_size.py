"""knit/untested-size: made by `lintarsia release`, for a pattern that has test knits."""

from lintarsia.result import Kind, Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="knit/untested-size",
    level=Level.WARNING,
    summary="nobody has finished a size, or nobody as it is now",
    why=(
        "A slip in one size shows in no other: its stitches, rows and yarn are its own. Whoever buys that size is its "
        "first test knitter, and pays for it."
    ),
    remedy="have the size knitted, or say in the pattern which sizes have not been",
    keys={
        "nobody": "no log says that the size was finished",
        "other-revision": "it was finished, and has changed since",
    },
    subjects=(Kind.PATTERN,),
    made_by=Maker.ENGINE,
)
