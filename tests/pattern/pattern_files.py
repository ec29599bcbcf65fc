"""Pattern and chart files that several tests write."""

from pathlib import Path

GAUGE = "{stitches: 20, rows: 30, over: 10 cm}"


def chart_text(rows: str, extra: str = "", title: str = "Field", gauge: str = GAUGE) -> str:
    """A chart of B and W, as far as they are used; `rows` are separated by spaces, the top one first."""
    lines = "".join(f"  {row}\n" for row in rows.split())
    shades = {"B": '{name: Dusk blue, shade: "#27406b"}', "W": '{name: Bone, shade: "#efe9dc"}'}
    key = "".join(f"  {symbol}: {colour}\n" for symbol, colour in shades.items() if symbol in rows)
    return f"lintarsia: 1\ntitle: {title}\ngauge: {gauge}\n{extra}colours:\n{key}chart: |\n{lines}"


def write(folder: Path, name: str, text: str) -> Path:
    """A file in a folder, which is made."""
    file = folder / name
    file.parent.mkdir(parents=True, exist_ok=True)
    file.write_text(text, encoding="utf-8")
    return file


def write_pattern(folder: Path, text: str, **charts: str) -> Path:
    """`cushion.pattern.yaml` and its charts (`front="…"` is front.chart.yaml)."""
    for name, chart in charts.items():
        write(folder, f"{name}.chart.yaml", chart)
    return write(folder, "cushion.pattern.yaml", f"lintarsia-pattern: 1\ntitle: Cushion\n{text}")
