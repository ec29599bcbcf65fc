"""Running the command line as its callers do."""

from collections.abc import Callable
from typing import NamedTuple

import pytest

from lintarsia.cli.main import main


class Done(NamedTuple):
    status: int
    out: str
    err: str


@pytest.fixture
def invoke(capfd: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Done]:
    """`invoke("check", ".")`: the exit status, standard output and standard error."""
    monkeypatch.delenv("LINTARSIA_DEBUG", raising=False)
    for variable in ("GITHUB_ACTIONS", "GITLAB_CI", "FORCE_COLOR"):
        monkeypatch.delenv(variable, raising=False)

    def run(*argv: str) -> Done:
        capfd.readouterr()
        return Done(main(argv), *capfd.readouterr())

    return run
