"""A kind of file is a module for what is checked and one for its page. Here one comes in that lintarsia does not have,
a card of yarns (`another_kind/`), and everything that is said of files is said of it: a list of kinds by name somewhere
would leave it out."""

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
Pages = dict[str, str]


@pytest.fixture(scope="module")
def here(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with cards, and what commands make there."""
    return tmp_path_factory.mktemp("cards")


@pytest.fixture(scope="module")
def answers(here: Path) -> dict[str, Answer]:
    """What each command says. All are run in one process: what a kind of file costs is loading lintarsia."""
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
        "public": ["site", "yarns", "--output", "shop", "--allow-outside-rules", "--public"],
        "single": ["site", "--single", "yarns/winter.yarncard.yaml", "--output", "one.html", "--allow-outside-rules"],
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
    files = {"chart": 0, "pattern": 0, "knit": 0, "yarncard": 2}
    assert json.loads(answers["json"][1])["looked_at"] == files
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
    assert answers["compare"][2].endswith("winter.yarncard.yaml is a card of yarns; expected a chart or a pattern\n")
    assert answers["single"][::2] == (
        2, "lintarsia: yarns/winter.yarncard.yaml is a card of yarns; expected a chart or a pattern\n"
    )  # fmt: skip


@pytest.fixture(scope="module")
def pages(here: Path, answers: dict[str, Answer]) -> Pages:
    """What the site holds, file by file."""
    assert answers["site"][0] == 0, answers["site"]
    charts = ("charts/yarns/winter-yarncard.html", "charts/broken-yarncard.html")
    names = (*charts, "index.html", "assets/search-index.js", "report.json")
    return {name: (here / "site" / name).read_text("utf-8") for name in names}


def test_each_has_its_page_in_a_site_with_its_results(pages: Pages) -> None:
    page = pages["charts/yarns/winter-yarncard.html"]
    for told in ("<h1>Yarns for winter</h1>", '<p class="lede">A card of 3 yarns.</p>', "<li>Dusk blue</li>"):
        assert page.count(told) == 1, told
    for told in ("Bone states no length", "Fog states no length", "a yarn states no length"):
        assert told in page


def test_one_that_cannot_be_read_has_a_page_that_says_so(pages: Pages) -> None:
    page = pages["charts/broken-yarncard.html"]
    assert "This page cannot be made until its file is mended." in page
    assert "Unknown key &#39;yarn&#39;; did you mean &#39;yarns&#39;?" in page


def test_the_overview_the_search_and_the_report_have_them(pages: Pages) -> None:
    assert "3 yarn cards" in pages["index.html"]
    assert '<a class="name" href="charts/yarns/winter-yarncard.html">Yarns for winter <small>' in pages["index.html"]
    assert '<span class="torn">yarn card</span>' in pages["index.html"]
    index = json.loads(pages["assets/search-index.js"].partition("=")[2].rstrip(";\n"))
    assert [line[1] for line in index if line[0] == "yarn card" and "Bone" in line[2]] == ["Yarns for winter"] * 2
    assert json.loads(pages["report.json"])["summary"]["error"] == 1


def test_for_everybody_nothing_is_said_of_what_was_found(here: Path, answers: dict[str, Answer]) -> None:
    assert answers["public"][0] == 0, answers["public"]
    page = (here / "shop" / "charts" / "winter-yarncard.html").read_text("utf-8")
    assert "<h1>Yarns for winter</h1>" in page
    assert "no length" not in page
    assert "<li>Bone</li>" in page
