"""What a page's stylesheet can re-colour: a rule for each class that carries paper or ink."""

from lintarsia.drawing.shades import ACCENT, INK, MUTED, PAPER

THEME_CSS = f"""\
.lx-paper {{ fill: var(--lx-paper, {PAPER}) }}
.lx-sheet {{ fill: var(--lx-sheet, {PAPER}) }}
.lx-number, .lx-muted {{ fill: var(--lx-muted, {MUTED}) }}
.lx-ink {{ fill: var(--lx-ink, {INK}) }}
.lx-outline {{ stroke: var(--lx-ink, {INK}) }}
.lx-way {{ stroke: var(--lx-accent, {ACCENT}) }}
.lx-shaping {{ fill: var(--lx-accent, {ACCENT}) }}
"""
"""Give `--lx-paper`, `--lx-sheet`, `--lx-ink`, `--lx-muted` and `--lx-accent` values for a dark page.

`--lx-sheet` is the sheet under yarn paths and techniques: keep it light (a lamp-lit paper), for the yarns' own edges
are drawn to be seen on it.
"""
