"""Where settings may bring code of their own, and where it is refused unless somebody says that it may."""

import io
import os
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.main import main
from lintarsia.settings.trust import ALLOW, REFUSE, proposed_by, refusal

RULE = """
from lintarsia.result import Level, RuleInfo
from lintarsia.rules.base import NoOptions

open(RAN, "w").close()
Options = NoOptions
INFO = RuleInfo("ours/title", Level.NOTE, "a title", "why", "remedy", {"long": "a long one"})


def check(work, options):
    return iter(())
"""
PROPOSED = [
    {"GITHUB_EVENT_NAME": "pull_request"},
    {"GITHUB_EVENT_NAME": "pull_request_target"},
    {"GITHUB_HEAD_REF": "topic", "GITHUB_EVENT_NAME": "pull_request_review"},
    {"CI_MERGE_REQUEST_IID": "17", "GITLAB_CI": "true"},
    {"CI_PIPELINE_SOURCE": "merge_request_event"},
    {"CI_PIPELINE_SOURCE": "external_pull_request_event"},
    {"TRAVIS_PULL_REQUEST": "12"},
    {"BUILDKITE_PULL_REQUEST": "12"},
    {"SYSTEM_PULLREQUEST_PULLREQUESTID": "12"},
    {"BUILD_REASON": "PullRequest"},
    {"CODEBUILD_WEBHOOK_EVENT": "PULL_REQUEST_UPDATED"},
    {"CHANGE_ID": "12", "JENKINS_URL": "https://ci.example.org/"},
]
OTHERS = [
    {},
    {"CI": "true"},
    {"GITHUB_EVENT_NAME": "push", "GITHUB_HEAD_REF": ""},
    {"CI_PIPELINE_SOURCE": "push"},
    {"TRAVIS_PULL_REQUEST": "false"},
    {"BUILDKITE_PULL_REQUEST": "false"},
    {"CHANGE_ID": "12"},
]


@pytest.mark.parametrize("environ", PROPOSED, ids=str)
def test_a_pull_request_is_known(environ: dict[str, str]) -> None:
    variable = proposed_by(environ)
    assert variable in environ
    assert f"({variable} says so)" in (refusal(environ) or "")
    assert refusal({**environ, ALLOW: "1"}) is None
    assert f"which {REFUSE} forbids" in (refusal({**environ, ALLOW: "1", REFUSE: "1"}) or "")


@pytest.mark.parametrize("environ", OTHERS, ids=str)
def test_all_else_is_none(environ: dict[str, str]) -> None:
    assert proposed_by(environ) is None
    assert refusal(environ) is None


@pytest.fixture
def ran(tmp_path: Path, write_chart: Callable[..., Path], monkeypatch: pytest.MonkeyPatch) -> Path:
    """A file that is there once the rules beside a chart have been loaded."""
    monkeypatch.chdir(tmp_path)
    write_chart("a.chart.yaml", "clean")
    (tmp_path / "ours.py").write_text(RULE.replace("RAN", repr(str(tmp_path / "ran"))), "utf-8")
    (tmp_path / "lintarsia.yaml").write_text("local-rules: [ours.py]\n", "utf-8")
    return tmp_path / "ran"


COMMANDS = [
    ("check", "."),
    ("check", ".", "--settings", "lintarsia.yaml"),
    ("plan", "a.chart.yaml"),
    ("write", "a.chart.yaml"),
    ("draw", "a.chart.yaml"),
    ("explain", "ours/title"),
    ("site", ".", "-o", "pages"),
]


@pytest.mark.parametrize("words", COMMANDS, ids=" ".join)
def test_no_command_runs_code_of_a_pull_request(
    ran: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    monkeypatch.setenv("GITHUB_EVENT_NAME", "pull_request")
    assert main(words) == 2
    told = (
        "lintarsia.yaml:1:15: rules from elsewhere run code of their own, and are refused where CI runs a pull request"
    )
    assert told in capfd.readouterr().err
    assert not ran.exists()
    assert main([*words, "--allow-outside-rules"]) == 0
    assert ran.exists()
    assert ALLOW not in os.environ, "what one run is allowed, the next is not"
    monkeypatch.setenv(REFUSE, "1")
    assert main([*words, "--allow-outside-rules"]) == 2


@pytest.mark.parametrize(
    "words",
    [("check", "-", "--stdin-name", "a.chart.yaml"), ("check", "-", "--settings", "lintarsia.yaml"), ("plan", "-")],
)
def test_no_editor_runs_code_by_opening_a_chart(
    ran: Path, monkeypatch: pytest.MonkeyPatch, capfd: pytest.CaptureFixture[str], words: tuple[str, ...]
) -> None:
    def hand_over() -> None:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(Path("a.chart.yaml").read_bytes())))

    hand_over()
    assert main(words) == 2
    assert "are refused for a chart that is handed over by an editor or a pipe" in capfd.readouterr().err
    assert not ran.exists()
    hand_over()
    assert main([*words, "--allow-outside-rules"]) == 0
    assert ran.exists()
    ran.unlink()
    assert main(["check", "."]) == 0, "the next run hands nothing over"


def test_other_processes_know_that_it_is_allowed(
    ran: Path, write_chart: Callable[..., Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("lintarsia.ground.pools.START", "spawn")
    monkeypatch.setenv("CI_MERGE_REQUEST_IID", "17")
    write_chart("b.chart.yaml", "clean")
    assert main(["check", ".", "--jobs", "2", "--allow-outside-rules"]) == 0
