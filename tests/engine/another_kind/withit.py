"""lintarsia as it would be with one more kind of file: a line in `ground/kinds.py`, a module for what is checked, a
module for its page, and nothing else.

Standard input has commands as JSON, `[[arguments, what stands on standard input], ...]`; the answer has for each its
exit status and what it says on standard output and error.
"""

import io
import json
import sys
from collections.abc import Callable
from contextlib import redirect_stderr, redirect_stdout
from importlib.machinery import ModuleSpec
from pathlib import Path
from types import ModuleType

import lintarsia.ground
from lintarsia.ground import resources

HERE = Path(__file__).parent
LINE = 'KNIT = "knit", "test knit", "the log of a test knit"\n'
OWN = '    YARNCARD = "yarncard", "yarn card", "a card of yarns", True\n'


def put(name: str, file: Path, change: Callable[[str], str] = str) -> ModuleType:
    """Load a module of lintarsia from a file whose text is changed first."""
    module = sys.modules[name] = ModuleType(name)
    module.__spec__ = ModuleSpec(name, None)  # by which it is known to be there
    module.__file__ = str(file)
    exec(compile(change(file.read_text("utf-8")), str(file), "exec"), module.__dict__)
    return module


def with_line(text: str) -> str:
    assert LINE in text, "ground/kinds.py has its kinds written in another way"
    return text.replace(LINE, LINE + OWN)


lintarsia.ground.kinds = put("lintarsia.ground.kinds", Path(lintarsia.ground.__path__[0]) / "kinds.py", with_line)
shipped = resources.resource
resources.resource = lambda name: HERE / "yarncard.schema.json" if "yarncard" in name else shipped(name)

import lintarsia.engine.subjects  # noqa: E402 - it has to meet the kinds with ours among them

put("lintarsia.engine.subjects.yarncard", HERE / "yarncard.py")
import lintarsia.publishing.site.makers  # noqa: E402 - likewise

put("lintarsia.publishing.site.makers.yarncard", HERE / "page.py")

from lintarsia.cli.main import main  # noqa: E402


def said(argv: list[str], given: str) -> tuple[int, str, str]:
    """(exit status, standard output, standard error) of one command."""
    out, err = io.TextIOWrapper(io.BytesIO(), "utf-8"), io.TextIOWrapper(io.BytesIO(), "utf-8")
    sys.stdin = io.TextIOWrapper(io.BytesIO(given.encode()), "utf-8")
    with redirect_stdout(out), redirect_stderr(err):
        status = main(argv)
    return status, text_of(out), text_of(err)


def text_of(stream: io.TextIOWrapper) -> str:
    stream.seek(0)
    return stream.read()


if __name__ == "__main__":
    asked = json.load(sys.stdin)
    answers = [said(argv, given) for argv, given in asked]
    print(json.dumps(answers))
