"""Charts of a pattern's pieces, and what one rule says of the pattern, as a function to be bound to a folder."""

from collections.abc import Callable
from pathlib import Path

from checking import EDGELESS

from lintarsia.engine import check_chart
from lintarsia.rules import catalogue
from lintarsia.rules.rulebook import Rulebook
from lintarsia.settings import Settings
from lintarsia.settings.reader import read_settings

Told = Callable[..., list[str]]
ENGINE_OWN = catalogue.BY_THE_ENGINE


def chart(rows: str, extra: str = "", colours: str = "") -> str:
    lines = "".join(f"  {row}\n" for row in rows.split())
    key = colours or '  B: {name: Dusk blue, shade: "#27406b"}\n  W: {name: Bone, shade: "#efe9dc"}\n'
    head = "lintarsia: 1\ntitle: Field\ngauge: {stitches: 20, rows: 30, over: 10 cm}\n"
    return f"{head}{extra}colours:\n{key}chart: |\n{lines}"


def told_in(folder: Path, rule: str, pieces: str, options: str = "", head: str = "", **charts: str) -> list[str]:
    """The messages; `folder` is the working folder, and takes the charts, named without their endings."""
    for name, text in charts.items():
        (folder / f"{name}.chart.yaml").write_text(text, encoding="utf-8")
    book = Rulebook(tuple(sorted({rule, *ENGINE_OWN})), catalogue.load)
    settings = Settings(root=str(folder), rulebook=book, reckoning=EDGELESS)
    if options:
        (folder / "lintarsia.yaml").write_text(f"rules: {{{rule}: {options}}}\n", encoding="utf-8")
        settings = read_settings(str(folder / "lintarsia.yaml"), rulebook=book)
    pattern = f"lintarsia-pattern: 1\ntitle: Cushion\n{head}pieces:\n{pieces}"
    results = check_chart("case.pattern.yaml", pattern.encode(), settings).results
    assert [r.message for r in results if r.rule != rule] == []
    return [result.message for result in results]
