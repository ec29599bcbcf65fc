"""Very many results put aside in a file: the same ones, in the same order, counted the same."""

import gc
import random
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.engine import check_paths, running
from lintarsia.ground.trouble import Trouble
from lintarsia.reporting import REPORTERS, load_pieces, load_reporter
from lintarsia.reporting.json import pieces
from lintarsia.reporting.screen import PLAIN
from lintarsia.result import Level, Region, Report, Result
from lintarsia.result.packing import packed, unpacked
from lintarsia.result.spool import Spool


def results(file: str, number: int, chance: random.Random) -> list[Result]:
    return [
        Result(
            "area/single-stitch", "alone", chance.choice(list(Level)[:3]), f"“{at}”\n", file,
            Region(chance.randint(1, 9), 3, 9, 4), row=at, stitches=(2, 5), suppressed=chance.random() < 0.2,
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
    for file, own in made.items():
        held.add(file, own)
        aside.add(file, own)
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
    assert load_reporter(format)(aside, PLAIN) == load_reporter(format)(held, PLAIN)
    assert "".join(load_pieces(format)(aside, PLAIN)) == load_reporter(format)(held, PLAIN)


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
