"""Arguments as people type them: a part of a rule's name, `--fix risky`, an empty path, a folder for a chart."""

from collections.abc import Callable
from pathlib import Path

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.cli.explain import rules_meant
from lintarsia.cli.fixing import FixingCommand
from lintarsia.reporting.fitting import fitted
from lintarsia.reporting.screen import Screen

Invoke = Callable[..., tuple[int, str, str]]
Write = Callable[..., Path]
NAMES = ("float/stacked", "float/too-long", "supply/too-long-a-wait", "words/side")


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")


@pytest.mark.parametrize(
    ("word", "meant"),
    [
        ("float/stacked", ("float/stacked",)),
        ("Float/Stacked", ("float/stacked",)),
        ("float", ("float/stacked", "float/too-long")),
        ("float/", ("float/stacked", "float/too-long")),
        ("too-long", ("float/too-long",)),
        ("long", ("float/too-long", "supply/too-long-a-wait")),
        ("lo", ()),
        ("sleeve", ()),
        ("", ()),
    ],
)
def test_a_part_of_a_name_is_enough(word: str, meant: tuple[str, ...]) -> None:
    assert rules_meant(word, NAMES) == meant


def test_explain_lists_a_group_and_tells_a_rule_named_without_it(invoke: Invoke) -> None:
    status, out, _ = invoke("explain", "float")
    assert status == OK
    assert "float/too-long" in out
    assert "grid/" not in out
    assert invoke("explain", "stitch-count")[1] == invoke("explain", "grid/stitch-count")[1]
    assert invoke("explain", "sleeve")[:2] == (CANNOT, "")


@pytest.mark.parametrize(
    ("given", "taken"),
    [
        (["--fix", "risky"], ["--fix=risky"]),
        (["--fix", "safe", "x"], ["--fix=safe", "x"]),
        (["--fix", "x"], ["--fix=safe", "x"]),
        (["x", "--fix"], ["x", "--fix=safe"]),
        (["--fix", "--fix", "risky"], ["--fix=safe", "--fix=risky"]),
        (["--", "--fix", "risky"], ["--", "--fix", "risky"]),
    ],
)
def test_the_kind_of_fix_may_stand_apart(given: list[str], taken: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[list[str]] = []
    monkeypatch.setattr("click.Command.parse_args", lambda self, ctx, args: seen.append(list(args)))
    FixingCommand("check").parse_args(None, given)  # type: ignore[arg-type]
    assert seen == [taken]


def test_a_folder_of_that_name_is_a_path_as_before(invoke: Invoke, write_chart: Write) -> None:
    Path("risky").mkdir()
    write_chart(grid="clean").rename("risky/a.chart.yaml")
    status, out, _ = invoke("check", "--fix", "risky")
    assert status == OK
    assert out == "1 chart: nothing to mend\n"


@pytest.mark.parametrize("command", ["check", "plan", "write", "draw"])
def test_an_empty_path_is_not_the_current_folder(command: str, invoke: Invoke, write_chart: Write) -> None:
    write_chart(grid="clean")
    status, out, err = invoke(command, "")
    assert (status, out) == (CANNOT, "")
    assert "path is empty (perhaps a variable that is not set)" in err


@pytest.mark.parametrize("command", ["plan", "write", "draw"])
def test_a_folder_stands_for_its_one_chart(command: str, invoke: Invoke, write_chart: Write) -> None:
    Path("charts").mkdir()
    assert "'charts' is a folder without charts; expected one chart" in invoke(command, "charts")[2]
    write_chart(grid="clean").rename("charts/b.chart.yaml")
    assert invoke(command, "charts") == invoke(command, "charts/b.chart.yaml")
    Path("charts/a.chart.yaml").write_text("")
    status, out, err = invoke(command, "charts")
    assert (status, out) == (CANNOT, "")
    assert err == (
        "lintarsia: 'charts' is a folder; this command takes one chart at a time: "
        "charts/a.chart.yaml, charts/b.chart.yaml\n"
    )


def test_a_folder_of_misnamed_charts_is_no_green_job(invoke: Invoke, write_chart: Write) -> None:
    write_chart(grid="short").rename("fox.chart.yaml.txt")
    status, out, err = invoke("check")
    assert (status, out) == (CANNOT, "")
    assert err == (
        "lintarsia: fox.chart.yaml.txt looks like a chart and was not looked at; "
        "its name must end in .chart.yaml, as in 'fox.chart.yaml'\n"
        "lintarsia: no charts found in .\n"
    )
    assert invoke("site", "-o", "out")[0] == CANNOT
    assert not Path("out").exists()


def test_beside_a_chart_they_are_named_and_the_chart_decides(invoke: Invoke, write_chart: Write) -> None:
    Path("D.CHART.YAML").write_text("")
    write_chart(grid="clean").rename("a.chart.yaml")
    status, _, err = invoke("check", ".")
    assert status == OK
    assert "D.CHART.YAML looks like a chart and was not looked at" in err


def test_named_outright_they_are_checked_all_the_same(invoke: Invoke, write_chart: Write) -> None:
    write_chart(grid="short").rename("fox.chart.yml")
    status, out, err = invoke("check", "fox.chart.yml")
    assert status == FOUND
    assert "grid/stitch-count" in out
    assert (
        err == "lintarsia: fox.chart.yml looks like a chart; its name must end in .chart.yaml, as in 'fox.chart.yaml'\n"
    )


def test_a_sheet_gives_up_its_gaps_before_its_lines() -> None:
    line = "  G  Gold        2 supplies     9.6 g\n"
    assert fitted(line, Screen(40)) == line
    assert fitted(line, Screen(30)) == "  G  Gold  2 supplies  9.6 g\n"
    assert fitted(line, Screen(22)) == "  G  Gold  2 supplies\n      9.6 g\n"
    painted = "  \x1b[1mG  Gold        2 supplies\x1b[0m     9.6 g\n"
    assert fitted(painted, Screen(30)) == "  \x1b[1mG  Gold  2 supplies\x1b[0m  9.6 g\n"


@pytest.mark.parametrize("columns", [50, 66, 79])
def test_a_plan_is_as_narrow_as_the_screen(
    columns: int, invoke: Invoke, write_chart: Write, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", str(columns))
    file = str(write_chart(grid="clean"))
    for arguments in ([file], [file, "--try", "strand=3,carry=2"], [file, "--what-if"]):
        lines = invoke("plan", *arguments)[1].splitlines()
        assert lines
        assert [line for line in lines if len(line) > columns] == []
