"""Reports as one text, for tests that look at the whole of one."""

from lintarsia.reporting import load_pieces
from lintarsia.reporting.screen import Screen
from lintarsia.result import Report


def rendered(report: Report, screen: Screen, form: str = "text") -> str:
    """The report in a format, whole."""
    return "".join(load_pieces(form)(report, screen))
