"""What the designer is told of a group, spelt out: at a terminal, to programs, and in a sheet."""

import csv
import json
from dataclasses import replace
from io import StringIO

import jsonschema
from told_group import CALIBRATION, FINCH, GROUP, LINNET, PIPIT, SISKIN, WREN

from lintarsia.ground.resources import resource
from lintarsia.knits.calibrate import Measured
from lintarsia.knits.csv import HEAD, knits_csv
from lintarsia.knits.json import knits_json
from lintarsia.knits.summary import PatternKnits, YarnUse
from lintarsia.knits.text import knits_text
from lintarsia.pattern.model import ONE_SIZE

TEXT = """\
Fox cushion, version 1.2  fox.pattern.yaml

Small: 3 knitters, 3 finished
  Wren: finished 2026-11-05, 12.5 hours, as it is now
    gauge 21 stitches and 29.5 rows to 10 cm; 20 and 28 stated
    oat 65.6 g, 157 m; 161 m planned (0.98 times)
    rust 16.2 m; 17.5 m planned (0.93 times)
  Finch: finished 2026-10-20, as it was in 3f2a19c of 2026-10-01, with the stitches of now
    moss 3 g, 7.5 m
  Siskin: finished 2026-09-30, 9 hours, revision 00000000000000cc unknown here
    gauge 19 stitches and 27 rows to 10 cm
    oat 2 oz; 161 m planned

Medium: nobody has taken it

Large: 2 knitters, 0 finished
  Pipit: still knitting, revision not stated
  Linnet: still knitting, as it was in 77ab001 of 2026-08-02

Said by row
  row 5 (WS): question, Wren, small: “which way round?”
    answered: the fox looks to the left
  back, row 9: question, Pipit, large: “on which side?”
    open
  front, row 2: praise, Wren, small: “a lovely edge”
  front, row 14, stitch 3: trouble, Finch, small: “one is loose”
    open
  front, row 14 (RS), stitches 7–9: trouble, Wren, small: “a yarn too few”
    open
  of the whole, Wren, small: “knitted with pleasure”
  of the whole, Pipit, large: “slow work”

Yarn in a stitch
  fox.chart.yaml: 19.0 ± 0.7 mm by 2 knitters; 20.5 mm worked out from the gauge
  owl.chart.yaml: 17.3 mm by 2 knitters; 18.2 mm stated
  at each knitter's own gauge the plan is off by 8% on average; with this loop by 3%
  Siskin is left out: 1.62 times the yarn of the others (rust 2.50 times, oat 1.40 times); is the amount right?
  Finch, oat: 0.40 times the part of the plan that others used; is the amount right?
  Finch measured no gauge; the one stated is taken for it
"""


def without(one: PatternKnits) -> PatternKnits:
    """The group with one knitter in its only size, and nothing else to tell."""
    return replace(one, version="", sizes={ONE_SIZE: (LINNET,)}, calibration=None, odd=())


def test_all_of_it_at_a_terminal() -> None:
    assert knits_text([GROUP]) == TEXT


def test_of_one_knitter_alone_no_spread_is_told() -> None:
    one = replace(CALIBRATION, measured=CALIBRATION.measured[:1], outliers=(), spread=None, off_after=None)
    told = knits_text([replace(GROUP, calibration=one, odd=())])
    assert told.endswith(
        "  at each knitter's own gauge the plan is off by 8% on average\n"
        "  one knitter alone says nothing of how far others may be from it\n"
    )
    assert "left out" not in told
    assert "measured no gauge" not in told


def test_an_outlier_whose_yarns_are_all_alike_is_told_without_them() -> None:
    told = knits_text([replace(GROUP, odd=())])
    assert "\n  Siskin is left out: 1.62 times the yarn of the others; is the amount right?\n" in told


def test_who_measured_no_gauge_is_told_by_name() -> None:
    bare = Measured("Pipit", 3.7, 99.0, CALIBRATION.measured[0].terms, False)
    told = knits_text([replace(GROUP, calibration=replace(CALIBRATION, measured=(*CALIBRATION.measured, bare)))])
    assert "\n  Finch and Pipit measured no gauge; the one stated is taken for it\n" in told


