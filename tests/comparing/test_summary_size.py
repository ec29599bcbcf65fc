"""The Markdown fits into the summary of a job, however many files differ."""

import pytest
from planted import compared, with_row

from lintarsia.comparing import markdown
from lintarsia.comparing.markdown import MOST_BYTES, comparison_markdown
from lintarsia.comparing.model import Comparison, FileChange, State


def test_files_beyond_a_megabyte_are_counted(monkeypatch: pytest.MonkeyPatch) -> None:
    """A megabyte is what GitHub takes (2**20 bytes); tried with an eighth of it."""
    assert MOST_BYTES + 100 <= 2**20
    monkeypatch.setattr(markdown, "MOST_BYTES", most := MOST_BYTES // 8)
    change = compared(with_row(9, "BBRWRWRBBBBBBBBB"))
    files = tuple(
        FileChange(f"{k}.chart.yaml", f"{k}.chart.yaml", State.CHANGED, "a", "b", change, title=f"Kite {k}")
        for k in range(500)
    )
    text = comparison_markdown(Comparison("v1.0", "working tree", files))
    assert len(text.encode()) <= most + 100
    told = text.count("### Kite")
    assert text.endswith(f"\n*{500 - told:,} more files left out here; the text has them all.*\n")
    assert told > 125
    few = comparison_markdown(Comparison("v1.0", "working tree", files[:3]))
    assert (few.count("### Kite"), "left out" in few) == (3, False)
