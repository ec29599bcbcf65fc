"""The part of `lintarsia check` that holds a report against baselines, and writes them."""

import os
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from lintarsia.cli.output import write_file
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.result import Report
    from lintarsia.result.baseline import Mark


def hold(report: "Report", named: str | None, *, update: bool, partial: bool) -> "Report":
    """The report held against the baseline `named` on the command line, or each chart against that of its settings.

    `update` writes them anew first. `partial`: the run left results out, so that nothing can be said of entries that
    none of them meets. Raises Trouble where a baseline cannot be read or written.
    """
    files = _files_of(report, named)
    if update and not files:
        where = "" if report.files else ", and charts to check"
        raise click.UsageError(f"--update needs --baseline FILE, or settings that name a baseline{where}")
    if not files:
        return report
    from lintarsia.result import baseline
    from lintarsia.rules.baseline import stale as baseline_stale

    for path, own in files.items():
        if update:
            _write(report, path, own)
        held = baseline.read_baseline(path)
        if update:
            number = len(held.entries)
            click.echo(f"lintarsia: {path} accepts {count(number, 'result')}", err=True)
        report = baseline.hold_against(report, held, None if partial else baseline_stale.INFO, own)
    return report


def accepted(report: "Report", named: str | None, *, update: bool) -> "dict[str, frozenset[Mark]]":
    """What the baselines of `hold` accept, by file. One that `update` is still to make accepts nothing."""
    files = _files_of(report, named)
    if not files:
        return {}
    from lintarsia.result.baseline import accepted_of, read_baseline

    held = {path: read_baseline(path) for path in files if not update or os.path.exists(path)}
    return {file: accepted_of(held[path], file) for path in held for file in files[path]}


def _files_of(report: "Report", named: str | None) -> dict[str, frozenset[str]]:
    """The files of the report by their baseline, as a path from the current folder where it is below that."""
    if named is not None:
        return {named: frozenset(report.files)}
    paths = sorted(set(report.baseline_of.values()))
    return {_short(path): frozenset(file for file, own in report.baseline_of.items() if own == path) for path in paths}


def _short(path: str) -> str:
    near = os.path.relpath(path)
    return path if near.startswith(os.pardir) else near


def _write(report: "Report", path: str, own: frozenset[str]) -> None:
    from lintarsia.result import baseline

    old = baseline.read_baseline(path) if os.path.exists(path) else None
    mine = replace(report, results=tuple(result for result in report.results if result.file in own))
    write_file(path, baseline.write_out(mine, path, old))
