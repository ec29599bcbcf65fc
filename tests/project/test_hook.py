"""The hook: which names it takes, and a real commit of a broken chart that it stops."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parents[2]
(HOOK,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))

Write = Callable[..., Path]


@pytest.mark.parametrize(
    "name",
    [
        "heron.chart.yaml",
        "charts/heron.chart.yaml",
        "a/b c/h\u00e9ron.chart.yaml",
        "x.y.chart.yaml",
        "cushion.pattern.yaml",
    ],
)
def test_the_hook_takes_charts(name: str) -> None:
    assert re.search(HOOK["files"], name)


@pytest.mark.parametrize(
    "name",
    [
        "heron.yaml",
        "chart.yaml",
        "heron.chart.yml",
        "heron.chart.yaml.bak",
        "heronchart.yaml",
        "heron.chart.yaml/notes.txt",
    ],
)
def test_the_hook_leaves_other_files(name: str) -> None:
    assert not re.search(HOOK["files"], name)


def test_the_hook_runs_once_for_all_charts() -> None:
    assert HOOK["require_serial"] is True
    assert HOOK["entry"] == "lintarsia check"
    assert "types" not in HOOK  # a chart that is not even text has to reach the check


@pytest.fixture(scope="module")
def tool_repository(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """This project as it stands, committed to a repository of its own, as hooks fetch it."""
    folder = tmp_path_factory.mktemp("tool")
    for name in ("lint", "schema", "site", "tests/cases"):
        shutil.copytree(ROOT / name, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE", ".pre-commit-hooks.yaml"):
        shutil.copy(ROOT / name, folder / name)
    _git(folder, "init", "-q")
    _git(folder, "add", "-A")
    _git(folder, "commit", "-qm", "as it stands")
    return folder


@pytest.fixture
def charts(tool_repository: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A designer's repository with the hook installed."""
    revision = _git(tool_repository, "rev-parse", "HEAD").stdout.strip()
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tool_repository.parent / "pre-commit"))  # one set-up for all tests here
    config = f"repos:\n  - {{repo: {tool_repository}, rev: {revision}, hooks: [{{id: lintarsia}}]}}\n"
    (tmp_path / ".pre-commit-config.yaml").write_text(config, encoding="utf-8")
    _git(tmp_path, "init", "-q")
    subprocess.run([sys.executable, "-m", "pre_commit", "install"], cwd=tmp_path, check=True, capture_output=True)
    return tmp_path


def test_a_commit_with_a_broken_chart_is_stopped(charts: Path, write_chart: Write) -> None:
    write_chart("birds/heron.chart.yaml", grid="short")
    write_chart("birds/good.chart.yaml", grid="clean")
    _git(charts, "add", "-A")
    done = _git(charts, "commit", "-m", "heron", check=False)
    told = done.stdout + done.stderr
    assert done.returncode == 1, told
    assert "birds/heron.chart.yaml:27:3" in told
    assert "row 2 has 27 stitches; row 1 has 28 and no shaping is declared" in told
    assert "good.chart.yaml" not in told
    assert _git(charts, "rev-parse", "--verify", "-q", "HEAD", check=False).returncode != 0  # nothing was committed

    write_chart("birds/heron.chart.yaml", grid="clean")
    _git(charts, "add", "-A")
    _git(charts, "commit", "-m", "heron, mended")
    assert _git(charts, "show", "--stat", "--oneline", "HEAD").stdout.count("chart.yaml") == 2


def test_a_chart_that_is_no_text_is_stopped_too(charts: Path) -> None:
    (charts / "odd.chart.yaml").write_bytes(b"\xff\xfe\x00\x01")
    _git(charts, "add", "-A")
    done = _git(charts, "commit", "-m", "odd", check=False)
    assert done.returncode == 1
    assert "file/unreadable" in done.stdout + done.stderr


def _git(folder: Path, *argv: str, check: bool = True) -> "subprocess.CompletedProcess[str]":
    person = {f"GIT_{who}_{what}": "a designer" for who in ("AUTHOR", "COMMITTER") for what in ("NAME", "EMAIL")}
    env = {k: v for k, v in os.environ.items() if not k.startswith("GIT_")} | person
    done = subprocess.run(["git", *argv], cwd=folder, env=env, capture_output=True, text=True)
    assert not check or done.returncode == 0, done.stdout + done.stderr
    return done
