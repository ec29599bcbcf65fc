"""A log's own words and figures, as they are read, and the small sums that are done with them."""

from pathlib import Path

import pytest
from knit_logs import PATTERN, chart

from lintarsia.chart.measure import Length, Mass
from lintarsia.engine.knitted import knit_work
from lintarsia.ground.kinds import Kind
from lintarsia.knits.model import KnitLog, MeasuredGauge, Remark, RemarkKind, Used
from lintarsia.knits.plannedyarn import Ball, MetreTerms, balls_of
from lintarsia.knits.reading import read_knit
from lintarsia.knits.work import KnitWork
from lintarsia.settings import Settings

LOG = """\
lintarsia-knit: 1
pattern: fox.pattern.yaml
size: large
fingerprint: "0123456789abcdef"
knitter: "Wren\\tof the\\nhill"
gauge: {stitches: 21, rows: 29.5, over: 4 in, needle: 4.5 mm}
used: {oat: {before: 100 g, after: 34.5 g}, rust: 2 oz, moss: 3 yd, kelp: {before: 30 m, after: 12 m}}
hours: 12.5
finished: 2026-11-05
rows:
  - {row: 5, kind: praise, said: "a  lovely\\u0007 edge"}
  - {piece: 7, row: 14, side: WS, stitches: [9, 7], kind: trouble, said: too short, answered: "  cut two  "}
remarks: knitted with pleasure
site: false
suppress:
  - {rule: knit/far-gauge, justification: " washed since "}
  - {rule: knit/open-remark, justification: told}
"""  # fmt: skip


def read(text: str, path: str = "knits/wren.of.hill.knit.yaml") -> KnitLog:
    log = read_knit(path, text.encode()).log
    assert log is not None
    return log


def test_all_that_a_log_can_say() -> None:
    reading = read_knit("wren.knit.yaml", LOG.encode())
    assert reading.problems == ()
    log = read(LOG)
    assert (log.names, log.of, log.size, log.fingerprint) == (
        "fox.pattern.yaml", Kind.PATTERN, "large", "0123456789abcdef",
    )  # fmt: skip
    assert (log.knitter, log.hours, log.finished, log.site) == ("Wren of the hill", 12.5, "2026-11-05", False)
    assert log.gauge == MeasuredGauge(21.0, 29.5, Length(4, "in"), Length(4.5, "mm"))
    assert dict(log.used) == {
        "oat": Used(before=Mass(100, "g"), after=Mass(34.5, "g")),
        "rust": Used(Mass(2, "oz")),
        "moss": Used(Length(3, "yd")),
        "kelp": Used(before=Length(30, "m"), after=Length(12, "m")),
    }
    assert log.remarks == "knitted with pleasure"
    first, second = log.rows
    assert (first.row, first.kind, first.said, first.index) == (5, RemarkKind.PRAISE, "a lovely edge", 0)
    assert (first.piece, first.side, first.stitches, first.answered) == (None, None, None, "")
    assert (second.row, second.kind, second.said, second.index) == (14, RemarkKind.TROUBLE, "too short", 1)
    assert (second.piece, second.side, second.stitches, second.answered) == ("7", "WS", (7, 9), "cut two")
    assert [remark.region.line for remark in log.rows] == [11, 12]
    assert [(one.rule, one.justification, one.index) for one in log.suppressions] == [
        ("knit/far-gauge", "washed since", 0),
        ("knit/open-remark", "told", 1),
    ]


def test_a_log_that_says_least() -> None:
    """Who gives no handle goes by the file's name, which may have points in it."""
    log = read("lintarsia-knit: 1\nchart: a.chart.yaml\n")
    assert (log.names, log.of, log.knitter) == ("a.chart.yaml", Kind.CHART, "wren.of.hill")
    assert (log.size, log.fingerprint, log.gauge, log.hours, log.finished) == (None, "", None, None, "")
    assert (dict(log.used), log.rows, log.remarks, log.suppressions, log.site) == ({}, (), "", (), True)


@pytest.mark.parametrize("gauge", ["{stitches: 21, rows: 29}", "{rows: 29, over: 4 in}", "{stitches: 21, over: 4 in}"])
def test_half_a_gauge_is_none(gauge: str) -> None:
    assert read(f"lintarsia-knit: 1\nchart: a.chart.yaml\ngauge: {gauge}\n").gauge is None


def test_a_size_that_is_a_number_is_a_name() -> None:
    assert read("lintarsia-knit: 1\npattern: a.pattern.yaml\nsize: 38\n").size == "38"


