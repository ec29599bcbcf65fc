"""A small site made in this process and without a browser: a chart with faults, a shaped one with an opening, a
pattern with pieces in sizes, two test knits. What its pages say is looked at by their elements."""

from collections.abc import Mapping
from contextlib import closing
from pathlib import Path
from typing import Any

from lxml import html

from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.site.building import build_site
from lintarsia.publishing.site.making import Making
from lintarsia.publishing.site.siteplan import SitePlan

KITE = """\
lintarsia: 1
title: Kite <&> tail
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm, needle: 4 mm}
yarns:
  w: {name: Plain DK, length: 120 m, mass: 50 g, balls: 1}
colours:
  B: {name: Dusk blue, shade: "#27406b", yarn: w}
  W: {name: Bone, shade: "#efe9dc", yarn: w}
  R: {name: Madder, shade: "#a33b2a", yarn: w}
repeat: {stitches: [2, 5], rows: [1, 3]}
wearer: child
duplicate-stitch: [{colour: R, row: 2, stitches: [3, 4]}]
suppress:
  - {rule: area/single-stitch, row: 5, stitches: [9, 9], justification: "the eye; worked in duplicate stitch"}
chart: |
  BBBBBBBBBBBB
  BBBWBBBBBBBB
  BBBBBWWBBBRB
  BBBBWWWWBBB
  BBBBBWWBBBBB
  BBBBBBBBBBBB
"""
TERN = """\
lintarsia: 1
title: Tern front
gauge: {stitches: 20, rows: 28, over: 10 cm}
yarns:
  s: {name: Shore DK, length: 100 m, mass: 50 g}
colours:
  S: {name: Shore, shade: "#c8b89a", yarn: s}
  B: {name: Dusk blue, shade: "#27406b", yarn: s}
shaping: {5: {right: -2}, 6: {left: {hold: 2}}}
divide: {9: {by: bind-off, sides: right-first}}
chart: |
  ..SSSS...SSSS..
  ..SSSS...SSSS..
  ..SSSBBBBBSSS..
  ..SSBBBBBBBSS..
  ..SBBBBSSBBBS..
  ..SSSBBSSSSSS..
  SSSSSBBSSSSSS..
  SSSSSSSSSSSSSSS
  SSSSSSSSSSSSSSS
  SSSSSSSSSSSSSSS
"""
PATTERN = """\
lintarsia-pattern: 1
title: Shore set
version: "1.2"
about: A set for windy days.
notes: [Wash it cold., Dry it flat.]
sizes: [small, large]
wearer: child
yarns:
  s: {name: Shore DK, length: 100 m, mass: 50 g, balls: {small: 1, large: 2}}
notions: {buttons: {small: 3, large: 5}}
pieces:
  front: {chart: kite.chart.yaml, cast-on: {small: 16, large: 20}, rows: {small: 8, large: 10}, plain: B}
  belt: {colour: B, cast-on: {small: 6, large: 8}, rows: 12, stitch: garter stitch}
seams: [{join: [front left, belt right]}]
"""
LOGS = {
    "wren": """\
lintarsia-knit: 1
pattern: shore.pattern.yaml
size: small
knitter: Wren
gauge: {stitches: 21, rows: 29, over: 10 cm}
used: {w: 9 g}
hours: 4
finished: 2026-11-05
rows:
  - {piece: front, row: 3, stitches: [4, 6], kind: trouble, said: "a yarn <too> few"}
  - {piece: front, row: 5, kind: praise, said: "lovely", answered: "thank you"}
remarks: "clear throughout"
""",
    "finch": """\
lintarsia-knit: 1
chart: tern.chart.yaml
knitter: Finch
rows:
  - {row: 7, stitches: [9, 9], kind: question, said: "which blue?", answered: "the dark one"}
""",
    "pipit": """\
lintarsia-knit: 1
pattern: shore.pattern.yaml
size: large
knitter: Pipit
site: false
""",
}
FILES: Mapping[str, str] = {
    "kite.chart.yaml": KITE,
    "sub/tern.chart.yaml": TERN,
    "shore.pattern.yaml": PATTERN,
    "torn.chart.yaml": "title: [never closed\n",
    **{f"{name}.knit.yaml": log.replace("tern.chart", "sub/tern.chart") for name, log in LOGS.items()},
}


def write(folder: Path, files: Mapping[str, str] = FILES) -> None:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")


Pages = dict[str, Any]  # elements of lxml


def contents(folder: Path, aside: Path, *, public: bool = False, layout: Layout | None = None) -> Pages:
    """What stands on each page, as it is handed to whoever puts a theme around it, by the page's place."""
    aside.mkdir()
    plan = SitePlan([str(folder)], layout or Layout(), str(aside), "Test knits", cores=1, public=public)
    with closing(Making(plan)) as making:
        making.gather()
        specs = [making.overview(), making.search_page(), *making.pages()]
        return {spec.name: html.fragment_fromstring(spec.content(), create_parent="div") for spec in specs}


def built(folder: Path, output: Path, **asked: object) -> Pages:
    """Every page of a whole site, with its theme around it."""
    build_site([str(folder)], str(output), title="Test knits", cores=1, **asked)  # type: ignore[arg-type]
    return {
        file.relative_to(output).as_posix(): html.document_fromstring(file.read_text("utf-8"))
        for file in sorted(output.rglob("*.html"))
    }
