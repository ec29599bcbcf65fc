"""One lopsided report in every format for programs, whole: names as the formats have them, nothing of one result in
another's place. That the formats are met is held by their own schemas, in tests/reference/test_result_formats.py."""

import json
from dataclasses import replace
from typing import Any
from xml.etree import ElementTree

from lintarsia.ground.regions import Edit
from lintarsia.reporting.fitting import fitted
from lintarsia.reporting.json import render_in_lines, result_line
from lintarsia.reporting.screen import PLAIN, Screen, look_at_screen
from lintarsia.result import Fix, Fixed, Kind, Level, Region, Report, Result, RuleInfo
from rendering import rendered

INFO = RuleInfo(
    "float/too-long",
    Level.WARNING,
    "a float is long",
    "It snags.",
    "catch it",
    {"long": "too long", "across": "across rows"},
    sources=("a book", "common practice"),
)
OTHER = replace(INFO, name="area/speck", level=Level.OFF, keys={"alone": "alone"}, sources=("ours",))
FIX = Fix("catch: it", (Edit(Region(11, 2, 12, 4), "AB"), Edit(Region(14, 5, 14, 5), "C\n")), safe=False)
FIRST = Result(
    "float/too-long",
    "long",
    Level.ERROR,
    "row 3: 9 stitches, 50%\nlong",
    "b/é a.chart.yaml",
    Region(7, 5, 9, 3),
    3,
    (2, 10),
    "catch it, twice",
    (FIX,),
    "f1",
    baseline="new",
)
SECOND = Result("area/speck", "alone", Level.NOTE, "a speck", "/c.yaml", Region(4, 6, 4, 8), fingerprint="f2")
THIRD = replace(
    SECOND, level=Level.WARNING, rule="no/info", fingerprint="f3", suppressed=True, justification="meant", remedy="none"
)
FOURTH = replace(
    THIRD, fingerprint="f4", baseline="unchanged", justification="accepted in x.json", row=2, stitches=(4, 4)
)
REPORT = Report(
    5,
    (FIRST, SECOND, THIRD, FOURTH),
    rules={info.name: info for info in (INFO, OTHER)},
    version="0.9",
    files=("b/é a.chart.yaml", "/c.yaml"),
)


def render(form: str, report: Report = REPORT) -> str:
    return rendered(report, PLAIN, form)


def region(line: int, column: int, end_line: int, end_column: int) -> dict[str, int]:
    return {"startLine": line, "startColumn": column, "endLine": end_line, "endColumn": end_column}


def sarif_result(base: dict[str, str]) -> dict[str, Any]:
    artifact = {"uri": "b/%C3%A9%20a.chart.yaml", **base}
    return {
        "ruleId": "float/too-long",
        "ruleIndex": 1,
        "level": "error",
        "message": {"text": "row 3: 9 stitches, 50%\nlong"},
        "locations": [{"physicalLocation": {"artifactLocation": artifact, "region": region(7, 5, 9, 3)}}],
        "partialFingerprints": {"lintarsia/v1": "f1"},
        "properties": {"key": "long", "row": 3, "stitches": [2, 10], "remedy": "catch it, twice"},
        "baselineState": "new",
        "fixes": [
            {
                "description": {"text": "catch: it"},
                "artifactChanges": [
                    {
                        "artifactLocation": artifact,
                        "replacements": [
                            {"deletedRegion": region(11, 2, 12, 4), "insertedContent": {"text": "AB"}},
                            {"deletedRegion": region(14, 5, 14, 5), "insertedContent": {"text": "C\n"}},
                        ],
                    }
                ],
                "properties": {"safe": False},
            }
        ],
    }


