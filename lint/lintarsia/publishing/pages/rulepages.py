"""A page for each rule, made of what the rule says of itself and of the cases that it is tested with."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields
from functools import cache
from itertools import groupby
from typing import Any

from lintarsia.chart import Chart
from lintarsia.drawing.chart import chart_svg
from lintarsia.ground.resources import resource
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.templates import fill
from lintarsia.reading import read_chart
from lintarsia.result import Kind, Level, Region, Result
from lintarsia.rules import catalogue
from lintarsia.rules.base import Rule
from lintarsia.rules.rulebook import Rulebook
from lintarsia.rules.shared.cases import Case, read_cases
from lintarsia.settings.options import written
from lintarsia.telling.catalogues import speaking
from lintarsia.telling.languages import ENGLISH

LEVEL_WORDS = {
    Level.ERROR: "an error unless the settings say otherwise",
    Level.WARNING: "a warning unless the settings say otherwise",
    Level.NOTE: "a note unless the settings say otherwise",
    Level.OFF: "off unless the settings turn it on",
}
Found = dict[str, list[tuple[Entry, int]]]  # by rule: the charts it finds fault with, and in how many places
MOST_FAULTY, MOST_SILENT = 6, 3  # cases on a page
MOST_DRAWN_CELLS = 6000  # a case as large as a blanket is told in words


@dataclass(frozen=True, slots=True)
class CaseView:
    name: str
    state: str
    messages: tuple[str, ...]
    drawing: str
    text: str


@dataclass(frozen=True, slots=True)
class OptionView:
    name: str
    default: str
    help: str


@dataclass(frozen=True, slots=True)
class RuleLine:
    name: str
    link: str
    state: str
    summary: str
    here: int


def rules_page(book: Rulebook, counts: Found, layout: Layout) -> str:
    """The list of all rules, as HTML."""
    lines = []
    for name in book.names:
        info = book.info(name)
        link = layout.link(layout.rules, layout.rule(name))
        lines.append(RuleLine(name, link, _state(info.level), info.summary, sum(n for _, n in counts.get(name, ()))))
    groups = [(group, list(rules)) for group, rules in groupby(lines, key=lambda line: line.name.partition("/")[0])]
    return fill("rules.html", groups=groups)


def rule_page(rule: Rule, counts: Found, layout: Layout) -> str:
    """The page of one rule, as HTML."""
    info = rule.info
    page = layout.rule(info.name)
    here = [
        (layout.link(page, layout.chart(entry.slug)) + "#results", entry.title, number)
        for entry, number in counts.get(info.name, ())
    ]
    return fill(
        "rule.html",
        info=info,
        state=_state(info.level),
        level_words=LEVEL_WORDS[info.level],
        index=layout.link(page, layout.rules),
        here=here,
        cases=_cases_of(info.name),
        options=list(_options(rule)),
        settings_text=f"rules: {{{info.name}: off}}" if info.suppressible else "",
    )


def _state(level: Level) -> str:
    return "clear" if level is Level.OFF else str(level)


def found(entries: Iterable[Entry]) -> Found:
    """Which charts each rule finds fault with, and in how many places."""
    counts: Found = {}
    for entry in entries:
        standing = [r.rule for r in entry.results if not r.suppressed]
        for name in dict.fromkeys(standing):
            counts.setdefault(name, []).append((entry, standing.count(name)))
    return counts


@cache
def _cases() -> dict[str, list[Case]]:
    """The cases of each rule, those with something to report first."""
    by_rule: dict[str, list[Case]] = {}
    for case in read_cases(resource("cases")):
        by_rule.setdefault(case.rule, []).append(case)
    return {rule: _telling(cases) for rule, cases in by_rule.items()}


def _telling(cases: list[Case]) -> list[Case]:
    """As many as one reads: first one for each key that the rule can report, then others, then some where it is
    silent."""
    faulty = [case for case in cases if not case.clean]
    keys: set[str] = set()
    first: list[Case] = []
    for case in faulty:
        own = {told["key"] for told in case.expect}
        if own - keys:
            first.append(case)
            keys |= own
    rest = [case for case in faulty if case not in first]
    shown = [*first, *rest[: max(0, MOST_FAULTY - len(first))]]
    return shown + [case for case in cases if case.clean][:MOST_SILENT]


@cache
def _cases_of(rule: str) -> list[CaseView]:
    """Drawn once in a process: whoever serves pages makes them anew many times. Pages of rules are English."""
    with speaking(ENGLISH):
        return [_case(case, number) for number, case in enumerate(_cases().get(rule, ()))]


def draw_cases(rules: Iterable[str]) -> None:
    """Draw what the pages of these rules will show, ahead of them: it does not depend on any chart."""
    for rule in rules:
        _cases_of(rule)


def _case(case: Case, number: int) -> CaseView:
    results = [_result(case.rule, told) for told in case.expect]
    chart = _chart_of(case)
    drawing = ""
    if chart is not None:
        drawing = chart_svg(chart, results=results, layers=("results",), shown=("results",), prefix=f"case-{number}-")
    gravest = max((r.level for r in results if not r.suppressed), key=lambda level: level.rank, default=None)
    messages = tuple(dict.fromkeys(result.message for result in results))
    return CaseView(case.name, str(gravest) if gravest else "clear", messages, drawing, case.chart)


def _chart_of(case: Case) -> Chart | None:
    """The chart that is worth drawing beside a case. Files of other kinds are none, and what is wrong with a file as a
    file shows in its text."""
    if case.kind is not Kind.CHART or not catalogue.load(case.rule).info.suppressible:
        return None
    chart = read_chart(case.file.name, case.chart.encode()).chart
    return chart if chart is not None and chart.grid.width * chart.grid.height <= MOST_DRAWN_CELLS else None


def _result(rule: str, told: Any) -> Result:
    """A result as a case file states it. The tests hold the rule to it, so nothing needs to be checked anew here."""
    stitches = told.get("stitches")
    return Result(
        rule,
        told["key"],
        Level(told["level"]),
        told["message"],
        "",
        Region(1, 1, 1, 1),
        int(told["row"]) if "row" in told else None,
        (int(stitches[0]), int(stitches[1])) if stitches else None,
        suppressed=told.get("suppressed") == "true",
    )


def _options(rule: Rule) -> Iterator[OptionView]:
    defaults = rule.options()
    for field in fields(rule.options):
        name = field.name.replace("_", "-")
        yield OptionView(name, written(getattr(defaults, field.name)), str(field.metadata.get("help", "")))
