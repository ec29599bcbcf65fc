"""Everything that is printed around the rows of a pattern, whole: what to buy, the materials, the finishing.

A cushion in two sizes that has what a pattern can have, each thing another number of times. Lengths are worked out by
hand at 20 stitches and 30 rows to 10 cm: a stitch is 5 mm wide and takes 4.1 times that (Munden 1959), a row is 10/3 mm
high, a tail is 15 cm, one stitch cast on or bound off and each mm of a seam take three times their length (house
values).
"""

import json
from pathlib import Path

import pytest
from pattern_files import write_pattern

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.aroundpieces import around
from lintarsia.pattern.choosing import choose
from lintarsia.pattern.inwords import pages_of
from lintarsia.pattern.planjson import pattern_plan_json
from lintarsia.pattern.plantext import buying_list, pattern_plan_text
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.sizes import size_sheets
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import Settings
from lintarsia.written.formats import DocumentPart

FIELD = """\
lintarsia: 1
title: Field
gauge: {stitches: 20, rows: 30, over: 10 cm, needle: 4 mm}
yarns:
  dk: {name: Fjord DK, length: 10 m, mass: 5 g}
  aran: {name: Moor Aran, length: 12 yd}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: dk}
  W: {name: Bone, shade: "#efe9dc", yarn: aran}
chart: |
  BBWBB
  BWWWB
"""
CUSHION = """\
version: "2.1"
sizes: [small, large]
swatch: 10 cm
yarns: {dk: {balls: {small: 1, large: 5}}, aran: {balls: 2}}
pieces:
  rib: {colour: B, stitch: "k2, p1 rib", cast-on: {small: 9, large: 18}, rows: {small: 3, large: 4}}
  front:
    chart: field.chart.yaml
    cast-on: {small: 8, large: 14}
    rows: {small: 5, large: 9}
    plain: B
    at: {stitch: {small: 2, large: 5}, row: {small: 3, large: 5}}
    measures: {width: {small: 4 cm, large: 7 cm}, height: {large: 3 cm}}
  flap: {chart: field.chart.yaml, times: {small: 2, large: 3}, picked-up: true, ends: live}
  tip: {colour: B, cast-on: 3, rows: 5, continues: flap, ends: drawn-in}
seams:
  - {join: [front left, flap right], times: 2}
  - {join: [front top, flap bottom]}
  - {join: [rib left, rib right], rows: [2, 3], times: 3}
notions: {buttons: {small: 3, large: 5}, zip: 20 cm}
tools: {cable needle: one}
"""


@pytest.fixture
def cushion(tmp_path: Path) -> PatternWork:
    return work(tmp_path, CUSHION)


def work(folder: Path, text: str) -> PatternWork:
    reading = read_pattern(str(write_pattern(folder, text, field=FIELD)))
    assert reading.problems == ()
    assert reading.pattern is not None
    return work_on(reading.pattern, Settings(root=str(folder)))


def test_what_to_buy(cushion: PatternWork) -> None:
    """rib: 27 × 20.5 mm × 1.1 and two tails are 90.9 cm; 9 × 15 mm and a tail 28.5 cm; 9 × 15 mm 13.5 cm. The seams:
    2 × (3 × 16.7 mm + 30 cm), 3 × 40 mm + 30 cm, 3 × (3 × 6.7 mm + 30 cm), in all 2.08 m. The swatch has 600 stitches,
    six of ten in blue."""
    assert buying_list(cushion, "small") == [
        "To buy for small, with 10% to spare",
        "  Fjord DK                                15.2 m + 1.5 m   2 balls",
        "    rib, k2, p1 rib                      91 cm",
        "    rib, cast-on                         28 cm",
        "    rib, bind-off                        14 cm",
        "    front                                1.3 m",
        "    front, cast-on                       27 cm",
        "    front, bind-off                      12 cm",
        "    2 × flap                             1.5 m",
        "    tip                                  61 cm",
        "    the seams                            2.1 m",
        "    a swatch of 10 cm square             8.0 m",
        "    the pattern has 1",
        "  Moor Aran                               7.3 yd + 26 in    1 ball",
        "    front                                15 in",
        "    2 × flap                             30 in",
        "    a swatch of 10 cm square            6.0 yd",
        "    the pattern has 2",
        "  House values, all settings: a stitch cast on is 3 × its width and a tail, one",
        "  bound off 3 ×, a seam 3 × its length and two tails, a stitch of rib 1.1 × a",
        "  plain one, 10% for slips.",
    ]


