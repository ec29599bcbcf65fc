"""Accepting what is there today, from the command line."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

LONE = "BBBB\nBWBB\nBBBB\n"  # row 2 has a lone stitch; with no other W that is the one fault


@pytest.fixture
def check(
    invoke: Callable[..., Any], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> Callable[..., tuple[int, dict[str, Any]]]:
    monkeypatch.chdir(tmp_path)

    def run(*words: str) -> tuple[int, dict[str, Any]]:
        done = invoke("check", *words, "--block", "warning", "--format", "json")
        assert done.status in (0, 1), done.err
        return done.status, json.loads(done.out)

    return run


def rules(report: dict[str, Any], suppressed: bool = False) -> list[str]:
    return [result["rule"] for result in report["results"] if result["suppressed"] is suppressed]


def test_what_is_accepted_blocks_no_more(check: Callable[..., Any], write_chart: Callable[..., Path]) -> None:
    write_chart("a.chart.yaml", LONE)
    status, report = check(".")
    assert status == 1
    assert "area/single-stitch" in rules(report)
    status, report = check(".", "--baseline", "accepted.json", "--update")
    assert status == 0
    assert rules(report) == []
    status, report = check(".", "--baseline", "accepted.json")
    assert status == 0
    assert "area/single-stitch" in rules(report, suppressed=True)
    assert {result["baseline"] for result in report["results"]} == {"unchanged"}
    assert report["results"][0]["justification"] == "accepted in accepted.json"


@pytest.mark.parametrize(
    "grid",
    [LONE + "BBBB\n", "BBBB\nBBBB\n" + LONE],
    ids=["a row more at the bottom", "two rows more at the top"],
)
def test_rows_added_elsewhere_lose_nothing(
    check: Callable[..., Any], write_chart: Callable[..., Path], grid: str
) -> None:
    write_chart("a.chart.yaml", LONE)
    check(".", "--baseline", "accepted.json", "--update")
    write_chart("a.chart.yaml", grid)
    status, report = check(".", "--baseline", "accepted.json")
    assert (status, rules(report)) == (0, [])


def test_a_new_fault_blocks_beside_the_old(check: Callable[..., Any], write_chart: Callable[..., Path]) -> None:
    write_chart("a.chart.yaml", LONE)
    check(".", "--baseline", "accepted.json", "--update")
    write_chart("a.chart.yaml", "BBBB\nBBBW\nBBBB\n" + LONE)
    status, report = check(".", "--baseline", "accepted.json")
    assert status == 1
    new = [result for result in report["results"] if result["baseline"] == "new"]
    assert {result["row"] for result in new if result["rule"] == "area/single-stitch"} == {5}


def test_an_entry_that_nothing_meets_is_told_with_its_line(
    check: Callable[..., Any], write_chart: Callable[..., Path], tmp_path: Path
) -> None:
    write_chart("a.chart.yaml", LONE)
    write_chart("b.chart.yaml", LONE)
    check(".", "--baseline", "accepted.json", "--update")
    write_chart("b.chart.yaml", "clean")
    _, report = check(".", "--baseline", "accepted.json")
    stale = [result for result in report["results"] if result["rule"] == "baseline/stale"]
    lines = (tmp_path / "accepted.json").read_text("utf-8").splitlines()
    assert stale
    for result in stale:
        assert result["file"] == "accepted.json"
        assert '"b.chart.yaml"' in lines[result["region"]["line"] - 1]
    _, report = check("a.chart.yaml", "--baseline", "accepted.json")
    assert "baseline/stale" not in rules(report), "b was not looked at, so nothing is known of its entries"
    check(".", "--baseline", "accepted.json", "--update")
    _, report = check(".", "--baseline", "accepted.json")
    assert "baseline/stale" not in rules(report)


def test_bringing_a_part_up_to_date_keeps_the_rest(check: Callable[..., Any], write_chart: Callable[..., Path]) -> None:
    write_chart("a.chart.yaml", LONE)
    write_chart("b.chart.yaml", LONE)
    check(".", "--baseline", "accepted.json", "--update")
    check("a.chart.yaml", "--baseline", "accepted.json", "--update")
    status, report = check(".", "--baseline", "accepted.json")
    assert (status, rules(report)) == (0, [])


def test_what_cannot_be_read_is_never_accepted(check: Callable[..., Any], tmp_path: Path) -> None:
    (tmp_path / "a.chart.yaml").write_bytes(b"\xff\xfe\x00")
    status, _ = check(".", "--baseline", "accepted.json", "--update")
    assert status == 1


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (None, "there is no baseline"),
        ("{", "accepted.json:1:2"),
        ("[]", "is no baseline"),
        ('{"schema": "lintarsia/baseline/1", "accepted": [{"file": 1}]}', "must list entries"),
        ("\xff", "accepted.json"),
    ],
)
def test_a_baseline_that_is_none(
    invoke: Callable[..., Any],
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    write_chart: Callable[..., Path],
    text: str | None,
    told: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    write_chart("a.chart.yaml")
    if text is not None:
        (tmp_path / "accepted.json").write_text(text, encoding="latin-1")
    done = invoke("check", ".", "--baseline", "accepted.json")
    assert done.status == 2
    assert told in done.err


def test_update_alone_says_what_it_lacks(
    invoke: Callable[..., Any], write_chart: Callable[..., Path], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    write_chart()
    done = invoke("check", "--update")
    assert done.status == 2
    assert "--baseline FILE" in done.err