def test_patterns_and_what_is_left_out_stand_apart() -> None:
    told = knits_text([without(GROUP), without(replace(GROUP, title="Owl"))], [("a.knit.yaml", "no size"), ("b", "c")])
    line = "  Linnet: still knitting, as it was in 77ab001 of 2026-08-02\n"
    assert told == (
        f"Fox cushion  fox.pattern.yaml\n\n1 knitter, 0 finished\n{line}\n"
        f"Owl  fox.pattern.yaml\n\n1 knitter, 0 finished\n{line}\n"
        "Left out\n  a.knit.yaml: no size\n  b: c\n"
    )


def test_a_pattern_that_nobody_has_taken() -> None:
    told = knits_text([replace(without(GROUP), sizes={ONE_SIZE: ()})])
    assert told == "Fox cushion  fox.pattern.yaml\n\nNobody has taken it\n"


def test_where_there_is_nothing_that_is_said() -> None:
    assert knits_text([]) == "there are no test knits and no patterns here\n"


def remark(row: int, kind: str, said: str, *, open: bool, **more: object) -> dict[str, object]:
    """As programs read it; what is not said is null."""
    blank = {"piece": None, "side": None, "stitches": None, "answered": None}
    return {"row": row, "kind": kind, "said": said, "open": open, **(blank | more)}


def yarn(name: str, used: str, metres: float | None, planned: float | None, ratio: float | None) -> dict[str, object]:
    return {"yarn": name, "used": used, "metres": metres, "planned_metres": planned, "ratio": ratio}


def gauge(stitches: float, rows: float) -> dict[str, object]:
    return {"stitches": stitches, "rows": rows, "over": "10 cm"}


JSON = {
    "schema": "lintarsia/knits/1",
    "patterns": [
        {
            "pattern": "fox.pattern.yaml", "title": "Fox cushion", "version": "1.2", "fingerprint": "00000000000000aa",
            "sizes": [
                {"size": "small", "knits": [
                    {
                        "file": "wren.knit.yaml", "knitter": "Wren", "fingerprint": "00000000000000aa",
                        "revision": "now", "commit": None, "same_stitches": True, "finished": "2026-11-05",
                        "gauge": {"measured": gauge(21, 29.5), "stated": gauge(20, 28)},
                        "yarns": [yarn("oat", "65.6 g", 157.44, 161.0, 0.978),
                                  yarn("rust", "16.2 m", 16.2, 17.5, 0.926)],
                        "hours": 12.5,
                        "rows": [
                            remark(5, "question", "which way round?", open=False, side="WS",
                                   answered="the fox looks to the left"),
                            remark(14, "trouble", "a yarn too few", open=True, piece="front", side="RS",
                                   stitches=[7, 9]),
                            remark(2, "praise", "a lovely edge", open=False, piece="front"),
                        ],
                        "remarks": "knitted with pleasure", "site": True,
                    },
                    {
                        "file": "finch.knit.yaml", "knitter": "Finch", "fingerprint": "00000000000000bb",
                        "revision": "then", "commit": "3f2a19c of 2026-10-01", "same_stitches": True,
                        "finished": "2026-10-20", "gauge": {"measured": None, "stated": gauge(20, 28)},
                        "yarns": [yarn("moss", "3 g", 7.5, None, None)], "hours": None,
                        "rows": [remark(14, "trouble", "one is loose", open=True, piece="front", stitches=[3, 3])],
                        "remarks": None, "site": True,
                    },
                    {
                        "file": "siskin.knit.yaml", "knitter": "Siskin", "fingerprint": "00000000000000cc",
                        "revision": "unknown", "commit": None, "same_stitches": None, "finished": "2026-09-30",
                        "gauge": {"measured": gauge(19, 27), "stated": None},
                        "yarns": [yarn("oat", "2 oz", None, 161.0, None)], "hours": 9.0, "rows": [],
                        "remarks": None, "site": False,
                    },
                ]},
                {"size": "medium", "knits": []},
                {"size": "large", "knits": [
                    {
                        "file": "pipit.knit.yaml", "knitter": "Pipit", "fingerprint": None, "revision": "unsaid",
                        "commit": None, "same_stitches": None, "finished": None,
                        "gauge": {"measured": None, "stated": None}, "yarns": [], "hours": None,
                        "rows": [remark(9, "question", "on which side?", open=True, piece="back")],
                        "remarks": "slow work", "site": True,
                    },
                    {
                        "file": "linnet.knit.yaml", "knitter": "Linnet", "fingerprint": "00000000000000dd",
                        "revision": "then", "commit": "77ab001 of 2026-08-02", "same_stitches": False,
                        "finished": None, "gauge": {"measured": None, "stated": None}, "yarns": [], "hours": None,
                        "rows": [], "remarks": None, "site": True,
                    },
                ]},
            ],
            "odd": [
                {"knitter": "Siskin", "yarn": "rust", "times": 2.5}, {"knitter": "Siskin", "yarn": "oat", "times": 1.4},
                {"knitter": "Finch", "yarn": "oat", "times": 0.402},
            ],
            "calibration": {
                "knitters": ["Wren", "Finch"], "without_gauge": ["Finch"],
                "outliers": [{"knitter": "Siskin", "times": 1.625}], "constant": 3.812,
                "loops": [
                    {"chart": "fox.chart.yaml", "stated": False, "was_mm": 20.5, "mm": 19.04, "spread_mm": 0.71},
                    {"chart": "owl.chart.yaml", "stated": True, "was_mm": 18.2, "mm": 17.3, "spread_mm": None},
                ],
                "off": {"before": 0.081, "after": 0.025},
            },
        }
    ],
    "left_out": [{"file": "a.knit.yaml", "why": "no size"}],
}  # fmt: skip


