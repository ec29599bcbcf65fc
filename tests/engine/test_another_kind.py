"""A kind of file is one module. Here one comes in that lintarsia does not have, a card of yarns (`another_kind/`), and
everything that is said of files is said of it: a list of kinds by name somewhere would leave it out."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

OWN = Path(__file__).parent / "another_kind"
CARD = """\
yarns:
  Dusk blue: {weight: 50 g, length: 175 m}
  Bone: {weight: 50 g}
"""
FOG = "  Fog: {weight: 25 g}\n"
ACCEPTING = "suppress:\n  - {rule: card/no-length, justification: spun by hand}\n"
CHECK = ("check", "--allow-outside-rules")
SAID = "▲ warning                                                         card/no-length\n  {} states no length\n"

Answer = tuple[int, str, str]


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Answer]:
    """What each command says. All are run in one process: what a kind of file costs is loading lintarsia."""
    here = tmp_path_factory.mktemp("cards")
    (here / "tools").mkdir()
    (here / "yarns").mkdir()
    (here / "tools" / "rule.py").write_bytes((OWN / "rule.py").read_bytes())
    (here / "lintarsia.yaml").write_text("local-rules: [tools/rule.py]\n", "utf-8")
    (here / "yarns" / "winter.yarncard.yaml").write_text(CARD, "utf-8")
    (here / "yarns" / "spun.yarncard.yaml").write_text(CARD + ACCEPTING, "utf-8")
    (here / "yarns" / "old.yarncard.yml").write_text(CARD, "utf-8")
    (here / "broken.yarncard.yaml").write_text("yarn: {}\n", "utf-8")
    git = ("git", "-c", "user.name=M.", "-c", "user.email=m@example.org")
    for words in (("init", "-q"), ("add", "."), ("commit", "-q", "-m", "cards")):
        subprocess.run([*git, *words], cwd=here, check=True)
    (here / "yarns" / "winter.yarncard.yaml").write_text(CARD + FOG, "utf-8")
    subprocess.run([*git, "add", "."], cwd=here, check=True)
    asked = {
        "folder": [*CHECK, "yarns"],
        "one": [*CHECK, "yarns/spun.yarncard.yaml"],
        "broken": [*CHECK, "broken.yarncard.yaml"],
        "json": [*CHECK, "yarns", "--format", "json"],
        "sarif": [*CHECK, "yarns", "--format", "sarif"],
        "junit": [*CHECK, "yarns", "--format", "junit"],
        "since": [*CHECK, "yarns", "--since", "HEAD"],
        "hook": [*CHECK, "--before-commit", "--", "yarns/winter.yarncard.yaml"],
        "editor": [*CHECK, "-", "--stdin-name", "yarns/new.yarncard.yaml"],
        "baseline": [*CHECK, "yarns", "--baseline", "known.json", "--update"],
        "known": [*CHECK, "yarns", "--baseline", "known.json"],
        "plan": ["plan", "yarns/winter.yarncard.yaml"],
        "compare": ["compare", "yarns/winter.yarncard.yaml", "--from", "yarns/spun.yarncard.yaml"],
        "site": ["site", ".", "--output", "site", "--allow-outside-rules"],
    }
    run = subprocess.run(
        [sys.executable, str(OWN / "withit.py")],
        cwd=here, input=json.dumps([[words, CARD] for words in asked.values()]), capture_output=True, encoding="utf-8",
    )  # fmt: skip
    assert run.returncode == 0, run.stderr
    return {name: tuple(answer) for name, answer in zip(asked, json.loads(run.stdout), strict=True)}


def test_a_folder_s_files_of_the_kind_are_found_checked_and_counted(answers: dict[str, Answer]) -> None:
    status, out, err = answers["folder"]
    place = "yarns/winter.yarncard.yaml:3:3\n▲ warning  2 places"
    assert (status, out.startswith(place)) == (0, True), out
    assert out.endswith("2 yarn cards: 2 warnings; 1 suppressed (nothing that blocks)\n")
    assert "yarns/old.yarncard.yml looks like a yarn card and was not looked at" in err


def test_what_the_file_accepts_is_accepted(answers: dict[str, Answer]) -> None:
    assert answers["one"] == (0, "1 yarn card: nothing to mend; 1 suppressed\n", "")


def test_faults_of_the_file_block(answers: dict[str, Answer]) -> None:
    status, out, _ = answers["broken"]
    assert status == 1
    assert "unknown key 'yarn'; did you mean 'yarns'?" in out


def test_programs_are_told_as_well(answers: dict[str, Answer]) -> None:
    told = [(one["file"], one["message"]) for one in json.loads(answers["json"][1])["results"] if not one["suppressed"]]
    assert told == [
        ("yarns/winter.yarncard.yaml", "Bone states no length"), ("yarns/winter.yarncard.yaml", "Fog states no length"),
    ]  # fmt: skip
    run = json.loads(answers["sarif"][1])["runs"][0]
    assert [(one["message"]["text"], bool(one.get("suppressions"))) for one in run["results"]] == [
        ("Bone states no length", True), ("Bone states no length", False), ("Fog states no length", False),
    ]  # fmt: skip
    assert 'name="2 yarn cards looked at"' in answers["junit"][1]


def test_only_what_is_new_since_a_commit(answers: dict[str, Answer]) -> None:
    status, out, _ = answers["since"]
    assert (status, out.count("states no length")) == (0, 1)
    assert SAID.format("Fog") in out


def test_the_hook_and_an_editor(answers: dict[str, Answer]) -> None:
    assert answers["hook"][1].endswith("1 yarn card: 2 warnings (nothing that blocks)\n")
    assert SAID.format("Bone") in answers["editor"][1]
    assert answers["editor"][1].startswith("yarns/new.yarncard.yaml:3:3\n")


def test_a_baseline_takes_them_in(answers: dict[str, Answer]) -> None:
    assert answers["baseline"][0] == 0
    assert answers["known"][1] == "2 yarn cards: nothing to mend; 3 suppressed\n"


def test_what_takes_charts_says_what_it_was_given(answers: dict[str, Answer]) -> None:
    assert answers["plan"][2] == "lintarsia: 'yarns/winter.yarncard.yaml' is a card of yarns; expected a chart\n"
    assert answers["compare"][2].endswith("spun.yarncard.yaml is a card of yarns; expected a chart or a pattern\n")
    assert answers["site"][0] == 0
