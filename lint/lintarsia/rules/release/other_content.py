"""release/other-content: made by `lintarsia release`; here are its words and its level."""

from lintarsia.result import Kind, Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="release/other-content",
    level=Level.ERROR,
    summary="a version was released before with other content",
    why=(
        "Knitters say which version they have, and corrections name it. Two different patterns under one number leave "
        "nobody able to tell whose row 42 is meant."
    ),
    remedy="give the pattern a new version, and say in a line what has changed",
    keys={"other-content": "the version was released with another fingerprint"},
    sources=("common practice",),
    subjects=(Kind.PATTERN,),
    made_by=Maker.ENGINE,
    suppressible=False,
    acceptable=False,
)
