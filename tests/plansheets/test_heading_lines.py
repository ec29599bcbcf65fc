"""The lines above a plan, and the heads of plans side by side, each spelt out; the figures were counted by hand."""

from dataclasses import replace

import pytest
from test_sheets_whole import GAUGE, TEXT, planned

from lintarsia.chart import Begins, Chart, Worked
from lintarsia.chart.ways import Technique
from lintarsia.ground.trouble import Trouble
from lintarsia.planning.edgework import EdgeRun
from lintarsia.planning.planner import make_plan
from lintarsia.plansheets.materials import materials
from lintarsia.plansheets.rowtable import row_table, wrap
from lintarsia.plansheets.sidebyside import compare_text, parse_try, try_limits
from lintarsia.plansheets.stating import state_supplies
from lintarsia.plansheets.text import edge_line, heading, limits_line, words_of
from lintarsia.reading import read_chart
from lintarsia.reporting.screen import PLAIN, Screen


def edge(*parts: tuple[str, int]) -> list[EdgeRun]:
    (run, *_) = planned()[1].cast_on
    return [run._replace(colour=colour, stitches=stitches) for colour, stitches in parts]


def test_what_is_cast_on_by_colour() -> None:
    assert edge_line("cast on", edge(("B", 1204))) == "cast on 1,204 B"
    assert edge_line("cast on", edge(("B", 3), ("7", 12), ("B", 4))) == 'cast on 3 B, 12 "7", 4 B, in this order'
    twelve = edge(*[("AB"[n % 2], 3) for n in range(12)])
    assert edge_line("bind off", twelve) == f"bind off {', '.join(['3 A, 3 B'] * 6)}, in this order"
    assert edge_line("bind off", [*twelve, *edge(("Q", 2000))]) == "bind off 2,036 stitches in 3 colours"


@pytest.mark.parametrize(
    ("begins", "line"),
    [
        (Begins.CAST_ON, "cast on 2 A, 1 Q, 2 B, in this order"),
        (Begins.PICKED_UP, "begin on 5 stitches, picked up"),
        (Begins.ON_NEEDLE, "begin on 5 stitches, on the needle already"),
    ],
)
def test_where_the_first_stitches_come_from(begins: Begins, line: str) -> None:
    chart, plan = planned()
    assert heading(replace(chart, begins=begins), plan, PLAIN)[-1] == line


def test_what_is_knitted_and_how_far_a_yarn_goes() -> None:
    chart, plan = planned()
    assert words_of(chart) == "intarsia, worked flat, 5 stitches × 3 rows"
    assert words_of(replace(chart, worked=Worked.ROUND)) == "intarsia, worked in the round, 5 stitches × 3 rounds"
    assert words_of(replace(chart, worked=Worked.TURNED)) == "intarsia, a tube, turned, 5 stitches × 3 rows"
    assert limits_line(chart, plan) == "within strand 0 · carry 5 · idle 2"
    stranded = replace(chart, technique=Technique.STRANDED)
    free = limits_line(stranded, make_plan(stranded))
    assert free == "yarns run on without bound; a float is long above 2.5 cm"
    bound = replace(stranded, limits=replace(chart.limits, idle=4))
    assert limits_line(bound, make_plan(bound)) == "within strand any · carry any · idle 4"


def test_plans_side_by_side_are_named_by_what_they_change() -> None:
    chart, _ = planned()
    columns = try_limits(chart, [parse_try("strand=3"), parse_try("strand=3,carry=2 cm,idle=4")], make_plan)
    assert [column.name for column in columns] == ["as stated", "strand 3", "strand 3, carry 2 cm, idle 4"]
    assert [column.changes for column in columns] == [{}, {"strand": 3}, {"strand": 3, "carry": "2 cm", "idle": 4}]
    assert compare_text(chart, columns, PLAIN).splitlines()[:7] == [
        'Lopsided, "quoted"',
        "",
        " " * 54 + "strand 3",
        " " * 52 + "carry 2 cm",
        " " * 25 + "as stated      strand 3        idle 4",
        "supplies                         3             3             3",
        "ends to weave in                 6             6             6",
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("foo=3", "'foo' is no limit; there are supplies, strand, carry, idle, float"),
        ("strnd=3", "'strnd' is no limit; did you mean 'strand'?"),
        ("carry=5, strand", "'strand' gives no value; write strand=3"),
        ("strand=", "'strand=' gives no value; write strand=3"),
        ("idle=x", "idle takes a whole number of 0 or more; found 'x'"),
        ("supplies=0", "supplies takes a whole number of 1 or more; found '0'"),
        ("supplies=3,idle=-1", "idle takes a whole number of 0 or more; found '-1'"),
        ("strand=1234567", "strand takes a whole number of 0 or more; found '1234567'"),
    ],
)
def test_a_limit_that_is_none(text: str, message: str) -> None:
    with pytest.raises(ValueError, match=r"[a-z]") as caught:
        parse_try(text)
    assert str(caught.value) == message


