"""Running the command line as its callers do."""

import subprocess
from collections.abc import Callable, Mapping
from pathlib import Path
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


@pytest.fixture
def in_a_folder_with(
    invoke: Callable[..., Done], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[[Mapping[str, str]], Callable[..., Done]]:
    """`in_a_folder_with({"fox.chart.yaml": text})`: `invoke`, once the current folder is one with these files."""

    def fill(files: Mapping[str, str]) -> Callable[..., Done]:
        monkeypatch.chdir(tmp_path)
        for name, text in files.items():
            (tmp_path / name).write_text(text, "utf-8")
        return invoke

    return fill


@pytest.fixture
def git() -> Callable[..., str]:
    """Run git in the current folder; what it prints."""

    def run(*words: str) -> str:
        return subprocess.run(["git", *words], check=True, capture_output=True, text=True).stdout.strip()

    return run


@pytest.fixture
def commit(git: Callable[..., str]) -> Callable[[], None]:
    """Commit all that stands in the current folder."""

    def run() -> None:
        git("add", "-A")
        git("commit", "-q", "--allow-empty", "-m", "state")

    return run


@pytest.fixture
def repository(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, git: Callable[..., str]) -> Path:
    """An empty repository of a made-up designer, which is the current folder."""
    monkeypatch.chdir(tmp_path)
    git("init", "-q", "-b", "main")
    git("config", "user.email", "designer@example.org")
    git("config", "user.name", "Designer")
    return tmp_path