def test_sarif() -> None:
    document = json.loads(render("sarif"))
    (run,) = document.pop("runs")
    assert document == {
        "$schema": "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json",
        "version": "2.1.0",
    }
    driver = run.pop("tool")["driver"]
    assert (driver["name"], driver["semanticVersion"]) == ("lintarsia", "0.9")
    assert [rule["id"] for rule in driver["rules"]] == ["area/speck", "float/too-long"]
    assert driver["rules"][1] == {
        "id": "float/too-long",
        "shortDescription": {"text": "a float is long"},
        "fullDescription": {"text": "It snags."},
        "help": {
            "text": "It snags.\n\nTo mend it: catch it\n\nSources: a book; common practice",
            "markdown": "It snags.\n\n**To mend it:** catch it\n\n- `long`: too long\n- `across`: across rows\n\n"
            "*Sources: a book; common practice*",
        },
        "defaultConfiguration": {"level": "warning"},
        "properties": {"tags": ["float"]},
    }
    first, second, third, fourth = run.pop("results")
    assert first == sarif_result({})
    assert second["locations"] == [
        {"physicalLocation": {"artifactLocation": {"uri": "file:///c.yaml"}, "region": region(4, 6, 4, 8)}}
    ]
    assert (second["ruleIndex"], second["level"]) == (0, "note")
    assert not {"fixes", "suppressions", "baselineState"} & second.keys()
    assert third["ruleIndex"] == -1
    assert third["suppressions"] == [{"kind": "inSource", "justification": "meant"}]
    assert fourth["suppressions"] == [{"kind": "external", "justification": "accepted in x.json"}]
    assert fourth["baselineState"] == "unchanged"
    assert run == {
        "columnKind": "unicodeCodePoints",
        "invocations": [{"executionSuccessful": True, "exitCode": 1}],
    }


def test_sarif_from_the_top_of_a_repository() -> None:
    (run,) = json.loads(render("sarif", replace(REPORT, root="/a b", results=(FIRST, SECOND))))["runs"]
    described = {"text": "the top of the repository, or the folder that was checked where there is none"}
    assert run["originalUriBaseIds"] == {"SRCROOT": {"uri": "file:///a%20b/", "description": described}}
    assert run["results"][0] == sarif_result({"uriBaseId": "SRCROOT"})
    assert run["results"][1]["locations"][0]["physicalLocation"]["artifactLocation"] == {"uri": "file:///c.yaml"}
    (calm,) = json.loads(render("sarif", replace(REPORT, results=(SECOND,))))["runs"]
    assert calm["invocations"] == [{"executionSuccessful": True, "exitCode": 0}]


def json_result(**other: Any) -> dict[str, Any]:
    return {
        "rule": "no/info",
        "key": "alone",
        "level": "warning",
        "message": "a speck",
        "file": "/c.yaml",
        "region": {"line": 4, "column": 6, "end_line": 4, "end_column": 8},
        "row": None,
        "stitches": None,
        "remedy": "none",
        "suppressed": True,
        "justification": "meant",
        "baseline": None,
        "fingerprint": "f3",
    } | other


def test_json() -> None:
    fixed = (Fixed("b.yaml", "a/b", "k", "mend it", 8, 3, False), Fixed("c.yaml", "c/d", "l", "and it", 9))
    document = json.loads(render("json", replace(REPORT, fixed=fixed, others={Kind.PATTERN: 3})))
    results = document.pop("results")
    assert document == {
        "schema": "lintarsia/report/1",
        "tool": {"name": "lintarsia", "version": "0.9"},
        "summary": {
            "charts": 5,
            "error": 1,
            "warning": 0,
            "note": 1,
            "suppressed": 2,
        },
        "blocked": True,
        "looked_at": {"chart": 5, "pattern": 3, "knit": 0},
        "fixed": [
            {"rule": "a/b", "key": "k", "description": "mend it", "file": "b.yaml", "line": 8, "row": 3, "safe": False},
            {
                "rule": "c/d",
                "key": "l",
                "description": "and it",
                "file": "c.yaml",
                "line": 9,
                "row": None,
                "safe": True,
            },
        ],
    }
    assert results[2] == json_result()
    assert results[3] == json_result(
        fingerprint="f4", baseline="unchanged", justification="accepted in x.json", row=2, stitches=[4, 4]
    )
    assert results[1] == json_result(
        rule="area/speck", level="note", remedy="", suppressed=False, justification=None, fingerprint="f2"
    )
    assert (results[0]["stitches"], results[0]["row"], results[0]["baseline"]) == ([2, 10], 3, "new")


def test_json_is_laid_out_as_the_library_would() -> None:
    for results in ((), (FIRST,), REPORT.results):
        text = render("json", replace(REPORT, results=results))
        assert text == json.dumps(json.loads(text), ensure_ascii=False, indent=2) + "\n"
    lines = render_in_lines(REPORT, map(result_line, REPORT.results))
    assert json.loads(lines) == json.loads(render("json"))
    assert lines.count("\n") == len(REPORT.results) + 2


