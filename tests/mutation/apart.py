"""Pixels and pages in a fork: libraries that make them start threads, which are not in a fork, and whoever waits for
them there waits for ever. So a fork asks a process of its own, unless the very same was answered before it began."""

import importlib
import os
import pickle
import subprocess
import sys
from collections.abc import Callable
from functools import wraps
from typing import Any

LIBRARIES = (("resvg_py", "svg_to_bytes"), ("typst", "compile"))
# What it is asked comes from our own fork, and so does its answer.
_CODE = """\
import importlib, pickle, sys
library, name, given, named = pickle.load(sys.stdin.buffer)
try:
    answer = True, getattr(importlib.import_module(library), name)(*given, **named)
except Exception as failure:
    kind = next(kind for kind in type(failure).__mro__ if kind.__module__ == "builtins")
    answer = False, kind(str(failure))
sys.stdout.buffer.write(pickle.dumps(answer))
"""


def answer_forks() -> None:
    """From now on the libraries answer in forks of this process too: the same, though a failure is of the nearest of
    Python's own kinds."""
    for library, name in LIBRARIES:
        module = importlib.import_module(library)
        setattr(module, name, answering(library, name, getattr(module, name)))


def answering(library: str, name: str, function: Callable[..., Any]) -> Callable[..., Any]:
    """`function`, the one of that name in a library, for this process and its forks."""
    home, known = os.getpid(), dict[bytes, Any]()

    @wraps(function)
    def run(*given: Any, **named: Any) -> Any:
        asked = pickle.dumps((library, name, given, named))
        if os.getpid() == home:
            known[asked] = function(*given, **named)
        return known[asked] if asked in known else elsewhere(asked)

    return run


def elsewhere(asked: bytes) -> Any:
    """What another process answers; raises what is raised there."""
    done = subprocess.run([sys.executable, "-c", _CODE], input=asked, stdout=subprocess.PIPE, check=True)
    made, answer = pickle.loads(done.stdout)
    if not made:
        raise answer
    return answer
