"""One chart through the engine: levels, options, suppressions, rules that fail, marks that last."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pytest

from lintarsia.engine import Checked, check_chart
from lintarsia.result import Level, Region, Result
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings
from lintarsia.settings.model import RuleSetting

Write = Callable[..., Path]
GRID = "BBBB\nWBBW\nBBBB\n"


@pytest.fixture
def check(toy_book: Rulebook, tmp_path: Path) -> Callable[..., Checked]:
    def check(file: Path, **rules: Level | RuleSetting) -> Checked:
        said = {
            name.replace("__", "/").replace("_", "-"): RuleSetting(value) if isinstance(value, Level) else value
            for name, value in rules.items()
        }
        return check_chart(str(file), None, Settings(root=str(tmp_path), rules=said, rulebook=toy_book))

    return check


def told(results: Sequence[Result]) -> list[tuple[str, str, str, int | None, tuple[int, int] | None, bool]]:
    return [(r.rule, r.key, str(r.level), r.row, r.stitches, r.suppressed) for r in results]


def test_a_finding_becomes_a_whole_result(write_chart: Write, check: Callable[..., Checked]) -> None:
    file = write_chart(grid="BBBB\nBWBB\nBBBB\n")
    ((result,), picture) = check(file)
    assert result == Result(
        rule="toy/letters",
        key="letter",
        level=Level.WARNING,
        message="row 2 has the letter W",
        file=str(file),
        region=Region(10, 4, 10, 5),
        row=2,
        stitches=(3, 3),
        remedy="remedy of toy/letters",
        fingerprint=result.fingerprint,
    )
    assert picture is not None
    assert picture.rows == ("BBBB", "BWBB", "BBBB")
    assert picture.sides == ("RS", "WS", "RS")
    assert picture.shades == {"B": "#27406b", "W": "#efe9dc"}


def test_a_clean_chart_has_no_results_and_no_picture(write_chart: Write, check: Callable[..., Checked]) -> None:
    assert check(write_chart(grid="BB\nBB\n")) == Checked((), None)


def test_levels_from_settings(write_chart: Write, check: Callable[..., Checked]) -> None:
    file = write_chart(grid="BW\nBB\n")
    assert [r.level for r in check(file, toy__letters=Level.NOTE).results] == [Level.NOTE]
    assert check(file, toy__letters=Level.OFF).results == ()


def test_options_from_settings(write_chart: Write, check: Callable[..., Checked]) -> None:
    setting = RuleSetting(values={"symbol": "B", "most": 1})
    assert told(check(write_chart(grid="BW\nBB\n"), toy__letters=setting).results) == [
        ("toy/letters", "letter", "warning", 1, (2, 2), False)
    ]


def test_a_rule_that_fails_is_its_own_fault(
    write_chart: Write, check: Callable[..., Checked], capsys: pytest.CaptureFixture[str]
) -> None:
    results = check(write_chart(grid="BW\nBB\n"), toy__fails=Level.NOTE).results
    assert [(r.rule, r.key, str(r.level)) for r in results if r.rule == "engine/rule-failed"] == [
        ("engine/rule-failed", "rule-failed", "error")
    ]
    (failed,) = (r for r in results if r.rule == "engine/rule-failed")
    assert failed.message == (
        "the rule toy/fails itself failed on this chart (ZeroDivisionError: toy fault); "
        "the chart is not to blame, please report it"
    )
    assert {r.rule for r in results} == {"engine/rule-failed", "toy/letters", "toy/fails"}  # what it had found stays
    assert capsys.readouterr().err == ""


def test_debugging_shows_the_traceback_and_goes_on(
    write_chart: Write,
    check: Callable[..., Checked],
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setenv("LINTARSIA_DEBUG", "1")
    assert check(write_chart(), toy__fails=Level.NOTE).results
    assert "ZeroDivisionError: toy fault" in capsys.readouterr().err


def test_a_reader_that_fails_is_told_as_such(
    write_chart: Write, check: Callable[..., Checked], monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: object, **__: object) -> None:
        raise KeyError("toy")

    monkeypatch.setattr("lintarsia.engine.subjects.chart.read_chart", broken)
    (result,) = check(write_chart()).results
    assert (result.rule, result.key) == ("engine/rule-failed", "reader-failed")


def suppress(*entries: str) -> str:
    return "suppress:\n" + "".join(f"  - {{{entry}, justification: the eye}}\n" for entry in entries)


@pytest.mark.parametrize(
    ("entry", "covered"),
    [
        ("rule: toy/letters", [True, True]),
        ("rule: toy/letters, row: 2", [True, True]),
        ("rule: toy/letters, row: 2, stitches: [4, 4]", [True, False]),
        ("rule: toy/letters, row: 2, stitches: [1, 1]", [False, True]),
        ("rule: toy/letters, row: 2, stitches: [1, 4]", [True, True]),
    ],
)
def test_a_suppression_covers_what_it_names(
    write_chart: Write, check: Callable[..., Checked], entry: str, covered: list[bool]
) -> None:
    results = check(write_chart(grid=GRID, extra=suppress(entry))).results
    assert [(r.rule, r.suppressed) for r in results] == [("toy/letters", c) for c in covered]
    assert [r.justification for r in results] == ["the eye" if c else "" for c in covered]


def test_a_suppression_that_matches_nothing_is_a_result(write_chart: Write, check: Callable[..., Checked]) -> None:
    file = write_chart(grid="BB\nBB\n", extra=suppress("rule: toy/letters, row: 2, stitches: [1, 2]"))
    ((result,), _) = check(file)
    assert (result.rule, result.key, result.level) == ("suppress/unmatched", "unmatched", Level.WARNING)
    assert result.message == "this suppression of toy/letters in row 2, stitches 1–2 matches no result"
    assert (result.region.line, result.row, result.stitches) == (9, 2, (1, 2))


def test_a_suppression_of_a_rule_that_is_off_is_left_in_peace(
    write_chart: Write, check: Callable[..., Checked]
) -> None:
    file = write_chart(grid="BW\nBB\n", extra=suppress("rule: toy/letters"))
    assert check(file, toy__letters=Level.OFF) == Checked((), None)


def test_a_suppression_of_a_rule_that_does_not_exist(write_chart: Write, check: Callable[..., Checked]) -> None:
    ((result,), _) = check(write_chart(grid="BB\nBB\n", extra=suppress("rule: toy/leters")))
    assert (result.rule, result.level) == ("suppress/unknown-rule", Level.ERROR)
    assert result.message == "there is no rule 'toy/leters' to suppress; did you mean 'toy/letters'?"


def test_what_cannot_be_read_cannot_be_suppressed(write_chart: Write, check: Callable[..., Checked]) -> None:
    file = write_chart(grid="BB\nBB\n", extra="colour: [B]\n" + suppress("rule: file/schema"))
    assert [(r.rule, r.key, r.suppressed) for r in check(file).results] == [
        ("file/schema", "unknown-key", False),
        ("suppress/unmatched", "not-suppressible", False),
    ]


def test_marks_stay_when_rows_are_added(write_chart: Write, check: Callable[..., Checked]) -> None:
    before = check(write_chart("a.chart.yaml", grid=GRID)).results
    after = check(write_chart("b.chart.yaml", grid=GRID + "BBBB\nBBBB\n")).results
    assert [r.row for r in before] == [2, 2]
    assert [r.row for r in after] == [4, 4]
    assert [r.fingerprint for r in before] == [r.fingerprint for r in after]
    assert len({r.fingerprint for r in before}) == 2


def test_content_given_outright(toy_book: Rulebook, tmp_path: Path, write_chart: Write) -> None:
    file = write_chart(grid="BW\nBB\n")
    data = file.read_bytes()
    file.unlink()
    settings = Settings(root=str(tmp_path), rulebook=toy_book)
    assert [r.message for r in check_chart("x.chart.yaml", data, settings).results] == ["row 2 has the letter W"]


def test_a_file_that_is_not_there_or_too_large(write_chart: Write, toy_book: Rulebook, tmp_path: Path) -> None:
    settings = Settings(root=str(tmp_path), rulebook=toy_book, max_bytes=50)
    (gone,) = check_chart(str(tmp_path / "gone.chart.yaml"), None, settings).results
    (large,) = check_chart(str(write_chart()), None, settings).results
    assert (gone.rule, gone.level) == ("file/unreadable", Level.ERROR)
    assert (large.rule, large.key) == ("file/unreadable", "too-large")
