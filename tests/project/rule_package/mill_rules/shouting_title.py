"""mill/shouting-title: a title in capitals throughout, which the mill's catalogue sets as it stands."""

from collections.abc import Iterator

from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work

Options = NoOptions
INFO = RuleInfo(
    name="mill/shouting-title",
    level=Level.NOTE,
    summary="the title is in capitals throughout",
    why="The catalogue sets titles as they stand, and capitals drown the others on the page.",
    remedy="write the title with a capital at its beginning only",
    keys={"capitals": "no small letter in the title"},
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """At most one finding."""
    title = work.chart.title
    if title.isupper():
        yield Finding("capitals", f"the title {title!r} is in capitals", work.chart.places.value("title"))
