"""The action for workflows: its file, and its steps run one after another as a runner would run them."""

import json
import os
import re
import shlex
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml

pytestmark = pytest.mark.slow

ACTION: dict[str, Any] = yaml.safe_load((Path(__file__).parents[2] / "action.yml").read_text(encoding="utf-8"))
INSTALL, CHECK = ACTION["runs"]["steps"]

Write = Callable[..., Path]
Step = Callable[..., "subprocess.CompletedProcess[str]"]


def test_the_file_has_what_a_composite_action_needs() -> None:
    # https://docs.github.com/actions/reference/workflows-and-actions/metadata-syntax, "runs for composite actions"
    assert set(ACTION) == {"name", "description", "inputs", "outputs", "runs"}
    assert ACTION["runs"]["using"] == "composite"
    assert set(ACTION["inputs"]) == {"paths", "format", "args", "allow-outside-rules"}
    for given in ACTION["inputs"].values():
        assert set(given) == {"description", "default"}
        assert isinstance(given["default"], str)
    for step in ACTION["runs"]["steps"]:
        assert step["shell"] == "bash"
    assert ACTION["outputs"]["status"]["value"] == "${{ steps.check.outputs.status }}"
    assert CHECK["id"] == "check"


def test_no_input_becomes_text_of_a_script() -> None:
    for step in ACTION["runs"]["steps"]:
        assert "${{" not in step["run"]
    named = {value for step in ACTION["runs"]["steps"] for value in step["env"].values()}
    assert named == {"${{ github.action_path }}", *(f"${{{{ inputs.{name} }}}}" for name in ACTION["inputs"])}


@pytest.fixture(scope="module")
def runner(tool_repository: Path, tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    """The environment of a runner after the first step."""
    folder = tmp_path_factory.mktemp("runner")
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "LINTARSIA", "CI"))}
    env = kept | {
        "GITHUB_ACTIONS": "true",
        "RUNNER_TEMP": str(folder),
        "GITHUB_PATH": str(folder / "path"),
        "GITHUB_OUTPUT": str(folder / "output"),
    }
    done = _run(INSTALL["run"], folder, env | {"CHECKOUT": str(tool_repository)})
    assert done.returncode == 0, done.stderr
    added = (folder / "path").read_text(encoding="utf-8").split()
    return env | {"PATH": os.pathsep.join([*added, env["PATH"]])}


@pytest.fixture
def check(runner: dict[str, str], tmp_path: Path) -> Step:
    """Run the second step in the test's folder with inputs, which the file's defaults stand in for."""

    def check(also: dict[str, str] | None = None, **inputs: str) -> "subprocess.CompletedProcess[str]":
        given = {name: inputs.get(name.replace("-", "_"), value["default"]) for name, value in ACTION["inputs"].items()}
        env = {
            variable: given[found[1]]
            for variable, value in CHECK["env"].items()
            if (found := re.fullmatch(r"\$\{\{ inputs\.([a-z-]+) \}\}", value))
        }
        assert len(env) == len(ACTION["inputs"])
        output = Path(runner["GITHUB_OUTPUT"])
        output.unlink(missing_ok=True)
        done = _run(CHECK["run"], tmp_path, runner | env | (also or {}))
        assert output.read_text(encoding="utf-8") == f"status={done.returncode}\n"
        return done

    return check


def _run(script: str, folder: Path, env: dict[str, str]) -> "subprocess.CompletedProcess[str]":
    # What a runner makes of `shell: bash`.
    command = ["bash", "--noprofile", "--norc", "-eo", "pipefail", "-c", script]
    return subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True)


def test_without_inputs_it_annotates_the_whole_repository(check: Step, write_chart: Write) -> None:
    write_chart("birds/good.chart.yaml", grid="clean")
    assert check().returncode == 0
    write_chart("birds/heron.chart.yaml", grid="short")
    done = check()
    assert (done.returncode, done.stderr) == (1, "")
    assert done.stdout.startswith("::error file=birds/heron.chart.yaml,line=27,")


def test_several_paths_formats_and_arguments(check: Step, write_chart: Write, tmp_path: Path) -> None:
    write_chart("a b/one.chart.yaml", grid="BBBB\nBBBB\n")  # W is in the key and in no stitch: a warning
    write_chart("two.chart.yaml", grid="clean")
    write_chart("drafts/three.chart.yaml", grid="short")
    paths, format = "a b\ntwo.chart.yaml\n", "text\nsarif:charts.sarif\n"
    assert check(paths=paths, format=format).returncode == 0
    done = check(paths=paths, format=format, args="--block=warning\n--color=never\n")
    assert done.returncode == 1
    assert done.stdout.endswith("2 charts: 1 warning\n")
    sarif = json.loads((tmp_path / "charts.sarif").read_text(encoding="utf-8"))
    (result,) = sarif["runs"][0]["results"]
    assert result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] == "a%20b/one.chart.yaml"


@pytest.mark.parametrize("path", ["$(touch gone).chart.yaml", "`touch gone`.chart.yaml", "; touch gone", "--fix"])
def test_no_name_is_a_command(check: Step, write_chart: Write, tmp_path: Path, path: str) -> None:
    write_chart(path, grid="short")
    before = (tmp_path / path).read_bytes()
    done = check(paths=path)
    assert done.returncode == 1
    assert "::error file=" in done.stdout
    assert (tmp_path / path).read_bytes() == before
    assert os.listdir(tmp_path) == [path]


def test_what_cannot_run_is_told(check: Step) -> None:
    done = check(paths="gone.chart.yaml")
    assert done.returncode == 2
    assert "there is no file or folder 'gone.chart.yaml'" in done.stderr


def test_without_a_python_that_will_do_it_says_so(runner: dict[str, str], tmp_path: Path) -> None:
    """Every name is asked: the first one on the path may be too old, or a stand-in that runs nothing."""
    asked = tmp_path / "asked"
    for name in ("python3", "python"):
        (tmp_path / name).write_text(f"#!/bin/sh\necho {name} >> {shlex.quote(str(asked))}\nexit 1\n", encoding="utf-8")
        (tmp_path / name).chmod(0o755)
    env = runner | {"PATH": f"{tmp_path}{os.pathsep}{runner['PATH']}", "CHECKOUT": "nowhere"}
    done = _run(INSTALL["run"], tmp_path, env)
    assert (done.returncode, done.stderr) == (2, "")
    assert "lintarsia needs Python 3.11 or later" in done.stdout
    assert asked.read_text(encoding="utf-8").split() == ["python3", "python"]


def test_rules_of_a_pull_request_run_only_where_asked_for(check: Step, write_chart: Write, tmp_path: Path) -> None:
    write_chart("a.chart.yaml", grid="clean")
    (tmp_path / "ours.py").write_text(f"open({str(tmp_path / 'ran')!r}, 'w').close()\nRULES = []\n", encoding="utf-8")
    (tmp_path / "lintarsia.yaml").write_text("local-rules: [ours.py]\n", encoding="utf-8")
    for event in ("pull_request", "pull_request_target"):
        done = check({"GITHUB_EVENT_NAME": event})
        assert done.returncode == 2
        assert "lintarsia.yaml:1:15: rules from elsewhere run code of their own, and are refused" in done.stderr
        assert not (tmp_path / "ran").exists()
    check({"GITHUB_EVENT_NAME": "pull_request"}, allow_outside_rules="true")
    assert (tmp_path / "ran").exists()
    (tmp_path / "ran").unlink()
    check({"GITHUB_EVENT_NAME": "push"})
    assert (tmp_path / "ran").exists()
