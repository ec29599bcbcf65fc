"""What makes a file better, asked of results that are given; halves that are tried by themselves; names of one file."""

import os
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from lintarsia.engine import check_paths
from lintarsia.engine.checking import Checked
from lintarsia.engine.running import Stream
from lintarsia.ground.trouble import Trouble
from lintarsia.knits.calibrate import NewLoop
from lintarsia.mending.files import MendedFile, changes, stream_change, write
from lintarsia.mending.loops import state_loops
from lintarsia.mending.mend import Mended, _Mending, _State
from lintarsia.mending.picking import Choice, _Taken, choose
from lintarsia.reading.applying import Splice
from lintarsia.result import Edit, Fix, Fixed, Level, Region, Result
from lintarsia.settings import Settings

ODD = Result("area/odd", "odd", Level.WARNING, "m", "a.chart.yaml", Region(1, 1, 1, 2))


def found(*levels: Level, rule: str = "area/odd", suppressed: bool = False) -> tuple[Result, ...]:
    return tuple(replace(ODD, level=level, rule=rule, suppressed=suppressed) for level in levels)


def choice(start: int, end: int, new: str, level: Level = Level.WARNING) -> Choice:
    fix = Fix("mend", (Edit(Region(1, start + 1, 1, end + 1), new),))
    return Choice(replace(ODD, level=level, fixes=(fix,)), fix, (Splice(start, end, new),))


def mending(monkeypatch: pytest.MonkeyPatch, block: Level = Level.ERROR, blinds: Sequence[str] = ()) -> _Mending:
    work = _Mending("a.chart.yaml", Settings(root="/"), block, frozenset())
    monkeypatch.setattr(work, "_blinds", lambda rule: rule in blinds)
    return work


E, W, N = Level.ERROR, Level.WARNING, Level.NOTE


