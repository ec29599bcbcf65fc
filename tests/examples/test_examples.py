"""The examples: the finished ones have nothing to mend, the broken ones show the rule they are named after."""

import os
from collections import defaultdict
from pathlib import Path

import pytest

from folding import each
from lintarsia.engine import check_paths
from lintarsia.reading import read_chart
from lintarsia.result import Level, Report
from lintarsia.rules import catalogue

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
BROKEN = EXAMPLES / "broken"
FINISHED = sorted(EXAMPLES.glob("*.chart.yaml"))
BY_RELEASE = {"knit/open-remark", "knit/untested-size", "knit/yarn-short"}  # told by `release` alone
BY_RELEASE |= {rule for rule in catalogue.BY_THE_ENGINE if rule.startswith("release/")}
NOT_A_CHARTS_FAULT = {"engine/rule-failed", "engine/out-of-time", "baseline/stale"} | BY_RELEASE  # no chart shows these


@pytest.fixture(scope="module")
def broken() -> Report:
    return check_paths([os.path.relpath(BROKEN)], jobs=1)


def test_there_are_as_many_as_promised() -> None:
    assert len(FINISHED) >= 8


def test_the_finished_ones_have_nothing_to_mend() -> None:
    report = check_paths([os.path.relpath(EXAMPLES)], jobs=1)
    faults = [(r.file, r.rule, r.message) for r in report.results if r.level is not Level.NOTE and not r.suppressed]
    assert faults == []
    folders = [path for path in EXAMPLES.glob("*/*.chart.yaml") if path.parent != BROKEN]
    assert report.charts == len(FINISHED) + len(folders), "the broken ones are left out"


@each("file", FINISHED)
def test_a_finished_one_says_in_a_comment_what_it_is(file: Path) -> None:
    first, second = file.read_text("utf-8").splitlines()[:2]
    assert first == "# yaml-language-server: $schema=../schema/chart.schema.json"
    assert second.startswith("# ")
    assert read_chart(str(file)).problems == ()


@each("rule", sorted(set(catalogue.NAMES) - NOT_A_CHARTS_FAULT))
def test_every_rule_has_a_broken_twin_that_shows_it(rule: str, broken: Report) -> None:
    name = rule.replace("/", "-")
    found = defaultdict(list)
    for result in broken.results:
        found[Path(os.path.relpath(result.file, BROKEN)).parts[0].split(".")[0]].append(result.rule)
    assert (BROKEN / f"{name}.chart.yaml").exists() or (BROKEN / name).is_dir(), f"examples/broken has no {name}"
    assert rule in found[name], f"examples/broken/{name} does not show {rule}; it shows {sorted(set(found[name]))}"


def test_every_broken_one_is_named_after_a_rule() -> None:
    names = {path.name.split(".")[0] for path in BROKEN.iterdir() if path.name not in ("README.md", "lintarsia.yaml")}
    assert names == {rule.replace("/", "-") for rule in set(catalogue.NAMES) - NOT_A_CHARTS_FAULT}


def test_the_test_knit_has_five_logs_and_each_says_that_it_is_invented() -> None:
    logs = sorted((EXAMPLES / "test-knit").glob("*.knit.yaml"))
    assert len(logs) == 5
    assert all(log.read_text("utf-8").splitlines()[1] == "# Invented, like its knitter." for log in logs)


def test_the_documentation_follows_the_test_knit_of_the_examples() -> None:
    """Every log and the pattern as called out stand on the page, comments and what was stated at the end aside."""
    page = (ROOT / "docs" / "test-knits.md").read_text("utf-8")
    for file in sorted((EXAMPLES / "test-knit").iterdir()):
        lines = [line for line in file.read_text("utf-8").splitlines() if not line.startswith("#")]
        missing = [
            line for line in lines if line.replace(", loop: 21 mm", "").replace("large: 2}}", "large: 1}}") not in page
        ]
        assert missing == [], file.name
