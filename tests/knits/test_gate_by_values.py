"""What a group has to say before a release, from knits as values: who has knitted what, what is open and short."""

from dataclasses import replace
from pathlib import Path

import pytest
from knit_logs import PATTERN, chart
from told_group import CALIBRATION, FINCH, GROUP, LINNET, PIPIT, SHORT, SISKIN, WREN

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.knits.calibrate import Outlier
from lintarsia.knits.gate import Gate, gate
from lintarsia.knits.summary import NOW, THEN, UNKNOWN, Knit, OddYarn, PatternKnits, YarnUse
from lintarsia.pattern.model import ONE_SIZE
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.result import Level
from lintarsia.settings import Settings

SIZES = "sizes: [small, medium, large]\n"
ONE = "lintarsia-pattern: 1\ntitle: Fox\npieces:\n  front: {chart: fox.chart.yaml}\n"
# A ball of oat is 120 m, of rust 150 m (the chart says so), of moss nobody knows.
YARNS = "yarns:\n  oat: {name: Fjord, balls: {small: 2, large: 3}}\n  rust: {balls: {small: 1}}\n  moss: {balls: 1}\n"
EVERY = (WREN, FINCH, SISKIN)


def work(folder: Path, text: str) -> PatternWork:
    (folder / "fox.chart.yaml").write_text(chart(), encoding="utf-8")
    file = folder / "fox.pattern.yaml"
    file.write_text(text, encoding="utf-8")
    pattern = read_pattern(str(file)).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(folder)))


@pytest.fixture
def fox(tmp_path: Path) -> PatternWork:
    sized = PATTERN.replace("sizes: [small, large]\n", SIZES).replace("large: 90", "medium: 70, large: 90")
    return work(tmp_path, sized.replace("large: 110", "medium: 90, large: 110") + YARNS)


def group(*knits: Knit, **more: object) -> PatternKnits:
    """The group with these in the small size, and nobody odd among them."""
    blank = {"sizes": {"small": knits, "medium": (), "large": ()}, "odd": (), "calibration": None}
    return replace(GROUP, **(blank | more))  # type: ignore[arg-type]


def of(one: PatternKnits, pattern: PatternWork) -> Gate:
    found = gate(one, pattern)
    assert found is not None
    return found


def told(found: Gate, rule: str) -> list[tuple[str, str]]:
    return [(one.finding.key, one.finding.message) for one in found.told if one.rule == rule]


def test_who_has_knitted_each_size_and_what_of_it(fox: PatternWork) -> None:
    assert of(GROUP, fox).lines == (
        "small: Wren (as it is now), Finch (as it was in 3f2a19c of 2026-10-01, with the stitches of now) and Siskin "
        "(revision unknown)",
        "medium: nobody",
        "large: Pipit (still knitting, revision not stated) and Linnet (still knitting, as it was in 77ab001 of "
        "2026-08-02)",
    )


def test_in_one_size_no_size_is_named(tmp_path: Path) -> None:
    found = of(group(sizes={ONE_SIZE: (PIPIT,)}), work(tmp_path, ONE))
    assert found.lines == ("Pipit (still knitting, revision not stated)",)
    assert told(found, "knit/untested-size") == [("nobody", "nobody has finished it; 1 test knit in all")]
    assert not found.every_size
    done = of(group(sizes={ONE_SIZE: (WREN,)}), work(tmp_path, ONE))
    assert done.every_size
    old = replace(LINNET, finished="2026-08-01")
    since = of(group(sizes={ONE_SIZE: (old,)}), work(tmp_path, ONE))
    (one,) = since.told
    assert one.finding.message == "it was finished by Linnet, and has changed since"
    assert one.finding.region == work(tmp_path, ONE).place("title")


def test_sizes_that_wait_are_told_at_their_place_in_the_file(fox: PatternWork) -> None:
    found = of(GROUP, fox)
    assert told(found, "knit/untested-size") == [
        ("nobody", "nobody has finished medium; 5 test knits in all"),
        ("nobody", "nobody has finished large; 5 test knits in all"),
    ]
    medium, large = (one.finding for one in found.told if one.rule == "knit/untested-size")
    assert (medium.region, large.region) == (fox.place("sizes", 1), fox.place("sizes", 2))
    assert (medium.pattern, large.pattern) == ("medium nobody", "large nobody")
    assert medium.level is None


@pytest.mark.parametrize(
    ("revision", "same", "waits"),
    [(NOW, True, False), (THEN, True, False), (THEN, False, True), (UNKNOWN, None, True), ("unsaid", None, False)],
)
def test_a_size_finished_at_another_revision(fox: PatternWork, revision: str, same: bool | None, waits: bool) -> None:
    """Who says nothing of the revision is believed; who says one that has other stitches is not."""
    others = (replace(LINNET, finished="2026-08-01"), replace(PIPIT, finished="2026-08-01", same_stitches=False))
    knit = replace(WREN, revision=revision, same_stitches=same)
    found = of(group(sizes={"small": (knit,), "medium": others, "large": (WREN,)}), fox)
    messages = told(found, "knit/untested-size")
    expected = [("other-revision", "small was finished by Wren, and has changed since")] if waits else []
    assert messages == expected  # Pipit has said no revision, so medium is done
    assert found.every_size is not waits
    for one in found.told:
        if one.rule == "knit/untested-size":
            assert (one.finding.level, one.finding.pattern) == (Level.NOTE, "small other-revision")


