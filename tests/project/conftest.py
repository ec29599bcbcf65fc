"""This project as other repositories get hold of it."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

Git = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="session")
def git() -> Git:
    """Run git in a folder, as a made-up designer."""
    person = {f"GIT_{who}_{what}": "a designer" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    env = {k: v for k, v in os.environ.items() if not k.startswith("GIT_")} | person

    def run(folder: Path, *argv: str, check: bool = True) -> "subprocess.CompletedProcess[str]":
        now = env | {k: os.environ[k] for k in ("PRE_COMMIT_HOME",) if k in os.environ}
        done = subprocess.run(["git", *argv], cwd=folder, env=now, capture_output=True, text=True)
        assert not check or done.returncode == 0, done.stdout + done.stderr
        return done

    return run


@pytest.fixture(scope="session")
def tool_repository(tmp_path_factory: pytest.TempPathFactory, git: Git) -> Path:
    """This project as it stands, committed to a repository of its own, as hooks and workflows fetch it."""
    folder = tmp_path_factory.mktemp("tool")
    for name in ("lint", "schema", "site", "tests/cases"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml", "action.yml"):
        shutil.copy(ROOT / name, folder / name)
    git(folder, "init", "-q")
    git(folder, "add", "-A")
    git(folder, "commit", "-qm", "as it stands")
    return folder
