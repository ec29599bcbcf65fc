"""Patterns through the engine: folders, paths that leave, accepted results, levels, and whole runs."""

import json
import os
from pathlib import Path

import pytest
from pattern_files import chart_text, write, write_pattern

from lintarsia.cli.main import main
from lintarsia.engine import check_chart, check_paths
from lintarsia.ground.bounds import repository
from lintarsia.ground.kinds import Kind
from lintarsia.pattern.paths import Outside, chart_path
from lintarsia.result import Level
from lintarsia.settings import Settings

FRONT = chart_text("BBBBBBBBBB " * 6)
WIDE = "pieces:\n  front: {chart: front.chart.yaml, measures: {width: 9 cm}}\n"


@pytest.fixture(autouse=True)
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def found(*paths: str) -> list[tuple[str, str, str]]:
    report = check_paths(paths)
    return [(result.file, result.rule, result.key) for result in report.results]


def test_a_folder_s_patterns_are_checked_with_its_charts(tmp_path: Path) -> None:
    write_pattern(tmp_path / "book", WIDE, front=FRONT)
    report = check_paths(["."])
    assert (report.charts, report.others) == (1, {Kind.PATTERN: 1})
    result = report.results[0]
    assert (result.file, result.rule, result.key) == ("book/cushion.pattern.yaml", "size/measurement", "width")
    assert result.message == "front: 10 stitches at 20 to 10 cm are 5.0 cm wide; 9 cm is stated"
    assert result.region == (4, 54, 4, 58)
    assert report.blocked


def test_charts_are_found_from_the_pattern_s_own_folder(tmp_path: Path) -> None:
    write(tmp_path, "shared/front.chart.yaml", FRONT)
    (tmp_path / ".git").mkdir()
    write_pattern(tmp_path / "book", "pieces:\n  front: {chart: ../shared/front.chart.yaml}\n")
    assert found("book") == []
    os.chdir("book")
    assert found("cushion.pattern.yaml") == []


def test_paths_may_not_leave_the_repository(tmp_path: Path) -> None:
    write(tmp_path, "secret.chart.yaml", FRONT)
    book = tmp_path / "book"
    book.mkdir()
    (book / "lintarsia.yaml").write_text("block: error\n", encoding="utf-8")
    (book / "link.chart.yaml").symlink_to(tmp_path / "secret.chart.yaml")
    text = "".join(
        f"  p{i}: {{chart: {path!r}}}\n"
        for i, path in enumerate(
            ["../secret.chart.yaml", "link.chart.yaml", str(tmp_path / "secret.chart.yaml"), "~/a"]
        )
    )
    write_pattern(book, f"pieces:\n{text}")
    keys = [(rule, key) for _, rule, key in found("book/cushion.pattern.yaml")]
    assert keys == [("pattern/missing-chart", "outside")] * 4


def test_the_repository_is_the_nearest_with_a_mark(tmp_path: Path) -> None:
    (tmp_path / "a" / ".git").mkdir(parents=True)
    (tmp_path / "a" / "b").mkdir()
    (tmp_path / "a" / "b" / "lintarsia.yaml").write_text("", encoding="utf-8")
    assert repository(str(tmp_path / "a" / "b" / "x.pattern.yaml")) == str(tmp_path / "a")
    (tmp_path / "c").mkdir()
    assert repository(str(tmp_path / "c" / "x.pattern.yaml")) == str(tmp_path / "c")


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("frnot.chart.yaml", "front.chart.yaml"),
        ("front.yaml", "front.chart.yaml"),
        ("Front.chart.yaml", "front.chart.yaml"),
        ("../shared/bakc.chart.yaml", "../shared/back.chart.yaml"),
        ("zebra.chart.yaml", None),  # the suffix alone makes no likeness
        ("nowhere/front.chart.yaml", None),
    ],
)
def test_a_misspelt_chart_is_guessed_at_in_its_own_folder(tmp_path: Path, said: str, meant: str | None) -> None:
    (tmp_path / ".git").mkdir()
    write(tmp_path, "shared/back.chart.yaml", FRONT)
    write_pattern(tmp_path / "book", f"pieces:\n  front: {{chart: {said}}}\n", front=FRONT)
    os.chdir("book")
    (result,) = (r for r in check_paths(["cushion.pattern.yaml"]).results if r.rule == "pattern/missing-chart")
    guess = f"; did you mean {meant!r}?" if meant else ""
    assert result.message == f"front: there is no chart {said!r}{guess}"


@pytest.mark.parametrize("said", ["/etc/passwd", "~root/a", "a\\b", "C:a", "../../a", "b/../../a"])
def test_no_such_path(tmp_path: Path, said: str) -> None:
    with pytest.raises(Outside):
        chart_path(str(tmp_path / "x.pattern.yaml"), said, str(tmp_path))