def test_what_waits_for_an_answer(fox: PatternWork) -> None:
    found = of(GROUP, fox)
    assert not found.all_answered
    told_open = [one for one in found.told if one.rule == "knit/open-remark"]
    assert [(one.file, one.finding.key, one.finding.level, one.finding.message) for one in told_open] == [
        ("wren.knit.yaml", "trouble", Level.ERROR,
         "front, row 14, stitches 7–9: Wren says “a yarn too few”, and has no answer"),
        ("finch.knit.yaml", "trouble", Level.ERROR,
         "front, row 14, stitch 3: Finch says “one is loose”, and has no answer"),
        ("pipit.knit.yaml", "question", None, "back, row 9: Pipit says “on which side?”, and has no answer"),
    ]  # fmt: skip
    assert [one.finding.pattern for one in told_open] == [
        "Wren front, row 14, stitches 7–9 a yarn too few",
        "Finch front, row 14, stitch 3 one is loose",
        "Pipit back, row 9 on which side?",
    ]
    assert [one.finding.region.line for one in told_open] == [11, 8, 6]


def test_a_remark_that_names_no_piece(fox: PatternWork) -> None:
    bare = replace(SHORT, piece=None, stitches=None)
    found = of(group(replace(WREN, rows=(bare,))), fox)
    assert told(found, "knit/open-remark") == [
        ("trouble", "row 14: Wren says “a yarn too few”, and has no answer")
    ]  # fmt: skip


def test_what_is_said_of_the_charts_is_said_of_the_pattern(fox: PatternWork) -> None:
    alone = group(replace(WREN, rows=(SHORT,)))
    found = of(replace(group(), of_charts=(alone,)), fox)
    assert [one.rule for one in found.told] == ["knit/open-remark"]
    assert (found.every_size, found.all_answered, found.yarn_enough) == (False, False, False)


def test_without_test_knits_there_is_no_gate(fox: PatternWork) -> None:
    assert gate(group(), fox) is None


def used(knit: Knit, metres: float, yarn: str = "oat") -> Knit:
    return replace(knit, yarns=(YarnUse(yarn, f"{metres} m", metres, 200.0, metres / 200.0),), rows=())


def test_more_than_the_balls_that_are_stated(fox: PatternWork) -> None:
    """Two balls hold 240 m: who used 251 m is told, with the most that anybody used, and who came out is not."""
    found = of(group(used(WREN, 230.0), used(FINCH, 251.0), used(SISKIN, 243.0)), fox)
    (one,) = (one for one in found.told if one.rule == "knit/yarn-short")
    assert one.finding.message == "Fjord, small: Finch used 251 m; the 2 balls hold 240 m"
    assert (one.finding.key, one.finding.pattern) == ("short", "oat small")
    assert one.finding.region == fox.place("yarns", "oat", "balls", "small")
    assert not found.yarn_enough
    enough = of(group(used(WREN, 240.0)), fox)
    assert (enough.yarn_enough, told(enough, "knit/yarn-short")) == (True, [])


def test_one_ball_holds(fox: PatternWork) -> None:
    found = of(group(used(WREN, 150.4, "rust")), fox)
    assert told(found, "knit/yarn-short") == [("short", "Rust, small: Wren used 150.40 m; the 1 ball holds 150.00 m")]


def test_every_size_and_yarn_by_itself(fox: PatternWork) -> None:
    """Large has three balls of oat stated and none of rust: 900 m of rust are too many for nobody."""
    both = replace(used(WREN, 361.0), yarns=(*used(WREN, 361.0).yarns, *used(WREN, 900.0, "rust").yarns))
    found = of(group(sizes={"small": (used(FINCH, 100.0),), "medium": (used(FINCH, 999.0),), "large": (both,)}), fox)
    assert told(found, "knit/yarn-short") == [("short", "Fjord, large: Wren used 361 m; the 3 balls hold 360 m")]


def test_amounts_that_are_no_need(fox: PatternWork) -> None:
    """Of somebody still knitting, far from all others, of a ball nobody has measured, of a yarn nobody states."""
    knitting = replace(used(WREN, 900.0), finished="", file="a.knit.yaml")
    off = replace(used(FINCH, 900.0), file="b.knit.yaml")
    odd = replace(used(SISKIN, 900.0), file="c.knit.yaml")
    unmeasured, unstated = used(WREN, 900.0, "moss"), used(WREN, 900.0, "kelp")
    unweighed = replace(WREN, yarns=(YarnUse("oat", "900 g", None, 200.0, None),), rows=())
    found = of(
        group(
            knitting, off, odd, unmeasured, unstated, unweighed,
            calibration=replace(CALIBRATION, outliers=(Outlier("Finch", 4.5, "b.knit.yaml"),)),
            odd=(OddYarn("Siskin", "oat", 4.5, "c.knit.yaml"), OddYarn("Wren", "rust", 2.0, "d.knit.yaml")),
        ),
        fox,
    )  # fmt: skip
    assert told(found, "knit/yarn-short") == []
    assert found.yarn_enough


def test_nobody_weighed_is_not_enough_yarn(fox: PatternWork) -> None:
    assert not of(group(replace(WREN, yarns=())), fox).yarn_enough


def test_all_is_well(fox: PatternWork) -> None:
    well = used(WREN, 120.0)
    found = of(group(sizes={"small": (well,), "medium": (well,), "large": (well,)}), fox)
    assert (found.told, found.every_size, found.all_answered, found.yarn_enough) == ((), True, True, True)
    assert of(replace(GROUP, sizes={"small": EVERY}), fox).all_answered is False