@pytest.mark.parametrize(
    ("more", "message", "line"),
    [
        ("", "the log says of nothing that it was knitted; expected `pattern` or `chart`", 1),
        ("pattern: a.pattern.yaml\nchart: a.chart.yaml\n",
         "the log names a pattern and a chart; expected one of them", 3),
        ("chart: a.chart.yaml\nfinished: 2026-02-30\n", "2026-02-30 is no day of the calendar", 3),
        ("chart: a.chart.yaml\nused:\n  oat: 3 g\n  fern: {before: 20 m, after: 5 g}\n",
         "fern was weighed before (20 m) and measured after (5 g), or the other way", 5),
    ],
)  # fmt: skip
def test_what_no_schema_sees(more: str, message: str, line: int) -> None:
    ((rule, finding),) = read_knit("x.knit.yaml", f"lintarsia-knit: 1\n{more}".encode()).problems
    assert (finding.message, finding.region.line) == (message, line)
    assert rule == "file/schema"


def test_of_a_pattern_and_a_chart_the_pattern_is_meant() -> None:
    log = read("lintarsia-knit: 1\nchart: a.chart.yaml\npattern: a.pattern.yaml\n")
    assert (log.names, log.of) == ("a.pattern.yaml", Kind.PATTERN)


@pytest.mark.parametrize(
    ("used", "spent"),
    [
        (Used(Mass(2, "oz")), "2 oz"),
        (Used(before=Mass(2, "oz"), after=Mass(20, "g")), "36.69904625 g"),
        (Used(before=Length(10, "yd"), after=Length(3, "m")), "6.144 m"),
        (Used(before=Mass(50, "g"), after=Length(3, "m")), "None"),
        (Used(before=Length(50, "m"), after=Mass(3, "g")), "None"),
        (Used(before=Mass(50, "g")), "None"),
        (Used(after=Mass(50, "g")), "None"),
    ],
)
def test_what_was_used_is_before_less_after(used: Used, spent: str) -> None:
    """An ounce is 28.349523125 g and a yard 0.9144 m (international yard and pound agreement, 1959)."""
    assert str(used.spent) == spent


def test_a_measured_stitch() -> None:
    gauge = MeasuredGauge(20, 32, Length(4, "in"))
    assert (gauge.stitch_mm, gauge.row_mm) == pytest.approx((5.08, 3.175))
    assert str(gauge) == "20 stitches and 32 rows to 4 in"


@pytest.mark.parametrize(
    ("kind", "answered", "open"),
    [("trouble", "", True), ("question", "", True), ("praise", "", False), ("trouble", "done", False)],
)
def test_what_waits_for_an_answer(kind: str, answered: str, open: bool) -> None:
    assert Remark(3, RemarkKind(kind), "so", 0, answered=answered).open is open


@pytest.mark.parametrize(
    ("length", "mass", "amount", "metres"),
    [
        (Length(120, "m"), Mass(50, "g"), Mass(20, "g"), 48.0),
        (Length(100, "yd"), Mass(2, "oz"), Mass(1, "oz"), 45.72),
        (None, None, Length(10, "yd"), 9.144),
        (Length(120, "m"), None, Mass(20, "g"), None),
        (None, Mass(50, "g"), Mass(20, "g"), None),
        (Length(120, "m"), Mass(0, "g"), Mass(20, "g"), None),
        (Length(120, "m"), Mass(50, "g"), None, None),
    ],
)
def test_grams_in_metres(length: Length | None, mass: Mass | None, amount: Mass | Length, metres: float | None) -> None:
    assert Ball("Oat", length, mass).metres(amount) == (None if metres is None else pytest.approx(metres))


def test_yarn_by_a_constant() -> None:
    assert MetreTerms(3.0, 40.0).at(4.1) == pytest.approx(167.0)


YARNS = "yarns:\n  oat: {name: Fjord, mass: 40 g}\n  moss: {length: 90 m}\n"


def knitted(folder: Path, log: KnitLog, pattern: str = PATTERN) -> KnitWork:
    (folder / "fox.chart.yaml").write_text(chart(), encoding="utf-8")
    (folder / "fox.pattern.yaml").write_text(pattern, encoding="utf-8")
    return knit_work(log, Settings(root=str(folder)))


def log_of(folder: Path, text: str) -> KnitLog:
    return read(text, str(folder / "wren.knit.yaml"))


