"""Very many results put aside in a file: the same ones, in the same order, counted the same."""

import gc
import json
import random
import tempfile
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from lintarsia.engine import check_paths, running
from lintarsia.engine.accepting import hold_against
from lintarsia.ground.packing import packed, unpacked
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting import REPORTERS, sarif
from lintarsia.reporting.json import pieces
from lintarsia.reporting.rooted import FROM_THE_TOP, rooted
from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Level, Region, Report, Result, baseline
from lintarsia.result.baseline import write_out
from lintarsia.result.spool import Spool
from lintarsia.rules.area import single_stitch
from rendering import rendered


def results(file: str, number: int, chance: random.Random) -> list[Result]:
    return [
        Result(
            "area/single-stitch", "alone", chance.choice(list(Level)[:3]), f"“{at}”\n", file,
            Region(chance.randint(1, 9), 3, 9, 4), row=at, stitches=(2, 5), fingerprint=f"{at}",
            suppressed=chance.random() < 0.2,
        )
        for at in range(number)
    ]  # fmt: skip


def both(chance: random.Random) -> tuple[Report, Report]:
    """The same results held, and put aside once there are twelve."""
    made = {
        f"{name}.chart.yaml": results(f"{name}.chart.yaml", number, chance)
        for name, number in zip("cbad", (7, 0, 9, 3), strict=True)
    }
    held, aside = Spool(), Spool(held=12)
    for own in made.values():
        held.add(own)
        aside.add(own)
    return Report(4, held.results(), version="1"), Report(4, aside.results(), version="1")


def test_results_put_aside_are_the_same_in_the_same_order() -> None:
    held, aside = both(random.Random(8))
    assert isinstance(held.results, tuple)
    assert not isinstance(aside.results, tuple)
    assert tuple(aside.results) == held.results == tuple(sorted(held.results, key=lambda result: result.order))
    assert tuple(aside.results) == held.results  # again: reading them uses nothing up
    assert len(aside.results) == 19
    assert [aside.results[at] for at in (0, 8, 9, 18, -1)] == [held.results[at] for at in (0, 8, 9, 18, -1)]
    assert aside.results[4:11] == held.results[4:11]
    with pytest.raises(IndexError):
        aside.results[19]


def test_they_are_counted_the_same_without_being_read() -> None:
    held, aside = both(random.Random(9))
    for level in Level:
        assert (
            aside.count(level) == held.count(level) == sum(r.level is level and not r.suppressed for r in held.results)
        )
    assert (aside.suppressed, aside.blocked) == (held.suppressed, held.blocked)
    assert held.suppressed == sum(r.suppressed for r in held.results) > 0
    assert held.blocked is any(held.blocks(result) for result in held.results)


@pytest.mark.parametrize("format", sorted(REPORTERS))
def test_every_format_says_the_same_of_them(format: str) -> None:
    held, aside = both(random.Random(10))
    assert rendered(aside, PLAIN, format) == rendered(held, PLAIN, format)


def test_a_whole_run_is_the_same_over_the_cores_and_put_aside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, write_chart: Callable[..., Path]
) -> None:
    monkeypatch.chdir(tmp_path)
    chance = random.Random(11)
    for name in "cabde":
        write_chart(f"{name}.chart.yaml", "".join("".join(chance.choices("BW", k=20)) + "\n" for _ in range(20)))
    usual = check_paths(["."], jobs=1)
    monkeypatch.setattr(running, "Spool", lambda: Spool(held=30))
    aside = check_paths(["."], jobs=2)
    assert not isinstance(aside.results, tuple)
    assert "".join(pieces(aside, PLAIN)) == "".join(pieces(usual, PLAIN))
    assert aside.rules == usual.rules


def test_a_report_in_pieces_leaves_no_circles_for_the_garbage_collection() -> None:
    """A short command collects none; of a million results they would be gigabytes."""
    _, aside = both(random.Random(12))
    "".join(pieces(aside, PLAIN))
    gc.collect()
    gc.disable()
    try:
        for _ in range(50):
            "".join(pieces(aside, PLAIN))
        assert gc.collect() < 50
    finally:
        gc.enable()


