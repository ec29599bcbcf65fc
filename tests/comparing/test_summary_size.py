"""The Markdown fits into the summary of a job, however many files differ."""

from planted import compared, with_row

from lintarsia.comparing.markdown import MOST_BYTES, comparison_markdown
from lintarsia.comparing.model import Comparison, FileChange, State


def test_files_beyond_a_megabyte_are_counted() -> None:
    change = compared(with_row(9, "BBRWRWRBBBBBBBBB"))
    files = tuple(
        FileChange(f"{k}.chart.yaml", f"{k}.chart.yaml", State.CHANGED, "a", "b", change, title=f"Kite {k}")
        for k in range(4000)
    )
    text = comparison_markdown(Comparison("v1.0", "working tree", files))
    assert len(text.encode()) <= MOST_BYTES + 100 <= 2**20
    told = text.count("### Kite")
    assert text.endswith(f"\n*{4000 - told:,} more files left out here; the text has them all.*\n")
    assert told > 1000
    few = comparison_markdown(Comparison("v1.0", "working tree", files[:3]))
    assert (few.count("### Kite"), "left out" in few) == (3, False)
