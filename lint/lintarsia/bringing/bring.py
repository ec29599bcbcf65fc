"""One file in, one chart out: looks at what it is, takes its cells, names its colours, reads the result back."""

import os
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from lintarsia.bringing.charttext import KeyEntry, chart_text
from lintarsia.bringing.limits import MOST_BYTES, refuse_large
from lintarsia.bringing.outline import UntoldError, outline
from lintarsia.bringing.palette import Shade
from lintarsia.bringing.shadenames import NAMES, letters_for, name_shades
from lintarsia.bringing.table import Table, csv_table, read_text, text_grid, usable, workbook_table
from lintarsia.bringing.wishes import NO_WISHES, Wishes
from lintarsia.ground.trouble import Trouble
from lintarsia.telling.counts import count, one_and_all

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

KINDS = ("image", "table", "grid", "workbook")

# For symbols that do not say what colour they are: far apart in lightness and hue, the commonest first.
SPREAD = ("Bone", "Navy", "Rust", "Moss", "Gold", "Rose", "Teal", "Plum", "Sky", "Brown", "Grey", "Black")
MOST_OF_A_HEAD = 65536  # bytes in which a file of ours says what it is
_OWN = re.compile(rb"^(?:\xef\xbb\xbf)?lintarsia(-pattern|-knit)?[ \t]*:|^chart[ \t]*:[ \t]*[|>]", re.MULTILINE)
_HEX = re.compile(r"#?([0-9A-Fa-f]{6})")


@dataclass(frozen=True, slots=True)
class Brought:
    """The chart file's text, its rows from the top line down, its key, and what there is to say about the making.

    `before` is the image it was made of, one pixel a stitch, shape (rows, stitches, 4), RGBA; None for a table.
    """

    text: str
    rows: tuple[str, ...]
    key: tuple[KeyEntry, ...]
    notes: tuple[str, ...]
    before: "NDArray[np.uint8] | None" = None


def bring(name: str, data: bytes, wishes: Wishes = NO_WISHES) -> Brought:
    """The chart that a file holds. Raises Trouble, with a whole message, where it holds none."""
    if len(data) > MOST_BYTES:
        raise Trouble(f"{name!r} has {len(data):,} bytes; at most {MOST_BYTES:,} are read")
    if not data:
        raise Trouble(f"{name!r} is empty")
    _refuse_own(name, data)
    kind = wishes.kind or kind_of(name, data)
    before = None
    if kind == "image":
        from lintarsia.bringing.pixels import image_chart

        rows, key, notes, before = image_chart(name, data, wishes)
    else:
        table = _table(kind, name, data)
        refuse_large(len(table[0]), len(table), wishes.most_stitches)
        rows, key = table_chart(name, table, wishes.palette)
        notes = ()
    rows, sections, told = _outlined(rows, wishes)
    notes = (*notes, *told)
    text = chart_text(
        title=wishes.title or title_of(name),
        gauge=wishes.gauge,
        technique=wishes.technique,
        worked=wishes.worked,
        key=key,
        rows=rows,
        remark="Made from an image or a table. Measure your own swatch and put its gauge in.",
        sections=sections,
    )
    _read_back(name, text, rows)
    return Brought(text, tuple(rows), tuple(key), notes, before)


def _outlined(rows: Sequence[str], wishes: Wishes) -> tuple[list[str], list[str], list[str]]:
    """The rows without empty ones at top and bottom, what the file says of their outline, and what there is to say of
    it."""
    filled = [at for at, row in enumerate(rows) if row.strip(".")]
    if len(filled) == len(rows) and not any("." in row for row in rows):
        return list(rows), [], []
    kept = list(rows[filled[0] : filled[-1] + 1]) if filled else list(rows)
    left_out = len(rows) - len(kept)
    told = [f"{count(left_out, 'row')} without a stitch at top or bottom left out"] if left_out else []
    if wishes.worked != "flat" or len({len(row) for row in kept}) > 1:
        return kept, [], told
    try:
        made = outline(kept[::-1])
    except UntoldError as reason:
        return kept, [], [*told, f"the rows differ in width: say in `shaping` how ({reason}, so nothing is written)"]
    shaped, parted = len(made.shaping), list(made.divide)
    if shaped:
        told.append(f"{count(shaped, 'row')} shaped as the outline goes: `shaping` is a first draft")
    if parted:
        told.append(f"the work is parted in {one_and_all([f'row {row}' for row in parted])}: `divide` says how")
    return kept, made.lines(), told


