"""pattern/unlisted-chart: charts that lie beside a pattern and that no pattern names."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions

if TYPE_CHECKING:
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
SHOWN = 6
INFO = RuleInfo(
    name="pattern/unlisted-chart",
    level=Level.NOTE,
    summary="a chart lies in the pattern's folder and no pattern names it",
    why=(
        "A chart that was drawn for the pattern and is in none of its pieces is not checked with them, and its yarn is "
        "in nobody's shopping list."
    ),
    remedy="name it in a piece, move it to a folder of its own, or accept it where the folder holds other work",
    keys={"unlisted": "a chart that no pattern in the folder names"},
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for them all."""
    from lintarsia.pattern.work import About

    if work.beside:
        shown = list(work.beside[:SHOWN])
        if len(work.beside) > SHOWN:
            shown.append(f"{len(work.beside) - SHOWN} more")
        message = f"no piece names {', '.join(shown)}"
        yield About(Finding("unlisted", message, work.pattern.places.key("pieces"), pattern=" ".join(work.beside)))
