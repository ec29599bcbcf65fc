"""What a page's stylesheet can re-colour: a rule for each class that carries paper or ink."""

from lintarsia.drawing.shades import ACCENT, INK, MUTED, NO_STITCH, PAPER

THEME_CSS = f"""\
.lx-paper {{ fill: var(--lx-paper, {PAPER}) }}
.lx-sheet {{ fill: var(--lx-sheet, {PAPER}) }}
.lx-number, .lx-muted {{ fill: var(--lx-muted, {MUTED}) }}
.lx-ink {{ fill: var(--lx-ink, {INK}) }}
.lx-outline {{ stroke: var(--lx-ink, {INK}) }}
.lx-way {{ stroke: var(--lx-accent, {ACCENT}) }}
.lx-shaping {{ fill: var(--lx-accent, {ACCENT}) }}
.lx-shaping-line {{ stroke: var(--lx-accent, {ACCENT}) }}
.lx-no-stitch {{ stroke: var(--lx-none, {NO_STITCH}) }}
.lx-none {{ fill: var(--lx-none, {NO_STITCH}) }}
"""
"""Give `--lx-paper`, `--lx-sheet`, `--lx-ink`, `--lx-muted`, `--lx-accent` and `--lx-none`
(squares without a stitch) values for a dark page.

`--lx-sheet` is the sheet under yarn paths and techniques: keep it light (a lamp-lit paper), for the yarns' own edges
are drawn to be seen on it.
"""
