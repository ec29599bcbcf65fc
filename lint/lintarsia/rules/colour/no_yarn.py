"""colour/no-yarn: a colour that names a yarn which the file does not list."""

from collections.abc import Iterator

from lintarsia.result import Basis, Edit, Finding, Fix, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.telling.guessing import did_you_mean
from lintarsia.telling.names import colour_and_symbol

Options = NoOptions
INFO = RuleInfo(
    name="colour/no-yarn",
    level=Level.ERROR,
    summary="a colour is worked in a yarn that `yarns` does not list",
    why=(
        "What to buy is added up yarn by yarn. A colour whose yarn is not listed is in nobody's shopping list, "
        "and how far a ball goes cannot be worked out for it."
    ),
    remedy="add the yarn to `yarns`, or correct its name in the key",
    keys={"no-yarn": "the yarn that a colour names is not listed"},
    sources=("common practice",),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each colour whose yarn is not in `yarns`; a yarn that is there but faulty is the schema's."""
    chart = work.chart
    for symbol, colour in chart.colours.items():
        if colour.yarn is None or colour.yarn in chart.yarns or ("yarns", colour.yarn) in chart.places.keys:
            continue
        region = chart.places.value("colours", symbol, "yarn")
        near = did_you_mean(colour.yarn, chart.yarns)
        hint = near or (f"; there are {', '.join(chart.yarns)}" if chart.yarns else "; the file lists no yarns")
        meant = near.partition("'")[2].rpartition("'")[0]
        fixes = (Fix(f"write {meant}", (Edit(region, meant),), safe=False),) if meant else ()
        message = f"{colour_and_symbol(chart, symbol)} is worked in the yarn {colour.yarn!r}, which is not listed{hint}"
        yield Finding("no-yarn", message, region, fixes=fixes, pattern=f"{symbol} {colour.yarn}")
