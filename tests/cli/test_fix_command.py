"""`lintarsia check --fix`, `--fix=risky` and `--diff` as their callers meet them."""

import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

HEAD = "# ours\ntitle: Small field   # a remark\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
KEY = 'colours:\n  B: {name: Dusk blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'
RUST = '  R: {name: Rust, shade: "#b8743c"} # none left\n'
PLAIN, BLANK, BOAT = "  " + "B" * 20 + "\n", "  " + "B" * 20 + "  \n", "  " + "B" * 8 + "WWWW" + "B" * 8 + "\n"
FAULTY = f"{HEAD}{KEY}{RUST}chart: |\n{PLAIN}{BLANK}{PLAIN * 2}{BOAT * 4}"
WHOLE = f"# ours\nlintarsia: 1\n{HEAD[7:]}{KEY}chart: |\n{PLAIN * 4}{BOAT * 4}"
SPECK = "  " + "B" * 10 + "W" + "B" * 9 + "\n"
SPECKED = f"lintarsia: 1\n{HEAD}{KEY}chart: |\n{PLAIN * 2}{SPECK}{PLAIN * 2}{BOAT * 4}"


@pytest.fixture
def chart(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "a.chart.yaml"
    file.write_bytes(FAULTY.encode())
    return file


def test_the_file_is_mended_and_the_report_says_how(chart: Path, invoke) -> None:
    assert invoke("check", ".").status == 1
    done = invoke("check", "--fix", ".")
    assert chart.read_text() == WHOLE
    assert done.status == 0
    assert done.err == ""
    assert done.out == (
        "a.chart.yaml:1  mended, write lintarsia: 1  file/schema\n"
        "a.chart.yaml:7  mended, take R out of the key  colour/unused\n"
        "a.chart.yaml:10  mended, row 7: delete the white space  file/schema\n"
        "\n"
        "1 chart: nothing to mend\n"
    )
    assert invoke("check", "--fix", ".").out == "1 chart: nothing to mend\n"
    assert chart.read_text() == WHOLE


def test_json_lists_what_was_mended(chart: Path, invoke) -> None:
    told = json.loads(invoke("check", "--fix", "--format", "json", "a.chart.yaml").out)
    assert told["results"] == []
    assert told["fixed"][1] == {
        "rule": "colour/unused",
        "key": "unused",
        "description": "take R out of the key",
        "file": "a.chart.yaml",
        "line": 7,
        "row": None,
        "safe": True,
    }
    assert "fixed" not in json.loads(invoke("check", "--format", "json", "a.chart.yaml").out)


def test_the_status_goes_by_what_is_left(chart: Path, invoke) -> None:
    chart.write_text(FAULTY.replace("rows: 30, ", ""))
    done = invoke("check", "--fix", ".")
    assert done.status == 1
    assert "gauge has no 'rows'" in done.out
    assert chart.read_text() == WHOLE.replace("rows: 30, ", "")


def test_the_picture_changes_on_request_only(chart: Path, invoke) -> None:
    chart.write_text(SPECKED)
    assert invoke("check", "--fix", ".").status == 0
    assert chart.read_text() == SPECKED
    done = invoke("check", "--fix=risky", ".")
    assert "mended, row 7: knit it in B and cover it with a duplicate stitch in W  area/single-stitch" in done.out
    assert chart.read_text() == SPECKED.replace(SPECK, PLAIN).replace(
        "chart: |", 'duplicate-stitch:\n  - {colour: "W", row: 7, stitches: [10, 10]}\nchart: |'
    )


@pytest.mark.parametrize("end", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("last", [True, False], ids=["ended", "not ended"])
def test_git_applies_the_diff(end: str, last: bool, chart: Path, invoke) -> None:
    old, new = ((t if last else t.removesuffix("\n")).replace("\n", end).encode() for t in (FAULTY, WHOLE))
    chart.write_bytes(old)
    for argv in (("--diff",), ("--fix", "--diff"), ("--diff", "--fix=risky")):
        done = invoke("check", *argv, ".")
        assert chart.read_bytes() == old
        assert done.status == 1  # nothing was mended
        assert done.err == (
            "lintarsia: 3 faults in 1 file would be mended; nothing was written\n"
            "as it stands, 1 chart: 1 error, 2 warnings\n"
        )
    diff = chart.with_name("a.diff")
    run = [sys.executable, "-m", "lintarsia", "check", "--diff", "."]
    diff.write_bytes(subprocess.run(run, capture_output=True, check=False).stdout)
    subprocess.run(["git", "apply", "-p0", "--whitespace=nowarn", "a.diff"], check=True)
    assert chart.read_bytes() == new


def test_a_report_goes_into_its_file_beside_the_diff(chart: Path, invoke) -> None:
    done = invoke("check", "--diff", "--format", "json:told.json", "--format", "text", ".")
    assert done.out.startswith("--- a.chart.yaml\n+++ a.chart.yaml\n@@ ")
    assert len(json.loads(chart.with_name("told.json").read_text())["results"]) == 3


def test_standard_input_is_shown_and_never_written(chart: Path) -> None:
    run = [sys.executable, "-m", "lintarsia", "check", "-", "--stdin-name", "a.chart.yaml"]
    shown = subprocess.run([*run, "--diff"], input=FAULTY, capture_output=True, text=True, check=False)
    assert shown.stdout.count("\n-") == 2
    assert shown.returncode == 1
    refused = subprocess.run([*run, "--fix"], input=FAULTY, capture_output=True, text=True, check=False)
    assert refused.returncode == 2
    assert "--fix cannot change what comes from standard input" in refused.stderr


def test_a_path_behind_the_option_is_a_path(chart: Path, invoke) -> None:
    assert invoke("check", "--fix", "a.chart.yaml").status == 0
    assert chart.read_text() == WHOLE
    assert invoke("check", "--fix=wild", "a.chart.yaml").status == 2
    refused = invoke("check", "--fix", "--since", "HEAD", ".")
    assert refused.status == 2
    assert "whole files" in refused.err


def test_quiet_is_not_silent_about_what_it_changed(chart: Path, invoke) -> None:
    assert "mended" in invoke("check", "--fix", "--quiet", ".").out
    assert invoke("check", "--fix", "--quiet", ".").out == ""


def test_the_fixes_in_sarif_make_the_same_file(chart: Path, invoke) -> None:
    """SARIF 2.1.0, 3.57: a replacement deletes its region and puts its content there; all are of the original."""
    told = json.loads(invoke("check", "--format", "sarif", ".").out)
    replacements = [
        replacement
        for result in told["runs"][0]["results"]
        for fix in result.get("fixes", [])
        for change in fix["artifactChanges"]
        for replacement in change["replacements"]
    ]
    lines = [0, *(found.end() for found in re.finditer("\n", FAULTY))]
    text = FAULTY
    for replacement in sorted(replacements, key=lambda r: r["deletedRegion"]["startLine"], reverse=True):
        region = replacement["deletedRegion"]
        start = lines[region["startLine"] - 1] + region["startColumn"] - 1
        end = lines[region["endLine"] - 1] + region["endColumn"] - 1
        text = text[:start] + replacement["insertedContent"]["text"] + text[end:]
    assert text == WHOLE


@pytest.mark.parametrize("named", [True, False], ids=["named", "by the settings"])
def test_a_colour_that_the_baseline_accepts_is_not_deleted(named: bool, chart: Path, invoke) -> None:
    whole = WHOLE.replace("chart: |", f"{RUST}chart: |")
    chart.write_text(whole)
    option = ("--baseline", "kept.json") if named else ()
    if not named:
        (chart.parent / "lintarsia.yaml").write_text("baseline: kept.json\n")
    assert invoke("check", *option, "--update", ".").err == "lintarsia: kept.json accepts 1 result\n"
    kept = (chart.parent / "kept.json").read_bytes()
    faulty = whole.replace(PLAIN * 4, PLAIN + BLANK + PLAIN * 2)
    chart.write_text(faulty)
    shown = invoke("check", "--diff", *option, ".")
    assert [line for line in shown.out.splitlines() if line[:1] in "+-"][2:] == [f"-{BLANK[:-1]}", f"+{PLAIN[:-1]}"]
    done = invoke("check", "--fix", *option, ".")
    assert done.out == (
        "a.chart.yaml:11  mended, row 7: delete the white space  file/schema\n"
        "\n"
        "1 chart: nothing to mend; 1 suppressed\n"
    )
    assert chart.read_text() == whole
    assert invoke("check", "--fix", "--update", *option, ".").status == 0
    assert (chart.read_text(), (chart.parent / "kept.json").read_bytes()) == (whole, kept)


def test_nothing_is_mended_where_the_baseline_cannot_be_read(chart: Path, invoke) -> None:
    done = invoke("check", "--fix", "--baseline", "none.json", ".")
    assert (done.status, done.out) == (2, "")
    assert "there is no baseline 'none.json'" in done.err
    assert chart.read_text() == FAULTY
    assert invoke("check", "--fix", "--update", "--baseline", "none.json", ".").status == 0
    assert chart.read_text() == WHOLE


def test_a_stream_is_held_to_the_baseline_as_well(chart: Path, invoke, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = WHOLE.replace("chart: |", f"{RUST}chart: |")
    chart.write_text(whole)
    invoke("check", "--baseline", "kept.json", "--update", ".")
    faulty = whole.replace(PLAIN * 4, PLAIN + BLANK + PLAIN * 2)
    source = chart.parent / "stream"
    source.write_text(faulty)
    with source.open() as stream:
        monkeypatch.setattr("sys.stdin", stream)
        shown = invoke("check", "-", "--stdin-name", "a.chart.yaml", "--diff", "--baseline", "kept.json")
    assert [line for line in shown.out.splitlines() if line[:1] in "+-"][2:] == [f"-{BLANK[:-1]}", f"+{PLAIN[:-1]}"]