def test_a_yarn_is_as_the_pattern_says_and_where_it_is_silent_as_the_chart_does(tmp_path: Path) -> None:
    work = knitted(tmp_path, log_of(tmp_path, LOG), PATTERN + YARNS)
    assert work.knitted is not None
    assert balls_of(work.knitted) == {
        "oat": Ball("Fjord", Length(120, "m"), Mass(40, "g")),
        "moss": Ball("moss", Length(90, "m"), None),
        "rust": Ball("Rust", Length(150, "m"), Mass(50, "g")),
    }


def remark(piece: str | None) -> Remark:
    return Remark(3, RemarkKind.PRAISE, "so", 0, piece)


def test_which_piece_a_remark_is_about(tmp_path: Path) -> None:
    work = knitted(tmp_path, log_of(tmp_path, LOG))
    back = work.piece_of(remark("back"))
    assert back is not None
    assert back.name == "back"
    assert work.piece_of(remark("sleeve")) is None
    assert work.piece_of(remark(None)) is None, "there are two"
    (tmp_path / "fox.chart.yaml").write_text(chart(), encoding="utf-8")
    alone = knit_work(log_of(tmp_path, "lintarsia-knit: 1\nchart: fox.chart.yaml\n"), Settings(root=str(tmp_path)))
    only = alone.piece_of(remark(None))
    assert only is not None
    assert only.name == "Fox"
    assert alone.piece_of(remark("back")) is None


def test_a_chart_is_a_pattern_of_one_piece(tmp_path: Path) -> None:
    file = tmp_path / "fox.chart.yaml"
    file.write_text(chart().replace("title: Fox\n", "wearer: child\n"), encoding="utf-8")
    work = knit_work(log_of(tmp_path, "lintarsia-knit: 1\nchart: fox.chart.yaml\n"), Settings(root=str(tmp_path)))
    assert work.knitted is not None
    pattern = work.knitted.pattern
    assert list(pattern.pieces) == ["fox"], "a chart without a title goes by its file"
    assert (pattern.path, pattern.version, pattern.wearer) == (str(file), "", "child")
    assert work.size == "one size"
    assert work.main is not None
    assert work.main.grid.width == 30


def test_a_size_that_the_pattern_has_not(tmp_path: Path) -> None:
    work = knitted(tmp_path, log_of(tmp_path, LOG.replace("large", "huge")))
    assert (work.size, work.main, work.fingerprints, work.current) == (None, None, frozenset(), None)
    unsaid = knitted(tmp_path, log_of(tmp_path, LOG.replace("size: large\n", "")))
    assert unsaid.size is None, "the pattern has sizes, and the log names none"


def test_what_cannot_be_read_is_nothing_that_was_knitted(tmp_path: Path) -> None:
    work = knit_work(log_of(tmp_path, LOG), Settings(root=str(tmp_path)))
    assert (work.knitted, work.size, work.main, work.fingerprints) == (None, None, None, frozenset())
    assert (work.piece_of(remark("front")), work.before) == (None, None)


def test_the_gauge_is_held_against_the_piece_with_most_stitches(tmp_path: Path) -> None:
    """A small cuff that comes first, of another chart, says nothing of it; nor a long and narrow band."""
    pattern = PATTERN.replace("pieces:\n", "pieces:\n  cuff: {chart: cuff.chart.yaml}\n")
    (tmp_path / "cuff.chart.yaml").write_text(chart(31, 44).split("chart: |")[0] + "chart: |\n" + "  OR\n" * 150)
    work = knitted(tmp_path, log_of(tmp_path, LOG), pattern)
    assert work.main is not None
    assert (work.main.grid.width, work.main.grid.height, work.main.gauge.stitches) == (90, 110, 20)


def test_a_log_of_now_and_of_before(tmp_path: Path) -> None:
    work = knitted(tmp_path, log_of(tmp_path, LOG))
    assert work.current is False
    asked: list[str] = []
    work.look_back = lambda: asked.append("asked")  # type: ignore[func-returns-value]
    assert work.before is None
    assert asked == ["asked"]
    for mark in work.fingerprints:  # the pattern's, its pieces' and that of the chart
        now = knitted(tmp_path, log_of(tmp_path, LOG.replace("0123456789abcdef", mark)))
        now.look_back = lambda: asked.append("asked again")  # type: ignore[func-returns-value]
        assert (now.current, now.before) == (True, None)
    assert len(work.fingerprints) == 4
    assert asked == ["asked"], "nobody looks back for what is as it is now"
    unsaid = knitted(tmp_path, log_of(tmp_path, LOG.replace('fingerprint: "0123456789abcdef"\n', "")))
    assert unsaid.current is None
