"""words/unreadable: written rows whose words cannot be followed."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from lintarsia.result import Basis, Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions, Work
from lintarsia.rules.shared.written_once import once

if TYPE_CHECKING:
    from lintarsia.written.lexer import NotUnderstood
    from lintarsia.written.row import WrittenRow

Options = NoOptions
INFO = RuleInfo(
    name="words/unreadable",
    level=Level.WARNING,
    summary="a written row has a word that cannot be followed",
    why=(
        "What cannot be read cannot be checked against the chart, so a slip in this row would go to print. A knitter "
        "may stumble over the same word."
    ),
    remedy="write it as `lintarsia write` does, such as k3 A, [k1 A, k1 B] 4 times or *k1 A, k1 B; rep from * to end",
    keys={"cannot-follow": "a word, a bracket or a repeat that says nothing"},
    sources=("abbreviations: a house list of the usual English ones", "common practice"),
    judges_by=frozenset({Basis.COLOURS}),
)


def check(work: Work, options: NoOptions) -> Iterator[Finding]:
    """One finding for each row, at the first word that says nothing."""
    yield from once((row, _finding(work, row, row.fault)) for row in work.written if row.fault is not None)


def _finding(work: Work, row: "WrittenRow", fault: "NotUnderstood") -> Finding:
    message = f"{row.name}: {fault.message}"
    return Finding("cannot-follow", message, row.place(fault.start, fault.end), row.row, pattern=row.words)
