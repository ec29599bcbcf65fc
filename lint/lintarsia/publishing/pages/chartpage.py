"""The page of one chart."""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from lintarsia.chart import Chart, Wearer, Worked
from lintarsia.chart.content import row_marks
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.cutting import Cut, Marks
from lintarsia.publishing.pages.edgenotes import NO_NOTES, EdgeNotes, with_edge_notes
from lintarsia.publishing.pages.entry import Entry, Figures
from lintarsia.publishing.pages.keyview import chip, make_key
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.levelmarks import mark
from lintarsia.publishing.pages.listview import ends_html, ends_in_table, on_balls_html, winding_html
from lintarsia.publishing.pages.materialview import key_html, yarns_html
from lintarsia.publishing.pages.pictures import PREFIX, Drawings
from lintarsia.publishing.pages.resulthtml import results_html
from lintarsia.publishing.pages.rowdata import rows_script
from lintarsia.publishing.pages.rowlist import rows_html
from lintarsia.publishing.pages.rowview import listed_steps, row_lines
from lintarsia.publishing.pages.said import Said, Spot, said_html
from lintarsia.publishing.pages.saying import GAPS, Knitted, saying
from lintarsia.publishing.pages.sewnview import sewn_html
from lintarsia.publishing.pages.svgsize import svg_size
from lintarsia.publishing.pages.templates import escaped, fill
from lintarsia.publishing.pages.words import TECHNIQUE, fabric_area, fabric_size, worked_words
from lintarsia.result import Level, RuleInfo
from lintarsia.telling.catching import catching_words
from lintarsia.telling.counts import count
from lintarsia.telling.counts import stitch_count as stitches
from lintarsia.telling.languages import ENGLISH, in_figures, marked, phrase, share, spoken
from lintarsia.telling.lengths import is_imperial, yarn_length
from lintarsia.telling.names import row_word
from lintarsia.telling.terms import Terms

LAYER_WORDS = dict(
    zip(
        ("results", "supplies", "floats", "ends", "said"),
        marked("Results", "Yarn paths", "Floats", "Joins and finishes", "What was said"),
        strict=True,
    )
)
_LAYER = re.compile(rf'id="{PREFIX}layer-([a-z]+)"')
EXCERPT = 4  # lines shown on either side of a fault in a file that cannot be read


def figures(chart: Chart, plan: Plan, drawings: Drawings) -> Figures:
    totals = plan.totals
    return Figures(
        stitches=chart.grid.width,
        rows=chart.grid.height,
        size=fabric_size(chart),
        technique=chart.technique.value,
        worked=worked_words(chart.worked),
        supplies=totals.supplies,
        fullest=totals.most_in_a_row,
        limit=plan.bounds.supplies,
        ends=totals.ends,
        metres=round(totals.metres, 2),
        yarn="–" if "gauge" in chart.assumed else yarn_length(totals.metres, is_imperial(chart)),
        picture=svg_size(drawings.fabric),
        area=0.0 if "gauge" in chart.assumed else round(fabric_area(chart), 1),
    )


def summary(chart: Chart) -> str:
    """`40 stitches × 50 rows, 18 × 17 cm; intarsia, worked flat`"""
    size = f"{stitches(chart.grid.width)} × {count(chart.grid.height, row_word(chart))}"
    return f"{size}, {fabric_size(chart)}; {phrase(TECHNIQUE[chart.technique])}, {worked_words(chart.worked)}"


class StateShown(NamedTuple):
    """What state of a chart its page shows: `stamp` in words; a revision that its page of changes begins with, and the
    slug of that page; what those are told who began with an earlier state, as HTML; "" where there is none."""

    stamp: str = ""
    since: str = ""
    changes: str = ""
    earlier: str = ""


class PageKind(NamedTuple):
    """What the template of a chart's page may ask about: pages of one kind differ in their texts alone."""

    word: str  # "row" or "round"
    layers: tuple[tuple[str, str], ...]  # name and words of each that the drawing has
    apart: bool  # the wrong side and the paths of the yarns are pictures of their own
    sheets: int  # 2 stands for any number above 1
    lying: bool  # the sheets lie on their side
    wearer: Wearer | None
    gauge_assumed: bool
    sewn: bool
    ends_listed: bool
    winding: bool  # something is to be wound
    on_balls: bool  # some supply stays on its ball
    parted: bool  # the work is in two sides somewhere
    turned: bool  # a tube that is turned at the end of every row
    rests: bool  # in some row more supplies hang than any row works with
    repeats: bool = False  # the chart has a repeat, so its figures are no measure to buy by
    in_rows: bool = True  # rows are worked back and forth
    ends_in_table: bool = True
    changed: bool = False  # there is a page of changes
    said: bool = False  # test knitters have said something of it
    says: bool = True  # they can say something of it here
    judged: bool = True  # what was found is told, and where that leads
    language: str = ENGLISH


