"""What test knits have to say before a pattern goes out: sizes, open trouble, yarn; blocking as the settings say."""

from pathlib import Path

import pytest
from knit_logs import PATTERN, Knitter, write_knits

from lintarsia.cli.main import main

TROUBLE = 'rows:\n  - {piece: front, row: 14, stitches: [7, 9], kind: trouble, said: "a yarn too few"'
YARNS = "yarns:\n  oat: {name: Fjord in oat, balls: {small: 2, large: 5}}\n  rust: {balls: 1}\n"


@pytest.fixture
def group(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Both sizes finished; the pattern states enough yarn."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / ".git").mkdir()  # the end of the repository
    write_knits(tmp_path, [Knitter("Wren", "small", 3.9), Knitter("Finch", "large", 3.9)])
    (tmp_path / "fox.pattern.yaml").write_text(PATTERN + YARNS, encoding="utf-8")
    return tmp_path


def card(capsys: pytest.CaptureFixture[str], status: int) -> str:
    assert main(["release", "fox.pattern.yaml"]) == status
    return " ".join(capsys.readouterr().out.split())


def test_all_is_knitted_and_the_card_ticks_its_boxes(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = card(capsys, 0)
    assert "Who has knitted it small: Wren (revision not stated) large: Finch (revision not stated)" in text
    assert "[x] Every size has been finished by a test knitter, with the stitches of now." in text
    assert "[x] All trouble and all questions of the test knitters are answered." in text
    assert "[x] The yarn stated covers what every test knitter has used." in text
    assert "[ ] Every size has been knitted by somebody" not in text


def test_open_trouble_blocks_until_it_is_answered(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = group / "wren.knit.yaml"
    before = file.read_text("utf-8")
    file.write_text(before + TROUBLE + "}\n", encoding="utf-8")
    text = card(capsys, 1)
    assert "wren.knit.yaml:10:5 error knit/open-remark" in text
    assert "front, row 14, stitches 7–9: Wren says “a yarn too few”, and has no answer" in text
    assert "[x] All trouble" not in text
    file.write_text(before + TROUBLE + ', answered: "there are two now"}\n', encoding="utf-8")
    assert "[x] All trouble" in card(capsys, 0)


def test_a_question_stands_and_blocks_where_the_settings_say_so(
    group: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = group / "wren.knit.yaml"
    file.write_text(file.read_text("utf-8") + TROUBLE.replace("trouble", "question") + "}\n", encoding="utf-8")
    assert "warning knit/open-remark" in card(capsys, 0)
    (group / "lintarsia.yaml").write_text("rules: {knit/open-remark: error}\n", encoding="utf-8")
    assert "error knit/open-remark" in card(capsys, 1)
    (group / "lintarsia.yaml").write_text("rules: {knit/open-remark: off}\n", encoding="utf-8")
    assert "says “a yarn" not in card(capsys, 0)


def test_a_size_that_nobody_has_finished(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = group / "finch.knit.yaml"
    file.write_text(file.read_text("utf-8").replace("finished: 2026-11-05\n", ""), encoding="utf-8")
    text = card(capsys, 0)
    assert "warning knit/untested-size nobody has finished large; 2 test knits in all" in text
    assert "large: Finch (still knitting, revision not stated)" in text
    assert "[ ] Every size has been knitted by somebody" in text


def test_a_size_that_was_finished_and_has_changed_since(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = group / "finch.knit.yaml"
    file.write_text(file.read_text("utf-8") + "fingerprint: 0123456789abcdef\n", encoding="utf-8")
    assert "note knit/untested-size large was finished by Finch, and has changed since" in card(capsys, 0)


def test_more_was_used_than_the_pattern_says_to_buy(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Small takes some 160 m of oat: one ball of 120 m is too little, whatever the plan says of other hands."""
    (group / "fox.pattern.yaml").write_text(PATTERN + YARNS.replace("small: 2", "small: 1"), encoding="utf-8")
    text = card(capsys, 1)
    assert "error knit/yarn-short Fjord in oat, small: Wren used 154 m; the 1 ball holds 120 m" in text
    assert "[x] The yarn stated" not in text


def test_without_test_knits_the_card_is_as_it_was(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for file in group.glob("*.knit.yaml"):
        file.unlink()
    text = card(capsys, 0)
    assert "Who has knitted it" not in text
    assert "knit/" not in text
    assert "[ ] Every size has been knitted by somebody" in text


def test_what_a_log_says_is_escaped_on_the_page(group: Path, capsys: pytest.CaptureFixture[str]) -> None:
    file = group / "wren.knit.yaml"
    hostile = TROUBLE.replace("a yarn too few", "<script>alert(1)</script>")
    file.write_text(file.read_text("utf-8").replace("Wren", '"<b>W"') + hostile + "}\n", encoding="utf-8")
    assert main(["release", "fox.pattern.yaml", "--format", "html"]) == 1
    page = capsys.readouterr().out
    assert "&lt;script&gt;alert(1)" in page
    assert "<script" not in page
    assert "<b>W" not in page
