"""The fingerprint of a pattern and of a piece in a size."""

import dataclasses
from pathlib import Path

import pytest
from pattern_files import chart_text, write_pattern

from lintarsia.chart.content import chart_fingerprint
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern import content
from lintarsia.pattern.model import Pattern, Piece
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.settings import SettingsFinder


def test_every_field_counts_or_does_not() -> None:
    """A new field must be put into one of the lists of `pattern/content.py`."""
    fields = [field.name for field in dataclasses.fields(Pattern)]
    assert sorted([*content.COUNTED, *content.UNCOUNTED]) == sorted(fields)
    fields = [field.name for field in dataclasses.fields(Piece)]
    assert sorted([*content.PIECE_COUNTED, *content.PIECE_WHERE_SAID, *content.PIECE_LAID]) == sorted(fields)


TEXT = """\
version: "1.0"
sizes: [small, large]
yarns: {w: {name: Plain, length: 120 m, balls: {small: 2, large: 3}}}
pieces:
  front: {chart: front.chart.yaml, rows: {small: 4, large: 8}}
  back: {chart: back.chart.yaml, times: {small: 1, large: 2}}
seams: [{join: [front left, back right]}]
"""
FRONT = chart_text("BBBBB BWWBB BWWBB BBBBB", "repeat: {stitches: [1, 5], rows: [1, 4]}\n")


def work(folder: Path, text: str = TEXT, front: str = FRONT) -> PatternWork:
    file = write_pattern(folder, text, front=front, back=chart_text("BBBBB BBBBB"))
    reading = read_pattern(str(file))
    assert reading.pattern is not None
    return work_on(reading.pattern, SettingsFinder().for_folder(str(folder)))


def test_layout_version_and_what_is_only_checked_have_no_part_in_it(tmp_path: Path) -> None:
    first = content.pattern_fingerprint(work(tmp_path))
    again = TEXT.replace('"1.0"', '"1.1"').replace("join: [front left, back right]", "join: [back right, front left]")
    again += "# a comment\ntolerance: 1 cm\n"
    front = FRONT.replace("title: Field\n", "").replace("colours:", "title: Field\ncolours:")
    assert content.pattern_fingerprint(work(tmp_path, again, front)) == first
    assert len(first) == 16


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("small: 2", "small: 1"),
        ("times: {small: 1, large: 2}", "times: {small: 1, large: 1}"),
        ("large: 8", "large: 12"),
        ("name: Plain", "name: Fancy"),
        ("sizes: [small, large]", "sizes: [large, small]"),
        ("join: [front left", "join: [front right"),
    ],
)
def test_what_is_knitted_bought_or_read_changes_it(tmp_path: Path, old: str, new: str) -> None:
    assert old in TEXT
    text = TEXT.replace(old, new)
    assert content.pattern_fingerprint(work(tmp_path)) != content.pattern_fingerprint(work(tmp_path, text))


def test_a_stitch_of_a_chart_changes_it_and_its_pieces_alone(tmp_path: Path) -> None:
    old, new = work(tmp_path), work(tmp_path, front=FRONT.replace("BWWBB\n  BBBBB", "BBWBB\n  BBBBB"))
    assert content.pattern_fingerprint(old) != content.pattern_fingerprint(new)
    for name, same in (("front", False), ("back", True)):
        marks = [content.piece_fingerprint(w, w.pattern.pieces[name], "large") for w in (old, new)]
        assert (marks[0] == marks[1]) is same


def test_a_piece_in_a_size_has_the_fingerprint_of_its_chart_laid_out(tmp_path: Path) -> None:
    own = work(tmp_path)
    laid = own.laid(own.pattern.pieces["front"], "large")
    assert laid is not None
    assert content.piece_fingerprint(own, own.pattern.pieces["front"], "large") == chart_fingerprint(laid.chart)
    assert content.piece_fingerprint(own, own.pattern.pieces["front"], "small") != chart_fingerprint(laid.chart)
