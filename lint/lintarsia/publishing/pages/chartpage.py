"""The page of one chart."""

import re
from collections.abc import Mapping, Sequence

from lintarsia.chart import Chart, Worked
from lintarsia.chart.content import row_marks
from lintarsia.planning.model import Plan
from lintarsia.publishing.pages.chartkind import PageKind, cut_of
from lintarsia.publishing.pages.edgenotes import with_edge_notes
from lintarsia.publishing.pages.entry import Entry
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
from lintarsia.publishing.pages.saying import Knitted, saying
from lintarsia.publishing.pages.setting import Setting, StateShown, crumb
from lintarsia.publishing.pages.sewnview import sewn_html
from lintarsia.publishing.pages.svgsize import svg_size
from lintarsia.publishing.pages.templates import escaped
from lintarsia.publishing.pages.words import unparted
from lintarsia.result import RuleInfo
from lintarsia.telling.catching import catching_words
from lintarsia.telling.counts import count
from lintarsia.telling.languages import in_figures, marked, phrase, share, spoken
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
    return cut_of(kind).filled(
        {
            "slug": entry.slug,
            "sprite": key.sprite,
            "crumb": setting.crumb,
            "around": setting.around,
            "pattern": setting.pattern,
            "title": escaped(chart.title),
            "heading": setting.heading or escaped(chart.title),
            "summary": escaped(entry.summary.replace(entry.figures.size, unparted(entry.figures.size))),
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
    needle = phrase(", needle {size}", size=in_figures(str(gauge.needle))) if gauge.needle else ""
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
