"""Every kind of file as a check goes through it: `engine/subjects/<kind>.py` has its `SUBJECT`.

A module is imported when a file of its kind is first met, so that a check of charts loads nothing of patterns.
"""

from functools import cache
from importlib import import_module

from lintarsia.engine.subjects.base import Acceptance, Found, Subject
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.reading.source import Read
from lintarsia.settings.model import Settings

__all__ = ["Acceptance", "Found", "Subject", "subject_of"]


def subject_of(file: str, data: bytes | None, settings: Settings, read: Read | None = None) -> Subject:
    """The file as its kind has it; nothing is read yet. The arguments are those of `Subject`."""
    return _maker(kind_of(file))(file, data, settings, read)


@cache
def _maker(kind: Kind) -> type[Subject]:
    made: type[Subject] = import_module(f"{__name__}.{kind}").SUBJECT
    return made
