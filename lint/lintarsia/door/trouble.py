"""What the door raises for a chart that cannot be worked with."""

from collections.abc import Iterable
from typing import TypeVar

from lintarsia.ground.trouble import Trouble
from lintarsia.result import Finding, Level

Read = TypeVar("Read")


class Unreadable(Trouble):
    """A chart with errors in its file, so that nothing should be planned or written by it.

    The message has each fault with its place, as the commands print them. `findings` are those faults, each with the
    name of the rule that it belongs to.
    """

    def __init__(self, file: str, findings: tuple[tuple[str, Finding], ...]) -> None:
        self.file = file
        self.findings = findings
        super().__init__("\n".join(_told(file, rule, finding) for rule, finding in findings))

    def __reduce__(self) -> tuple[object, ...]:
        return type(self), (self.file, self.findings)


def sound(file: str, problems: Iterable[tuple[str, Finding]], read: Read | None) -> Read:
    """What was read of a file, where none of its problems is an error. Raises Unreadable."""
    errors = tuple((rule, found) for rule, found in problems if found.level in (None, Level.ERROR))
    if read is None or errors:
        raise Unreadable(file, errors)
    return read


def _told(file: str, rule: str, finding: Finding) -> str:
    return f"{file}:{finding.region.line}:{finding.region.column}: {finding.message} [{rule}]"