@pytest.mark.parametrize(
    ("before", "after", "better"),
    [
        ((W, W), (W,), True),
        ((W,), (W,), False),  # as long as it was
        ((W,), (N,), True),  # no graver than what was mended
        ((W,), (W, N), False),
        ((N, N), (W,), False),
        ((E,), (W, W, W), True),  # of errors there are fewer, and no warning is graver than what is mended
        ((), (), False),
    ],
)
def test_fewer_and_no_graver_results_are_better(
    before: tuple[Level, ...], after: tuple[Level, ...], better: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = mending(monkeypatch)
    old, new = _State("text", found(*before)), _State("text", found(*after))
    assert work._better(old, new, [choice(0, 1, "x", level=N), choice(2, 3, "y", level=W)]) is better


def test_what_is_graver_than_all_that_is_mended_is_no_price_for_it(monkeypatch: pytest.MonkeyPatch) -> None:
    old, new = _State("t", found(E, N)), _State("t", (*found(N), *found(W, rule="colour/new")))
    assert not mending(monkeypatch)._better(old, new, [choice(0, 1, "x", level=N)])
    assert mending(monkeypatch)._better(old, new, [choice(0, 1, "x", level=N), choice(2, 3, "x", level=W)])


def test_a_shorter_text_is_better_and_what_is_accepted_does_not_count(monkeypatch: pytest.MonkeyPatch) -> None:
    work, group = mending(monkeypatch), [choice(0, 1, "")]
    results = found(W, N)
    assert work._better(_State("text", results), _State("tex", results), group)
    assert not work._better(_State("text", results), _State("texts", results), group)
    assert not work._better(_State("text", results), _State("text", results), group)
    accepted = found(W, suppressed=True)
    assert work._better(_State("text", results + accepted), _State("tex", results + accepted * 2), group)
    assert _State("text", results + accepted).weight == (0, 1, 1, 4)


def test_nothing_that_blocks_or_blinds_may_come_for_it(monkeypatch: pytest.MonkeyPatch) -> None:
    group = [choice(0, 1, "x", level=E)]
    old, new = _State("t", found(E, W)), _State("t", (*found(W), *found(W, rule="colour/new")))
    assert mending(monkeypatch)._better(old, new, group)
    assert not mending(monkeypatch, block=W)._better(old, new, group)
    assert mending(monkeypatch, block=Level.OFF)._better(old, new, group)
    assert not mending(monkeypatch, blinds=("colour/new",))._better(old, new, group)
    assert mending(monkeypatch, blinds=("area/odd",))._better(old, new, group)


def test_what_cannot_be_read_or_judged_blinds_the_rules() -> None:
    work = _Mending("a.chart.yaml", Settings(root="/"), Level.ERROR, frozenset())
    rules = ("file/unreadable", "engine/rule-failed", "engine/out-of-time", "colour/unused")
    assert [work._blinds(rule) for rule in rules] == [True, True, True, False]
    assert [work._blocks(level) for level in (E, W, N)] == [True, False, False]


def test_where_all_at_once_is_not_better_each_half_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    """Every `x` is a fault, and so is a `!`: of five fixes the third makes things worse."""
    tried: list[str] = []

    def check(data: bytes) -> Checked:
        tried.append(data.decode())
        return Checked(found(*[W] * (data.count(b"x") + 9 * data.count(b"!"))), None)

    work = mending(monkeypatch)
    monkeypatch.setattr(work, "check", check)
    text = "x-x-x-x-x"
    chosen = [choice(at, at + 1, "!" if at == 4 else ".") for at in (0, 2, 4, 6, 8)]
    state, taken = work.round(_State(text, found(*[W] * 5)), chosen)
    assert state.text == ".-.-x-.-."
    assert sorted(one.pieces[0].start for one in taken) == [0, 2, 6, 8]
    assert tried == [".-.-!-.-.", ".-.-x-x-x", ".-.-!-.-.", ".-.-!-x-x", ".-.-x-.-."]
    assert work.round(state, []) == (state, [])


def test_pieces_that_touch_are_known_across_the_hundreds_they_are_kept_by() -> None:
    assert [list(_Taken()._steps(Splice(*ends, ""))) for ends in ((0, 99), (99, 100), (250, 250), (100, 399))] == [
        [0], [0, 1], [2], [1, 2, 3],
    ]  # fmt: skip
    fix = Fix("mend", (Edit(Region(1, 3, 1, 6), "y"),))
    results = [replace(ODD, fixes=(fix,), region=Region(1, n, 1, n + 1)) for n in (1, 2)]
    assert len(choose(results, "x" * 20, risky=False)) == 1


def changed(file: Path, new: bytes, *fixed: str) -> MendedFile:
    told = tuple(Fixed(str(file), "a/b", "k", what, 1, None, True, False) for what in fixed)
    return MendedFile(str(file), file.read_bytes(), Mended(new, told, ()))


def test_two_names_of_one_file_are_written_once_and_what_stood_in_the_way_is_told(tmp_path: Path) -> None:
    one, other, gone = (tmp_path / name for name in ("one.yaml", "other.yaml", "gone.yaml"))
    for file in (one, gone):
        file.write_bytes(b"old")
    other.symlink_to(one)
    changes = [changed(other, b"new", "through the link"), changed(one, b"newer", "by its name"),
               changed(gone, b"new", "gone")]  # fmt: skip
    gone.write_bytes(b"changed meanwhile")
    fixed, troubles = write(changes)
    assert [done.description for done in fixed] == ["through the link"]
    assert (one.read_bytes(), gone.read_bytes()) == (b"new", b"changed meanwhile")
    assert len(troubles) == 1
    assert "gone.yaml" in troubles[0]
    assert other.is_symlink()


WHOLE = """\
lintarsia: 1
title: Field
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
  BBBB
  BBB
"""
GAP = WHOLE.replace("BBBB\n", "BBBB \n")


def test_with_a_time_each_file_is_mended_by_itself_and_late_ones_are_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("one", "two", "whole"):
        (tmp_path / f"{name}.chart.yaml").write_text(WHOLE if name == "whole" else GAP)
    results = check_paths([str(tmp_path)]).results
    asked: list[float] = []

    def within(seconds: float, work: Any, late: Any, jobs: Sequence[Any]) -> Iterator[Any]:
        asked.append(seconds)
        for job in jobs:
            yield late(job) if job.target.path.endswith("two.chart.yaml") else work(job)

    monkeypatch.setattr("lintarsia.ground.deadlines.within", within)
    named: list[str] = []
    found = changes([str(tmp_path)], results, most_seconds=2.5, late=named.append)
    assert [os.path.basename(change.file) for change in found] == ["one.chart.yaml"]
    assert found[0].mended.data == WHOLE.encode()
    assert ([os.path.basename(name) for name in named], asked) == (["two.chart.yaml"], [2.5])
    assert len(changes([str(tmp_path)], results, most_seconds=2.5)) == 1
    assert len(changes([str(tmp_path)], results)) == 2
    assert changes([str(tmp_path)], ()) == []


def test_a_chart_that_is_no_file_is_mended_unless_the_settings_leave_its_name_out(tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text("exclude: [left-*]\n")
    for name, mended in (("own", [WHOLE.encode()]), ("left-out", [])):
        stream = Stream(str(tmp_path / f"{name}.chart.yaml"), GAP.encode())
        assert [change.mended.data for change in stream_change(stream)] == mended
    assert stream_change(Stream(str(tmp_path / "own.chart.yaml"), WHOLE.encode())) == []


CHART = """\
lintarsia: 1
title: Loop
gauge: {stitches: 22, rows: 30, over: 10 cm%s}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
chart: |
  BBB
"""


def loop(file: Path, mm: float) -> NewLoop:
    made: Any = SimpleNamespace(chart=str(file), mm=mm)
    return made


def test_a_loop_is_stated_replaced_or_left(tmp_path: Path) -> None:
    files = [tmp_path / f"{name}.chart.yaml" for name in ("none", "other", "same")]
    for file, stated in zip(files, ("", ", loop: 19 mm", ", loop: 18.6 mm"), strict=True):
        file.write_text(CHART % stated)
    before = os.stat(files[2]).st_mtime_ns
    told = state_loops([loop(file, 18.6249) for file in files], Settings(root=str(tmp_path)))
    assert [(os.path.basename(one.chart), one.loop) for one in told] == [
        ("none.chart.yaml", "18.6 mm"), ("other.chart.yaml", "18.6 mm"),
    ]  # fmt: skip
    assert {file.read_text() for file in files} == {CHART % ", loop: 18.6 mm"}
    assert os.stat(files[2]).st_mtime_ns == before


def test_a_loop_that_cannot_be_stated_is_told_and_no_file_is_written(tmp_path: Path) -> None:
    good, torn, shared = (tmp_path / f"{name}.chart.yaml" for name in ("good", "torn", "shared"))
    good.write_text(CHART % "")
    torn.write_text("lintarsia: [")
    shared.write_text(CHART.replace("gauge: {", "limits: &g {").replace("colours:", "gauge: *g\ncolours:") % "")
    settings = Settings(root=str(tmp_path))
    with pytest.raises(Trouble) as caught:
        state_loops([loop(good, 18), loop(torn, 18)], settings)
    assert str(caught.value) == f"{torn}: the chart cannot be read, so its loop is not stated"
    with pytest.raises(Trouble) as caught:
        state_loops([loop(good, 18), loop(shared, 18)], settings)
    assert str(caught.value) == (
        f"{shared}: write `loop: 18 mm` into its gauge by hand; its layout leaves a doubt where"
    )
    with pytest.raises(Trouble) as caught:
        state_loops([loop(good, 18), loop(good, 19)], settings)
    assert str(caught.value) == f"{good}: two patterns give it different loops; name one pattern at a time"
    assert good.read_text() == CHART % ""
