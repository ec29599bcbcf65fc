"""Logs come from anywhere: markup, huge ones, wrong types, paths out of the house. None of them harms anything."""

import json
from pathlib import Path

import pytest
from knit_logs import Knitter, write_knits

from folding import each
from lintarsia.cli.main import main
from lintarsia.engine import check_paths
from lintarsia.knits.reading import read_knit

HEAD = "lintarsia-knit: 1\npattern: fox.pattern.yaml\nsize: small\n"
HOSTILE = {
    "markup": HEAD + 'knitter: "<script>alert(1)</script>"\nremarks: "<img src=x onerror=alert(1)>"\n',
    "terminal": HEAD + 'knitter: "\\x1b[2J\\x1b]0;owned\\x07M"\nremarks: "a\\u202eb\\nc"\n',
    "wrong types": HEAD + "knitter: [M]\nused: [1, 2]\nrows: {row: 3}\ngauge: 22\nhours: many\nfinished: yes\n",
    "numbers": HEAD + "hours: 1e999\ngauge: {stitches: 0, rows: -1, over: 0 cm}\nused: {oat: 99999999999 g}\n",
    "zero length": HEAD + "gauge: {stitches: 20, rows: 28, over: 0 cm}\nused: {oat: 0 g}\nfinished: 2026-11-05\n",
    "no such day": HEAD + "finished: 2026-02-31\n",
    "both": HEAD + "chart: fox.chart.yaml\n",
    "neither": "lintarsia-knit: 1\n",
    "itself": HEAD.replace("fox.pattern.yaml", "itself.knit.yaml"),
    "outside": HEAD.replace("fox.pattern.yaml", "../../../../etc/passwd"),
    "absolute": HEAD.replace("fox.pattern.yaml", "/etc/passwd"),
    "nul": HEAD.replace("fox.pattern.yaml", '"fox\\0.pattern.yaml"'),
    "many rows": HEAD + "rows:\n" + "  - {row: 1, kind: praise, said: x}\n" * 1001,
    "long words": HEAD + f"remarks: {'x' * 2001}\n",
    "far row": HEAD + "rows:\n  - {piece: front, row: 1000000, stitches: [100000, 1], kind: trouble, said: x}\n",
    "deep": "lintarsia-knit: " + "[" * 5000,
    "nothing": "",
    "tag": HEAD + 'knitter: !!python/object/apply:os.system ["true"]\n',
    "anchors": "a: &a [x, x]\nb: &b [*a, *a]\nc: [*b, *b]\n",
}


@each("name", HOSTILE, quickly=3)
def test_nothing_is_harmed(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    """What is in order beside it is told as ever, and nothing that steers a terminal comes through."""
    monkeypatch.chdir(tmp_path)
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    (tmp_path / "itself.knit.yaml").write_text(HOSTILE[name], encoding="utf-8")
    for format in ("text", "json", "csv"):
        status = main(["knits", "--format", format])
        out = capsys.readouterr().out
        assert status in (0, 1), format
        assert "Wren" in out, format
        assert "root:" not in out, format
        assert not set(out) & {"\x1b", "\x07", "\u202e"}, format
        if format == "json":
            json.loads(out)
    report = check_paths(["."], jobs=1)
    assert not [result for result in report.results if result.rule == "engine/rule-failed"]


def test_a_huge_log_is_refused(tmp_path: Path) -> None:
    reading = read_knit(str(tmp_path / "x.knit.yaml"), b"remarks: " + b"x" * 5_000_000)
    assert reading.log is None
    assert [rule for rule, _ in reading.problems] == ["file/unreadable"]


def test_wrong_types_are_told_each_in_its_place() -> None:
    reading = read_knit("x.knit.yaml", HOSTILE["wrong types"].encode())
    assert {finding.region.line for _, finding in reading.problems} == {4, 5, 6, 7, 8, 9}
    assert reading.log is not None
    assert (reading.log.gauge, reading.log.rows, dict(reading.log.used)) == (None, (), {})


def test_grams_before_and_metres_after_are_no_difference() -> None:
    log = HEAD + "used: {oat: {before: 50 g, after: 20 m}}\n"
    (problem,) = read_knit("x.knit.yaml", log.encode()).problems
    assert problem[1].message == "oat was weighed before (50 g) and measured after (20 m), or the other way"


def test_more_faults_than_are_told_are_no_log_that_names_nothing(tmp_path: Path) -> None:
    file = tmp_path / "long.knit.yaml"
    file.write_text(HEAD + "rows:\n" + f"  - {{piece: front, row: 3, kind: question, said: {'w' * 2001}}}\n" * 201)
    messages = [finding.message for _, finding in read_knit(str(file)).problems]
    assert messages
    assert [message for message in messages if "says of nothing" in message] == []


@pytest.mark.parametrize(
    ("log", "why"),
    [
        ("finished: 2026-02-31\n", "2026-02-31 is no day of the calendar"),
        ("used: {oat: {before: 50 g, after: 66 g}}\n", "oat: 66 g are left of 50 g"),
    ],
)
def test_what_cannot_have_been_counts_for_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, log: str, why: str
) -> None:
    monkeypatch.chdir(tmp_path)
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7)])
    (tmp_path / "slip.knit.yaml").write_text(f"{HEAD}size: small\nknitter: Siskin\n{log}", encoding="utf-8")
    assert main(["knits", "--format", "json"]) == 1
    answer = json.loads(capsys.readouterr().out)
    assert [one["why"] for one in answer["left_out"]] == [why]
    assert "Siskin" not in json.dumps(answer["patterns"])
