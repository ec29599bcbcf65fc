"""`lintarsia start`: what it writes has nothing to read in a check, and it takes the place of nothing."""

import os
import subprocess
from collections.abc import Callable
from itertools import product
from pathlib import Path

import pytest
import yaml

from lintarsia.cli.exits import CANNOT, OK
from lintarsia.ground.replacing import create_file
from lintarsia.reading import read_chart

Invoke = Callable[..., tuple[int, str, str]]
SIZE = ("--stitches", "7", "--rows", "11")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    return tmp_path


def left() -> list[str]:
    return sorted(str(path) for path in Path().rglob("*") if path.is_file() and ".git/" not in str(path))


def test_a_chart_is_ready_to_draw_in(invoke: Invoke) -> None:
    assert invoke("start", "small_fox", *SIZE) == (
        OK,
        "",
        "written: small_fox.chart.yaml\ndraw in it, then: lintarsia check .\n",
    )
    assert left() == ["small_fox.chart.yaml"]
    chart = read_chart("small_fox.chart.yaml").chart
    assert chart is not None
    assert (chart.title, chart.grid.width, chart.grid.height) == ("Small fox", 7, 11)
    assert set(chart.grid.rows) == {"BBBBBBB"}
    text = Path("small_fox.chart.yaml").read_text()
    assert (
        "# The top line is row 11, the lowest is row 1. Each has 7 stitches; stitch 1 is at the right.\nchart: |"
        in text
    )


def test_the_second_colour_is_the_removal_of_one_sign_away(invoke: Invoke) -> None:
    invoke("start", "fox", *SIZE)
    text = Path("fox.chart.yaml").read_text()
    Path("fox.chart.yaml").write_text(text.replace("#  R:", "  R:").replace("BBBBBBB", "BBRRRBB"))
    assert invoke("check")[:2] == (OK, "1 chart: nothing to mend\n")


WAYS = [
    (worked, technique)
    for worked, technique in product(("flat", "round", "turned"), ("intarsia", "stranded", "mixed", None))
    if (worked, technique) != ("round", "intarsia")
]


@pytest.mark.parametrize(("worked", "technique"), WAYS)
@pytest.mark.parametrize("size", [("2", "2"), ("7", "11"), ("120", "90")])
def test_nothing_is_to_be_read_of_a_blank_chart(
    worked: str, technique: str | None, size: tuple[str, str], invoke: Invoke
) -> None:
    said = ("--technique", technique) if technique else ()
    arguments = ("--stitches", size[0], "--rows", size[1], "--worked", worked, *said, "--ground", "27406B")
    assert invoke("start", "fox", *arguments)[0] == OK
    assert invoke("check", "--block", "note") == (OK, "1 chart: nothing to mend\n", "")


def test_a_size_in_lengths_follows_from_the_gauge(invoke: Invoke) -> None:
    """20 stitches to 10 cm are 2 a centimetre; 24 rows to 4 in are 6 an inch."""
    invoke("start", "a", "--width", "21 cm", "--height", "30cm", "--gauge", "20x28")
    invoke("start", "b", "--width", "5 in", "--rows", "9", "--gauge", "18x24/4in")
    sizes = [read_chart(f"{name}.chart.yaml").chart.grid.cells.shape for name in "ab"]  # type: ignore[union-attr]
    assert sizes == [(84, 42), (9, 22)]  # 22.5 stitches, to the even one as Python rounds


def test_a_pattern_has_a_folder_with_a_chart_for_each_piece(invoke: Invoke) -> None:
    Path("other.chart.yaml").write_text("")
    arguments = ("--pattern", "--piece", "front,Left back", "--size", "small", "--size", "large", *SIZE)
    assert invoke("start", "vest", *arguments)[0] == OK
    assert left() == [
        "other.chart.yaml",
        "vest/front.chart.yaml",
        "vest/left-back.chart.yaml",
        "vest/vest.pattern.yaml",
    ]
    stated = yaml.safe_load(Path("vest/vest.pattern.yaml").read_text())
    assert stated["sizes"] == ["small", "large"]
    assert stated["pieces"] == {
        "front": {"chart": "front.chart.yaml", "times": 1},
        "Left back": {"chart": "left-back.chart.yaml", "times": 1},
    }
    assert invoke("check", "vest", "--block", "note") == (OK, "2 charts and 1 pattern: nothing to mend\n", "")


def test_the_comments_of_a_pattern_hold_when_the_signs_are_taken_away(invoke: Invoke) -> None:
    invoke("start", "vest", "--pattern", "--size", "small,large", *SIZE)
    file = Path("vest/vest.pattern.yaml")
    file.write_text(file.read_text().replace("#    ", "    "))
    assert invoke("check", "--block", "note") == (OK, "1 chart and 1 pattern: nothing to mend\n", "")


