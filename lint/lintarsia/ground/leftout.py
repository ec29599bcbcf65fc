"""Files that lie on the disk and are to count as gone: a commit takes them away and leaves them where they are.

Kept in the environment, so that other processes know of them too.
"""

import json
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

_VARIABLE = "LINTARSIA_LEFT_OUT"


@contextmanager
def leaving_out(paths: Sequence[str]) -> Iterator[None]:
    """While these files, by absolute paths, are as good as gone."""
    if not paths:
        yield
        return
    before = os.environ.get(_VARIABLE)
    os.environ[_VARIABLE] = json.dumps([os.path.realpath(path) for path in paths])
    try:
        yield
    finally:
        if before is None:
            del os.environ[_VARIABLE]
        else:
            os.environ[_VARIABLE] = before


def is_there(path: str) -> bool:
    """Whether anything has this name, a dangling link too, that is not left out."""
    return os.path.lexists(path) and not is_left_out(path)


def is_left_out(path: str) -> bool:
    """Whether a file is to count as gone."""
    told = os.environ.get(_VARIABLE)
    return told is not None and os.path.realpath(path) in json.loads(told)