def test_house_values_are_named_where_they_were_used(tmp_path: Path) -> None:
    text = "pieces:\n  flap: {chart: field.chart.yaml, picked-up: true, ends: live}\n"
    told = buying_list(work(tmp_path, text), "one size")
    assert told[0] == "To buy, with 10% to spare"
    assert told[-1] == "  House values, all settings: 10% for the swatch and slips."


def test_without_yarns_nobody_can_say_what_to_buy(tmp_path: Path) -> None:
    bare = FIELD.replace(", yarn: dk", "").replace(", yarn: aran", "")
    file = write_pattern(tmp_path, "pieces:\n  flap: {chart: field.chart.yaml}\n", field=bare)
    pattern = read_pattern(str(file)).pattern
    assert pattern is not None
    own = work_on(pattern, Settings(root=str(tmp_path)))
    told = buying_list(own, "one size")
    assert told == ["To buy, with 10% to spare", "  no colour names a yarn, so nobody can say what to buy"]


def test_the_sheets_stand_size_by_size_each_with_its_list_behind_it(cushion: PatternWork) -> None:
    told = pattern_plan_text(cushion, choose(cushion, None, None))
    heads = [line for line in told.splitlines() if line.startswith(("Cushion: ", "To buy", "knit "))]
    assert heads == [
        "Cushion: rib, small", "Cushion: front, small",
        "Cushion: flap, small", "knit 2 of these; the figures are for one",
        "Cushion: tip, small", "To buy for small, with 10% to spare",
        "Cushion: rib, large", "Cushion: front, large",
        "Cushion: flap, large", "knit 3 of these; the figures are for one",
        "Cushion: tip, large", "To buy for large, with 10% to spare",
    ]  # fmt: skip
    assert "\n\nTo buy for small" in told
    assert "10% for slips.\n\nCushion: rib, large\n" in told


def test_the_list_as_data_with_whole_balls_and_what_for(cushion: PatternWork) -> None:
    """In metres to a hundredth: the amounts of `test_what_to_buy`, and 126 stitches of the large front."""
    yarns = json.loads(pattern_plan_json(cushion, choose(cushion, None, None)))["yarns"]
    large = yarns["dk"]["large"]
    assert [(part["for"], part["piece"], part["metres"]) for part in large["parts"]] == [
        ("piece", "rib", 1.92),
        ("cast-on", "rib", 0.42),
        ("bind-off", "rib", 0.27),
        ("piece", "front", 3.11),
        ("cast-on", "front", 0.36),
        ("bind-off", "front", 0.21),
        ("piece", "flap", 2.18),
        ("piece", "tip", 0.61),
        ("seams", None, 2.25),
        ("swatch", None, 7.98),
    ]
    assert [part.get("times_plain") for part in large["parts"]] == [1.1, *[None] * 9]
    assert (large["metres"], large["besides_metres"], large["allowance_metres"]) == (9.08, 10.23, 1.93)
    assert [(yarns[yarn][size]["balls"], yarns[yarn][size]["pieces"]) for yarn in yarns for size in yarns[yarn]] == [
        (2, ["rib", "front", "flap", "tip"]),
        (3, ["rib", "front", "flap", "tip"]),
        (1, ["front", "flap"]),
        (1, ["front", "flap"]),
    ]


def sections(work: PatternWork, size: str | None) -> dict[str, tuple[tuple[str, str], ...]]:
    chosen = choose(work, None, size)
    made = around(work, chosen, pages_of(work, chosen, "american"))
    parts: tuple[DocumentPart, ...] = (*made.before, *made.behind)
    return {part.title: part.lines for part in parts}