def test_in_a_repository_settings_and_hook_stand_at_its_top_if_it_has_none(invoke: Invoke) -> None:
    subprocess.run(["git", "init", "-q"], check=True)
    Path("charts").mkdir()
    assert invoke("start", "charts/fox", *SIZE)[0] == OK
    assert left() == [".pre-commit-config.yaml", "charts/fox.chart.yaml", "lintarsia.yaml"]
    assert invoke("check", "--block", "note")[:2] == (OK, "1 chart: nothing to mend\n")
    (hook,) = yaml.safe_load(Path(".pre-commit-config.yaml").read_text())["repos"]
    assert hook["hooks"][0]["entry"] == "lintarsia check --before-commit --"
    Path("lintarsia.yaml").write_text("block: note\n")
    Path(".pre-commit-config.yaml").write_text("repos: []\n")
    assert invoke("start", "charts/owl", *SIZE)[2].startswith("written: charts/owl.chart.yaml\ndraw")
    assert Path("lintarsia.yaml").read_text() == "block: note\n"
    assert Path(".pre-commit-config.yaml").read_text() == "repos: []\n"


def test_the_hooks_files_are_those_of_the_hook_that_is_published() -> None:
    from lintarsia.bringing.blank import HOOK

    root = Path(__file__).parents[2]
    published, _ = yaml.safe_load((root / ".pre-commit-hooks.yaml").read_text())
    (written,) = yaml.safe_load(HOOK)["repos"][0]["hooks"]
    assert {key: written[key] for key in ("entry", "files", "always_run", "require_serial")} == {
        key: published[key] for key in ("entry", "files", "always_run", "require_serial")
    }


def test_settings_as_written_are_in_order_with_every_line_switched_on(invoke: Invoke) -> None:
    from lintarsia.bringing.blank import SETTINGS

    first, *rest = SETTINGS.splitlines()
    Path("lintarsia.yaml").write_text("\n".join([first, *(line.removeprefix("# ") for line in rest)]) + "\n")
    invoke("start", "fox", *SIZE)
    assert invoke("check")[:2] == (OK, "1 chart: nothing to mend\n")


@pytest.mark.parametrize("there", ["fox.chart.yaml", "fox/fox.pattern.yaml", "fox/piece.chart.yaml"])
def test_nothing_is_written_over_and_then_nothing_is_written_at_all(there: str, invoke: Invoke) -> None:
    Path("fox").mkdir()
    Path(there).write_text("mine")
    more = () if there == "fox.chart.yaml" else ("--pattern",)
    status, out, err = invoke("start", "fox", *SIZE, *more)
    assert (status, out) == (CANNOT, "")
    assert err == f"lintarsia: {there!r} is there already; nothing was written\n"
    assert left() == [there]
    assert Path(there).read_text() == "mine"


def test_a_dangling_link_is_something_too(invoke: Invoke) -> None:
    os.symlink("elsewhere", "fox.chart.yaml")
    assert invoke("start", "fox", *SIZE)[0] == CANNOT
    assert not Path("elsewhere").exists()


def test_what_appears_meanwhile_is_left_and_what_was_written_is_taken_back(
    invoke: Invoke, monkeypatch: pytest.MonkeyPatch
) -> None:
    def meanwhile(file: str, data: bytes) -> None:
        if file.endswith("piece.chart.yaml"):
            Path(file).write_text("another's")
        create_file(file, data)

    monkeypatch.setattr("lintarsia.cli.start.create_file", meanwhile)
    status, _, err = invoke("start", "fox", "--pattern", *SIZE)
    assert status == CANNOT
    assert "'fox/piece.chart.yaml' is there already; it was left as it is" in err
    assert left() == ["fox/piece.chart.yaml"]
    assert Path("fox/piece.chart.yaml").read_text() == "another's"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["fox"], "--stitches or --width says how large the chart is; as in --stitches 40 or --width '20 cm'"),
        (["fox", "--stitches", "4", "--width", "4 cm", "--rows", "3"], "give one of them"),
        (["fox", "--stitches", "4"], "--rows or --height"),
        (["fox", "--width", "400 m", "--rows", "3"], "at most 1,500 can be made"),
        (["fox", "--width", "wide", "--rows", "3"], "'wide' is not a length"),
        (["fox", "--width", "0 cm", "--rows", "3"], "more than nothing"),
        (["fox", *SIZE, "--gauge", "22"], "is not a gauge"),
        (["fox", *SIZE, "--ground", "green"], "'green' is not a shade"),
        (["fox", *SIZE, "--worked", "round", "--technique", "intarsia"], "cannot be worked in the round"),
        (["fox", *SIZE, "--piece", "front"], "they go with --pattern"),
        (["fox", *SIZE, "--pattern", "--piece", "a,a"], "'a' is named twice"),
        (["fox", *SIZE, "--pattern", "--piece", "a b,a-b"], "the same file"),
        (["", *SIZE], "is no name for a chart"),
        (["..", *SIZE], "is no name for a chart"),
        (["no/fox", *SIZE], "there is no folder 'no'"),
    ],
)
def test_what_cannot_be_started_is_told_and_nothing_is_left(arguments: list[str], said: str, invoke: Invoke) -> None:
    status, out, err = invoke("start", *arguments)
    assert (status, out) == (CANNOT, "")
    assert said in " ".join(err.split())
    assert left() == []


