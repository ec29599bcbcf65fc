"""Edits put into a text the plain way: the fixes of rules are judged by something other than what mends files."""

from lintarsia.result import Edit


def apply(text: str, edits: tuple[Edit, ...]) -> str:
    """Each edit within one line, the last first."""
    lines = text.split("\n")
    for edit in sorted(edits, key=lambda edit: edit.region, reverse=True):
        line, column, end_line, end_column = edit.region
        assert line == end_line
        own = lines[line - 1]
        lines[line - 1] = own[: column - 1] + edit.text + own[end_column - 1 :]
    return "\n".join(lines)