def test_all_of_it_for_programs() -> None:
    text = knits_json([GROUP], [("a.knit.yaml", "no size")])
    assert json.loads(text) == JSON
    jsonschema.validate(json.loads(text), json.loads(resource("schema/knits.schema.json").read_text("utf-8")))


def test_the_file_for_programs_is_one_that_people_can_look_into() -> None:
    text = knits_json([replace(GROUP, title="Füchse")])
    assert text.startswith('{\n  "schema"')
    assert text.endswith("}\n")
    assert "Füchse" in text


def sheet(*knits: object) -> list[dict[str, str]]:
    text = knits_csv([replace(GROUP, sizes={"small": knits})])  # type: ignore[dict-item]
    assert "\r" not in text
    return list(csv.DictReader(StringIO(text)))


def test_a_line_of_the_sheet() -> None:
    first, second = sheet(WREN)
    assert first == {
        "pattern": "fox.pattern.yaml", "size": "small", "knitter": "Wren", "revision": "now",
        "fingerprint": "00000000000000aa", "finished": "2026-11-05", "hours": "12.5", "stitches": "21",
        "stated_stitches": "20", "rows": "29.5", "stated_rows": "28", "over": "10 cm", "yarn": "oat", "used": "65.6 g",
        "metres": "157.4", "planned_metres": "161", "ratio": "0.978", "open_remarks": "1", "file": "wren.knit.yaml",
    }  # fmt: skip
    assert (second["yarn"], second["used"], second["metres"], second["planned_metres"]) == (
        "rust", "16.2 m", "16.2", "17.5",
    )  # fmt: skip


def test_who_weighed_nothing_has_a_line_too() -> None:
    (line,) = sheet(PIPIT)
    assert {name: cell for name, cell in line.items() if cell} == {
        "pattern": "fox.pattern.yaml", "size": "large", "knitter": "Pipit", "revision": "unsaid", "open_remarks": "1",
        "file": "pipit.knit.yaml",
    }  # fmt: skip
    assert list(line) == list(HEAD)


def test_what_nobody_knows_is_an_empty_cell() -> None:
    (finch,), (siskin,) = sheet(FINCH), sheet(SISKIN)
    assert (finch["stitches"], finch["rows"], finch["over"], finch["stated_rows"]) == ("", "", "", "28")
    assert (finch["metres"], finch["planned_metres"], finch["ratio"], finch["hours"]) == ("7.5", "", "", "")
    assert (siskin["rows"], siskin["stated_stitches"], siskin["stated_rows"]) == ("27", "", "")
    assert (siskin["metres"], siskin["planned_metres"]) == ("", "161")


def test_no_cell_is_a_formula() -> None:
    """What OWASP lists under "CSV Injection" (from memory): = + - @ and, at the beginning, tab and carriage return."""
    for sign in ("=", "+", "-", "@", "\t"):
        (line,) = sheet(replace(WREN, knitter=f"{sign}1+1", yarns=(YarnUse("oat", "1 m", 1.0, None, None),)))
        assert line["knitter"] == f"'{sign}1+1"
    (line,) = sheet(replace(WREN, knitter="1=1", yarns=()))
    assert line["knitter"] == "1=1"
