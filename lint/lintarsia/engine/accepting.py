"""A report held against the baselines that hold for its charts."""

import os

from lintarsia.result import Report


def baselines_of(report: Report, named: str | None = None) -> dict[str, frozenset[str]]:
    """The files of the report by their baseline: the one `named`, or that of each one's settings.

    Baselines are named from the current folder where they lie below that.
    """
    if named is not None:
        return {named: frozenset(report.files)}
    paths = sorted(set(report.baseline_of.values()))
    return {_short(path): frozenset(file for file, own in report.baseline_of.items() if own == path) for path in paths}


def hold_against(report: Report, path: str, own: frozenset[str], *, partial: bool = False) -> Report:
    """The report with the results of the files `own` held against the baseline at `path`.

    `partial`: the run left results out, so that nothing can be said of entries that none of them meets. Raises Trouble
    where the baseline cannot be read.
    """
    from lintarsia.result import baseline
    from lintarsia.rules.baseline import stale

    held = baseline.read_baseline(path)
    return baseline.hold_against(report, held, None if partial else stale.INFO, own)


def _short(path: str) -> str:
    near = os.path.relpath(path)
    return path if near.startswith(os.pardir) else near
