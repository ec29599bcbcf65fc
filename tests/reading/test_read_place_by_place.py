"""A place asked for alone is the place found among all of them."""

import pytest

from lintarsia.reading import read_document
from lintarsia.reading.places import LatePlaces

TEXT = """\
lintarsia: 1
title: Two
title: Three
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  A: {name: Shore, shade: "#c9b458"}
repeat: {stitches: [1, 2], rows: [1, 1]}
suppress:
  - {rule: area/single-stitch, justification: "the eye"}
  - rule: colour/unused
    justification: |
      wanted
chart: |
  AA
"""


@pytest.mark.parametrize("keys", [True, False])
@pytest.mark.parametrize("text", [TEXT, TEXT + "symmetry: &s [left-right]\nwritten: *s\n"])
def test_one_by_one_as_all_at_once(text: str, keys: bool) -> None:
    root = read_document("a.chart.yaml", text.encode()).root
    assert root is not None
    every = dict(LatePlaces(root, text, keys=keys))
    assert len(every) > 15
    for path, region in every.items():
        assert LatePlaces(root, text, keys=keys)[path] == region


@pytest.mark.parametrize("path", [(), ("yarns",), ("suppress", 2), ("suppress", -1), ("title", "x"), ("colours", 0)])
def test_what_is_not_there(path: tuple[str | int, ...]) -> None:
    root = read_document("a.chart.yaml", TEXT.encode()).root
    assert root is not None
    for keys in (True, False):
        assert path not in LatePlaces(root, TEXT, keys=keys)
