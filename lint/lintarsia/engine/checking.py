"""One file against the rules that hold for it."""

import os
from typing import NamedTuple

from lintarsia.engine.shown import shown as shown
from lintarsia.engine.subjects import Found, Subject, subject_of
from lintarsia.reading.source import Read
from lintarsia.result import Picture, Result
from lintarsia.settings.model import ArmedRule, Settings


class Checked(NamedTuple):
    """What one file came to. `picture` is there where there is something to show."""

    results: tuple[Result, ...]
    picture: Picture | None


CLEAN = Checked((), None)


def check_chart(file: str, data: bytes | None, settings: Settings, read: Read | None = None) -> Checked:
    """Read and check one file of any kind, a chart unless its name says otherwise. `file` names it in the results;
    `data` is its content, or None to read the file. `read` has the content of every other file that it names, such as
    a pattern's charts; without it they are read from the disk.

    Never raises for anything a file holds: what cannot be read is a result, and a rule that fails is a result of
    `engine/rule-failed` beside what the other rules found.
    """
    examining = Examining(subject_of(file, data, settings, read))
    examining.read()
    examining.judge()
    return examining.checked()


class Examining:
    """A check in steps, for those who take many files through one step before the next: `read`, then `judge` (or
    `apply` for each rule that holds), then `results` or `checked`; each once. Results call the file `name`, where that
    is given."""

    def __init__(self, subject: Subject, name: str = "") -> None:
        self.subject = subject
        self.armed = subject.settings.armed(os.path.abspath(subject.file))
        self._name = name
        self._rulebook = subject.settings.rulebook
        self._assumed: frozenset[str] = frozenset()
        self._found: list[Found] = []

    def read(self) -> None:
        subject = self.subject
        try:
            self._found = [Found(rule, finding) for rule, finding in subject.read()]
        except Exception as failure:
            self._found = [self._failed("the reader", failure)]
            return
        try:
            subject.gather()
        except Exception as failure:
            self._found.append(self._failed(f"the reader of {subject.beside}", failure))
        self._assumed = subject.assumed

    def _failed(self, what: str, failure: Exception) -> Found:
        from lintarsia.engine.failing import failed

        return failed(what, "reader-failed", failure, self.subject.kind)

    def judge(self) -> None:
        """By every rule that holds for the file."""
        for check in self.armed.checks:
            self.apply(check)

    def apply(self, check: ArmedRule) -> None:
        """One of the rules that hold for the file."""
        subject = self.subject
        if subject.work is None:
            return
        rule, run, options = check
        if self._assumed and self._rulebook.info(rule).judges_by & self._assumed:
            return
        found = self._found
        try:
            for told in run(subject.work, options):
                found.append(subject.found(rule, told))  # not gathered first: what was found before a failure is kept
        except Exception as failure:
            from lintarsia.engine.failing import rule_failed

            found.append(rule_failed(self._rulebook.load(rule), failure, subject.kind))

    def results(self) -> tuple[Result, ...]:
        """What was found, completed: once all rules have been applied."""
        accepted = self.subject.accepted()
        if not self._found and not accepted:
            return ()
        from lintarsia.engine.completing import complete

        name = self._name or shown(self.subject.file)
        return complete(name, self._found, accepted, self.subject, self.armed, self._rulebook)

    @property
    def found(self) -> tuple[Found, ...]:
        """What was found so far, each with what of the file it is about."""
        return tuple(self._found)

    def checked(self) -> Checked:
        """The results, and a picture where there are any and something to show."""
        results = self.results()
        return Checked(results, self.subject.picture()) if results else CLEAN
