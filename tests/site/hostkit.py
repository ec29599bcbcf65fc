"""Sites of somebody else's with charts in them: three themes that people use, each built once, served from here."""

import shutil
from pathlib import Path

from ownsite import mkdocs_build
from sitekit import EXAMPLES, ROUNDS, SHORT_ROW, Site

HOME = """\
# Knits of the month

Some words of the designer before anything else, long enough to fill a line of a wide window and a little more.

| size | yarn |
|---|---|
| one | 40 g |

See [the gate](patterns/charts/gate.md) and [the owl](patterns/charts/night-owl-mitten.md).
"""
BLOG = """\
# A week with the owl

Some words before it, long enough to fill a line of a wide window and a little more, and then the chart.

::chart night-owl-mitten.chart.yaml

Words between, and a pattern.

::chart gatepost.pattern.yaml
"""
GATEPOST = """\
lintarsia-pattern: 1
title: Gatepost bag
sizes: [small, middling, large]
yarns:
  w: {name: Plain DK, length: 120 m, mass: 50 g, balls: {small: 1, middling: 1, large: 2}}
pieces:
  ring: {chart: ring.chart.yaml, cast-on: {small: 21, middling: 33, large: 45}}
  strap: {colour: G, cast-on: {small: 6, middling: 8, large: 8}, rows: 20, stitch: garter stitch, continues: ring}
"""
# What a host has besides: it would ask other servers for fonts and for the colours of code.
MATERIAL = """\
  name: material
  font: false
  features: [navigation.instant]
  palette:
    - {scheme: default, media: "(prefers-color-scheme: light)", toggle: {icon: material/lamp, name: evening}}
    - {scheme: slate, media: "(prefers-color-scheme: dark)", toggle: {icon: material/lamp, name: day}}
"""
PLAIN = "  name: mkdocs\n  color_mode: auto\n  user_color_mode_toggle: true\n  highlightjs: false\n"
READTHEDOCS = "  name: readthedocs\n  highlightjs: false\n  include_homepage_in_sidebar: true\n"
THEMES = {"material": MATERIAL, "mkdocs": PLAIN, "readthedocs": READTHEDOCS}


def build_host(folder: Path, theme: str, address: str) -> Site:
    """A site with charts, one that blocks and one of fifty rows, and a pattern, in the folder `out`, for `address`."""
    (folder / "docs").mkdir()
    (folder / "charts").mkdir()
    (folder / "docs" / "blog.md").write_text(BLOG, encoding="utf-8")
    (folder / "charts" / "ring.chart.yaml").write_text(ROUNDS, encoding="utf-8")
    (folder / "charts" / "gatepost.pattern.yaml").write_text(GATEPOST, encoding="utf-8")
    (folder / "docs" / "index.md").write_text(HOME, encoding="utf-8")
    (folder / "charts" / "gate.chart.yaml").write_text(SHORT_ROW, encoding="utf-8")
    shutil.copy(EXAMPLES / "night-owl-mitten.chart.yaml", folder / "charts")
    settings = f"site_name: Wren knits\nsite_url: {address}\ntheme:\n{THEMES[theme]}strict: true\n"
    settings += (
        "nav: [index.md, blog.md, Charts: patterns/index.md]\nplugins:\n  - search\n  - lintarsia: {charts: [charts]}\n"
    )
    (folder / "mkdocs.yml").write_text(settings, encoding="utf-8")
    done = mkdocs_build(folder, "--quiet")
    assert done.returncode == 0, done.said
    return Site(folder / "out", address, theme=theme)
