"""The hook: which names it takes, and a real commit of a broken chart that it stops."""

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
import yaml

from lintarsia.ground.kinds import Kind

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]
HOOK, REPORT = yaml.safe_load((ROOT / ".pre-commit-hooks.yaml").read_text(encoding="utf-8"))

Write = Callable[..., Path]
Git = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.mark.parametrize(
    "name",
    [
        "heron.chart.yaml",
        "charts/heron.chart.yaml",
        "a/b c/h\u00e9ron.chart.yaml",
        "x.y.chart.yaml",
        *(f"wren{kind.suffix}" for kind in Kind),
        "heron.chart.yml",
        "heron.chart.yaml.txt",
        "HERON.CHART.YAML",
        "lintarsia.yaml",
        "charts/lintarsia.yaml",
        "--settings=off.chart.yaml",
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
        "mylintarsia.yaml",
        "LINTARSIA.YAML",
        "lintarsia.yaml/notes.txt",
    ],
)
def test_the_hook_leaves_other_files(name: str) -> None:
    assert not re.search(HOOK["files"], name)


def test_the_hook_runs_once_for_all_charts() -> None:
    assert HOOK["require_serial"] is True
    assert HOOK["entry"] == "lintarsia check --before-commit --"
    assert HOOK["always_run"] is True  # a commit that only takes charts away names no file
    assert "types" not in HOOK  # a chart that is not even text has to reach the check


def test_the_second_hook_only_reports() -> None:
    assert (REPORT["id"], REPORT["entry"]) == ("lintarsia-compare", "lintarsia compare --only-report")
    assert (REPORT["pass_filenames"], REPORT["require_serial"], REPORT["verbose"]) == (False, True, True)
    for name in ("heron.chart.yaml", "a/cushion.pattern.yaml", "charts/lintarsia.yaml"):
        assert re.search(REPORT["files"], name)
    for name in ("heron.yaml", "heron.chart.yaml.bak", "mylintarsia.yaml"):
        assert not re.search(REPORT["files"], name)


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


def stopped(charts: Path, git: Git) -> str:
    """What is told of a commit of all that stands now, which does not go through."""
    git(charts, "add", "-A")
    done = git(charts, "commit", "-m", "change", check=False)
    assert done.returncode == 1, done.stdout + done.stderr
    return done.stdout + done.stderr


@pytest.fixture
def heron(charts: Path, git: Git, write_chart: Write) -> Path:
    """A chart and a pattern that names it, committed."""
    write_chart("birds/heron.chart.yaml", grid="clean")
    (charts / "patterns").mkdir()
    (charts / "patterns/heron.pattern.yaml").write_text(
        "lintarsia-pattern: 1\ntitle: Heron\npieces:\n  front: {chart: ../birds/heron.chart.yaml, rows: 20}\n",
        encoding="utf-8",
    )
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "heron and its pattern")
    return charts / "birds/heron.chart.yaml"


@pytest.mark.parametrize("name", ["--settings=off.chart.yaml", "--format=json:over.chart.yaml"])
def test_no_file_s_name_is_an_option(charts: Path, git: Git, write_chart: Write, name: str) -> None:
    write_chart("a.chart.yaml", grid="short")
    (charts / "off.chart.yaml").write_text("rules: {grid/stitch-count: off}\n", encoding="utf-8")
    (charts / name).write_text("rules: {grid/stitch-count: off}\n", encoding="utf-8")
    told = stopped(charts, git)
    assert "row 2 has 27 stitches" in told
    assert f"{name}:1:1" in told
    assert not (charts / "over.chart.yaml").exists()


@pytest.mark.parametrize("change", ["deleted", "renamed"])
def test_a_chart_that_is_gone_and_that_a_pattern_names_is_told(
    charts: Path, git: Git, heron: Path, change: str
) -> None:
    if change == "deleted":
        heron.unlink()
    else:
        heron.rename(heron.with_name("stork.chart.yaml"))
    told = stopped(charts, git)
    assert "patterns/heron.pattern.yaml:4:" in told
    assert "there is no chart '../birds/heron.chart.yaml'" in told


def test_commits_of_other_things_go_through(charts: Path, git: Git, heron: Path, write_chart: Write) -> None:
    (charts / "notes.txt").write_text("blue, more of it\n", encoding="utf-8")
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "notes")
    old = write_chart("old.chart.yaml", grid="short")
    git(charts, "add", "-A")
    git(charts, "commit", "--no-verify", "-m", "with a fault, past the hook")
    (charts / "notes.txt").unlink()
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "no notes")
    old.unlink()
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "a chart that no pattern names is free to go")


def test_settings_that_let_a_chart_fail_are_stopped(charts: Path, git: Git, heron: Path) -> None:
    settings = charts / "lintarsia.yaml"
    settings.write_text("rules: {grid/stitch-cunt: off}\n", encoding="utf-8")
    assert "lintarsia.yaml:1:9: there is no rule 'grid/stitch-cunt'" in stopped(charts, git)
    settings.write_text("block: note\nlimits: {supplies: 1}\n", encoding="utf-8")
    assert "birds/heron.chart.yaml" in stopped(charts, git)
    settings.write_text("limits: {supplies: 9}\n", encoding="utf-8")
    git(charts, "add", "-A")
    git(charts, "commit", "-m", "settings")


def test_commits_made_already_are_looked_at_the_same_way(charts: Path, git: Git, heron: Path) -> None:
    """As in CI, or before a push: `pre-commit run --from-ref A --to-ref B`."""
    heron.unlink()
    git(charts, "add", "-A")
    git(charts, "commit", "--no-verify", "-m", "past the hook")
    command = [sys.executable, "-m", "pre_commit", "run", "--from-ref", "HEAD~1", "--to-ref", "HEAD"]
    done = subprocess.run(command, cwd=charts, capture_output=True, text=True)
    assert done.returncode == 1
    assert "there is no chart '../birds/heron.chart.yaml'" in done.stdout + done.stderr
