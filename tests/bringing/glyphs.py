"""Real pixels that nobody drew for these tests: every glyph of the font that Debian packages as `unifont`.

The font is read where the package puts it and is never copied into the repository.
"""

import io
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from numpy.typing import NDArray
from PIL import Image
from scipy import ndimage

from lintarsia.bringing import Wishes, bring
from lintarsia.engine import check_chart
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.rules.shared.areas import label_areas
from lintarsia.settings import Settings

FONT = Path("/usr/share/unifont/unifont.hex")
INK, GROUND = "#27406b", "#efe9dc"
SIDES, CORNERS = np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]]), np.ones((3, 3), int)

Bits = NDArray[np.bool_]


def read_glyphs() -> list[tuple[str, Bits]]:
    """(code point, bitmap of 16 rows, True where there is ink) of every glyph. Fails where the font is missing."""
    if not FONT.exists():
        raise FileNotFoundError(f"{FONT} is not there; on Debian: apt-get install unifont")
    glyphs = []
    for line in FONT.read_text().split():
        code, _, digits = line.partition(":")
        wide = len(digits) // 4
        bits = np.unpackbits(np.frombuffer(bytes.fromhex(digits), np.uint8)).astype(bool)
        glyphs.append((code, bits.reshape(16, wide)))
    return glyphs


def png_of(bits: Bits) -> bytes:
    shades = [[int(shade[k : k + 2], 16) for k in (1, 3, 5)] for shade in (GROUND, INK)]
    out = io.BytesIO()
    Image.fromarray(np.array(shades, np.uint8)[bits.astype(int)]).save(out, "PNG", compress_level=0)
    return out.getvalue()


def faults_of(code: str, bits: Bits, settings: Settings) -> Iterator[str]:
    """Brings a glyph in, reads it back, checks and plans it; yields what is not as it must be."""
    name = f"u{code}.png"
    brought = bring(name, png_of(bits), Wishes(cell=(1, 1)))
    reading = read_chart(f"u{code}.chart.yaml", brought.text.encode())
    chart = reading.chart
    if chart is None or reading.problems:
        yield f"does not read back: {reading.problems}"
        return
    shade = np.array([chart.colours[s].shade for s in chart.grid.symbols])
    back = shade[chart.grid.cells[::-1]] == INK
    if back.shape != bits.shape or (back != bits).any():
        yield "reads back as another picture"
    for corners, structure in ((False, SIDES), (True, CORNERS)):
        ours = label_areas(chart.grid, corners=corners, tube=False)
        theirs = sum(ndimage.label(part, structure=structure)[1] for part in (bits, ~bits))
        if len(np.unique(ours[ours >= 0])) != theirs:
            yield f"has {theirs} areas, not {len(np.unique(ours[ours >= 0]))}"
    for result in check_chart(f"u{code}.chart.yaml", brought.text.encode(), settings).results:
        # Whether a row has slipped is a guess; how often it is wrong of glyphs, benchmarks/row_slips.py tells.
        if result.rule.startswith(("engine/", "file/", "grid/")) and result.rule != "grid/row-slip":
            yield f"{result.rule}: {result.message}"
    plan = make_plan(chart)
    if plan.totals.stitches != bits.size:
        yield f"the plan works {plan.totals.stitches} of {bits.size} stitches"
    if sorted(run for supply in plan.supplies for run in supply.runs) != list(range(len(plan.runs))):
        yield "the plan does not work every run once"
