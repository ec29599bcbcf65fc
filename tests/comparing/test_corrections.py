"""Corrections ready to publish: which sentences, in which order, and nothing that only the designer minds."""

from dataclasses import replace

import pytest
from lxml import html
from manyfiles import KITE, MANY, PATTERN, PIECE
from planted import ROWS, chart_of, compared, text_of, top, with_row

from lintarsia.comparing import errata
from lintarsia.comparing.charts import compare_charts
from lintarsia.comparing.model import ChartChange, Comparison, Fact, FileChange, State

DAY = "2026-10-26"


@pytest.fixture(autouse=True)
def _that_day(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1793000000")


def of(change: ChartChange, state: State = State.CHANGED) -> Comparison:
    return Comparison("v1", "v2", (FileChange("a.chart.yaml", "a.chart.yaml", state, "1", "2", change, title="Kite"),))


def pattern(file: FileChange = MANY.files[-1], **more: object) -> Comparison:
    made = replace(PATTERN, **more)  # type: ignore[arg-type]
    return Comparison("v1", "v2", (replace(file, pattern=made),))


def sentences(change: ChartChange) -> list[str]:
    return list(errata.sentences(change))


def test_of_a_chart_alone() -> None:
    assert errata.text(of(KITE)) == (
        f"Corrections, {DAY}\n\nKite\n\n"
        "  Row 9 (RS) should read: k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B. (16 sts)\n"
        "  Row 13 (RS) is new: k11 B, k1 R, k4 B. (16 sts)\n"
        "  Rows 14–15: an odd number of rows came or went below, so right side and wrong\n"
        "    side have changed places here.\n"
    )


def test_the_chart_of_a_pattern_is_not_corrected_twice() -> None:
    """The kite is what the front is knitted from."""
    assert [one.heading for one in errata.corrections(MANY)] == ["Set, version 1.0 (corrected in 1.1)"]
    apart = replace(MANY, files=(MANY.files[1], replace(MANY.files[-1], file="other/set.pattern.yaml")))
    assert [one.heading for one in errata.corrections(apart)] == ["Kite", "Set, version 1.0 (corrected in 1.1)"]
    below = replace(MANY.files[1], file="other/kite.chart.yaml")
    assert [one.heading for one in errata.corrections(replace(apart, files=(below, *apart.files[1:])))] == [
        "Set, version 1.0 (corrected in 1.1)"
    ]


def test_a_pattern_by_piece_and_size() -> None:
    (one,) = errata.corrections(pattern())
    assert one.parts == (
        ("", ("Seams: new, front left to back right.",)),
        ("front, small and large", ("Row 3 (RS) should read: k4 B, k3 W, k9 B. (16 sts)",)),
    )


@pytest.mark.parametrize(
    ("was", "now", "heading"),
    [
        ("1.0", "1.1", "Set, version 1.0 (corrected in 1.1)"),
        ("1.0", "1.0", "Set, version 1.0"),
        ("", "1.1", "Set"),
        ("", "", "Set"),
    ],
)
def test_which_version_is_corrected(was: str, now: str, heading: str) -> None:
    assert errata.corrections(pattern(was_version=was, now_version=now))[0].heading == heading


@pytest.mark.parametrize("state", [State.SAME, State.MOVED, State.ADDED, State.REMOVED])
def test_only_what_has_changed_is_corrected(state: State) -> None:
    assert errata.corrections(of(KITE, state)) == []
    assert errata.text(of(KITE, state)) == f"Corrections, {DAY}\n\nThere is nothing to correct.\n"


def test_facts_of_a_pattern() -> None:
    facts = (Fact("the version", "1", "2"), Fact("rows", "5", "8"), Fact("the piece hood", None, ""))
    (one,) = errata.corrections(pattern(facts=facts, pieces=()))
    assert one.parts == (("", ("Rows: 8 instead of 5.", "The piece hood: new.")),)
    assert errata.corrections(pattern(facts=facts[:1], pieces=())) == []


def test_the_designer_s_own_limits_are_not_published() -> None:
    was, now = text_of(), text_of(more="limits: {supplies: 7}\n").replace("22, ", "21, ")
    assert sentences(compare_charts(chart_of(was), chart_of(now))) == [
        "The gauge: 21 stitches and 30 rows to 10 cm instead of 22 stitches and 30 rows to 10 cm."
    ]


def test_rows_that_are_gone_or_have_other_numbers() -> None:
    rows = [row for k, row in enumerate(with_row(12, "BBBBRRBBBBBBBBBB")) if k not in (top(4), top(3))]
    assert sentences(compared(rows)) == [
        "Leave out rows 3–4 of before.",
        "Row 10 (WS), row 12 before, should read: p4 B, p2 R, p10 B. (16 sts)",
    ]
    in_rounds = compared(rows, worked="round")
    assert sentences(in_rounds) == [
        "Leave out rounds 3–4 of before.",
        "Round 10, round 12 before, should read: k10 B, k2 R, k4 B. (16 sts)",
    ]


def test_new_rows_are_each_printed() -> None:
    rows = [*ROWS[: top(7)], *[ROWS[top(7)]] * 2, *ROWS[top(7) :]]
    assert sentences(compared(rows)) == [
        "Row 8 (WS) is new: p4 B, p3 R, p9 B. (16 sts)",
        "Row 9 (RS) is new: k9 B, k3 R, k4 B. (16 sts)",
    ]


def test_a_row_without_stitches() -> None:
    rows = list(ROWS)
    rows[top(14)] = "." * 16
    assert sentences(compared(rows)) == ["Row 14 (WS) should read: no stitches."]


def test_colours_and_embroidery_are_told_in_sentences() -> None:
    assert sentences(compared([row.replace("R", "W") for row in ROWS])) == [
        "Every stitch of R (Madder) is worked in W (Bone) now."
    ]
    more = "duplicate-stitch: [{{colour: W, row: 9, stitches: [{s}, 12]}}]\n"
    sewn = compare_charts(chart_of(text_of(more=more.format(s=11))), chart_of(text_of(more=more.format(s=10))))
    assert sentences(sewn) == ["Row 9 (RS): other duplicate stitch in stitch 10."]


def test_the_designer_s_words_are_what_it_should_read() -> None:
    change = compare_charts(
        chart_of(text_of(more="written: {1: k16 B}\n")), chart_of(text_of(more="written: {1: k15 B}\n"))
    )
    assert sentences(change) == ["Row 1 (RS) should read: k15 B."]


HOSTILE = "<b>K & R</b> \x1b[2J*"


def test_in_markdown_and_on_a_page_nothing_of_a_title_speaks() -> None:
    file = replace(MANY.files[-1], title=HOSTILE)
    page = html.document_fromstring(errata.html(pattern(file)))
    assert [e.text_content() for e in page.iter("title", "h1")] == [f"Corrections, {DAY}"] * 2
    assert [e.text_content() for e in page.iter("h2")] == ["<b>K & R</b> \ufffd[2J*, version 1.0 (corrected in 1.1)"]
    assert [(e.tag, [li.text_content() for li in e] or e.text_content()) for e in page.xpath("//h3 | //ul")] == [
        ("ul", ["Seams: new, front left to back right."]),
        ("h3", "front, small and large"),
        ("ul", ["Row 3 (RS) should read: k4 B, k3 W, k9 B. (16 sts)"]),
    ]
    assert errata.markdown(pattern(file)) == (
        f"## Corrections, {DAY}\n\n### \\<b\\>K \\& R\\</b\\> \ufffd\\[2J\\*, version 1.0 (corrected in 1.1)\n\n"
        "- Seams: new, front left to back right.\n\n#### front, small and large\n\n"
        "- Row 3 (RS) should read: k4 B, k3 W, k9 B. (16 sts)\n"
    )
    assert errata.text(pattern(file)).splitlines()[2] == "<b>K & R</b> \ufffd[2J*, version 1.0 (corrected in 1.1)"


def test_inside_a_page_of_a_site() -> None:
    inside = html.fragment_fromstring(errata.body(pattern(), level=3), create_parent="div")
    assert [e.tag for e in inside] == ["h3", "ul", "h4", "ul"]
    nothing = Comparison("v1", "v2", ())
    assert errata.body(nothing) == ""
    assert "There is nothing to correct." in errata.html(nothing)
    assert errata.markdown(nothing) == f"## Corrections, {DAY}\n\nThere is nothing to correct.\n"


def test_the_day_is_today_unless_it_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    assert errata.today().isoformat() == DAY
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "soon")
    assert errata.today().isoformat() > DAY


def test_a_motif_that_has_moved() -> None:
    from lintarsia.comparing.model import MotifMoved

    moved = replace(PIECE, motif=MotifMoved((3, 2), (7, 2), PIECE.rows), rows=())
    assert sentences(moved) == ["The motif begins at stitch 7, not 3; its rows are otherwise as printed."]
