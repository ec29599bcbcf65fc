"""Path patterns: what each of them takes, and what it leaves."""

import pytest

from lintarsia.settings.globs import matches

TAKEN = [
    ("*.chart.yaml", "heron.chart.yaml"),
    ("*.chart.yaml", "birds/heron.chart.yaml"),
    ("**/*.chart.yaml", "heron.chart.yaml"),
    ("**/*.chart.yaml", "a/b/c/heron.chart.yaml"),
    ("birds/*.chart.yaml", "birds/heron.chart.yaml"),
    ("./birds/*.chart.yaml", "birds/heron.chart.yaml"),
    ("birds/**", "birds/a/heron.chart.yaml"),
    ("birds/", "birds/a/heron.chart.yaml"),
    ("birds", "birds"),
    ("birds", "a/birds/heron.chart.yaml"),
    ("a/**/b.chart.yaml", "a/b.chart.yaml"),
    ("a/**/b.chart.yaml", "a/x/y/b.chart.yaml"),
    ("heron-?.chart.yaml", "heron-1.chart.yaml"),
    ("heron-[12].chart.yaml", "heron-2.chart.yaml"),
    ("heron-[!12].chart.yaml", "heron-3.chart.yaml"),
    ("a+b(c).chart.yaml", "a+b(c).chart.yaml"),
    ("*.chart.yaml", "two\nlines.chart.yaml"),
]
LEFT = [
    ("*.chart.yaml", "heron.yaml"),
    ("*.chart.yaml", "heron.chart.yaml.bak"),
    ("birds/*.chart.yaml", "a/birds/heron.chart.yaml"),
    ("birds/*.chart.yaml", "birds/a/heron.chart.yaml"),
    ("birds", "blackbirds/heron.chart.yaml"),
    ("birds/**", "birds"),
    ("heron-?.chart.yaml", "heron-12.chart.yaml"),
    ("heron-[!12].chart.yaml", "heron-1.chart.yaml"),
    ("heron.chart.yaml", "heronxchart.yaml"),
]


@pytest.mark.parametrize(("pattern", "path"), TAKEN)
def test_pattern_takes_the_path(pattern: str, path: str) -> None:
    assert matches([pattern], path)


@pytest.mark.parametrize(("pattern", "path"), LEFT)
def test_pattern_leaves_the_path(pattern: str, path: str) -> None:
    assert not matches([pattern], path)


def test_no_pattern_takes_nothing() -> None:
    assert not matches([], "heron.chart.yaml")
