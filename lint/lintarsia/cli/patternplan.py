"""`lintarsia plan` of a pattern: its pieces in their sizes, each laid out and planned, and the yarn to buy."""

import csv
from collections.abc import Sequence
from dataclasses import replace
from io import StringIO
from typing import TYPE_CHECKING

import click

from lintarsia.cli.ofpattern import one_alone
from lintarsia.cli.progress import watching
from lintarsia.reporting.screen import Screen
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.pattern.choosing import PieceInSize
    from lintarsia.pattern.work import PatternWork
    from lintarsia.plansheets.answer import Question


def pattern_answer(
    work: "PatternWork",
    chosen: "Sequence[PieceInSize]",
    asked: "Question",
    screen: Screen,
    *,
    named: bool,
) -> str:
    """The answer as one text. `named`: one piece in one size is asked for by name, so the answer is that one plan."""
    if asked.tries or asked.largest is not None:
        one = one_alone(chosen, "--try" if asked.tries else "--what-if")
        return _question(one, replace(asked, reckoning=work.reckoning_of(one.piece, one.size)), screen)
    with watching(f"planning {count(len(chosen), 'piece')}"):
        if asked.format == "json":
            return _json(work, chosen, named=named)
        if asked.format != "text":
            return _csv(work, chosen, asked)
        return _text(work, chosen, asked, screen, named=named)


def _question(one: "PieceInSize", asked: "Question", screen: Screen) -> str:
    from lintarsia.plansheets.answer import answer

    with watching(f"weighing {one.name}") as progress:
        return answer(one.chart, asked, screen, progress)


def _json(work: "PatternWork", chosen: "Sequence[PieceInSize]", *, named: bool) -> str:
    from lintarsia.pattern.planjson import pattern_plan_json, piece_plan_json

    return piece_plan_json(work, chosen[0]) if named else pattern_plan_json(work, chosen)


def _text(
    work: "PatternWork", chosen: "Sequence[PieceInSize]", asked: "Question", screen: Screen, *, named: bool
) -> str:
    from lintarsia.pattern.plantext import pattern_plan_text, piece_plan_text

    if asked.window is not None:
        one = one_alone(chosen, "--rows")
        if asked.window[1] > one.chart.grid.height:
            rows = f"{one.name} has {count(one.chart.grid.height, 'row')}; asked for up to {asked.window[1]}"
            raise click.BadParameter(rows, param_hint="--rows")
    if named or asked.window is not None:
        return piece_plan_text(work, chosen[0], screen, whole=asked.whole, window=asked.window)
    return pattern_plan_text(work, chosen, screen, whole=asked.whole)


def _csv(work: "PatternWork", chosen: "Sequence[PieceInSize]", asked: "Question") -> str:
    """The tables of all pieces in one, piece and size in front of every line."""
    from lintarsia.plansheets.csv import rows_csv, supplies_csv

    out = StringIO()
    writer = csv.writer(out, lineterminator="\n")
    for number, one in enumerate(chosen):
        plan = work.plan(one.piece, one.size)
        table = supplies_csv(one.chart, plan) if asked.format == "csv" else rows_csv(plan, asked.window)
        head, *lines = csv.reader(StringIO(table))
        if not number:
            writer.writerow(("piece", "size", *head))
        writer.writerows((one.piece.name, one.size, *line) for line in lines)
    return out.getvalue()
