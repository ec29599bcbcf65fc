"""The results of a chart or pattern as a section of its page.

Put together here rather than in a template, like the rows of a chart: a page can have hundreds of them. Every text that
comes from the file or from a rule is escaped where its part is made.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache

from lintarsia.chart import Chart
from lintarsia.drawing.svg import escape
from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.quoted import sentence, with_code
from lintarsia.publishing.pages.resultview import AcceptedView, AtHand, ResultPlace, Telling, accepted, of_row, tellings
from lintarsia.result import RuleInfo
from lintarsia.telling.languages import counted, in_english, in_figures, is_english, phrase, spoken

MOST_PLACES = 8  # of one kind told in its heading
MOST_BESIDE = 3  # kinds that find room beside a chart; more stand beneath it, or they would reach far below it
Link = Callable[[str], str]  # from this page to the page of a rule


def results_html(chart: Chart | None, entry: Entry, layout: Layout, rules: Mapping[str, RuleInfo]) -> str:
    """A `<section>` with what stands, the gravest first, and then what the designer has accepted."""
    page = layout.chart(entry.slug)

    def rule(name: str) -> str:
        return layout.link(page, layout.rule(name))

    parts = [
        _telling(telling, rule) for telling in tellings(chart, entry.results, entry.blocking, rules, entry.elsewhere)
    ]
    many = " many" if len(parts) > MOST_BESIDE else ""
    if not parts:
        parts.append(f'<p class="clear">{mark("clear")} {phrase("Nothing to mend.")}</p>\n')
    kept = [_accepted(result, rule) for result in accepted(chart, entry.results)]
    if kept:
        said = counted(len(kept), "{n} accepted by the designer", "{n} accepted by the designer")
        summary = f"<summary>{said}</summary>"
        parts.append(f'<details class="kept">{summary}\n{"".join(kept)}</details>\n')
    heading = f'<h2 id="results">{phrase("Results")}</h2>'
    return f'<section class="results{many}" aria-labelledby="results">\n{heading}\n{"".join(parts)}</section>'


def _telling(telling: Telling, rule: Link) -> str:
    told = _spot(telling.spots[0]) if len(telling.spots) == 1 else _gathered(telling)
    head = _head(telling.level, telling.blocks, telling.rule, rule(telling.rule), spoken())
    return f"{head}{told}\n{_why(telling.why, spoken())}{_to_do(telling.remedy, telling.fixes)}</div>\n"


@lru_cache(maxsize=1024)  # the same few rules come again on page after page
def _head(level: str, blocks: bool, rule: str, link: str, language: str) -> str:
    return (
        f'<div class="result result-{level}{" blocks" if blocks else ""}" data-level="{level}">\n'
        f'<p class="result-head">{mark(level)} '
        f'<span class="level">{phrase(level)}{phrase(", blocks release") if blocks else ""}</span> '
        f"{_rule(rule, link)}</p>\n"
    )


@lru_cache(maxsize=1024)
def _why(text: str, language: str) -> str:
    summary = f"<summary>{phrase('What it means for the knitting')}</summary>"
    return f'<details class="why">{summary}<p{in_english()}>{with_code(text)}</p></details>\n' if text else ""


def _to_do(remedy: str, fixes: Sequence[AtHand]) -> str:
    """What can be done, by hand and by the command."""
    told = f'<p class="remedy"><b>{phrase("Mend:")}</b> {_english(with_code(remedy))}</p>\n' if remedy else ""
    for does, option in fixes:
        told += (
            f'<p class="remedy"><b>{phrase("Fix at hand:")}</b> {_english(escape(does))} '
            f"<small>(<code>lintarsia check {option}</code>)</small></p>\n"
        )
    return told


def _english(html: str) -> str:
    """What a rule has to say, set apart where the page is in another language."""
    return html if is_english() else f"<span{in_english()}>{html}</span>"


def _rule(name: str, link: str) -> str:
    return f'<a class="rule" href="{escape(link)}">{escape(name)}</a>'


def _spot(spot: ResultPlace) -> str:
    where = escape(spot.where)
    if spot.mark is None:
        see = f'<b class="see">{where}</b>'
    else:
        see = (
            f'<a class="see" href="#c-mark-{spot.mark}" data-mark="{spot.mark}" data-row="{spot.row}" '
            f'data-first="{spot.first}" data-last="{spot.last}">{where}</a>'
        )
    told = f'<p class="spot" id="{spot.anchor}"{of_row(spot.row)}>{see} {_english(sentence(spot.message))}</p>'
    own = _to_do(spot.remedy, spot.fixes)
    return f"<div>{told}{own}</div>" if own else told


def _gathered(telling: Telling) -> str:
    """Like results behind one heading."""
    places, rest = telling.places[:MOST_PLACES], len(telling.places) - MOST_PLACES
    more = f"; and {rest} more" if rest > 0 else ""
    told = phrase("And {n} more, all in the report for machines.", n=in_figures(f"{telling.more:,}"))
    left_out = told if telling.more else ""
    return (
        f'<details class="alike"><summary{in_english()}>{with_code(telling.head)}</summary>\n'
        + (f'<p class="places"{in_english()}>{escape("; ".join(places))}{more}</p>\n' if places else "")
        + f'<div class="spots">{"".join([_spot(spot) for spot in telling.spots])}</div>'
        + (f'\n<p class="places">{left_out}</p>' if left_out else "")
        + "\n</details>"
    )


def _accepted(result: AcceptedView, rule: Link) -> str:
    return (
        f"<p{of_row(result.row, result.stitches)}><b>{escape(result.where)}</b>: "
        f"{_english(with_code(result.message) + '.')} "
        f"<i>{escape(result.justification)}</i> {_rule(result.rule, rule(result.rule))}</p>\n"
    )
