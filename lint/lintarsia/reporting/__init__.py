"""Results to text, JSON and the standard formats, one a file. `REPORTERS` is the one dictionary of them."""

from collections.abc import Callable, Mapping
from importlib import import_module

from lintarsia.reporting.screen import Screen
from lintarsia.result import Report

Reporter = Callable[[Report, Screen], str]

# Format name → module of this package, whose function `render` makes the whole text of a report.
REPORTERS: Mapping[str, str] = {
    "github": "github",
    "gitlab": "gitlab",
    "json": "json",
    "junit": "junit",
    "sarif": "sarif",
    "text": "text",
}


def load_reporter(name: str) -> Reporter:
    """The reporter of a format; KeyError where there is none of that name."""
    render: Reporter = import_module(f"lintarsia.reporting.{REPORTERS[name]}").render
    return render
