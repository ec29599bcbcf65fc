"""A rule package as its users get it: built, installed apart from lintarsia, and used through the command."""

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

pytestmark = pytest.mark.slow

PACKAGE = Path(__file__).parent / "rule_package"
STRIPES = "BBBBBBBBBBBBBBWWWWWWWWWWWWWW\nWWWWWWWWWWWWWWBBBBBBBBBBBBBB\n" * 4
SETTINGS = "rule-packages: [mill]\n"

Run = Callable[..., "subprocess.CompletedProcess[str]"]


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder that pip has installed the package into, built from a copy."""
    folder = tmp_path_factory.mktemp("rules")
    shutil.copytree(PACKAGE, folder / "source", ignore=shutil.ignore_patterns("__pycache__"))
    pip = [sys.executable, "-m", "pip", "install", "-q", "--disable-pip-version-check", "--no-deps"]
    target = folder / "installed"
    subprocess.run(
        [*pip, "--no-build-isolation", "--target", str(target), str(folder / "source")], check=True, capture_output=True
    )
    return target


@pytest.fixture
def run(installed: Path, tmp_path: Path) -> Run:
    def run(*words: str, with_package: bool = True, **variables: str) -> "subprocess.CompletedProcess[str]":
        ours = ("PYTHONPATH", "LINTARSIA_REFUSE_OUTSIDE_RULES", "GITHUB_ACTIONS", "GITLAB_CI")
        env = {name: value for name, value in os.environ.items() if name not in ours} | variables
        if with_package:
            env["PYTHONPATH"] = str(installed)
        command = [sys.executable, "-m", "lintarsia", *words]
        return subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, text=True)

    return run


def report(done: "subprocess.CompletedProcess[str]") -> list[dict[str, Any]]:
    assert done.returncode in (0, 1), done.stderr
    results: list[dict[str, Any]] = json.loads(done.stdout)["results"]
    return [result for result in results if result["rule"].startswith("mill/")]


def test_an_installed_package_is_not_used_unless_the_settings_name_it(
    run: Run, write_chart: Callable[..., Path]
) -> None:
    write_chart(grid=STRIPES)
    assert report(run("check", "--format", "json")) == []
    assert "mill/" not in run("explain").stdout


def test_named_in_the_settings_its_rules_are_rules(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart(grid=STRIPES)
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS, "utf-8")
    left, right = report(run("check", "--format", "json"))
    assert (right["rule"], right["key"], right["level"]) == ("mill/busy-edge", "busy", "warning")
    assert right["message"] == "the right edge changes colour 7 times; at most 4 are expected"
    assert (right["row"], right["stitches"]) == (2, [1, 1])
    assert (left["row"], left["stitches"]) == (2, [28, 28])
    assert right["region"]["line"] == left["region"]["line"] == 15


def test_level_options_overrides_suppression(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart("a.chart.yaml", grid=STRIPES)
    write_chart("samplers/b.chart.yaml", grid=STRIPES)
    accepted = 'suppress: [{rule: mill/busy-edge, row: 2, justification: "a fringe covers it"}]\n'
    write_chart("c.chart.yaml", grid=STRIPES, extra=accepted)
    rules = "rules: {mill/busy-edge: {level: error, options: {edge: left}}}\n"
    overrides = "overrides: [{paths: [samplers], rules: {mill/busy-edge: {options: {most: 7}}}}]\n"
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS + rules + overrides, "utf-8")
    done = run("check", "--format", "json")
    assert done.returncode == 1
    told = [(r["file"], r["level"], r["stitches"], r["suppressed"]) for r in report(done)]
    assert told == [("a.chart.yaml", "error", [28, 28], False), ("c.chart.yaml", "error", [28, 28], True)]


def test_explain_tells_of_them(run: Run, tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS, "utf-8")
    assert "mill/busy-edge" in run("explain").stdout
    told = run("explain", "mill/busy-edge").stdout
    assert "Each change at the edge leaves two ends" in told
    assert "most: 4" in told
    assert "edge: both  right or left or both" in told
    assert "A rule of mill-rules 1.2." in told
    data = json.loads(run("explain", "mill/busy-edge", "--format", "json").stdout)
    assert data["rules"][0]["origin"] == "of mill-rules 1.2"


def test_sarif_lists_them_with_their_help(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart(grid=STRIPES)
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS, "utf-8")
    done = run("check", "--format", "sarif")
    driver = json.loads(done.stdout)["runs"][0]["tool"]["driver"]
    (rule,) = (rule for rule in driver["rules"] if rule["id"] == "mill/busy-edge")
    assert "keep one stitch of a single colour at the edge" in rule["help"]["text"]


def test_a_baseline_takes_them(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart(grid=STRIPES)
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS + "block: warning\n", "utf-8")
    assert run("check").returncode == 1
    assert run("check", "--baseline", "accepted.json", "--update").returncode == 0
    assert run("check", "--baseline", "accepted.json").returncode == 0
    assert "mill/busy-edge" in (tmp_path / "accepted.json").read_text("utf-8")


@pytest.mark.parametrize("start", ["fork", "spawn"])
def test_other_processes_know_them_too(
    run: Run, installed: Path, write_chart: Callable[..., Path], tmp_path: Path, start: str
) -> None:
    for number in range(4):
        write_chart(f"{number}.chart.yaml", grid=STRIPES)
    rules = "rules: {mill/busy-edge: {options: {edge: left}}}\n"  # an option value of a type of the package's own
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS + rules, "utf-8")
    alone = run("check", "--format", "json", "--jobs", "1").stdout
    probe = (
        "import sys; from lintarsia.ground import pools; from lintarsia.cli.main import main\n"
        f"if __name__ == '__main__': pools.START = {start!r}; sys.exit(main(sys.argv[1:]))"
    )
    command = [sys.executable, "-c", probe, "check", "--format", "json", "--jobs", "2"]
    env = os.environ | {"PYTHONPATH": str(installed)}
    done = subprocess.run(command, cwd=tmp_path, env=env, capture_output=True, text=True)
    assert done.stderr == ""
    assert done.stdout == alone
    assert alone.count('"mill/busy-edge"') == 4


def test_a_package_that_is_not_there(run: Run, tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text("block: error\nrule-packages: [mill]\n", "utf-8")
    done = run("check", with_package=False)
    assert done.returncode == 2
    assert done.stderr == "lintarsia: lintarsia.yaml:2:17: there is no rule package 'mill'; none is installed here\n"
    (tmp_path / "lintarsia.yaml").write_text("rule-packages: [mil]\n", "utf-8")
    done = run("check")
    assert done.returncode == 2
    assert "lintarsia.yaml:1:17: there is no rule package 'mil'; did you mean 'mill'?" in done.stderr


def test_who_must_not_run_code_of_others_can_say_so(run: Run, tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text(SETTINGS, "utf-8")
    done = run("check", LINTARSIA_REFUSE_OUTSIDE_RULES="1")
    assert done.returncode == 2
    assert "LINTARSIA_REFUSE_OUTSIDE_RULES forbids here" in done.stderr
