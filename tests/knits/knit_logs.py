"""Test knits by script: knitters whose gauge and yarn in a stitch are known, and the logs that they would write.

What each of them uses is what the planner says of a chart at her own gauge with her own loop stated in it: nothing of
the calibration has a part in that.
"""

from pathlib import Path
from typing import NamedTuple

from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.buying import needs_of
from lintarsia.pattern.reading import read_pattern
from lintarsia.settings import Settings

STITCHES, ROWS = 20.0, 28.0  # to 10 cm
MUNDEN = 4.1
PATTERN = """\
lintarsia-pattern: 1
title: Fox cushion
sizes: [small, large]
pieces:
  front: {chart: fox.chart.yaml, plain: O, cast-on: {small: 60, large: 90}, rows: {small: 70, large: 110}}
  back: {chart: fox.chart.yaml, plain: O, times: {small: 1, large: 2}, cast-on: 60, rows: 70}
"""
GRID = ["O" * 30] * 4 + ["O" * 9 + "R" * 13 + "O" * 8] * 30 + ["O" * 30] * 6


def chart(stitches: float = STITCHES, rows: float = ROWS, loop: float | None = None) -> str:
    """The fox at a gauge, with the loop in mm where one is stated."""
    said = f", loop: {loop:.4f} mm" if loop else ""
    return (
        f"lintarsia: 1\ntitle: Fox\ngauge: {{stitches: {stitches}, rows: {rows}, over: 10 cm{said}}}\n"
        "limits: {carry: 3, float: 5 stitches}\n"
        "yarns:\n  oat: {name: Oat, length: 120 m, mass: 50 g}\n  rust: {name: Rust, length: 150 m, mass: 50 g}\n"
        'colours:\n  O: {name: Oat, shade: "#f0e7d4", yarn: oat}\n  R: {name: Rust, shade: "#a3502c", yarn: rust}\n'
        "chart: |\n" + "".join(f"  {row}\n" for row in GRID)
    )


class Knitter(NamedTuple):
    """`constant`: yarn in a stitch over its width. `times` is a slip that multiplies what she says she used."""

    name: str
    size: str
    constant: float
    stitches: float = STITCHES
    rows: float = ROWS
    times: float = 1.0
    finished: bool = True


def metres(folder: Path, who: Knitter) -> dict[str, float]:
    """What she uses of each yarn, by the planner."""
    own = folder / f"of-{who.name}"
    own.mkdir()
    (own / "fox.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    loop = who.constant * 100 / who.stitches
    (own / "fox.chart.yaml").write_text(chart(round(who.stitches, 6), round(who.rows, 6), loop), encoding="utf-8")
    pattern = read_pattern(str(own / "fox.pattern.yaml")).pattern
    assert pattern is not None
    needs = needs_of(work_on(pattern, Settings(root=str(own))), who.size)
    for file in own.iterdir():
        file.unlink()
    own.rmdir()
    return {yarn: need.metres for yarn, need in needs.items()}


def log(folder: Path, who: Knitter, more: str = "") -> str:
    """Oat in grams to a tenth, as a kitchen scale has it; rust before and after, in metres."""
    used = {yarn: length * who.times for yarn, length in metres(folder, who).items()}
    oat, rust = used["oat"] / 120 * 50, 150 - used["rust"]
    finished = "finished: 2026-11-05\n" if who.finished else ""
    return (
        f"lintarsia-knit: 1\npattern: fox.pattern.yaml\nsize: {who.size}\nknitter: {who.name}\n"
        f"gauge: {{stitches: {who.stitches:.4f}, rows: {who.rows:.4f}, over: 10 cm}}\n"
        f"used: {{oat: {oat:.1f} g, rust: {{before: 150 m, after: {rust:.1f} m}}}}\nhours: 12\n{finished}{more}"
    )


def write_knits(folder: Path, knitters: list[Knitter], loop: float | None = None) -> None:
    """The pattern, its chart, and a log of each."""
    (folder / "fox.pattern.yaml").write_text(PATTERN, encoding="utf-8")
    (folder / "fox.chart.yaml").write_text(chart(loop=loop), encoding="utf-8")
    for who in knitters:
        (folder / f"{who.name.lower()}.knit.yaml").write_text(log(folder, who), encoding="utf-8")
