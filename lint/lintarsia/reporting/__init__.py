"""Results to text, JSON and the standard formats, one a file. `REPORTERS` is the one dictionary of them."""

from collections.abc import Callable, Iterable, Mapping
from importlib import import_module

from lintarsia.reporting.screen import Screen
from lintarsia.result import Report

# Format name → module of this package, whose `pieces` gives the text of a report bit by bit.
REPORTERS: Mapping[str, str] = {
    "github": "github",
    "gitlab": "gitlab",
    "json": "json",
    "junit": "junit",
    "sarif": "sarif",
    "text": "text",
}


# By the variable a CI system sets: what it reads, each with the file it belongs in (None: standard output). GitHub,
# and those that run its workflows, pick annotations out of the log; GitLab wants a file, named in the job.
CI_FORMATS: Mapping[str, tuple[tuple[str, str | None], ...]] = {
    "GITHUB_ACTIONS": (("github", None),),
    "GITLAB_CI": (("text", None), ("gitlab", "gl-code-quality-report.json")),
}


def usual_formats(environ: Mapping[str, str]) -> tuple[tuple[str, str | None], ...]:
    """(format, file) for each report to make where none is asked for."""
    return next((formats for variable, formats in CI_FORMATS.items() if environ.get(variable)), (("text", None),))


def load_pieces(name: str) -> Callable[[Report, Screen], Iterable[str]]:
    """What gives the text of a report in a format bit by bit; KeyError where there is none of that name."""
    pieces: Callable[[Report, Screen], Iterable[str]] = import_module(f"lintarsia.reporting.{REPORTERS[name]}").pieces
    return pieces