# Texts of a page, by the names that the template has for them.
_MARKS = Marks(
    "slug", "sprite", "crumb", "around", "pattern", "title", "summary", "state", "state_mark", "verdict",
    "guide_to_infants",
    "guide_to_techniques", "guide_to_hands", "guide_to_garments", "drawing", "supplies", "fullest", "hanging", "fabric",
    "back", "back_drawing", "paths",
    "fabric_width", "fabric_height", "paths_width", "paths_height", "key", "results", "size", "gauge", "allowed",
    "gauge_word", "ends", "yarn", "allowance", "yarns", "number_of_sheets", "sheets", "winding", "on_balls", "ways",
    "rows", "sewn", "number_of_ends", "list_of_ends", "fingerprint", "row_marks", "stamp", "data", "beside",
    "since", "changes", "earlier", "said", *GAPS,
)  # fmt: skip


@lru_cache(maxsize=64)  # a site has a handful
def _cut(kind: PageKind) -> Cut:
    return _MARKS.cut(fill("chart.html", kind=kind, page=_MARKS))


@dataclass(frozen=True, slots=True)
class Setting:
    """What a chart's page stands among: the way up and what is around it (HTML); the slug of the pattern that it is a
    piece of, ""; whether it tells what was found in the chart; how the piece begins and ends."""

    crumb: str
    around: str = ""
    pattern: str = ""
    judged: bool = True
    edges: EdgeNotes = NO_NOTES


def chart_page(
    chart: Chart, plan: Plan, entry: Entry, drawings: Drawings, layout: Layout, rules: Mapping[str, RuleInfo],
    allowance: float, state: StateShown, terms: Terms = Terms.AMERICAN, setting: Setting | None = None,
    knitted: Knitted | None = None, said: Sequence[tuple[Said, Spot]] = (),
) -> bytes:  # fmt: skip
    """The page's content as HTML. `knitted` is what a log of it names, None where nothing is to be said; `said` what
    test knitters have said of it, by its own numbers."""
    assert entry.figures is not None
    key = make_key(chart, plan)
    chips = [chip(number) for number in range(len(key.number))]
    ends = ends_html(chart, plan, key, chips)
    winding = winding_html(chart, plan, key, chips, allowance)
    on_balls = on_balls_html(chart, plan, key, chips, allowance)
    sewn = sewn_html(chart, key, chips)
    page = layout.chart(entry.slug)
    setting = setting or Setting(crumb(layout, page))
    beside = layout.file_link(page, layout.picture(entry.slug, ""))  # the folder of its pictures
    sheets = [name for name in drawings.files if name.startswith("sheet-")]
    layers = {*_LAYER.findall(drawings.chart), *(name.removesuffix(".svg") for name in drawings.files)}
    listed = with_edge_notes(listed_steps(chart, plan, terms), setting.edges, chart, plan)
    width, height = entry.figures.picture
    apart = svg_size(drawings.files["paths.svg"]) if "paths.svg" in drawings.files else None
    kind = PageKind(
        word=row_word(chart),
        layers=tuple([(name, phrase(words)) for name, words in LAYER_WORDS.items() if name in layers]),
        apart=apart is not None,
        sheets=min(len(sheets), 2),
        lying=drawings.lying,
        wearer=chart.wearer,
        gauge_assumed="gauge" in chart.assumed,
        sewn=bool(sewn),
        ends_listed=bool(ends),
        ends_in_table=ends_in_table(plan),
        in_rows=chart.worked is not Worked.ROUND,
        changed=bool(state.since),
        winding=bool(winding),
        on_balls=bool(on_balls),
        repeats=chart.repeat is not None,
        parted=any(row.parts for row in plan.rows) if chart.divide else False,
        turned=chart.worked is Worked.TURNED,
        judged=setting.judged,
        rests=plan.totals.most_hanging > plan.totals.most_in_a_row,
        said=bool(said),
        says=knitted is not None,
        language=spoken(),
    )
    return _cut(kind).filled(
        {
            "slug": entry.slug,
            "sprite": key.sprite,
            "crumb": setting.crumb,
            "around": setting.around,
            "pattern": setting.pattern,
            "title": escaped(chart.title),
            "summary": escaped(entry.summary),
            "state": entry.state,
            "state_mark": mark(entry.state),
            "verdict": entry.verdict,
            "guide_to_infants": layout.link(page, layout.guide("infants")),
            "guide_to_techniques": layout.link(page, layout.guide("techniques")),
            "guide_to_hands": layout.link(page, layout.guide("hands")),
            "guide_to_garments": layout.link(page, layout.guide("necks-and-tubes")),
            "drawing": drawings.chart,
            "back_drawing": drawings.back,
            "supplies": count(plan.totals.supplies, "supply", "supplies"),
            "fullest": str(plan.totals.most_in_a_row),
            "hanging": str(plan.totals.most_hanging),
            "fabric": layout.file_link(page, layout.fabric(entry.slug)),
            "back": f"{beside}back.svg",
            "paths": f"{beside}paths.svg",
            "fabric_width": str(width),
            "fabric_height": str(height),
            "paths_width": str(apart[0]) if apart else "",
            "paths_height": str(apart[1]) if apart else "",
            "key": key_html(chart, plan, key, chips, terms),
            "results": results_html(chart, entry, layout, rules) if setting.judged else "",
            "size": entry.figures.size,
            "gauge": escaped(_gauge(chart)),
            "gauge_word": phrase(terms.gauge),
            "allowed": str(plan.bounds.supplies),
            "ends": in_figures(f"{plan.totals.ends:,}"),
            "yarn": entry.figures.yarn,
            "allowance": share(allowance),
            "yarns": yarns_html(chart, plan, key, chips),
            "number_of_sheets": str(len(sheets)),
            "sheets": _sheets([f"{beside}{name}" for name in sheets]),
            "winding": winding,
            "on_balls": on_balls,
            "ways": _ways(chart),
            "rows": rows_html(row_lines(chart, plan, key, listed), row_word(chart)),
            "data": rows_script(chart, plan, key, listed),
            "beside": beside,
            "sewn": sewn,
            "number_of_ends": count(plan.totals.ends, "end"),
            "list_of_ends": ends,
            "fingerprint": entry.fingerprint,
            "row_marks": " ".join(row_marks(chart)),
            "said": said_html(chart, said),
            **(saying(knitted, layout, page) if knitted else {}),
            "stamp": escaped(state.stamp),
            "since": escaped(state.since),
            "changes": layout.link(page, layout.changes(state.changes)),
            "earlier": state.earlier,
        }
    )


