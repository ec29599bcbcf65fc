"""The hook: which names it takes, and a real commit of a broken chart that it stops."""

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

ROOT = Path(__file__).parents[2]
(HOOK,) = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))

Write = Callable[..., Path]
Git = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.mark.parametrize(
    "name",
    [
        "heron.chart.yaml",
        "charts/heron.chart.yaml",
        "a/b c/h\u00e9ron.chart.yaml",
        "x.y.chart.yaml",
        "cushion.pattern.yaml",
        "heron.chart.yml",
        "heron.chart.yaml.txt",
        "HERON.CHART.YAML",
    ],
)
def test_the_hook_takes_charts(name: str) -> None:
    assert re.search(HOOK["files"], name)


@pytest.mark.parametrize(
    "name",
    [
        "heron.yaml",
        "chart.yaml",
        "heron.chart.yaml.bak",
        "heronchart.yaml",
        "heron.chart.yaml/notes.txt",
    ],
)
def test_the_hook_leaves_other_files(name: str) -> None:
    assert not re.search(HOOK["files"], name)


def test_the_hook_runs_once_for_all_charts() -> None:
    assert HOOK["require_serial"] is True
    assert HOOK["entry"] == "lintarsia check --with-patterns"
    assert "types" not in HOOK  # a chart that is not even text has to reach the check


@pytest.fixture
def charts(tool_repository: Path, git: Git, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A designer's repository with the hook installed."""
    revision = git(tool_repository, "rev-parse", "HEAD").stdout.strip()
    monkeypatch.setenv("PRE_COMMIT_HOME", str(tool_repository.parent / "pre-commit"))  # one set-up for all tests here
    config = f"repos:\n  - {{repo: {tool_repository}, rev: {revision}, hooks: [{{id: lintarsia}}]}}\n"
    (tmp_path / ".pre-commit-config.yaml").write_text(config, encoding="utf-8")
    git(tmp_path, "init", "-q")
    subprocess.run([sys.executable, "-m", "pre_commit", "install"], cwd=tmp_path, check=True, capture_output=True)
    return tmp_path


def test_a_commit_with_a_broken_chart_is_stopped(charts: Path, git: Git, write_chart: Write) -> None:
    write_chart("birds/heron.chart.yaml", grid="short")
    write_chart("birds/good.chart.yaml", grid="clean")
    git(charts, "add", "-A")
    done = git(charts, "commit", "-m", "heron", check=False)
    told = done.stdout + done.stderr
    assert done.returncode == 1, told
    assert "birds/heron.chart.yaml:27:3" in told
    assert "row 2 has 27 stitches; row 1 has 28 and no shaping is declared" in told
    assert "good.chart.yaml" not in told
    assert git(charts, "rev-parse", "--verify", "-q", "HEAD", check=False).returncode != 0  # nothing was committed

    write_chart("birds/heron.chart.yaml", grid="clean")
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "heron, mended")
    assert git(charts, "show", "--stat", "--oneline", "HEAD").stdout.count("chart.yaml") == 2


def test_a_chart_that_is_no_text_is_stopped_too(charts: Path, git: Git) -> None:
    (charts / "odd.chart.yaml").write_bytes(b"\xff\xfe\x00\x01")
    git(charts, "add", "-A")
    done = git(charts, "commit", "-m", "odd", check=False)
    assert done.returncode == 1
    assert "file/unreadable" in done.stdout + done.stderr


def test_a_chart_that_no_longer_fits_its_pattern_is_stopped(charts: Path, git: Git, write_chart: Write) -> None:
    write_chart("birds/heron.chart.yaml", grid="clean")
    pattern = "lintarsia-pattern: 1\ntitle: Heron\npieces:\n  front: {chart: ../birds/heron.chart.yaml, rows: ROWS}\n"
    (charts / "patterns").mkdir()
    (charts / "patterns/heron.pattern.yaml").write_text(pattern.replace("ROWS", "20"), encoding="utf-8")
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "heron and its pattern")

    file = write_chart("birds/heron.chart.yaml", grid="clean")
    file.write_text(file.read_text(encoding="utf-8") + f"  {'B' * 14}{'W' * 14}\n", encoding="utf-8")
    git(charts, "add", "-A")
    done = git(charts, "commit", "-m", "heron, taller", check=False)
    assert done.returncode == 1, done.stdout + done.stderr
    assert "patterns/heron.pattern.yaml:4:" in done.stdout + done.stderr


def test_the_hook_can_be_tried_before_it_is_installed(
    tool_repository: Path, git: Git, tmp_path: Path, write_chart: Write
) -> None:
    write_chart("birds/heron.chart.yaml", grid="short")
    write_chart("birds/good.chart.yaml", grid="clean")
    write_chart("notes.yaml", grid="short")  # not named as a chart
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", "-A")
    command = [sys.executable, "-m", "pre_commit", "try-repo", str(tool_repository), "lintarsia", "--all-files"]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True)
    told = done.stdout + done.stderr
    assert done.returncode == 1, told
    assert "check colourwork charts" in told
    assert "row 2 has 27 stitches; row 1 has 28 and no shaping is declared" in told
    assert "2 charts: 1 error" in told


def test_a_baseline_in_the_settings_needs_no_arguments_in_the_hook(charts: Path, git: Git, write_chart: Write) -> None:
    write_chart("old.chart.yaml", grid="short")
    (charts / "lintarsia.yaml").write_text("baseline: accepted.json\n", encoding="utf-8")
    subprocess.run([sys.executable, "-m", "lintarsia", "check", "--update", "-q"], cwd=charts, check=True)
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "old faults accepted")
    write_chart("new.chart.yaml", grid="short")
    git(charts, "add", "-A")
    done = git(charts, "commit", "-m", "new", check=False)
    assert done.returncode == 1
    told = done.stdout + done.stderr
    assert "new.chart.yaml:27:3" in told
    assert "old.chart.yaml" not in told
