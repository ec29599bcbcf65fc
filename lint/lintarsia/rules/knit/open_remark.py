"""knit/open-remark: made by `lintarsia release`, for a pattern that has test knits."""

from lintarsia.result import Kind, Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="knit/open-remark",
    level=Level.WARNING,
    summary="a test knitter has met trouble or asked, and has no answer yet",
    why=(
        "Where one knitter stumbled, others will. Trouble that is answered has been looked at: in the chart, in the "
        "words, or with a reason why it stays."
    ),
    remedy="mend what is wrong, and write beside the remark what was done: `answered: …`",
    keys={"trouble": "trouble without an answer, an error", "question": "a question without an answer"},
    subjects=(Kind.PATTERN,),
    made_by=Maker.ENGINE,
)
