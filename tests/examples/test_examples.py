"""The examples: the finished ones have nothing to mend, the broken ones show the rule they are named after."""

import os
from collections import defaultdict
from pathlib import Path

import pytest

from lintarsia.engine import check_paths
from lintarsia.reading import read_chart
from lintarsia.result import Level, Report
from lintarsia.rules import catalogue

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
BROKEN = EXAMPLES / "broken"
FINISHED = sorted(EXAMPLES.glob("*.chart.yaml"))
NOT_A_CHARTS_FAULT = {"engine/rule-failed", "engine/out-of-time", "baseline/stale"} | {
    "knit/open-remark",
    "knit/untested-size",
    "knit/yarn-short",
}  # no chart can show these; the last three are made by `release`


@pytest.fixture(scope="module")
def broken() -> Report:
    return check_paths([os.path.relpath(BROKEN)], jobs=1)


def test_there_are_as_many_as_promised() -> None:
    assert len(FINISHED) >= 8


def test_the_finished_ones_have_nothing_to_mend() -> None:
    report = check_paths([os.path.relpath(EXAMPLES)], jobs=1)
    faults = [(r.file, r.rule, r.message) for r in report.results if r.level is not Level.NOTE and not r.suppressed]
    assert faults == []
    assert report.charts == len(FINISHED), "the broken ones are left out"


@pytest.mark.parametrize("file", FINISHED, ids=lambda file: file.name)
def test_a_finished_one_says_in_a_comment_what_it_is(file: Path) -> None:
    first, second = file.read_text("utf-8").splitlines()[:2]
    assert first == "# yaml-language-server: $schema=../schema/chart.schema.json"
    assert second.startswith("# ")
    assert read_chart(str(file)).problems == ()


@pytest.mark.parametrize("rule", sorted(set(catalogue.NAMES) - NOT_A_CHARTS_FAULT))
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