def crumb(layout: Layout, page: str, words: str = "") -> str:
    """The way up from a page to all of them."""
    return f'<a class="home" href="{layout.link(page, layout.overview)}">{words or phrase("All charts")}</a>'


def _sheets(links: Sequence[str]) -> str:
    return "".join(
        [
            f'<img src="{link}" alt="{phrase("Sheet {n} of {all}", n=number, all=len(links))}" '
            'width="190" height="240" loading="lazy" decoding="async">\n'
            for number, link in enumerate(links, 1)
        ]
    )


def _gauge(chart: Chart) -> str:
    gauge = chart.gauge
    needle = phrase(", needle {size}", size=gauge.needle) if gauge.needle else ""
    wide, high = in_figures(f"{gauge.stitches:g}"), in_figures(f"{gauge.rows:g}")
    return phrase("{wide} stitches × {high} rows in {over}", wide=wide, high=high, over=gauge.over) + needle


def _ways(chart: Chart) -> str:
    caught = catching_words(chart)
    return _directions(chart) + (f" {caught[:1].upper()}{caught[1:]}." if caught else "")


def _directions(chart: Chart) -> str:
    if chart.worked is Worked.ROUND:
        return phrase("Every round is worked from right to left.")
    if chart.first_row == "RS":
        odd = phrase("Right-side rows are the odd ones.")
    else:
        odd = phrase("Wrong-side rows are the odd ones.")
    return f"{odd} {phrase('Right-side rows are worked from right to left, wrong-side rows back.')}"


def broken_page(entry: Entry, text: str | None, layout: Layout, rules: dict[str, RuleInfo]) -> str:
    """The page of a chart that cannot be drawn: what stands in the way, and the file around it."""
    page = layout.chart(entry.slug)
    return fill(
        "broken.html",
        entry=entry,
        slug=entry.slug,
        home=layout.link(page, layout.overview),
        results=results_html(None, entry, layout, rules),
        excerpt=list(_excerpt(entry, text)) if text else [],
    )


def _excerpt(entry: Entry, text: str) -> Iterator[tuple[int, str, bool]]:
    standing = [r for r in entry.results if not r.suppressed]
    if not standing:
        return
    line = max(standing, key=lambda r: (Level(r.level).rank, -r.region.line)).region.line
    lines = text.split("\n")
    for number in range(max(1, line - EXCERPT), min(len(lines), line + EXCERPT) + 1):
        yield number, lines[number - 1][:200], number == line
