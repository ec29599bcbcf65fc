"""Names for programs from the top of the repository, wherever the command runs; names for people from where they stand.

SARIF 2.1.0 (OASIS): 3.4.3 uri, 3.4.4 uriBaseId, 3.14.14 originalUriBaseIds, whose addresses end in a slash.
"""

import json
import re
from collections.abc import Callable
from pathlib import Path
from xml.etree import ElementTree

import pytest

from lintarsia.cli.main import main

Write = Callable[..., Path]
Told = Callable[..., str]
NAME = "birds/wading/heron at dusk.chart.yaml"


@pytest.fixture
def told(
    tmp_path: Path, write_chart: Write, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str]
) -> Told:
    """What a format says of a chart two folders down, as the command prints it in some folder."""
    for variable in ("GITHUB_ACTIONS", "GITLAB_CI", "GITHUB_WORKSPACE", "CI_PROJECT_DIR"):
        monkeypatch.delenv(variable, raising=False)
    write_chart(f"ours/{NAME}", "short")

    def run(format: str, folder: str, path: str = ".") -> str:
        monkeypatch.chdir(tmp_path / "ours" / folder)
        capfd.readouterr()
        assert main(["check", path, "--format", format]) == 1
        return capfd.readouterr().out

    return run


def named(format: str, out: str) -> str:
    if format == "github":
        return re.findall("file=([^,]*)", out)[0]
    if format == "gitlab":
        return str(json.loads(out)[0]["location"]["path"])
    if format == "junit":
        return str(ElementTree.fromstring(out).findall(".//testcase")[1].get("classname"))
    if format == "json":
        return str(json.loads(out)["results"][0]["file"])
    return out.splitlines()[0].rpartition(":27:")[0]


@pytest.mark.parametrize("format", ["github", "gitlab", "junit"])
@pytest.mark.parametrize("folder", ["", "birds", "birds/wading"])
def test_programs_are_given_the_name_from_the_top(told: Told, tmp_path: Path, format: str, folder: str) -> None:
    (tmp_path / "ours/.git").mkdir()
    assert named(format, told(format, folder)) == NAME


@pytest.mark.parametrize("format", ["text", "json"])
def test_people_are_given_the_name_from_where_they_stand(told: Told, tmp_path: Path, format: str) -> None:
    (tmp_path / "ours/.git").mkdir()
    assert named(format, told(format, "birds")) == "wading/heron at dusk.chart.yaml"


@pytest.mark.parametrize("folder", ["", "birds"])
def test_sarif_says_what_its_names_start_from(told: Told, tmp_path: Path, folder: str) -> None:
    (tmp_path / "ours/.git").write_text("gitdir: elsewhere\n", encoding="utf-8")  # as in a second work tree
    (run,) = json.loads(told("sarif", folder))["runs"]
    base = run["originalUriBaseIds"]["SRCROOT"]["uri"]
    assert base == (tmp_path / "ours").as_uri() + "/"
    places = [result["locations"][0]["physicalLocation"]["artifactLocation"] for result in run["results"]]
    places += [c["artifactLocation"] for r in run["results"] for f in r.get("fixes", ()) for c in f["artifactChanges"]]
    assert places
    for place in places:
        assert place == {"uri": NAME.replace(" ", "%20"), "uriBaseId": "SRCROOT"}


def test_fingerprints_for_programs_do_not_hang_on_the_folder(told: Told, tmp_path: Path) -> None:
    (tmp_path / "ours/.git").mkdir()
    assert told("gitlab", "") == told("gitlab", "birds") == told("gitlab", "birds/wading")


@pytest.mark.parametrize("variable", ["GITHUB_WORKSPACE", "CI_PROJECT_DIR"])
def test_a_checkout_without_git_begins_where_ci_says(
    told: Told, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, variable: str
) -> None:
    monkeypatch.setenv(variable, str(tmp_path / "ours"))
    assert named("github", told("github", "birds")) == NAME
    monkeypatch.setenv(variable, str(tmp_path / "elsewhere"))
    assert named("github", told("github", "birds")) == "wading/heron at dusk.chart.yaml"


def test_what_lies_outside_has_its_whole_path(told: Told, tmp_path: Path) -> None:
    (tmp_path / "ours/birds/.git").mkdir()
    (tmp_path / "ours/other").mkdir()
    (tmp_path / "ours/other/.git").mkdir()
    file = tmp_path / "ours" / NAME
    assert named("github", told("github", "other", "../birds")) == str(file)
    (run,) = json.loads(told("sarif", "other", "../birds"))["runs"]
    place = run["results"][0]["locations"][0]["physicalLocation"]["artifactLocation"]
    assert place == {"uri": file.as_uri()}


def test_a_way_through_a_link_is_no_way_out(told: Told, tmp_path: Path) -> None:
    (tmp_path / "ours/.git").mkdir()
    (tmp_path / "way").symlink_to(tmp_path / "ours")
    assert named("github", told("github", "birds", str(tmp_path / "way" / "birds"))) == NAME


def test_what_blocks_in_a_file_is_known_by_its_new_name(told: Told, tmp_path: Path) -> None:
    (tmp_path / "ours/.git").mkdir()
    (tmp_path / "ours/birds/lintarsia.yaml").write_text(
        "block: warning\nrules: {grid/stitch-count: warning}\n", encoding="utf-8"
    )
    assert ElementTree.fromstring(told("junit", "birds")).findall(".//failure")