def test_github() -> None:
    assert render("github") == (
        "::error file=b/é a.chart.yaml,line=7,endLine=9,col=5,endColumn=5,title=float/too-long::"
        "row 3: 9 stitches, 50%25%0Along%0Acatch it, twice\n"
        "::notice file=/c.yaml,line=4,endLine=4,col=6,endColumn=8,title=area/speck::a speck\n"
        "5 charts: 1 error, 1 note; 2 suppressed\n"
    )
    odd = replace(SECOND, file="a:b,c%d.yaml", message="\x1b[31mred\r")
    first = render("github", replace(REPORT, results=(odd,))).splitlines()[0]
    assert first.startswith("::notice file=a%3Ab%2Cc%25d.yaml,line=4,")
    assert "\x1b" not in first
    assert first.endswith("%0D")


def test_gitlab() -> None:
    issues = json.loads(render("gitlab"))
    marks = [issue.pop("fingerprint") for issue in issues]
    assert [len(mark) for mark in marks] == [32, 32]
    assert len(set(marks)) == 2
    assert issues == [
        {
            "description": "row 3: 9 stitches, 50%\nlong",
            "check_name": "float/too-long",
            "severity": "major",
            "location": {"path": "b/é a.chart.yaml", "lines": {"begin": 7, "end": 9}},
        },
        {
            "description": "a speck",
            "check_name": "area/speck",
            "severity": "info",
            "location": {"path": "/c.yaml", "lines": {"begin": 4, "end": 4}},
        },
    ]
    elsewhere = json.loads(render("gitlab", replace(REPORT, results=(replace(SECOND, file="d.yaml"),))))
    assert elsewhere[0]["fingerprint"] not in marks, "a mark is unique in its own file only"


def test_junit() -> None:
    (suite,) = ElementTree.fromstring(render("junit"))
    assert {name: suite.get(name) for name in ("tests", "failures", "skipped")} == {
        "tests": "4",
        "failures": "1",
        "skipped": "1",
    }
    cases = list(suite.iter("testcase"))
    assert [(case.get("classname"), case.get("name")) for case in cases[1:]] == [
        ("b/é a.chart.yaml", "float/too-long"),
        ("/c.yaml", "area/speck"),
        ("/c.yaml", "no/info"),
    ]
    failure = cases[1].find("failure")
    assert failure is not None
    assert failure.text == "b/é a.chart.yaml:7:5: error: row 3: 9 stitches, 50%\nlong"
    assert [[part.tag for part in case] for case in cases] == [[], ["failure"], ["system-out"], ["skipped"]]
    output = cases[2].find("system-out")
    assert output is not None
    assert output.text == "/c.yaml:4:6: note: a speck"


def screen(when: str = "auto", tty: bool = True, encoding: str = "UTF-8", width: int = 70, **environ: str) -> Screen:
    return look_at_screen(tty=tty, encoding=encoding, width=width, when=when, environ=environ)


def test_the_screen_is_guessed_from_what_is_customary() -> None:
    assert screen() == Screen(70, True, False, True)
    assert screen(COLORTERM="24bit") == screen(COLORTERM="TrueColor") == Screen(70, True, True, True)
    assert screen(TERM="xterm-direct") == screen(TERM="a-truecolor") == Screen(70, True, True, True)
    assert screen(TERM="dumb").colour is screen(tty=False).colour is screen(NO_COLOR="1").colour is False
    assert screen("never", FORCE_COLOR="1").colour is False
    assert screen(NO_COLOR="", FORCE_COLOR="").colour is True
    assert screen(tty=False, FORCE_COLOR="1").colour is screen(TERM="dumb", FORCE_COLOR="1").colour is True
    assert screen(FORCE_COLOR="1", NO_COLOR="1").colour is False
    assert screen("always", tty=False, NO_COLOR="1") == Screen(70, True, True, True)
    assert [screen(encoding=name).unicode for name in ("utf8", "UTF_16", "latin-1", "ascii")] == [
        True,
        True,
        False,
        False,
    ]
    assert [screen(width=width).width for width in (7, 41, 10_000)] == [40, 41, Screen().width]
    assert screen(COLORTERM="truecolor", encoding="ascii").pictures is screen().pictures is False
    assert screen(COLORTERM="truecolor").pictures


def test_lines_are_fitted_to_a_narrow_screen() -> None:
    narrow = Screen(20)
    for text, expected in {
        "short": "short\n",
        "  name      3 m   ball": "  name  3 m  ball\n",
        "  one two three four five six": "  one two three four\n      five six\n",
        "  a long column here     and one more": "  a long column here\n      and one more\n",
        "\x1b[1m  name of twenty....\x1b[0m": "\x1b[1m  name of twenty....\x1b[0m\n",
        "averylongwordthatfitsnowhere": "averylongwordthatfitsnowhere\n",
        "": "",
    }.items():
        assert fitted(text, narrow) == expected, text
