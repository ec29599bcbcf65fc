"""colour/same-name: two colours of the key that go by one name."""

from collections.abc import Iterator

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work

Options = NoOptions
INFO = RuleInfo(
    name="colour/same-name",
    level=Level.WARNING,
    summary="two colours of the key have the same name",
    why=(
        "Written rows, shopping lists and winding lists call a colour by its name. Where two colours share one, the "
        "knitter cannot know which is meant."
    ),
    remedy="give each colour a name of its own, such as dark grey and light grey",
    keys={"same-name": "an earlier colour of the key has the same name"},
    sources=("common practice",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour whose name an earlier one has, whatever the capitals, at its name."""
    chart = work.chart
    names: dict[str, str] = {}
    for symbol, colour in chart.colours.items():
        first = names.setdefault(" ".join(colour.name.casefold().split()), symbol)
        if first != symbol:
            message = f"{symbol} has the name {colour.name!r}, which {first} has too; expected a name of its own"
            yield Finding("same-name", message, chart.places.value("colours", symbol, "name"), pattern=symbol)
