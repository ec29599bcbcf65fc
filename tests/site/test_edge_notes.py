"""A piece's page says how it begins and ends, as the written rows of the pattern do; the words are counted by hand."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from lintarsia.publishing.site.building import build_site

HEAD = "lintarsia: 1\ntitle: {title}\nworked: flat\ngauge: {{stitches: 22, rows: 30, over: 10 cm}}\ncolours:\n"
COLOURS = "  A: {name: Bone, shade: '#efe9dc'}\n  B: {name: Deep sea, shade: '#27406b'}\nchart: |\n"
HEM = "  AAAAAAA\n  AAAABBB\n  AAAAAAA\n"
BODY = "  ABBBBBB\n  AAABBBB\n"
PATTERN = """lintarsia-pattern: 1
title: Flag
pieces:
  hem: {chart: hem.chart.yaml}
  body: {chart: body.chart.yaml, continues: hem}
"""


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> dict[str, str]:
    folder = tmp_path_factory.mktemp("flag")
    for title, rows in (("hem", HEM), ("body", BODY)):
        (folder / f"{title}.chart.yaml").write_text(HEAD.format(title=title) + COLOURS + rows, encoding="utf-8")
    (folder / "flag.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    build_site([str(folder)], str(folder / "www"), title="Flags")
    found = Path(folder, "www", "charts", "flag-pattern")
    return {name: (found / f"{name}.html").read_text("utf-8") for name in ("hem", "body")}


def steps(page: str) -> list[dict[str, Any]]:
    found = re.search(r'data-part="rows">(.*?)</script>', page)
    assert found
    told: list[dict[str, Any]] = json.loads(found[1])["steps"]
    return told


def test_above_the_chart(pages: dict[str, str]) -> None:
    assert "Cast on 7 sts in A. After the last row, leave the sts on the needle for body." in pages["hem"]
    assert "Begin on the 7 sts of hem. After the last row, bind off." in pages["body"]


def test_at_the_first_and_the_last_row(pages: dict[str, str]) -> None:
    said = {name: [step.get("s", "") for step in steps(page)] for name, page in pages.items()}
    assert said == {
        "hem": ["cast on 7 sts in A", "", "after this row, leave the sts on the needle for body"],
        "body": ["begin on the 7 sts of hem", "after this row, bind off"],
    }
    assert "after this row, bind off" in pages["body"].partition('class="row-list')[2]


def test_a_yarn_that_the_next_piece_goes_on_with_is_not_cut(pages: dict[str, str]) -> None:
    assert "f" not in steps(pages["hem"])[-1]  # Bone goes on in the body's first row
    assert steps(pages["body"])[-1]["f"]  # nothing goes on from the body
