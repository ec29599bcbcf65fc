"""A plan as comma-separated values (RFC 4180, but with line feeds): the supplies, or the rows."""

import csv
from collections.abc import Iterable
from io import StringIO

from lintarsia.chart import Chart
from lintarsia.planning.model import Plan


def supplies_csv(chart: Chart, plan: Plan) -> str:
    """One line a supply, in the order joined. Metres have two decimals."""
    head = "id,colour,name,yarn,first_row,join_stitch,last_row,finish_stitch,stitches,carried,idle,metres,holder,wound"
    lines: list[Iterable[object]] = []
    for number, supply in enumerate(plan.supplies):
        colour = chart.colours.get(supply.colour)
        join, finish = plan.ends[2 * number], plan.ends[2 * number + 1]
        lines.append(
            (
                supply.id,
                supply.colour,
                colour.name if colour else "",
                (colour.yarn or "") if colour else "",
                supply.first_row,
                join.stitch,
                supply.last_row,
                finish.stitch,
                supply.stitches,
                supply.carried,
                supply.idle,
                f"{supply.metres:.2f}",
                supply.holder,
                "yes" if supply.wound else "no",
            )
        )
    return _table(head, lines)


def rows_csv(plan: Plan, window: tuple[int, int] | None = None) -> str:
    """One line a row, from row 1, or from the first to the last of `window`. Blanks separate the ids of a list."""
    first, last = window or (1, len(plan.rows))
    head = "row,side,direction,needs,hangs,line_up,joins,finishes,waiting,interlocks,crossings"
    return _table(
        head,
        (
            (
                row.row,
                row.side.value,
                row.direction,
                row.needs,
                row.hangs,
                *(" ".join(ids) for ids in (row.line_up, row.joins, row.finishes, row.waiting)),
                row.interlocks,
                row.crossings,
            )
            for row in plan.rows[first - 1 : last]
        ),
    )


def _table(head: str, lines: Iterable[Iterable[object]]) -> str:
    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(head.split(","))
    writer.writerows(lines)
    return out.getvalue()