def _refuse_own(name: str, data: bytes) -> None:
    """A file of ours is text too, and would be taken for a grid of its YAML's letters."""
    match = _OWN.search(data[:MOST_OF_A_HEAD])
    if match:
        kind = "pattern" if match[1] == b"-pattern" else "test knit" if match[1] == b"-knit" else "chart"
        raise Trouble(
            f"{name!r} is a {kind} file already; there is nothing to bring (lintarsia check reads it as it is)"
        )


def kind_of(name: str, data: bytes) -> str:
    """What a file is, by its first bytes and then by the ending of its name."""
    if data.startswith((b"\x89PNG\r\n\x1a\n", b"GIF87a", b"GIF89a", b"\xff\xd8\xff", b"BM")):
        return "image"
    ending = os.path.splitext(name)[1].lower()
    if data.startswith(b"PK\x03\x04") or ending in (".xlsx", ".ods", ".xlsm"):
        return "workbook"
    if ending in (".png", ".gif", ".jpg", ".jpeg", ".bmp"):
        return "image"
    return "table" if ending in (".csv", ".tsv") else "grid"


def title_of(name: str) -> str:
    """A title from a file's name: `two_moons-v2.png` is "Two moons v2"."""
    stem = os.path.basename(name).split(".")[0].encode("utf-8", "replace").decode()
    words = " ".join(re.sub(r"[_\-]+", " ", stem).split())
    return (words[:1].upper() + words[1:]) if words else "Untitled chart"


def _table(kind: str, name: str, data: bytes) -> Table:
    if kind == "workbook":
        return workbook_table(name, data)
    text = read_text(name, data)
    return csv_table(name, text) if kind == "table" else text_grid(name, text)


def table_chart(name: str, table: Table, palette: Sequence[Shade]) -> tuple[list[str], list[KeyEntry]]:
    """Rows and key of a table of labels. A label is a symbol, a shade, a colour's name, or any text of the user's."""
    counts = Counter(label for row in table for label in row if label)
    labels = sorted(counts, key=lambda label: (-counts[label], label))
    shades = _shades(labels, palette)
    kept = {label: label for label in labels if usable(label)}
    kept |= {s.name: s.symbol for s in palette if s.symbol and s.name in counts and s.symbol not in counts}
    plain = name_shades(shades)
    own = {s.symbol: s.name for s in palette if s.symbol}
    names = [
        own.get(label, plain[at]) if usable(label) or _HEX.fullmatch(label) else label
        for at, label in enumerate(labels)
    ]
    rest = [at for at, label in enumerate(labels) if label not in kept]
    try:
        letters = letters_for([names[at] for at in rest], kept.values())
    except ValueError as failure:
        raise Trouble(f"{name!r}: {failure}") from None
    symbols = kept | {labels[at]: letter for at, letter in zip(rest, letters, strict=True)}
    key = [KeyEntry(symbols[label], names[at], shades[at]) for at, label in enumerate(labels)]
    return ["".join(symbols[label] if label else "." for label in row) for row in table], key


def _shades(labels: Sequence[str], palette: Sequence[Shade]) -> list[str]:
    known = {name.lower(): shade for name, shade in NAMES.items()}
    known |= {shade.name.lower(): shade.shade for shade in palette}
    known |= {shade.symbol.lower(): shade.shade for shade in palette if shade.symbol}
    said = {}
    for label in labels:
        match = _HEX.fullmatch(label)
        if match:
            said[label] = f"#{match[1].lower()}"
        elif label.lower() in known:
            said[label] = known[label.lower()]
    spread = [NAMES[name] for name in (*SPREAD, *(n for n in NAMES if n not in SPREAD))]
    free = [shade for shade in (*(s.shade for s in palette), *spread) if shade not in said.values()]
    unsaid = [label for label in labels if label not in said]
    return [said[label] if label in said else free[unsaid.index(label) % len(free)] for label in labels]


def _read_back(name: str, text: str, rows: Sequence[str]) -> None:
    """Nothing is written that does not read back as the very same chart."""
    from lintarsia.reading import read_chart

    reading = read_chart(name, text.encode(), max_bytes=2 * len(text.encode()) + 1024)
    if reading.chart is None or reading.chart.grid.rows[::-1] != tuple(rows):
        said = "; ".join(finding.message for _, finding in reading.problems) or "the rows differ"
        raise Trouble(f"{name!r} gives a chart that does not read back ({said})")
