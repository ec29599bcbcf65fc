"""Whatever a chart holds, no rule breaks off, and every result is at a place that the file and the grid have."""

from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from lintarsia.engine import check_chart
from lintarsia.reading import read_chart
from lintarsia.result import Level
from lintarsia.rules import catalogue
from lintarsia.settings import Settings
from lintarsia.settings.model import RuleSetting

EVERY_RULE_ON = Settings(root="/", rules={name: RuleSetting(Level.NOTE) for name in catalogue.NAMES})
SHADES = ("#27406b", "#efe9dc", "#28416c", "#a8322d")


def lines(pairs: dict[str, Any]) -> str:
    return "".join(f"{key}: {value}\n" for key, value in pairs.items() if value is not None)


PART = {
    "worked": st.sampled_from([None, "flat", "round", "turned"]),
    "first-row": st.sampled_from([None, "RS", "WS"]),
    "technique": st.sampled_from([None, "intarsia", "stranded", "mixed", "purl"]),
    "gauge": st.sampled_from(
        [
            None,
            "{stitches: 22, rows: 30, over: 10 cm, needle: 9 mm}",
            "{stitches: 30, rows: 30, over: 4 in, loop: 2 mm}",
            "{stitches: 22, rows: 30, over: 10 cm, float-gauge: {stitches: 30, rows: 20}}",
            "{stitches: 0, rows: 30, over: 0 cm}",
        ]
    ),
    "yarns": st.sampled_from([None, "{}", "{dk: {weight: 7, length: 0 m, mass: 50 g, balls: 1}, x: {weight: 3}}"]),
    "supplies": st.sampled_from([None, "{B: 0}", "{B: 1, Z: 2}", "{W: [{length: 1 m}], B: x}"]),
    "limits": st.sampled_from([None, "{supplies: 1, float: 1 stitch}", "{carry: 9, idle: 9, strand: 9, float: 0 cm}"]),
    "repeat": st.sampled_from(
        [
            None,
            "{stitches: [1, 2], rows: [1, 1]}",
            "{stitches: [2, 3], rows: [1, 2]}",
            "{stitches: [9, 4], rows: [0, 99]}",
        ]
    ),
    "shaping": st.sampled_from([None, "{2: -1, 3: {left: 2}}", "{1: 5, 2: {right: -1, left: -1}, 90: 1}"]),
    "wearer": st.sampled_from([None, "infant"]),
    "symmetry": st.sampled_from([None, "[left-right, half-turn]", "[top-bottom]"]),
    "duplicate-stitch": st.sampled_from(
        [
            None,
            "[{colour: W, row: 1, stitches: [1, 2]}, {colour: W, row: 1, stitches: [2, 90]}]",
            "[{colour: Z, row: 9}]",
        ]
    ),
    "written": st.sampled_from([None, '{1: "k2 B, k1 W", 2: "*", 70: "p1"}']),
}
GRID = st.lists(st.text("BBBWWR.x", min_size=1, max_size=9), min_size=1, max_size=7)
COLOURS = st.lists(st.sampled_from(SHADES), min_size=1, max_size=3).map(
    lambda shades: "".join(
        f'  {symbol}: {{name: {symbol}, shade: "{shade}", yarn: dk}}\n'
        for symbol, shade in zip("BWR", shades, strict=False)
    )
)


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow], deadline=None)
@given(st.fixed_dictionaries(PART), COLOURS, GRID)
def test_no_chart_breaks_a_rule(parts: dict[str, Any], colours: str, grid: list[str]) -> None:
    text = f"lintarsia: 1\ntitle: Any\n{lines(parts)}colours:\n{colours}chart: |\n" + "".join(f"  {r}\n" for r in grid)
    data = text.encode()
    chart = read_chart("any.chart.yaml", data).chart
    source = text.split("\n")
    for result in check_chart("any.chart.yaml", data, EVERY_RULE_ON).results:
        assert result.rule != "engine/rule-failed", result.message
        assert result.key in catalogue.load(result.rule).info.keys, (result.rule, result.key)
        region = result.region
        assert 1 <= region.line <= region.end_line <= len(source)
        assert 1 <= region.column <= len(source[region.line - 1]) + 1
        assert 1 <= region.end_column <= len(source[region.end_line - 1]) + 1
        assert (region.line, region.column) <= (region.end_line, region.end_column)
        if result.rule.startswith("file/") or result.row is None:
            continue
        assert chart is not None
        assert 1 <= result.row <= chart.grid.height, result
        if result.stitches is not None:
            assert 1 <= result.stitches[0] <= result.stitches[1] <= chart.grid.width, result


def test_a_shade_that_cannot_be_read_is_compared_with_none() -> None:
    """Two grey stand-ins are alike, and it is not the designer's doing."""
    text = (
        "lintarsia: 1\ntitle: Any\ngauge: {stitches: 22, rows: 30, over: 10 cm}\ncolours:\n"
        "  B: {name: Dusk, shade: blue}\n  W: {name: Bone}\nchart: |\n  BBWW\n  BBWW\n"
    )
    results = check_chart("any.chart.yaml", text.encode(), Settings(root="/")).results
    assert {result.rule for result in results if result.level is Level.WARNING} == set()
    assert [result.rule for result in results if result.level is Level.ERROR] == ["file/schema", "file/schema"]
