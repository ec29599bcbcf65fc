"""The part of `lintarsia check` that holds a report against baselines, and writes them."""

import os
from dataclasses import replace
from typing import TYPE_CHECKING

import click

from lintarsia.cli.output import refuse_source, write_file
from lintarsia.telling.counts import count

if TYPE_CHECKING:
    from lintarsia.result import Report
    from lintarsia.result.baseline import Mark


def hold(report: "Report", named: str | None, *, update: bool, partial: bool) -> "Report":
    """The report held against the baseline `named` on the command line, or each chart against that of its settings.

    `update` writes them anew first. `partial`: the run left results out, so that nothing can be said of entries that
    none of them meets. Raises Trouble where a baseline cannot be read or written.
    """
    if named is None and not update and not report.baseline_of:
        return report
    from lintarsia.engine.accepting import baselines_of, hold_against

    files = baselines_of(report, named)
    if update and not files:
        where = "" if report.files else ", and charts to check"
        raise click.UsageError(f"--update needs --baseline FILE, or settings that name a baseline{where}")
    if not files:
        return report
    for path, own in files.items():
        if update:
            _write(report, path, own)
            from lintarsia.result.baseline import read_baseline

            number = len(read_baseline(path).entries)
            click.echo(f"lintarsia: {path} accepts {count(number, 'result')}", err=True)
        report = hold_against(report, path, own, partial=partial)
    return report


def accepted(report: "Report", named: str | None, *, update: bool) -> "dict[str, frozenset[Mark]]":
    """What the baselines of `hold` accept, by file. One that `update` is still to make accepts nothing."""
    if named is None and not report.baseline_of:
        return {}
    from lintarsia.engine.accepting import baselines_of

    files = baselines_of(report, named)
    from lintarsia.result.baseline import accepted_of, read_baseline

    held = {path: read_baseline(path) for path in files if not update or os.path.exists(path)}
    return {file: accepted_of(held[path], file) for path in held for file in files[path]}


def _write(report: "Report", path: str, own: frozenset[str]) -> None:
    from lintarsia.result import baseline

    refuse_source(path, "a baseline", "for it")
    old = baseline.read_baseline(path) if os.path.exists(path) else None
    mine = replace(report, results=tuple(result for result in report.results if result.file in own))
    write_file(path, baseline.write_out(mine, path, old))
