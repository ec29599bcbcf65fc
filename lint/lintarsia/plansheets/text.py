"""A plan to knit from: what to buy, what to wind, and what hangs in each row. At most as wide as the screen."""

from textwrap import wrap

from lintarsia.chart import Chart, Technique, Wearer, Worked
from lintarsia.chart.measure import MM_PER
from lintarsia.planning.model import Plan
from lintarsia.planning.yarn import loop_mm
from lintarsia.plansheets.caution import CAUTION
from lintarsia.plansheets.materials import materials
from lintarsia.plansheets.rowtable import row_table
from lintarsia.plansheets.winding import winding_list
from lintarsia.reporting.screen import PLAIN, Screen
from lintarsia.telling.counts import count
from lintarsia.telling.lengths import fabric_length, is_imperial, yarn_length
from lintarsia.telling.names import row_word


def plan_text(chart: Chart, plan: Plan, screen: Screen = PLAIN, *, whole: bool = False, allowance: float = 0.1) -> str:
    """The whole sheet, with a final newline. `whole` lists every supply and row where they would be gathered."""
    parts = [
        heading(chart, plan, screen),
        materials(chart, plan, screen, allowance),
        winding_list(chart, plan, screen, whole=whole, allowance=allowance),
        row_table(chart, plan, screen, whole=whole),
    ]
    return "\n".join("\n".join(line.rstrip() for line in part) + "\n" for part in parts if part)


def heading(chart: Chart, plan: Plan, screen: Screen) -> list[str]:
    totals = plan.totals
    over = int((plan.threads.needs > plan.bounds.supplies).sum())
    limit = f"limit {plan.bounds.supplies}" + (f", {count(over, row_word(chart))} over it" if over else "")
    most = f"at most {totals.most_in_a_row} in a {row_word(chart)}"
    lines = [
        *wrap(chart.title, screen.width),
        words_of(chart),
        "",
        f"{count(totals.supplies, 'supply', 'supplies')}, {totals.ends:,} ends, {most} ({limit})",
        f"{count(totals.stitches, 'stitch', 'stitches')}, {yarn_length(totals.metres, is_imperial(chart))} of yarn, "
        f"{count(totals.carried, 'stitch', 'stitches')} carried, {count(totals.idle, 'row')} waited",
        limits_line(chart, plan),
    ]
    threads, imperial = plan.threads, is_imperial(chart)
    if threads.longest_float:
        longest = fabric_length(threads.longest_float * chart.gauge.float_stitch_mm, imperial)
        lines.append(f"{count(len(threads.float_lengths), 'float')}, the longest {longest}")
    loop = loop_mm(chart.gauge, chart.technique)
    a_stitch = f"{loop / MM_PER['in']:.2f} in" if imperial else f"{loop:.1f} mm"
    lines.append(f"{a_stitch} of yarn a stitch, {_source(chart)}")
    if chart.repeat:
        lines.append("the repeat is counted as often as it is drawn")
    if threads.longest_float and chart.wearer in (Wearer.INFANT, Wearer.CHILD):
        lines += ["", *wrap(CAUTION, screen.width)]
    return lines


def _source(chart: Chart) -> str:
    return "as measured" if chart.gauge.loop else "reckoned from the gauge; a measured loop is surer"


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
