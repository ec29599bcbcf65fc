"""`lintarsia plan` as its callers meet it."""

import csv
import io
import json
import re
from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.main import main

Run = Callable[..., tuple[int, str, str]]
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.chart.yaml"))
BLOBS = "BBBBBBBBBB\nBBBBBBBWBB\nBBWBBBBWBB\nBBWBBBBBBB\nBBBBBBBBBB\n"


@pytest.fixture
def run(capfd: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """Run the command line in the test's folder: (status, standard output, standard error)."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_DEBUG", raising=False)
    monkeypatch.delenv("COLORTERM", raising=False)

    def run(*argv: str) -> tuple[int, str, str]:
        status = main(["plan", *argv])
        return status, *capfd.readouterr()

    return run


def test_the_sheet(run: Run, write_chart: Callable[..., Path]) -> None:
    """B1 by hand: 10 + 2 + 2 + 7 stitches × 18.64 mm (22 to 10 cm, Munden) + 30 cm = 69 cm, and 10 stitches cast on at
    3 × 4.55 mm with 15 cm to spare = 98 cm; with 10 % 1.08 m. B2 binds off ten instead: 83 cm, with 10 % 91. B1 and W1
    are the longest of their colours, or the first of two that are as long.
    """
    write_chart(grid=BLOBS)
    status, out, err = run("toy.chart.yaml")
    assert (status, err) == (OK, "")
    assert out == (
        "Toy\n"
        "intarsia, worked flat, 10 stitches × 5 rows\n"
        "\n"
        "5 supplies, 10 ends, at most 5 in a row (limit 8)\n"
        "50 stitches, 2.9 m of yarn, 0 stitches carried, 0 rows waited\n"
        "within strand 0 · carry 5 · idle 2\n"
        "18.6 mm of yarn a stitch, reckoned from the gauge; a measured loop is surer\n"
        "cast on 10 B\n"
        "\n"
        "Colours\n"
        "  B  Dusk blue                      3 supplies       46 stitches      2.2 m\n"
        "  W  Bone                           2 supplies        4 stitches      67 cm\n"
        "\n"
        "To wind, tails and 10% to spare included\n"
        "      B1     1.1 m  on the ball   row 1 at stitch 1, to row 4\n"
        "      W1     40 cm  on the ball   row 2 at stitch 8, to row 3\n"
        "  [ ] B2     95 cm  loose strand  row 2 at stitch 7, to row 5\n"
        "  [ ] W2     40 cm  loose strand  row 3 at stitch 3, to row 4\n"
        "  [ ] B3     45 cm  loose strand  row 3 at stitch 4 only\n"
        "\n"
        "Rows: yarns in working order, + joined here, * finishes here\n"
        "  row            needs  hangs  twists  yarns\n"
        "  1 RS       ←       1      1       –  B1+\n"
        "  2 WS       →       3      3       –  B1 W1+ B2+\n"
        "  3 RS       ←       5      5       2  B2 W2+ B3+* W1* B1\n"
        "  4 WS       →       3      3       2  B1* W2* B2\n"
        "  5 RS       ←       1      1       –  B2*\n"
    )


def test_a_window_of_rows(run: Run, write_chart: Callable[..., Path]) -> None:
    """Rows to and fro in which nothing happens are one entry, with the order of both."""
    write_chart(grid="BBBBBBBB\n" + "BBWWWBBB\n" * 6 + "BBBBBBBB\n")
    _, out, _ = run("toy.chart.yaml", "--rows", "2-6")
    table = out[out.index("Rows:") :]
    assert table.splitlines()[1:] == [
        "  row            needs  hangs  twists  yarns",
        "  2 WS       →       3      3       –  B1 W1+ B2+",
        "  3–6 RS     ←       3      3       2  B2 W1 B1",
        "      WS     →                         B1 W1 B2",
    ]
    assert "To wind" not in out
    _, out, _ = run("toy.chart.yaml", "--rows", "4", "--format", "csv-rows")
    assert [line.split(",")[:5] for line in out.splitlines()] == [
        ["row", "side", "direction", "needs", "hangs"],
        ["4", "WS", "left-to-right", "3", "3"],
    ]


@pytest.mark.parametrize(
    ("options", "message"),
    [
        (["--rows", "0"], "expected a row such as 12"),
        (["--rows", "5-2"], "expected a row such as 12"),
        (["--rows", "2-x"], "expected a row such as 12"),
        (["--rows", "2-9"], "the chart has 5 rows; asked for up to 9"),
        (["--rows", "2", "--what-if"], "--rows shows a part of the row table"),
        (["--rows", "2", "--format", "json"], "--rows shows a part of the row table"),
    ],
)
def test_windows_that_cannot_be_shown(
    run: Run, write_chart: Callable[..., Path], options: list[str], message: str
) -> None:
    write_chart(grid=BLOBS)
    status, out, err = run("toy.chart.yaml", *options)
    assert (status, out) == (CANNOT, "")
    assert message in " ".join(err.split())


@pytest.mark.parametrize("example", EXAMPLES, ids=lambda path: path.name.partition(".")[0])
def test_every_example_fits_the_screen(run: Run, example: Path) -> None:
    for options in ((), ("--all",), ("--what-if",), ("--try", "strand=3", "--try", "carry=5,idle=0,float=2 cm")):
        status, out, err = run(str(example), *options)
        assert (status, err) == (OK, "")
        assert [line for line in out.splitlines() if len(line) > 80 or line != line.rstrip()] == []
        assert "\x1b" not in out


def test_swatches_where_they_are_asked_for(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid=BLOBS)
    _, plain, _ = run("toy.chart.yaml")
    _, out, _ = run("toy.chart.yaml", "--color", "always")
    assert "\x1b[48;2;39;64;107m  \x1b[0m B1" in out  # #27406b
    bare = re.sub(r"\x1b\[[0-9;]*m", "", out)
    assert [line.split() for line in bare.splitlines()] == [line.split() for line in plain.splitlines()]
    assert max(map(len, bare.splitlines())) <= 80


def test_inches_where_the_gauge_is_in_inches(run: Run, write_chart: Callable[..., Path]) -> None:
    file = write_chart(grid=BLOBS)
    file.write_text(file.read_text().replace("over: 10 cm", "over: 4 in"))
    _, out, _ = run("toy.chart.yaml")
    assert re.search(r" B1 +1\.25 yd  on the ball ", out)
    assert " cm" not in out
    assert " m " not in out


def test_json_as_the_contract_has_it(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid=BLOBS)
    status, out, err = run("toy.chart.yaml", "--format", "json")
    assert (status, err) == (OK, "")
    plan = json.loads(out)
    assert plan["schema"] == "lintarsia/plan/1"
    assert (plan["chart"], plan["worked"], plan["technique"]) == ("toy.chart.yaml", "flat", "intarsia")
    assert plan["limits"].items() >= {"supplies": 8, "strand": 0, "carry": 5, "idle": 2, "float_mm": 25.0}.items()
    assert plan["totals"] == {
        "continued": 8, "supplies": 5, "ends": 10, "carried": 0, "idle": 0, "stitches": 50, "metres": 2.85,
        "most_in_a_row": 5, "most_hanging": 5,
    }  # fmt: skip
    assert plan["colours"]["W"] == {"supplies": 2, "stitches": 4, "metres": 0.67, "grams": None, "balls": None}
    b1 = plan["supplies"][0]
    assert list(b1)[:9] == [
        "id", "colour", "first_row", "last_row", "stitches", "carried", "idle", "metres", "holder",
    ]  # fmt: skip
    assert plan["rows"][2] == {
        "row": 3, "side": "RS", "direction": "right-to-left", "line_up": ["B2", "W2", "B3", "W1", "B1"],
        "joins": ["W2", "B3"], "finishes": ["B3", "W1"], "waiting": [], "interlocks": 2, "crossings": 0, "needs": 5,
        "hangs": 5,
    }  # fmt: skip
    assert (b1["holder"], b1["wound"]) == ("ball", False)
    assert plan["cast_on"] == [{"colour": "B", "stitches": 10, "by": "B1"}]
    assert plan["bind_off"] == [{"colour": "B", "stitches": 10, "by": "B2"}]
    assert plan["floats"] == {"count": 0, "longest": 0, "longest_mm": 0.0, "over_limit": 0}
    assert plan["reckoned"] == {"loop_mm": 18.64, "from": "gauge"}
    assert (plan["allowance"], plan["tail_mm"]) == (0.1, 150.0)
    assert out.count("\n") < 44, "a supply and a row to a line"


def test_json_has_no_bound_as_null(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid=BLOBS, extra="technique: stranded\n")
    _, out, _ = run("toy.chart.yaml", "--format", "json")
    assert [json.loads(out)["limits"][name] for name in ("strand", "carry", "idle")] == [None, None, None]


def test_csv(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid=BLOBS)
    _, supplies, _ = run("toy.chart.yaml", "--format", "csv")
    table = list(csv.DictReader(io.StringIO(supplies)))
    assert [line["id"] for line in table] == ["B1", "W1", "B2", "W2", "B3"]
    assert sum(int(line["stitches"]) for line in table) == 50
    assert (table[0]["join_stitch"], table[0]["finish_stitch"], table[0]["name"]) == ("1", "4", "Dusk blue")
    _, rows, _ = run("toy.chart.yaml", "--format", "csv-rows")
    table = list(csv.DictReader(io.StringIO(rows)))
    assert table[2]["line_up"] == "B2 W2 B3 W1 B1"
    assert [line["needs"] for line in table] == ["1", "3", "5", "3", "1"]


def test_output_into_a_file(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart(grid=BLOBS)
    assert run("toy.chart.yaml", "--format", "json", "--output", "plan.json") == (OK, "", "")
    assert json.loads((tmp_path / "plan.json").read_text())["totals"]["supplies"] == 5
    status, out, err = run("toy.chart.yaml", "--output", "no/such/folder/plan.txt")
    assert (status, out) == (CANNOT, "")
    assert "cannot be written" in err


def test_settings_side_by_side(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid=BLOBS)
    status, out, _ = run("toy.chart.yaml", "--try", "strand=1", "--try", "carry=9, idle=4")
    assert status == OK
    lines = [line.split() for line in out.splitlines()]
    assert lines[3] == ["as", "stated", "strand", "1", "idle", "4"]
    assert ["supplies", "5", "3", "5"] in lines
    assert ["longest", "float", "–", "5", "mm", "–"] in lines
    _, out, _ = run("toy.chart.yaml", "--try", "strand=1", "--format", "json")
    plan = json.loads(out)
    (tried,) = plan["tries"]
    assert (plan["totals"]["supplies"], tried["settings"], tried["totals"]["supplies"]) == (5, {"strand": 1}, 3)
    assert tried["longest_float"] == 1


@pytest.mark.parametrize(
    ("asked", "words"),
    [
        ("strnd=3", "'strnd' is no limit; did you mean 'strand'?"),
        ("strand", "'strand' gives no value; write strand=3"),
        ("strand=-1", "strand takes a whole number of 0 or more; found '-1'"),
        ("float=far", "'far' is neither a length (2.5 cm) nor a count (5 stitches)"),
        ("supplies=0", "supplies takes a whole number of 1 or more; found '0'"),
        ("carry=5,,idle=2", "'' is no limit; there are supplies, strand, carry, idle, float"),
    ],
)
def test_a_try_that_cannot_be(run: Run, write_chart: Callable[..., Path], asked: str, words: str) -> None:
    write_chart(grid=BLOBS)
    status, out, err = run("toy.chart.yaml", "--try", asked)
    assert (status, out) == (CANNOT, "")
    assert words in " ".join(err.split())


def test_small_areas_weighed(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="BBBBBBBB\nBBBBWBBB\nBBBBBBBB\n", extra="wearer: infant\n")
    status, out, _ = run("toy.chart.yaml", "--what-if")
    assert status == OK
    lines = [line.split() for line in out.splitlines()]
    assert ["as", "planned", "3", "6", "1.7", "m", "–", "3"] in lines
    assert "W  row 2, stitch 4: 1 stitch in B" in out
    assert ["own", "supply", "3", "6", "1.7", "m", "–", "3"] in lines
    assert ["stranded", "behind", "it", "2", "(-1)", "4", "1.4", "m", "5", "mm", "2"] in lines
    assert ["duplicate", "stitch", "1", "(-2)", "4", "1.4", "m", "–", "1"] in lines
    assert "fingers and toes" in out
    _, out, _ = run("toy.chart.yaml", "--what-if", "--format", "json")
    (area,) = json.loads(out)["what_if"]
    assert (area["own_supply"]["supplies"], area["stranded"]["supplies"], area["duplicate_stitch"]["ends"]) == (3, 2, 4)


def test_more_areas_than_anybody_reads_are_weighed_only_when_asked_for(
    run: Run, write_chart: Callable[..., Path], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Three specks; the house value is a hundred, which weighing in noise takes half a minute for."""
    monkeypatch.setattr("lintarsia.plansheets.choices.MOST_WEIGHED", 2)
    write_chart(grid="BBBBBBB\nBBWBBBB\nBBBBBBB\nBBBBWBB\nBBBBBBB\nBWBBBBB\nBBBBBBB\n")
    _, out, _ = run("toy.chart.yaml", "--what-if")
    assert [line for line in out.splitlines() if line.startswith("W  ")] == [
        "W  row 2, stitch 6: 1 stitch in B",
        "W  row 4, stitch 3: 1 stitch in B",
    ]
    said = "these are the first 2 areas from row 1 up; 1 more was not weighed (--all weighs every one)"
    assert said in " ".join(out.split())
    some = json.loads(run("toy.chart.yaml", "--what-if", "--format", "json")[1])
    assert (len(some["what_if"]), some["what_if_left_out"]) == (2, 1)
    _, out, _ = run("toy.chart.yaml", "--what-if", "--all")
    assert "W  row 6, stitch 5" in out
    assert "weighed" not in out
    every = json.loads(run("toy.chart.yaml", "--what-if", "--all", "--format", "json")[1])
    assert (len(every["what_if"]), every["what_if_left_out"]) == (3, 0)
    assert "what_if_left_out" not in json.loads(run("toy.chart.yaml", "--format", "json")[1])


def test_how_small_is_small(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="BBBBBBBB\nBBBWWBBB\nBBBBBBBB\n")
    assert "no area is so small" in run("toy.chart.yaml", "--largest", "1")[1]
    assert "W  row 2, stitches 4–5: 2 stitches in B" in run("toy.chart.yaml", "--largest", "2")[1]


def test_no_small_area(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="BBBBWWWW\n" * 4)
    assert run("toy.chart.yaml", "--what-if") == (OK, "Toy\n\nno area is so small that there is a choice to make\n", "")


def test_supplies_written_into_the_file(run: Run, write_chart: Callable[..., Path]) -> None:
    file = write_chart(grid=BLOBS)
    before = file.read_text()
    assert run("toy.chart.yaml", "--write") == (OK, "toy.chart.yaml: supplies written (B 3, W 2)\n", "")
    assert file.read_text() == before.replace("chart: |", "supplies:\n  B: 3\n  W: 2\nchart: |")
    said = "toy.chart.yaml: the supplies stand as planned already (B 3, W 2)\n"
    assert run("toy.chart.yaml", "--write") == (OK, said, "")


@pytest.mark.parametrize(
    "options",
    [
        ("--try", "carry=1", "--what-if"),
        ("--format", "csv", "--what-if"),
        ("--write", "--format", "json"),
        ("--write", "--what-if"),
        ("--write", "--output", "x"),
        ("--nonsense",),
    ],
)
def test_options_that_do_not_go_together(run: Run, write_chart: Callable[..., Path], options: tuple[str, ...]) -> None:
    file = write_chart(grid=BLOBS)
    before = file.read_text()
    status, out, err = run("toy.chart.yaml", *options)
    assert (status, out) == (CANNOT, "")
    assert "Error" in err
    assert file.read_text() == before


def test_a_path_that_is_not_there(run: Run) -> None:
    assert run("none.chart.yaml") == (CANNOT, "", "lintarsia: there is no file 'none.chart.yaml'\n")


def test_a_pattern_without_pieces(run: Run, tmp_path: Path) -> None:
    (tmp_path / "vest.pattern.yaml").write_text("lintarsia-pattern: 1\n")
    status, out, err = run("vest.pattern.yaml")
    assert (status, out) == (FOUND, "")
    assert err.endswith("lintarsia: no plan can be made of this pattern until that is mended\n")


def test_a_chart_that_cannot_be_read(run: Run, write_chart: Callable[..., Path]) -> None:
    file = write_chart(grid=BLOBS)
    file.write_text(file.read_text().replace("worked: flat", "worked: flatly"))
    status, out, err = run("toy.chart.yaml")
    assert (status, out) == (FOUND, "")
    assert err.startswith("toy.chart.yaml:3:")
    assert "[file/schema]" in err
    assert "no plan can be made of this chart" in err


def test_a_folder_is_no_chart(run: Run, tmp_path: Path) -> None:
    (tmp_path / "charts").mkdir()
    status, out, err = run("charts")
    assert (status, out) == (CANNOT, "")
    assert "is a folder without charts" in err


def test_a_chart_from_standard_input(run: Run, write_chart: Callable[..., Path], monkeypatch) -> None:
    file = write_chart(grid=BLOBS)
    text = file.read_bytes()
    file.unlink()
    monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(text)))
    status, out, err = run("-", "--format", "json")
    assert (status, err) == (OK, "")
    assert json.loads(out)["totals"]["supplies"] == 5
    status, out, err = run("-", "--write")
    assert (status, out) == (CANNOT, "")
    assert "it takes a file" in err


