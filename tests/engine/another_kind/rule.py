"""A rule on cards of yarns: one that says nothing of a length cannot be reckoned with."""

from lintarsia.result import Finding, Level, RuleInfo

INFO = RuleInfo(
    name="card/no-length",
    level=Level.WARNING,
    summary="a yarn states no length",
    why="how far a ball goes hangs on it",
    remedy="state what the band says",
    keys={"missing": "a yarn without a length"},
)


def check_yarncard(work, options):
    for yarn, said in work.yarns.items():
        if "length" not in said:
            yield Finding("missing", f"{yarn} states no length", work.places.key("yarns", yarn), pattern=yarn)