def test_a_disk_that_is_full_is_told_as_such(monkeypatch: pytest.MonkeyPatch) -> None:
    class Full:
        def seek(self, *_: int) -> int:
            return 0

        def close(self) -> None:
            pass

        def write(self, _: bytes) -> int:
            raise OSError(28, "No space left on device")

    monkeypatch.setattr(tempfile, "TemporaryFile", lambda **_: Full())
    monkeypatch.setattr(tempfile, "gettempdir", lambda: "/scratch")
    with pytest.raises(Trouble, match=r"the results cannot be put aside in /scratch \(No space left on device\)"):
        both(random.Random(13))


@pytest.mark.parametrize(
    "what", [(), "short", ["long"] * 90_000, results("a", 900, random.Random(3))], ids=lambda w: f"{len(w)}"
)
def test_what_is_packed_comes_out_the_same(what: Any) -> None:
    assert unpacked(packed(what)) == what
    assert len(packed(what)) < 2**16


def test_results_that_a_pattern_tells_in_its_charts_stand_with_theirs(tmp_path: Path) -> None:
    """However they came, all of a file are told together: formats that gather them look no further."""
    chance = random.Random(14)
    own, told = results("a.chart.yaml", 5, chance), results("a.chart.yaml", 4, chance)
    pattern = results("b.pattern.yaml", 3, chance)
    wanted = tuple(sorted([*own, *told, *pattern], key=lambda result: result.order))
    for held in (0, 6, 40):
        spool = Spool(held)
        for some in (own, [*pattern, *told], []):
            spool.add(some)
        assert tuple(spool.results()) == wanted


@pytest.mark.parametrize("format", sorted(FROM_THE_TOP))
def test_files_are_named_from_the_top_however_many_results_there_are(format: str, tmp_path: Path) -> None:
    (tmp_path / ".git").mkdir()
    told = [rooted(report, str(tmp_path / "below"), {}) for report in both(random.Random(15))]
    held, aside = (rendered(report, PLAIN, format) for report in told)
    assert held == aside
    assert "below/c.chart.yaml" in held
    assert (told[0].blocked, told[0].suppressed) == (told[1].blocked, told[1].suppressed)
    assert [result.file for result in told[1].results] == [result.file for result in told[0].results]


def test_a_baseline_holds_very_many_results_the_same(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    held, aside = (
        replace(report, rules={"area/single-stitch": single_stitch.INFO}, files=tuple("bcad"))
        for report in both(random.Random(16))
    )
    accepted = replace(held, results=held.results[::3])
    Path("accepted.json").write_text(write_out(accepted, "accepted.json"))
    files = frozenset(result.file for result in held.results)
    plain = hold_against(held, "accepted.json", files)
    monkeypatch.setattr(baseline, "Spool", lambda: Spool(held=12))
    many = hold_against(aside, "accepted.json", files)
    assert not isinstance(many.results, tuple)
    assert tuple(many.results) == plain.results
    assert {result.baseline for result in plain.results} == {"new", "unchanged"}


def test_only_the_gravest_go_into_sarif_the_first_of_equals(monkeypatch: pytest.MonkeyPatch) -> None:
    """3 suppressed errors, 4 notes, 5 warnings, 2 errors in one file; room for six: errors, then the first warnings."""
    kinds = [(Level.ERROR, True)] * 3 + [(Level.NOTE, False)] * 4 + [(Level.WARNING, False)] * 5
    kinds += [(Level.ERROR, False)] * 2
    own = [
        Result("area/single-stitch", "alone", level, "m", "a", Region(at, 1, at, 2), suppressed=suppressed)
        for at, (level, suppressed) in enumerate(kinds, 1)
    ]
    monkeypatch.setattr(sarif, "MOST_RESULTS", 6)
    (run,) = json.loads(rendered(Report(1, tuple(own), version="1"), PLAIN, "sarif"))["runs"]
    lines = [told["locations"][0]["physicalLocation"]["region"]["startLine"] for told in run["results"]]
    assert lines == [8, 9, 10, 11, 13, 14]
    (said,) = run["invocations"][0]["toolExecutionNotifications"]
    assert said["message"]["text"] == "8 more results were left out; the report in JSON has them all"
