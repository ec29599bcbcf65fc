"""knit/yarn-short: made by `lintarsia release`, for a pattern that has test knits."""

from lintarsia.result import Kind, Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="knit/yarn-short",
    level=Level.ERROR,
    summary="a test knitter used more yarn than the pattern tells people to buy",
    why=(
        "What one pair of hands has used, others will use too. Whoever buys what the pattern says runs out before the "
        "last row, and the same dye lot may be gone by then."
    ),
    remedy="state more balls for the size; `lintarsia knits --write` makes the plan agree with what was used",
    keys={"short": "the balls stated hold less than was used"},
    sources=(
        "common practice",
        "a house value: knitters whose yarn is far from the others' are left out, and named by `knits`",
    ),
    subjects=(Kind.PATTERN,),
    made_by=Maker.ENGINE,
)
