"""Everything that `lintarsia write` prints can be put under `written:` as it stands, and agrees with its chart."""

import html
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from folding import each
from lintarsia.cli.exits import FOUND
from lintarsia.cli.write import command
from lintarsia.reading import read_chart
from lintarsia.result import Level
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Work

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").rglob("*.chart.yaml"))
FORMS = [
    pytest.param(format, options, id=" ".join([format, *options]), marks=marks)
    for format in ("text", "markdown", "html")
    for options in ([], ["--in-full"], ["--supplies"], ["--in-full", "--supplies"])
    # The plainest; to read every page of the examples takes seconds in each form.
    for marks in ([] if (format, options) == ("text", []) else [pytest.mark.slow],)
]
RULES = [name for name in catalogue.NAMES if name.startswith("words/")]


def printed(file: Path, *options: str) -> str:
    result = CliRunner().invoke(command, [str(file), *options], standalone_mode=False)
    assert result.exception is None, result.output
    if result.return_value == FOUND:  # a broken example whose chart cannot be written, which it says
        assert result.output.strip()
        return ""
    return result.output


def shown(page: str) -> str:
    """What a browser shows of an HTML page, an entry a line."""
    text = re.sub(r"<(style|title)>.*?</\1>", "", page, flags=re.DOTALL)
    return html.unescape(re.sub(r"<[^>]+>", "", re.sub(r"</(li|p|h1|h2|dd)>", "\n", text)))


def faults(file: Path, page: str) -> list[str]:
    text = file.read_text(encoding="utf-8")
    text = re.sub(r"^written:\n(?:[ \t].*\n)*", "", text, flags=re.MULTILINE)
    block = "".join(f"  {line.rstrip()}\n" if line.strip() else "\n" for line in page.strip().splitlines())
    reading = read_chart(str(file), f"{text.rstrip()}\nwritten: |\n{block}".encode())
    assert reading.chart is not None, reading.problems
    written = {row for row, _ in reading.chart.written_sides} | set(reading.chart.written)
    assert set(range(1, reading.chart.grid.height + 1)) == written
    work = Work(reading.chart)
    return [
        f"{name}: {f.message}"
        for name in RULES
        if (check := catalogue.load(name).check)
        for f in check(work, NoOptions())
    ]


@pytest.mark.parametrize(("format", "options"), FORMS)
@each("file", EXAMPLES, named=lambda file: file.name.partition(".")[0], quickly=5)
def test_a_printed_page_pasted_back_agrees_with_the_chart(file: Path, format: str, options: list[str]) -> None:
    page = printed(file, "--format", format, *options)
    if not page:
        assert any(problem.level is not Level.WARNING for _, problem in read_chart(str(file)).problems)
        return
    assert faults(file, shown(page) if format == "html" else page) == []


@each("file", EXAMPLES, named=lambda file: file.name.partition(".")[0], quickly=4)
def test_the_fullest_page_pasted_back_agrees_with_the_chart(file: Path) -> None:
    page = printed(file, "--format", "html", "--in-full", "--supplies")
    assert not page or faults(file, shown(page)) == []


def test_a_slip_in_a_pasted_page_is_found_in_its_line() -> None:
    file = EXAMPLES[0]
    page = printed(file, "--in-full")
    slip = next(re.finditer(r"\b([kp])(\d+) ", page[page.index("Row 1 ") :]))
    changed = page.replace(slip[0], f"{slip[1]}{int(slip[2]) + 1} ", 1)
    assert faults(file, page) == []
    assert len(faults(file, changed)) == 1
