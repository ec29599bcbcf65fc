"""A rule's options, from the words of a settings file to typed values: text stays as it is written."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, Literal

import pytest

from lintarsia.chart.measure import StitchCount
from lintarsia.settings.options import convert
from lintarsia.settings.reader import read_settings

RULE = """\
from dataclasses import dataclass

from lintarsia.result import Level, RuleInfo

INFO = RuleInfo("ours/dated", Level.NOTE, "a", "b", "c", {"d": "e"})


@dataclass(frozen=True)
class Options:
    revision: str = ""
    revisions: tuple[str, ...] = ()
    most: int = 0
    share: float = 0.0
    strict: bool = False


def check(work, options):
    return iter(())
"""

Options = Callable[[str], Any]


@pytest.fixture
def options(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Options:
    """The options that a settings file comes to."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("LINTARSIA_REFUSE_OUTSIDE_RULES", raising=False)
    (tmp_path / "ours.py").write_text(RULE, "utf-8")

    def options(said: str) -> Any:
        (tmp_path / "lintarsia.yaml").write_text(
            f"local-rules: [ours.py]\nrules: {{ours/dated: {{options: {{{said}}}}}}}\n", "utf-8"
        )
        armed = read_settings("lintarsia.yaml").armed(str(tmp_path / "fox.chart.yaml"))
        return next(check.options for check in armed.checks if check.name == "ours/dated")

    return options


@pytest.mark.parametrize("text", ["1.10", "007", "+1", ".50", "true", "1.0", "1e3", "no"])
def test_text_stays_as_it_is_written(options: Options, text: str) -> None:
    assert options(f"revision: {text}").revision == text
    assert options(f"revision: '{text}'").revision == text
    assert options(f"revisions: [{text}, '{text}']").revisions == (text, text)


def test_a_number_counts_the_same_however_it_is_written(options: Options) -> None:
    made = options("most: 007, share: 1.50, strict: true")
    assert (made.most, made.share, made.strict) == (7, 1.5, True)
    assert options("most: 4.0").most == 4


@pytest.mark.parametrize(
    ("raw", "kind", "value"),
    [
        ("1.10", Literal["1.10"], "1.10"),
        ("1.10", Literal["1.1"], "1.1"),
        ("3.0", StitchCount, StitchCount(3)),
        ("null", str | None, None),
        ("010", str | None, "010"),
    ],
)
def test_what_is_no_plain_type(raw: str, kind: Any, value: object) -> None:
    assert convert(raw, kind) == value
