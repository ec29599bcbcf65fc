"""Path patterns: what each of them takes, and what it leaves."""

import random
import re

import pytest

from lintarsia.settings.globs import BadGlob, check_glob, matches

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
    ("heron-[1-3].chart.yaml", "heron-2.chart.yaml"),
    ("heron-[a-c1-3].chart.yaml", "heron-3.chart.yaml"),
    ("heron-[^12].chart.yaml", "heron-3.chart.yaml"),
    ("heron-[-].chart.yaml", "heron--.chart.yaml"),
    ("a/**/b/*.chart.yaml", "a/b/c/b/heron.chart.yaml"),
    ("a**z.chart.yaml", "ab/c/z.chart.yaml"),
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
    ("heron[!12]1.chart.yaml", "heron/1.chart.yaml"),
    ("heron-[1-3].chart.yaml", "heron--.chart.yaml"),
    ("heron[.chart.yaml", "heron.chart.yaml"),
    ("a/**/b", "a/xb"),
]


@pytest.mark.parametrize(("pattern", "path"), TAKEN)
def test_pattern_takes_the_path(pattern: str, path: str) -> None:
    assert matches([pattern], path)


@pytest.mark.parametrize(("pattern", "path"), LEFT)
def test_pattern_leaves_the_path(pattern: str, path: str) -> None:
    assert not matches([pattern], path)


def test_no_pattern_takes_nothing() -> None:
    assert not matches([], "heron.chart.yaml")


@pytest.mark.parametrize(
    ("pattern", "told"), [("[z-a]", "z-a in [z-a] runs backwards; expected a-z"), ("x/[!9-0]?", "9-0")]
)
def test_a_range_that_runs_backwards_is_told(pattern: str, told: str) -> None:
    with pytest.raises(BadGlob, match=re.escape(told)):
        check_glob(pattern)


# What each part means, as a regular expression; an engine of another kind, which tries one way after another.
MEANING = {"a": "a", "b": "b", "*": "[^/]*", "?": "[^/]", "[ab]": "[ab]", "[!a]": "[^a/]", "/": "/"}
MEANING |= {"**/": "(?:[^/]+/)*", "**": ".*"}


@pytest.mark.parametrize("seed", range(5))
def test_patterns_mean_what_they_say(seed: int) -> None:
    chance = random.Random(seed)
    for _ in range(2000):
        parts = chance.choices([part for part in MEANING if part not in ("/", "**/")], k=chance.randint(1, 3))
        parts = [chance.choice(["**/", "a/", "*/", "?b/"]), *parts]
        path = "/".join("".join(chance.choices("ab", k=chance.randint(1, 3))) for _ in range(chance.randint(1, 4)))
        text = "".join(parts)
        tokens = re.findall(r"\*\*/|\*\*|\[!?\w+\]|.", text)
        meant = "".join(MEANING[token] for token in tokens) + "(?:/.*)?"
        assert matches([text], path) == bool(re.fullmatch(meant, path)), (text, path)


@pytest.mark.parametrize("pattern", ["*a" * 40 + "b", "**/a" * 40 + "/b", "a**" * 40 + "b", "[ab]*" * 40 + "!"])
def test_no_pattern_takes_for_ever(pattern: str) -> None:
    assert not matches([pattern], "a" * 250)
    assert not matches([pattern], "a/" * 120 + "a")
