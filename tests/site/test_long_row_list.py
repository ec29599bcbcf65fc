"""A list of rows that is long opens in parts of some twenty rows, in the order of the work, and loses no line."""

import pytest
from lxml import html

from lintarsia.publishing.pages.rowlist import rows_html
from lintarsia.publishing.pages.rowview import Line


def lines(*stretches: tuple[int, int]) -> list[Line]:
    """A line for each stretch of rows, from the first to the last of it."""
    return [Line(first, last, f'<tr id="row-{first}-{at}"></tr>') for at, (first, last) in enumerate(stretches)]


def rows(low: int, high: int) -> list[tuple[int, int]]:
    return [(row, row) for row in range(low, high + 1)]


def parts(made: str) -> list[tuple[str, str, int]]:
    """(id, words, lines) of each part of the list."""
    page = html.fragment_fromstring(made, create_parent="div")
    for table in page.iter("table"):
        heads = [(th.get("scope"), th.get("class"), th.text) for th in table.iter("th")]
        assert [(scope, own) for scope, own, _ in heads] == [("col", None)] * 3 + [("col", "n")] * 2
        assert [text for _, _, text in heads[1:]] == [
            "Stitches, in working order", "Yarns, in the order of use", "At work", "Twists",
        ]  # fmt: skip
        assert heads[0][2] in ("Row", "Round")
    return [(one.get("id"), one.findtext("summary"), len(one.findall(".//tbody/tr"))) for one in page.iter("details")]


def test_sixty_lines_are_one_table() -> None:
    made = rows_html(lines(*rows(1, 60)), "row")
    assert parts(made) == []
    assert made.count("<table>") == 1
    assert made.count("<tr id=") == 60


@pytest.mark.parametrize(("word", "words"), [("row", "Rows"), ("round", "Rounds")])
def test_more_open_twenty_at_a_time(word: str, words: str) -> None:
    made = rows_html(lines(*rows(1, 61)), word)
    assert parts(made) == [
        (f"{word}s-1", f"{words} 1–20", 20), (f"{word}s-21", f"{words} 21–40", 20),
        (f"{word}s-41", f"{words} 41–60", 20), (f"{word}s-61", f"{words} 61–61", 1),
    ]  # fmt: skip
    assert 'class="rows"' in made
    assert "</details>\n<details" in made


def test_a_line_for_several_rows_is_not_cut() -> None:
    told = [*rows(1, 18), (19, 22), *rows(23, 65)]
    assert parts(rows_html(lines(*told), "row")) == [
        ("rows-1", "Rows 1–18", 18), ("rows-19", "Rows 19–40", 19), ("rows-41", "Rows 41–60", 20),
        ("rows-61", "Rows 61–65", 5),
    ]  # fmt: skip


def test_where_the_work_is_parted_the_list_begins_anew() -> None:
    """The other side of an opening is at rows that the list has passed: their parts have names of their own."""
    told = [*rows(1, 45), *rows(41, 58)]
    assert parts(rows_html(lines(*told), "row")) == [
        ("rows-1", "Rows 1–20", 20), ("rows-21", "Rows 21–40", 20), ("rows-41", "Rows 41–45", 5),
        ("rows-41-2", "Rows 41–58", 18),
    ]  # fmt: skip