def test_accepted_results_can_be_narrowed_to_a_piece_and_a_size(tmp_path: Path) -> None:
    text = """\
sizes: [small, large]
pieces:
  front: {chart: front.chart.yaml, measures: {width: {small: 9 cm, large: 8 cm}}}
suppress:
  - {rule: size/measurement, piece: front, size: small, justification: stretched}
  - {rule: size/measurement, piece: front, justification: SECOND}
"""
    file = write_pattern(tmp_path, text, front=FRONT)
    results = check_paths([file.name]).results
    assert [(r.suppressed, r.justification) for r in results] == [(True, "stretched"), (True, "SECOND")]
    file.write_text(text.replace("  - {rule: size/measurement, piece: front, justification: SECOND}\n", ""), "utf-8")
    file = write_pattern(tmp_path, text.rsplit("  - ", 1)[0])
    results = check_paths([file.name]).results
    assert [(r.rule, r.suppressed) for r in results] == [("size/measurement", True), ("size/measurement", False)]


def test_what_accepts_nothing_is_told(tmp_path: Path) -> None:
    text = """\
pieces:
  front: {chart: front.chart.yaml}
suppress:
  - {rule: size/measurement, piece: front, justification: once wrong}
  - {rule: size/mesurement, justification: slip of the pen}
  - {rule: file/schema, justification: never}
"""
    write_pattern(tmp_path, text, front=FRONT)
    assert [(r.rule, r.key, r.message) for r in check_paths(["."]).results] == [
        ("suppress/unmatched", "unmatched", "this suppression of size/measurement in front matches no result"),
        (
            "suppress/unknown-rule",
            "unknown-rule",
            "there is no rule 'size/mesurement' to suppress; did you mean 'size/measurement'?",
        ),
        ("suppress/unmatched", "not-suppressible", "file/schema cannot be suppressed; mend the file instead"),
    ]


def test_levels_and_options_of_the_settings_hold_for_patterns(tmp_path: Path) -> None:
    write_pattern(tmp_path, WIDE, front=FRONT)
    settings = tmp_path / "lintarsia.yaml"
    settings.write_text("rules: {size/measurement: warning}\n", "utf-8")
    assert [r.level for r in check_paths(["."]).results] == [Level.WARNING]
    settings.write_text("rules: {size/measurement: {options: {tolerance: 4 cm}}}\n", "utf-8")
    assert check_paths(["."]).results == ()
    settings.write_text("overrides: [{paths: ['*.pattern.yaml'], rules: {size/measurement: off}}]\n", "utf-8")
    assert check_paths(["."]).results == ()
    settings.write_text("exclude: [cushion.pattern.yaml]\n", "utf-8")
    assert check_paths(["."]).others == {}


def test_a_chart_that_cannot_be_read_is_told_once_of_each(tmp_path: Path) -> None:
    write_pattern(tmp_path, "pieces:\n  front: {chart: front.chart.yaml}\n", front="lintarsia: [")
    assert found(".") == [
        ("cushion.pattern.yaml", "pattern/missing-chart", "unreadable"),
        ("front.chart.yaml", "file/unreadable", "yaml"),
    ]


def test_a_chart_without_a_gauge_is_not_measured(tmp_path: Path) -> None:
    bare = FRONT.replace("gauge: {stitches: 20, rows: 30, over: 10 cm}\n", "")
    write_pattern(tmp_path, WIDE, front=bare)
    assert {rule for _, rule, _ in found(".")} == {"file/schema"}


def test_a_pattern_from_standard_input_uses_the_charts_beside_its_name(tmp_path: Path) -> None:
    write_pattern(tmp_path, "pieces: {}\n", front=FRONT)
    text = f"lintarsia-pattern: 1\ntitle: Cushion\n{WIDE}".encode()
    checked = check_chart("cushion.pattern.yaml", text, Settings(root=str(tmp_path)))
    assert [result.key for result in checked.results] == ["width"]


def test_many_sizes_over_two_processes_are_the_same(tmp_path: Path) -> None:
    write_pattern(tmp_path, WIDE, front=FRONT)
    for number in range(4):
        write_pattern(tmp_path / str(number), WIDE, front=FRONT)
    assert check_paths(["."], jobs=2) == check_paths(["."], jobs=1)


def test_the_command_counts_patterns(tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    write_pattern(tmp_path, WIDE.replace("9 cm", "5 cm"), front=FRONT)
    assert main(["check"]) == 0
    assert capfd.readouterr().out == "1 chart and 1 pattern: nothing to mend\n"
    assert main(["check", "cushion.pattern.yaml", "--format", "json"]) == 0
    assert json.loads(capfd.readouterr().out)["summary"]["charts"] == 0
