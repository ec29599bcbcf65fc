"""key/disagrees: the keys of a pattern's charts, which a knitter reads as one."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Finding, Kind, Level, RuleInfo
from lintarsia.rules.base import NoOptions
from lintarsia.telling.counts import one_and_all

if TYPE_CHECKING:
    from lintarsia.chart import Yarn
    from lintarsia.pattern.work import About, PatternWork

Options = NoOptions
SHOWN = 4
INFO = RuleInfo(
    name="key/disagrees",
    level=Level.WARNING,
    summary="charts of one pattern mean different things by one name",
    why=(
        "A knitter buys by the key. Two shades under one name on two charts are two yarns to some and one to others, "
        "and the pieces that are sewn together may not match."
    ),
    remedy="give the colour one shade and the yarn one description in every chart, or two names where two are meant",
    keys={
        "two-shades": "one colour name has different shades",
        "two-yarns": "one colour name is worked in different yarns",
        "yarn-differs": "one yarn has different lengths, masses or weights",
    },
    subjects=(Kind.PATTERN,),
)


def check_pattern(work: "PatternWork", options: NoOptions) -> "Iterator[About]":
    """One finding for each name that is used in more than one way, at the pattern's `pieces`."""
    from lintarsia.pattern.work import About

    shades: dict[str, dict[str, list[str]]] = {}
    yarns: dict[str, dict[str, list[str]]] = {}
    balls: dict[str, dict[str, list[str]]] = {}
    names: dict[str, str] = {}
    for file in work.charts.values():
        if file.chart is None:
            continue
        known = {} if "colours" in file.chart.assumed else file.chart.colours
        for colour in known.values():
            name = colour.name.strip().casefold()
            names.setdefault(name, colour.name)
            shades.setdefault(name, {}).setdefault(colour.shade, []).append(file.said)
            if colour.yarn:
                yarns.setdefault(name, {}).setdefault(colour.yarn, []).append(file.said)
        for yarn in file.chart.yarns.values():
            balls.setdefault(yarn.id, {}).setdefault(_ball(yarn), []).append(file.said)
    region = work.pattern.places.key("pieces")
    tables = (("two-shades", shades, "is"), ("two-yarns", yarns, "is worked in"), ("yarn-differs", balls, "is"))
    for key, table, verb in tables:
        for name, uses in table.items():
            if len(uses) > 1:
                what = f"the yarn {name!r}" if table is balls else names[name]
                said = one_and_all([f"{use} in {_files(files)}" for use, files in uses.items()])
                yield About(Finding(key, f"{what} {verb} {said}", region, pattern=f"{key} {name}"))


def _files(files: list[str]) -> str:
    own = list(dict.fromkeys(files))
    return one_and_all(own if len(own) <= SHOWN else [*own[: SHOWN - 1], f"{len(own) - SHOWN + 1} more"])


def _ball(yarn: "Yarn") -> str:
    parts = [str(yarn.length or ""), str(yarn.mass or ""), "" if yarn.weight is None else f"weight {yarn.weight}"]
    return ", ".join(part for part in parts if part) or "not described"
