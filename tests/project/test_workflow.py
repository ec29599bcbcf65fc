"""The workflow that runs the tests elsewhere names what there is: Pythons, folders, commands."""

import re
import tomllib
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).parents[2]
WORKFLOW: dict[str, Any] = yaml.safe_load((ROOT / ".github" / "workflows" / "tests.yml").read_text(encoding="utf-8"))
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]


def commands(job: str) -> str:
    return "\n".join(step.get("run", "") for step in WORKFLOW["jobs"][job]["steps"])


def test_every_supported_python_is_tried() -> None:
    told = re.findall(r"Python :: (3\.\d+)", "\n".join(PROJECT["classifiers"]))
    assert WORKFLOW["jobs"]["linux"]["strategy"]["matrix"]["python"] == told
    assert PROJECT["requires-python"] == f">={told[0]}"
    assert WORKFLOW["jobs"]["core"]["strategy"]["matrix"]["python"] == [told[0], told[-1]]


def test_the_core_is_tried_on_other_systems_and_its_folders_are_there() -> None:
    assert WORKFLOW["jobs"]["core"]["strategy"]["matrix"]["system"] == ["windows-latest", "macos-latest"]
    folders = re.findall(r"tests/\w+", commands("core"))
    assert len(folders) > 5
    assert [folder for folder in folders if not list((ROOT / folder).glob("test_*.py"))] == []


def test_scripts_that_it_runs_are_there() -> None:
    scripts = {path for job in WORKFLOW["jobs"] for path in re.findall(r"\bsh (tests/\w+)", commands(job))}
    assert scripts == {"tests/run", "tests/packages", "tests/coverage"}
    assert [script for script in scripts if not (ROOT / script).is_file()] == []


def test_it_may_read_and_nothing_else() -> None:
    assert WORKFLOW["permissions"] == {"contents": "read"}
    assert "${{" not in "".join(map(commands, WORKFLOW["jobs"])), "no name becomes text of a script"
