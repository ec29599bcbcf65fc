"""yarn/too-little on charts whose yarn goes into floats, carries, rests, tails and duplicate stitch as well."""

import pytest
from checking import EDGELESS, HEAD, chart_check

from lintarsia.reading import read_chart
from lintarsia.result import Finding
from lintarsia.rules import catalogue
from lintarsia.rules.base import Work

ONE_YARN = HEAD.replace('"}', '", yarn: dk}')
FLAT, STRANDED = "", "technique: stranded\n"
CHARTS = {
    "one colour": ("BBBBBBBB " * 4, FLAT),
    "carried at a slant": ("BWWWWWWW BBBBWWWW BBBBBBBW BBBBBBBB", FLAT + "limits: {carry: 7}\n"),
    "resting": ("BBBB WWWW WWWW BBBB WWWW WWWW BBBB", FLAT + "limits: {carry: 4, idle: 2}\n"),
    "floats": ("BWWWWWWB WBBBBBBW BWWWWWWB", STRANDED),
    "floats of a tighter gauge": ("BWWWWWWB WBBBBBBW BWWWWWWB", STRANDED),
    "many tails": ("BWBWBWBW", FLAT),
    "duplicate stitch": ("BBBB BBBB", "duplicate-stitch: [{colour: W, row: 1, stitches: [1, 3]}]\n"),
}


def chart_text(name: str, ball_mm: float, balls: float = 1) -> str:
    grid, extra = CHARTS[name]
    tighter = ", float-gauge: {stitches: 26, rows: 30}" if "tighter" in name else ""
    gauge = f"gauge: {{stitches: 22, rows: 30, over: 10 cm{tighter}}}\n"
    yarns = f"yarns: {{dk: {{name: Fjord, length: {ball_mm:.6f} mm, mass: 50 g, balls: {balls}}}}}\n"
    rows = "".join(f"  {row}\n" for row in grid.split())
    return f"{ONE_YARN}{gauge}{yarns}{extra}chart: |\n{rows}"


def found(text: str) -> list[Finding]:
    chart = read_chart("yarn.chart.yaml", text.encode()).chart
    assert chart is not None
    loaded = catalogue.load("yarn/too-little")
    return list(chart_check(loaded)(Work(chart, reckoning=EDGELESS), loaded.options()))


def needed_mm(name: str) -> float:
    chart = read_chart("yarn.chart.yaml", chart_text(name, 1e6).encode()).chart
    assert chart is not None
    (need,) = Work(chart, reckoning=EDGELESS).plan.yarns
    return need.metres * 1000


@pytest.mark.parametrize("name", CHARTS)
@pytest.mark.parametrize("balls", [1, 2.5])
def test_a_thousandth_too_little_is_found_and_a_thousandth_to_spare_is_not(name: str, balls: float) -> None:
    """With the allowance of a tenth; without it, the yarn runs out for certain."""
    need = needed_mm(name)
    for share, keys in (
        (1.101, []),
        (1.099, ["nothing-to-spare"]),
        (1.001, ["nothing-to-spare"]),
        (0.999, ["too-little"]),
    ):
        assert [f.key for f in found(chart_text(name, need * share / balls, balls))] == keys, share


def test_two_yarns_are_counted_each_for_itself() -> None:
    """All but the tails of W is B's: the small ball of W is enough, the one of B is not."""
    text = chart_text("one colour", 1000).replace("chart: |\n", "chart: |\n  WBBBBBBB\n")
    text = text.replace('"#efe9dc", yarn: dk}', '"#efe9dc", yarn: white}')
    text = text.replace("yarns: {", "yarns: {white: {length: 1 m, mass: 50 g, balls: 1}, ")
    assert [f.message.partition(";")[0] for f in found(text)] == ["Fjord: 1 ball of 1000 mm holds 1.00 m"]


@pytest.mark.parametrize(
    ("balls", "said"),
    [
        (0, "0 balls of 500 mm hold 0 cm"),
        (1, "1 ball of 500 mm holds 50 cm"),
        (1.5, "1.5 balls of 500 mm hold 75 cm"),
        (2, "2 balls of 500 mm hold 1.0 m"),
    ],
)
def test_balls_are_told_one_by_one(balls: float, said: str) -> None:
    """64 stitches of 18.636 mm and two tails are 1.493 m, with the allowance 1.642 m: four balls."""
    text = chart_text("one colour", 500, balls).replace("chart: |\n", "chart: |\n" + "  BBBBBBBB\n" * 4)
    (finding,) = found(text)
    assert finding.message == f"Fjord: {said}; the chart needs 1.5 m"
    assert [each.description for each in finding.fixes] == ["state 4 balls"]
