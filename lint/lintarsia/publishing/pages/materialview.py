"""What a chart is knitted with, as its page tells it: the key as list items, the yarns to buy as table rows.

Put together here rather than in a template, like the rows of a chart.
"""

from collections.abc import Iterator, Sequence

from lintarsia.chart import Chart
from lintarsia.drawing.signs import signs
from lintarsia.planning.model import Plan, YarnNeed
from lintarsia.plansheets.materials import mass_to_buy
from lintarsia.publishing.pages.keyview import Key
from lintarsia.publishing.pages.sewnview import sewn_stitches, sewn_totals
from lintarsia.publishing.pages.templates import escaped
from lintarsia.telling.counts import count
from lintarsia.telling.counts import stitch_count as stitches
from lintarsia.telling.languages import in_figures, phrase
from lintarsia.telling.lengths import is_imperial, yarn_length
from lintarsia.telling.terms import Terms


def key_html(chart: Chart, plan: Plan, key: Key, chips: Sequence[str], terms: Terms = Terms.AMERICAN) -> str:
    """An `<li>` for every colour, in the key's own order, then symbols that it lacks, then signs of other meaning."""
    return "".join([*_colours(chart, plan, key, chips), *_signs(chart, terms)])


def _colours(chart: Chart, plan: Plan, key: Key, chips: Sequence[str]) -> Iterator[str]:
    sewn = sewn_totals(sewn_stitches(chart))
    for symbol, number in key.number.items():
        colour, totals = chart.colours.get(symbol), plan.colours.get(symbol)
        told = _stitches(totals.stitches if totals else 0, sewn.get(symbol, 0))
        yarn = chart.yarns.get(colour.yarn) if colour and colour.yarn else None
        if yarn:
            told += f" · {escaped(yarn.name or yarn.id)}"
        yield f"<li>{chips[number]} <b>{escaped(key.name[symbol])}</b> <span>{told}</span></li>\n"


def _stitches(knitted: int, sewn: int) -> str:
    """How many stitches have a colour: those that are knitted in it, and those that are embroidered over."""
    if not sewn:
        return stitches(knitted)
    if not knitted:
        return phrase("{stitches} in duplicate stitch", stitches=stitches(sewn))
    more = in_figures(f"{sewn:,}")
    return phrase("{stitches}, {n} in duplicate stitch", stitches=stitches(knitted), n=more)


def _signs(chart: Chart, terms: Terms) -> Iterator[str]:
    for sign in signs(chart, terms):
        drawing = f'<svg class="key" viewBox="0 0 24 20" aria-hidden="true">{sign.drawing}</svg>'
        yield f'<li class="sign">{drawing} <b>{escaped(sign.name)}</b> <span>{escaped(sign.words)}</span></li>\n'


def yarns_html(chart: Chart, plan: Plan, key: Key, chips: Sequence[str]) -> str:
    """A `<tr>` for every yarn."""
    return "".join([_yarn(chart, need, key, chips) for need in plan.yarns])


def _yarn(chart: Chart, need: YarnNeed, key: Key, chips: Sequence[str]) -> str:
    yarn, imperial = chart.yarns.get(need.yarn), is_imperial(chart)
    fibre = f" <small>{escaped(yarn.fibre)}</small>" if yarn and yarn.fibre else ""
    drawn = "".join([chips[key.number[symbol]] for symbol in need.colours if symbol in key.number])
    sewn = need.duplicate_metres
    of_it = phrase("{length} of it for duplicate stitch", length=yarn_length(sewn, imperial))
    duplicate = f" <small>{of_it}</small>" if sewn else ""
    named = f' data-yarn="{escaped(need.yarn)}"' if yarn else ""
    head = f'<tr{named}><th scope="row">{escaped(need.name or phrase("no yarn named"))}{fibre}</th><td>{drawn}</td>'
    if chart.repeat is not None:
        return f'{head}<td class="n">{yarn_length(need.metres, imperial)}{duplicate}</td></tr>\n'
    balls, short = "", ""
    if need.to_buy is not None:
        balls = count(need.to_buy, "ball")
        if need.stated is not None and need.stated + 1e-9 < need.to_buy:
            short = f" <small>{phrase('the file has {n}', n=in_figures(f'{need.stated:g}'))}</small>"
    return (
        f'{head}<td class="n">{yarn_length(need.buy_metres, imperial)}{duplicate}</td>'
        f'<td class="n">{mass_to_buy(chart, need, small=phrase("under 1 g")) or "–"}</td>'
        f'<td class="n">{balls or "–"}{short}</td></tr>\n'
    )