@pytest.mark.parametrize("name", ["fox", "fox.chart.yaml", "fox.chart.yml", "fox.yaml", "./fox"])
def test_a_name_may_have_its_ending_already(name: str, invoke: Invoke) -> None:
    assert invoke("start", name, *SIZE)[0] == OK
    assert left() == ["fox.chart.yaml"]


def test_a_chart_is_two_stitches_and_two_rows_at_least(invoke: Invoke) -> None:
    """At 22 stitches and 30 rows to 10 cm 1 mm is less than one of either; 14 mm are 3.1 stitches, 12 mm 3.6 rows."""
    invoke("start", "a", "--width", "1 mm", "--height", "1 mm")
    invoke("start", "b", "--width", "14 mm", "--height", "12 mm")
    sizes = [read_chart(f"{name}.chart.yaml").chart.grid.cells.shape for name in "ab"]  # type: ignore[union-attr]
    assert sizes == [(2, 2), (4, 3)]


@pytest.mark.parametrize("folder_there", [False, True])
def test_a_folder_that_was_there_stays_where_nothing_can_be_written(
    folder_there: bool, invoke: Invoke, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(file: str, data: bytes) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("lintarsia.cli.start.create_file", full)
    if folder_there:
        Path("fox").mkdir()
    assert invoke("start", "fox", "--pattern", *SIZE)[0] == CANNOT
    assert Path("fox").is_dir() is folder_there


def test_a_folder_that_cannot_be_made_is_told(invoke: Invoke, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(path: str) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("os.mkdir", refuse)
    status, _, err = invoke("start", "fox", "--pattern", *SIZE)
    assert (status, err) == (CANNOT, "lintarsia: the folder 'fox' cannot be made (Permission denied)\n")


def test_several_files_that_are_there_are_named_together(invoke: Invoke) -> None:
    Path("fox").mkdir()
    for name in ("fox.pattern.yaml", "back.chart.yaml"):
        Path("fox", name).write_text("mine")
    status, _, err = invoke("start", "fox", "--pattern", "--piece", "front, back", *SIZE)
    said = "'fox/fox.pattern.yaml', 'fox/back.chart.yaml' are there already; nothing was written"
    assert (status, err) == (CANNOT, f"lintarsia: {said}\n")


def test_where_to_go_on_is_said(invoke: Invoke) -> None:
    Path("charts").mkdir()
    assert invoke("start", "charts/fox", *SIZE)[2] == (
        "written: charts/fox.chart.yaml\ndraw in it, then: lintarsia check charts\n"
    )
    assert invoke("start", "charts/vest", "--pattern", *SIZE)[2].splitlines() == [
        "written: charts/vest/vest.pattern.yaml",
        "written: charts/vest/piece.chart.yaml",
        "draw in it, then: lintarsia check charts/vest",
    ]


def test_titles_technique_ground_and_gauge_are_as_said(invoke: Invoke) -> None:
    said = ("--title", "The hare", "--ground", "a04020", "--gauge", "19x25/4in", "--worked", "round")
    invoke("start", "fox", *SIZE, *said)
    chart = read_chart("fox.chart.yaml").chart
    assert chart is not None
    assert (chart.title, chart.technique, chart.worked) == ("The hare", "stranded", "round")
    assert (chart.gauge.stitches, chart.gauge.rows, str(chart.gauge.over)) == (19, 25, "4 in")
    assert [colour.shade for colour in chart.colours.values()] == ["#a04020"]
    invoke("start", "vest", "--pattern", "--piece", "front,back", "--title", "The hare", *SIZE)
    front = read_chart("vest/front.chart.yaml").chart
    assert front is not None
    assert (front.title, front.technique) == ("The hare: front", "intarsia")
    assert yaml.safe_load(Path("vest/vest.pattern.yaml").read_text())["title"] == "The hare"
