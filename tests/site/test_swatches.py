"""Charts of one title are told apart by their files, on the wall and in the table."""

from lintarsia.publishing.pages.entry import Entry
from lintarsia.publishing.pages.layout import Layout
from lintarsia.publishing.pages.overview import overview_page
from lintarsia.result import Level


def entry(title: str, file: str) -> Entry:
    return Entry(file, file.partition(".")[0], title, "", None, (), Level.ERROR)


def test_a_title_that_others_have_too_is_followed_by_the_file() -> None:
    entries = [entry("Owl", "owl.chart.yaml"), entry("Owl", "old/owl.chart.yaml"), entry("Pear", "pear.chart.yaml")]
    page = overview_page("Charts", entries, Layout())
    for file in ("owl.chart.yaml", "old/owl.chart.yaml"):
        assert page.count(f"<small>{file}</small>") == 2
    assert "<small>pear.chart.yaml</small>" not in page


def test_a_title_that_is_the_file_is_not_said_twice() -> None:
    page = overview_page(
        "Charts", [entry("a.chart.yaml", "a.chart.yaml"), entry("a.chart.yaml", "b/a.chart.yaml")], Layout()
    )
    assert page.count("<small>a.chart.yaml</small>") == 0
    assert page.count("<small>b/a.chart.yaml</small>") == 2
