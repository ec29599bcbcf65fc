"""A plan to knit from: what to buy, what to wind, and what hangs in each row. At most as wide as the screen."""

from collections.abc import Sequence
from textwrap import wrap

from lintarsia.chart import Begins, Chart, Technique, Wearer, Worked
from lintarsia.chart.measure import MM_PER
from lintarsia.planning.edgework import EdgeRun
from lintarsia.planning.model import Plan
from lintarsia.planning.rates import loop_mm
from lintarsia.plansheets.caution import CAUTION
from lintarsia.plansheets.materials import materials
from lintarsia.plansheets.rowtable import row_table
from lintarsia.plansheets.winding import winding_list
from lintarsia.reporting.paint import plain_where_needed
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.telling.catching import catching_words
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import fabric_length, is_imperial, yarn_length
from lintarsia.telling.names import row_word

AS_DRAWN = "the figures are for the chart as drawn, its repeat worked once; a pattern file has them for each size"
MANY_PARTS = 12  # of an edge; what is more is summed up


def plan_text(
    chart: Chart,
    plan: Plan,
    screen: Screen = PLAIN,
    *,
    whole: bool = False,
    allowance: float = 0.1,
    window: tuple[int, int] | None = None,
    buying: bool = True,
) -> str:
    """The whole sheet, with a final newline. `whole` lists every supply and row where they would be gathered.
    Without `buying` it says nothing of what to buy.

    With a `window` (its first and last row) it is the heading and the table of these rows.
    """
    parts = [heading(chart, plan, screen)]
    if window is None:
        parts.append(materials(chart, plan, screen, allowance, buying=buying))
        parts.append(winding_list(chart, plan, screen, whole=whole, allowance=allowance))
    parts.append(row_table(chart, plan, screen, whole=whole, window=window))
    text = "\n".join("\n".join(line.rstrip() for line in part) + "\n" for part in parts if part)
    return plain_where_needed(text, screen)


def heading(chart: Chart, plan: Plan, screen: Screen) -> list[str]:
    totals = plan.totals
    over = int((plan.threads.needs > plan.bounds.supplies).sum())
    limit = f"limit {plan.bounds.supplies}" + (f", {count(over, row_word(chart))} over it" if over else "")
    most = f"at most {totals.most_in_a_row} in a {row_word(chart)}"
    if totals.most_hanging > totals.most_in_a_row:
        limit += f"; {totals.most_hanging} hang with those that rest"
    lines = [
        *wrap(chart.title, screen.width),
        words_of(chart),
        "",
        f"{count(totals.supplies, 'supply', 'supplies')}, {totals.ends:,} ends, {most} ({limit})",
        f"{count(totals.stitches, 'stitch', 'stitches')}, {yarn_length(totals.metres, is_imperial(chart))} of yarn, "
        f"{count(totals.carried, 'stitch', 'stitches')} carried, {count(totals.idle, row_word(chart))} waited",
        limits_line(chart, plan),
    ]
    threads, imperial = plan.threads, is_imperial(chart)
    if threads.longest_float:
        longest = fabric_length(threads.longest_float * chart.gauge.float_stitch_mm, imperial)
        lines.append(f"{count(len(threads.float_lengths), 'float')}, the longest {longest}")
    if caught := catching_words(chart):
        lines.append(caught)
    loop = loop_mm(chart.gauge, chart.technique)
    a_stitch = f"{loop / MM_PER['in']:.2f} in" if imperial else f"{loop:.1f} mm"
    lines.append(f"{a_stitch} of yarn a stitch, {_source(chart)}")
    lines += wrap(_begins(chart, plan), screen.width, subsequent_indent="  ")
    if chart.repeat:
        lines += wrap(AS_DRAWN, screen.width, subsequent_indent="  ")
    if threads.longest_float and chart.wearer in (Wearer.INFANT, Wearer.CHILD):
        lines += ["", *wrap(CAUTION, screen.width)]
    return lines


def _begins(chart: Chart, plan: Plan) -> str:
    """What is cast on, or on which stitches the work begins."""
    if chart.begins is Begins.CAST_ON:
        return edge_line("cast on", plan.cast_on)
    stitches = count(chart.grid.stitches(1) - (chart.shaping[1].net if 1 in chart.shaping else 0), "stitch", "stitches")
    return f"begin on {stitches}, " + ("picked up" if chart.begins is Begins.PICKED_UP else "on the needle already")


def edge_line(what: str, edge: Sequence[EdgeRun]) -> str:
    """`cast on 4 B, 6 W, 4 B, in this order`."""
    colours = list(dict.fromkeys(part.colour for part in edge))
    if len(edge) > MANY_PARTS:
        return f"{what} {sum(part.stitches for part in edge):,} stitches in {count(len(colours), 'colour')}"
    parts = ", ".join(f"{part.stitches:,} {_apart(part.colour)}" for part in edge)
    return f"{what} {parts}" + (", in this order" if len(edge) > 1 else "")


def _apart(symbol: str) -> str:
    """The symbol behind a count: in quotes where it is a digit."""
    return f'"{symbol}"' if symbol.isdigit() else symbol


def _source(chart: Chart) -> str:
    source = "as measured" if chart.gauge.loop else "reckoned from the gauge; a measured loop is surer"
    share = chart.gauge.share
    return source if share == 1 else f"{source}; {share:g} times a plain stitch, a house value for ribs"


def words_of(chart: Chart) -> str:
    """`intarsia, worked flat, 40 stitches × 50 rows`."""
    worked = {Worked.FLAT: "worked flat", Worked.ROUND: "worked in the round", Worked.TURNED: "a tube, turned"}
    return (
        f"{chart.technique}, {worked[chart.worked]}, {count(chart.grid.width, 'stitch', 'stitches')} × "
        f"{count(chart.grid.height, row_word(chart))}"
    )


def limits_line(chart: Chart, plan: Plan) -> str:
    """How far a yarn may go on, which decides everything else."""
    bounds = plan.bounds

    def most(value: int | None) -> str:
        return "any" if value is None else str(value)

    longest = fabric_length(bounds.float_mm, is_imperial(chart))
    if chart.technique is Technique.STRANDED and bounds.strand is bounds.carry is bounds.idle is None:
        return f"yarns run on without bound; a float is long above {longest}"
    return f"within strand {most(bounds.strand)} · carry {most(bounds.carry)} · idle {most(bounds.idle)}"
