"""Blank charts and patterns, ready to draw in: text alone; what they hold passes every check as it stands."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lintarsia.bringing.charttext import scalar
from lintarsia.bringing.shadenames import letters_for, name_shades
from lintarsia.bringing.wishes import USUAL_GAUGE

GROUND, SECOND = "#efe9dc", "#b4593a"

SETTINGS = """\
# What holds for the charts in this folder and below. Everything has a value without it too.
block: error                     # from which level a result stops a commit: error, warning or note
# limits: {supplies: 6, float: 2 cm}     # most supplies in a row, longest float; take the # away to set them
# exclude: [drafts/]             # folders that are never checked
"""

HOOK = r"""# Looks at the charts before every commit, once `pre-commit install` has been run here.
repos:
  - repo: local
    hooks:
      - id: lintarsia
        name: check colourwork charts
        entry: lintarsia check --before-commit --
        language: system
        files: ((?i:\.(chart|pattern|knit)\.ya?ml(\.txt)?)|(^|/)lintarsia\.yaml)$
        always_run: true
        require_serial: true
"""


@dataclass(frozen=True, slots=True)
class Blank:
    """What a blank chart is like. `gauge` is stitches, rows and the length they are over; `ground` a shade."""

    stitches: int
    rows: int
    gauge: tuple[float, float, str] = USUAL_GAUGE
    technique: str = "intarsia"
    worked: str = "flat"
    ground: str = GROUND


def blank_chart(title: str, like: Blank) -> str:
    """A chart file: its key, gauge and yarn, and a grid of the ground colour.

    Row numbers stand in the comment above the grid; inside it every character is a stitch.
    """
    second = GROUND if like.ground == SECOND else SECOND
    ground, other = name_shades([like.ground, second])
    letter, free = letters_for([ground, other])
    word = "stitch" if like.stitches == 1 else "stitches"
    row = "round" if like.worked == "round" else "row"
    stitches, rows, over = like.gauge
    return (
        f"""\
lintarsia: 1
title: {scalar(title)}
worked: {like.worked}
technique: {like.technique}
gauge: {{stitches: {stitches:g}, rows: {rows:g}, over: {over}}}      # of your own swatch, washed
yarns:
  ground: {{name: {ground} yarn}}      # from the ball band, too: length: 120 m, mass: 50 g, balls: 2
colours:
  {scalar(letter)}: {{name: {ground}, shade: "{like.ground}", yarn: ground}}
#  {scalar(free)}: {{name: {other}, shade: "{second}"}}      # the next colour: without the # once it is in the grid
# The top line is {row} {like.rows}, the lowest is {row} 1. Each has {like.stitches} {word}; stitch 1 is at the right.
chart: |
"""
        + f"  {letter * like.stitches}\n" * like.rows
    )


def blank_pattern(title: str, charts: Mapping[str, str], sizes: Sequence[str], like: Blank) -> str:
    """A pattern file. `charts` says for each piece the chart's file, relative to the pattern's folder."""
    lines = ["lintarsia-pattern: 1", f"title: {scalar(title)}", 'version: "0.1"']
    if sizes:
        lines.append(f"sizes: [{', '.join(map(scalar, sizes))}]")
    lines.append("pieces:")
    for piece, file in charts.items():
        lines += [f"  {scalar(piece)}:", f"    chart: {scalar(file)}", "    times: 1"]
        lines += [
            f"#    {key}: {_by_size(value, sizes)}      # {why}"
            for key, value, why in (
                ("cast-on", like.stitches, "of the whole piece, where it is wider than the chart"),
                ("rows", like.rows, "of the whole piece, where it is longer"),
            )
        ]
    return "\n".join(lines) + "\n"


def _by_size(value: int, sizes: Sequence[str]) -> str:
    return f"{{{', '.join(f'{scalar(size)}: {value}' for size in sizes)}}}" if sizes else str(value)


def file_part(name: str) -> str:
    """A piece's name as a part of a file's: `Left front` is `left-front`."""
    return re.sub(r"[^\w]+", "-", name.lower()).strip("-") or "piece"
