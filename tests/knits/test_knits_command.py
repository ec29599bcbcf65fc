"""`lintarsia knits` as the designer calls it: what it says, what programs read, what --write leaves in the chart."""

import csv
import json
import subprocess
from io import StringIO
from pathlib import Path

import jsonschema
import pytest
from knit_logs import Knitter, chart, write_knits

from lintarsia.cli.main import main
from lintarsia.ground.resources import resource
from lintarsia.reading import read_chart

REMARKS = """\
rows:
  - {piece: front, row: 14, stitches: [7, 9], kind: trouble, said: "the second eye's yarn was too short"}
  - {piece: front, row: 2, kind: praise, said: "a lovely edge"}
"""


@pytest.fixture
def group(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Wren and Finch have finished small ones, one of them with remarks; nobody has taken the large one."""
    monkeypatch.chdir(tmp_path)
    write_knits(tmp_path, [Knitter("Wren", "small", 3.7), Knitter("Finch", "small", 3.82, 19.0, 27.0)])
    file = tmp_path / "wren.knit.yaml"
    file.write_text(file.read_text("utf-8") + REMARKS, encoding="utf-8")
    return tmp_path


def told(capsys: pytest.CaptureFixture[str], *words: str, status: int = 0) -> str:
    assert main(["knits", *words]) == status
    return capsys.readouterr().out


def test_the_designer_reads_who_has_knitted_what(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = told(capsys)
    assert text.startswith("Fox cushion  fox.pattern.yaml\n\nSmall: 2 knitters, 2 finished\n")
    assert "\nLarge: nobody has taken it\n" in text
    assert "  Finch: finished 2026-11-05, 12 hours, revision not stated\n" in text
    assert "    gauge 19 stitches and 27 rows to 10 cm; 20 and 28 stated\n" in text
    said = "“the second eye's yarn was too short”"
    plain = " ".join(text.split())  # lines are fitted to the screen
    assert f"front, row 14, stitches 7–9: trouble, Wren, small: {said} open" in plain
    assert text.index("front, row 2:") < text.index("front, row 14")
    assert "fox.chart.yaml: 18.8 ± 0.4 mm by 2 knitters; 20.5 mm worked out from the gauge" in plain


def test_programs_read_the_same(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    document = json.loads(told(capsys, "--format", "json"))
    jsonschema.validate(document, json.loads(resource("schema/knits.schema.json").read_text("utf-8")))
    (pattern,) = document["patterns"]
    small, large = pattern["sizes"]
    assert (small["size"], large) == ("small", {"size": "large", "knits": []})
    finch, wren = small["knits"]
    assert wren["rows"][0] == {
        "piece": "front", "row": 14, "side": None, "stitches": [7, 9], "kind": "trouble",
        "said": "the second eye's yarn was too short", "answered": None, "open": True,
    }  # fmt: skip
    oat = finch["yarns"][0]
    assert oat["ratio"] == pytest.approx(oat["metres"] / oat["planned_metres"], abs=0.001)
    assert document["left_out"] == []


def test_a_sheet_has_a_line_for_each_knit_and_yarn(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = group / "finch.knit.yaml"
    file.write_text(file.read_text("utf-8").replace("knitter: Finch", "knitter: \"=cmd|' /C calc'!A0\""), "utf-8")
    rows = list(csv.DictReader(StringIO(told(capsys, "--format", "csv"))))
    assert [(row["knitter"], row["yarn"]) for row in rows] == [
        ("'=cmd|' /C calc'!A0", "oat"), ("'=cmd|' /C calc'!A0", "rust"), ("Wren", "oat"), ("Wren", "rust"),
    ]  # fmt: skip
    assert [row["open_remarks"] for row in rows] == ["0", "0", "1", "1"]


def test_write_states_the_loop_and_nothing_else(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = (group / "fox.chart.yaml").read_text("utf-8")
    assert main(["knits", "--write"]) == 0
    assert "fox.chart.yaml states a loop of 18.8 mm now" in capsys.readouterr().err
    after = (group / "fox.chart.yaml").read_text("utf-8")
    assert after == before.replace("over: 10 cm}", "over: 10 cm, loop: 18.8 mm}")
    assert "18.8 mm stated" in told(capsys)


def test_a_whole_number_of_millimetres_is_written_as_one(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """`20 mm`, as every length is: what was written is read again before it stands."""
    write_knits(tmp_path, [Knitter("Wren", "small", 4.0)])
    assert main(["knits", str(tmp_path), "--write"]) == 0
    assert "loop: 20 mm}" in (tmp_path / "fox.chart.yaml").read_text("utf-8")


def test_a_stated_loop_is_replaced_in_its_place(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (group / "fox.chart.yaml").write_text(chart(loop=21), encoding="utf-8")
    assert main(["knits", "--write", "--format", "csv"]) == 0
    read = read_chart("fox.chart.yaml").chart
    assert read is not None
    assert str(read.gauge.loop) == "18.8 mm"
    assert main(["knits", "--write", "--format", "csv"]) == 0
    assert "nothing to write: the charts state it already" in capsys.readouterr().err


def test_a_log_of_nothing_known_is_named_and_counts_for_nothing(
    group: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    text = (group / "wren.knit.yaml").read_text("utf-8")
    (group / "pipit.knit.yaml").write_text(text.replace("size: small", "size: medium"), "utf-8")
    (group / "linnet.knit.yaml").write_text(text.replace("fox.pattern", "owl.pattern"), "utf-8")
    (group / "plover.knit.yaml").write_text("knitted: yes\n", "utf-8")
    told_all = told(capsys, status=1)
    assert "pipit.knit.yaml: the pattern has no size 'medium'\n" in told_all
    assert "linnet.knit.yaml: there is no pattern 'owl.pattern.yaml'" in told_all
    assert "plover.knit.yaml: " in told_all
    assert "Small: 2 knitters" in told_all


def git(folder: Path, *words: str) -> None:
    names = ("-c", "user.name=Wren", "-c", "user.email=wren@example.org")
    subprocess.run(["git", *names, *words], cwd=folder, check=True, capture_output=True)


def test_what_was_knitted_is_found_in_the_history(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Her yarn is held against the plan of what she knitted, not of what the designer has made of it since."""
    (now,) = json.loads(told(capsys, "--format", "json"))["patterns"]
    before = now["sizes"][0]["knits"][1]["yarns"]
    file = group / "wren.knit.yaml"
    file.write_text(file.read_text("utf-8") + f"fingerprint: {now['fingerprint']}\n", encoding="utf-8")
    git(group, "init", "-q")
    git(group, "add", ".")
    git(group, "commit", "-qm", "first")
    grown = (group / "fox.pattern.yaml").read_text("utf-8").replace("rows: {small: 70", "rows: {small: 90")
    (group / "fox.pattern.yaml").write_text(grown, encoding="utf-8")
    (after,) = json.loads(told(capsys, "--format", "json"))["patterns"]
    finch, wren = after["sizes"][0]["knits"]
    assert (wren["revision"], wren["yarns"], wren["same_stitches"]) == ("then", before, False)
    assert finch["revision"] == "unsaid"
    assert finch["yarns"][0]["planned_metres"] > before[0]["planned_metres"] * 1.1
    assert after["fingerprint"] != now["fingerprint"]
    file.write_text(file.read_text("utf-8").replace(now["fingerprint"], "0123456789abcdef"), encoding="utf-8")
    (lost,) = json.loads(told(capsys, "--format", "json"))["patterns"]
    assert lost["sizes"][0]["knits"][1]["revision"] == "unknown"


def test_a_loop_or_a_ball_more_leaves_the_stitches_as_they_were(
    group: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Else stating what the test knits have shown would take their word away."""
    (now,) = json.loads(told(capsys, "--format", "json"))["patterns"]
    file = group / "wren.knit.yaml"
    file.write_text(file.read_text("utf-8") + f"fingerprint: {now['fingerprint']}\n", encoding="utf-8")
    for words in (("init", "-q"), ("add", "."), ("commit", "-qm", "first")):
        git(group, *words)
    told(capsys, "--write")
    text = " ".join(told(capsys).split())
    assert "Wren: finished 2026-11-05, 12 hours, as it was in" in text
    assert "with the stitches of now gauge" in text


def test_a_chart_alone_can_be_knitted(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "fox.chart.yaml").write_text(chart(), encoding="utf-8")
    log = "lintarsia-knit: 1\nchart: fox.chart.yaml\nknitter: Wren\nused: {rust: 9 m}\nfinished: 2026-11-05\n"
    (tmp_path / "wren.knit.yaml").write_text(log, encoding="utf-8")
    assert "1 knitter, 1 finished\n  Wren: finished 2026-11-05, revision not stated\n" in told(capsys, str(tmp_path))
