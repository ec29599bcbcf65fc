"""Rules from elsewhere have their pages on the site, whichever settings name them."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.main import main

RULE = """
from lintarsia.result import Finding, Level, RuleInfo
from lintarsia.rules.base import NoOptions as Options

INFO = RuleInfo("ours/title", Level.NOTE, "a title", "titles are read aloud", "remedy", {"long": "a long one"})


def check(work, options):
    yield Finding("long", "the title is long", work.chart.places.value("title"))
"""


@pytest.mark.parametrize("charts", [1, 3], ids=["in one process", "in several"])
def test_a_local_rule_has_a_page_that_results_link_to(
    write_chart: Callable[..., Path], tmp_path: Path, charts: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("lintarsia.publishing.site.gather.PAYS_FROM_CHARTS", 3)
    write_chart("charts/plain.chart.yaml", grid="clean")
    for number in range(charts):
        write_chart(f"charts/own/{number}.chart.yaml", grid="clean")
    (tmp_path / "charts" / "own" / "ours.py").write_text(RULE, "utf-8")
    (tmp_path / "charts" / "own" / "lintarsia.yaml").write_text("local-rules: [ours.py]\n", "utf-8")
    assert main(["site", "charts", "-o", "out"]) == 0
    page = tmp_path / "out" / "rules" / "ours" / "title.html"
    assert "itles are read aloud" in page.read_text("utf-8")
    told = [file for file in (tmp_path / "out").rglob("*.html") if "he title is long" in file.read_text("utf-8")]
    assert len(told) == charts
    assert all("rules/ours/title.html" in file.read_text("utf-8") for file in told)
