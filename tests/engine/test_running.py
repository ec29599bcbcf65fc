"""Whole runs: the same report from any number of processes, and what blocks."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.engine import check_paths
from lintarsia.engine.running import Stream
from lintarsia.engine.targets import Target
from lintarsia.engine.workers import PAYS_FROM_BYTES, workers_for
from lintarsia.ground.trouble import Trouble
from lintarsia.result import Level
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings

Write = Callable[..., Path]


@pytest.fixture
def settings(tmp_path: Path, toy_book: Rulebook, monkeypatch: pytest.MonkeyPatch) -> Settings:
    monkeypatch.chdir(tmp_path)
    return Settings(root=str(tmp_path), rulebook=toy_book)


def test_the_report_is_the_same_for_any_number_of_processes(write_chart: Write, settings: Settings) -> None:
    for i in range(23):
        write_chart(f"{i % 3}/c{i}.chart.yaml", grid="BBBB\n" * (i % 5) + "WBBW\nBBBB\n" if i % 2 else "BB\n")
    (Path("0") / "bad.chart.yaml").write_bytes(b"\xff\xfe\0")
    one, two, many = (check_paths(["."], settings=settings, jobs=jobs) for jobs in (1, 2, 5))
    assert one == two == many
    assert one.charts == 24
    assert len({result.file for result in one.results}) > 3
    assert list(one.results) == sorted(one.results, key=lambda result: result.order)


def test_progress_counts_every_chart(write_chart: Write, settings: Settings) -> None:
    for i in range(7):
        write_chart(f"c{i}.chart.yaml")
    for jobs in (1, 2):
        seen: list[tuple[int, int]] = []

        def note(done: int, of: int, seen: list[tuple[int, int]] = seen) -> None:
            seen.append((done, of))

        check_paths(["."], settings=settings, jobs=jobs, progress=note)
        assert seen[-1] == (7, 7)


@pytest.mark.parametrize(
    ("own", "asked", "blocked"),
    [
        (Level.ERROR, None, False),
        (Level.WARNING, None, True),
        (Level.NOTE, None, True),
        (Level.OFF, None, False),
        (Level.ERROR, Level.WARNING, True),
        (Level.WARNING, Level.ERROR, False),
        (Level.WARNING, Level.OFF, False),
    ],
)
def test_what_blocks(
    write_chart: Write, tmp_path: Path, toy_book: Rulebook, own: Level, asked: Level | None, blocked: bool
) -> None:
    file = write_chart(grid="BW\n")
    settings = Settings(root=str(tmp_path), rulebook=toy_book, block=own)
    report = check_paths([str(file)], settings=settings, block=asked)
    assert [str(result.level) for result in report.results] == ["warning"]
    assert report.blocked is blocked


def test_each_chart_is_blocked_by_its_own_settings(
    write_chart: Write, tmp_path: Path, toy_book: Rulebook, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("lintarsia.settings.reader.house_rulebook", lambda: toy_book)
    for folder, level in (("strict", "warning"), ("mild", "error")):
        write_chart(f"{folder}/a.chart.yaml", grid="BW\n")
        (tmp_path / folder / "lintarsia.yaml").write_text(f"block: {level}\n")
    assert check_paths([str(tmp_path / "strict")]).blocked
    assert not check_paths([str(tmp_path / "mild")]).blocked
    report = check_paths([str(tmp_path / "mild"), str(tmp_path / "strict")])
    assert [report.blocks(result) for result in report.results] == [False, True]


def test_a_suppressed_result_blocks_nothing(write_chart: Write, settings: Settings) -> None:
    write_chart(grid="BW\n", extra="suppress: [{rule: toy/letters, justification: wanted}]\n")
    report = check_paths(["."], settings=settings, block=Level.NOTE)
    assert (report.suppressed, report.count(Level.WARNING), report.blocked) == (1, 0, False)


def test_a_chart_from_standard_input_goes_by_its_name(write_chart: Write, settings: Settings) -> None:
    data = write_chart(grid="BW\n").read_bytes()
    report = check_paths([], settings=settings, stream=Stream("sketches/new.chart.yaml", data))
    assert (report.charts, [r.file for r in report.results]) == (1, ["sketches/new.chart.yaml"])


def test_a_path_that_is_not_there_stops_the_run(settings: Settings) -> None:
    with pytest.raises(Trouble):
        check_paths(["nowhere"], settings=settings)


def test_processes_are_started_where_they_pay(settings: Settings) -> None:
    few = [Target("a", settings, 1000)] * 10
    many = [Target("a", settings, PAYS_FROM_BYTES)] * 3
    assert workers_for(few, None) == 1
    assert workers_for([], 4) == 1
    assert workers_for(many, 2) == 2
    assert workers_for(many, 8) == 3  # never more than charts