def test_what_stands_before_and_behind_the_rows(cushion: PatternWork) -> None:
    found = sections(cushion, None)
    assert list(found) == ["Sizes", "Materials", "Gauge", "Abbreviations", "Finishing"]
    assert found["Sizes"] == (
        (
            "small",
            "rib 4.5 cm wide, stretched, 1 cm high; front width 4 cm; flap (2 of them) 2.5 cm wide, 0.7 cm high; "
            "tip 1.5 cm wide, 1.7 cm high",
        ),
        (
            "large",
            "rib 9 cm wide, stretched, 1.3 cm high; front width 7 cm, height 3 cm; flap (3 of them) 2.5 cm wide, "
            "0.7 cm high; tip 1.5 cm wide, 1.7 cm high",
        ),
    )
    assert found["Materials"] == (
        ("Fjord DK", "1 (5) balls of 10 m (16.7 m (21.2 m) with what is to spare)"),
        ("Moor Aran", "2 balls of 12 yd (8.0 yd (8.5 yd) with what is to spare)"),
        ("Needles", "4 mm"),
        ("Tapestry needle", ""),
        ("Cable needle", "one"),
        ("Buttons", "3 (5)"),
        ("Zip", "20 cm"),
    )
    assert found["Gauge"] == (("20 sts and 30 rows to 10 cm on 4 mm needles", ""),)
    assert [short for short, _ in found["Abbreviations"]] == ["k", "p", "RS", "sts", "WS"]
    *finishing, stamp = found["Finishing"]
    assert finishing == [
        ("Ends of rib", "weave in 2"),
        ("Ends of front", "weave in 6, across the gap that each closes"),
        ("Ends of flap", "weave in 12 (18), across the gap that each closes"),
        ("Ends of tip", "weave in 2"),
        ("Washing", "wash and block every piece to its measurements"),
        ("Seam", "join front left to flap right, twice"),
        ("Seam", "join front top to flap bottom"),
        ("Seam", "join rib left to rib right, 2 rows from row 2, 3 times"),
    ]
    assert stamp[0] == "This pattern"
    assert stamp[1].startswith("version 2.1 · fingerprint ")


def test_one_size_alone_has_one_number(cushion: PatternWork) -> None:
    found = sections(cushion, "large")
    assert [name for name, _ in found["Sizes"]] == ["large"]
    assert found["Materials"][0] == ("Fjord DK", "5 balls of 10 m (21.2 m with what is to spare)")
    assert ("Buttons", "5") in found["Materials"]
    assert ("Ends of flap", "weave in 18, across the gap that each closes") in found["Finishing"]


def test_a_pattern_without_sizes_balls_or_needles(tmp_path: Path) -> None:
    bare = FIELD.replace(", length: 10 m, mass: 5 g", "").replace(", needle: 4 mm", "").replace(", length: 12 yd", "")
    file = write_pattern(tmp_path, "pieces:\n  flap: {chart: field.chart.yaml}\n", field=bare)
    pattern = read_pattern(str(file)).pattern
    assert pattern is not None
    found = sections(work_on(pattern, Settings(root=str(tmp_path))), None)
    assert found["Sizes"] == (("", "flap 2.5 cm wide, 0.7 cm high"),)
    assert [name for name, _ in found["Materials"]] == ["Fjord DK", "Moor Aran", "Tapestry needle"]
    assert found["Materials"][1] == ("Moor Aran", "66 cm")
    assert found["Finishing"][-1][1].startswith("fingerprint ")


def test_each_size_in_figures(cushion: PatternWork) -> None:
    """The motif of the small front lies on stitches 2 to 6 of 8 and rows 3 and 4 of 5: its top row is one row, 3.3 mm,
    from the last. In the large one, on rows 5 and 6 of 9, three rows are above it."""
    small, large = size_sheets(cushion)
    assert [(p.piece, p.times, p.cast_on, p.begun, p.rows) for p in large.pieces] == [
        ("rib", 1, 18, "cast on", 4),
        ("front", 1, 14, "cast on", 9),
        ("flap", 3, 5, "picked up", 2),
        ("tip", 1, 3, "on the needle already", 5),
    ]
    assert [p.measured for p in small.pieces[:2]] == ["4.5 cm wide, stretched, 1 cm high", "4 cm wide, 1.7 cm high"]
    assert [p.stated for p in large.pieces] == ["", "width 7 cm, height 3 cm", "", ""]
    motifs = [[p.motif for p in sheet.pieces] for sheet in (small, large)]
    assert motifs == [
        [
            "",
            "0.5 stitches from the middle: 1 stitch at its right, 2 at its left, 2 rows below, 1 above, "
            "3 mm from the nearest edge in row 4",
            "",
            "",
        ],
        [
            "",
            "0.5 stitches from the middle: 4 stitches at its right, 5 at its left, 4 rows below, 3 above, "
            "1 cm from the nearest edge in row 6",
            "",
            "",
        ],
    ]
    assert [(y.name, y.needed, y.with_allowance, y.balls, y.stated) for y in small.yarns] == [
        ("Fjord DK", "15.2 m", "16.7 m", 2, 1),
        ("Moor Aran", "7.3 yd", "8.0 yd", 1, 2),
    ]