def test_supplies_that_are_no_mapping_are_left_alone() -> None:
    with pytest.raises(Trouble, match=r"^supplies: is no mapping of colours; nothing was written$"):
        state_supplies("colours: {B: 1}\nsupplies: 3\n", {"B": []})


def test_the_heading_whole() -> None:
    chart, plan = planned()
    assert heading(chart, plan, PLAIN) == [
        'Lopsided, "quoted"',
        "intarsia, worked flat, 5 stitches × 3 rows",
        "",
        "3 supplies, 6 ends, at most 3 in a row (limit 8)",
        "15 stitches, 1.8 m of yarn, 1 stitch carried, 0 rows waited",
        "within strand 0 · carry 5 · idle 2",
        "18.6 mm of yarn a stitch, reckoned from the gauge; a measured loop is surer",
        "cast on 2 A, 1 Q, 2 B, in this order",
    ]


def test_of_a_tube_rounds_are_told() -> None:
    chart, plan = planned()
    tube = replace(chart, technique=Technique.STRANDED, worked=Worked.ROUND)
    told = heading(tube, make_plan(tube), PLAIN)
    assert told[1] == "stranded, worked in the round, 5 stitches × 3 rounds"
    assert [line.split(", ")[-1] for line in told[3:5]] == ["at most 3 in a round (limit 8)", "0 rounds waited"]
    table = compare_text(tube, try_limits(tube, [parse_try("carry=3")], make_plan), Screen(80))
    assert "fullest round" in table
    assert "rounds waited" in table
    assert plan.totals.idle == 0


@pytest.mark.parametrize(
    ("width", "tables"),
    [
        (80, ["as stated carry 3 carry 4 carry 6", "as stated carry 7"]),
        (62, ["as stated carry 3 carry 4", "as stated carry 6 carry 7"]),
        (20, ["as stated carry 3", "as stated carry 4", "as stated carry 6", "as stated carry 7"]),
    ],
)
def test_as_many_plans_in_a_table_as_the_width_has_room_for(width: int, tables: list[str]) -> None:
    chart, _ = planned()
    columns = try_limits(chart, [parse_try(f"carry={n}") for n in (3, 4, 6, 7)], make_plan)
    assert columns[2].changes == {"carry": 4}
    lines = compare_text(chart, columns, Screen(width=width)).splitlines()
    assert [" ".join(line.split()) for line in lines if "as stated" in line] == tables


def drawn(*rows: str) -> Chart:
    text = TEXT.format(gauge=GAUGE).partition("chart: |")[0] + "chart: |\n" + "".join(f"  {row}\n" for row in rows)
    chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    return chart


def test_one_crowded_row_is_summed_up() -> None:
    """Thirty yarns in row 3, and two in the others."""
    crowded = drawn("AB" * 15, "A" * 30, "A" * 20 + "B" * 10)
    told = [line.rstrip() for line in row_table(crowded, make_plan(crowded), PLAIN, whole=False)]
    assert told[2] == "  1 RS       ←       2      2       –  B1+ A1+"
    assert told[4:] == [
        "  3 RS       ←      30     30       2  28 joined, 30 finish",
        "  --all names the yarns of every row",
    ]
    named = row_table(crowded, make_plan(crowded), PLAIN, whole=True)
    assert not any("--all" in line for line in named)
    assert sum(line.count("*") for line in named[1:]) == 30
    plain = drawn("A" * 20 + "B" * 10)
    assert not any("--all" in line for line in row_table(plain, make_plan(plain), PLAIN, whole=False))


@pytest.mark.parametrize(("balls", "note"), [("0.5", ["    the file has 0.5"]), ("1", []), ("2", [])])
def test_fewer_balls_than_are_needed_are_told(balls: str, note: list[str]) -> None:
    stated = f"{{{{dk: {{{{name: DK, length: 1 m, mass: 50 g, balls: {balls}}}}}}}}}"
    text = TEXT.replace("{{dk: {{name: DK}}}}", stated).format(gauge=GAUGE)
    chart = read_chart("x.chart.yaml", text.encode()).chart
    assert chart is not None
    told = materials(chart, make_plan(chart), PLAIN, 0.1, buying=True)
    bought = "  DK                           A             62 cm + 6 cm     34 g    1 ball"
    assert told[told.index("To buy, with 10% to spare") + 1 :] == [bought, *note]


def test_yarns_go_on_below_where_they_began() -> None:
    """A word that is wider than the screen stands beside the head all the same."""
    assert [line.rstrip() for line in wrap("  1 RS  ", "A1 B12 A2", 13)] == ["  1 RS  A1", "        B12", "        A2"]
    assert [line.rstrip() for line in wrap("  1 RS  ", "A1 B1 A2", 14)] == ["  1 RS  A1 B1", "        A2"]
    assert [line.rstrip() for line in wrap("  1 RS  ", "everything A2", 12)] == ["  1 RS  everything", "        A2"]