def test_floats_of_a_small_child_come_with_a_caution(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="BWWB\n", extra="technique: stranded\nwearer: infant\n")
    _, out, _ = run("toy.chart.yaml")
    assert "1 float, the longest 9 mm\n" in out
    assert "Small fingers and toes catch in floats" in out
    write_chart("adult.chart.yaml", grid="BWWB\n", extra="technique: stranded\nwearer: adult\n")
    assert "Small fingers" not in run("adult.chart.yaml")[1]


def test_a_faulty_grid_is_not_written_to(run: Run, write_chart: Callable[..., Path]) -> None:
    for grid, words in (("BBBB\nBWB\n", "its rows differ in length"), ("BBXB\n", "symbols that the key lacks")):
        file = write_chart(grid=grid)
        before = file.read_text()
        status, out, err = run("toy.chart.yaml", "--write")
        assert (status, out) == (FOUND, "")
        assert words in err
        assert file.read_text() == before


def test_ragged_rows_are_planned_with_a_word(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="BBBB\nBWB\nBBBB\n")
    status, out, err = run("toy.chart.yaml")
    assert status == OK
    assert "the rows differ in length" in err
    assert "11 stitches" in out


def test_settings_hold(run: Run, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart(grid=BLOBS)
    (tmp_path / "lintarsia.yaml").write_text("limits: {supplies: 4, strand: 1}\nyarn: {tail: 20 cm, allowance: 25 %}\n")
    _, out, _ = run("toy.chart.yaml", "--format", "json")
    plan = json.loads(out)
    assert (plan["limits"]["supplies"], plan["limits"]["strand"], plan["totals"]["supplies"]) == (4, 1, 3)
    assert (plan["allowance"], plan["tail_mm"]) == (0.25, 200.0)


def test_many_supplies_are_gathered_unless_all_are_asked_for(run: Run, write_chart: Callable[..., Path]) -> None:
    write_chart(grid="WB" * 40 + "\n")
    _, out, _ = run("toy.chart.yaml")
    assert "      W  1 on the ball           55 cm\n  [ ] W  39 loose strands        55 cm\n" in out
    assert "80 supplies in all; --all lists each" in out
    assert "  1 RS       ←      80     80       –  80 joined, 80 finish\n  --all names the yarns of every row\n" in out
    _, out, _ = run("toy.chart.yaml", "--all")
    assert (out.count("[ ]"), out.count("on the ball")) == (78, 2)
    assert "B40+* W40+*" in " ".join(out.split())
