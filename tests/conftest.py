"""What tests of several parts share: a small rulebook of toy rules, and a chart to write into a folder."""

from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import is_hypothesis_test, settings

import folding
from lintarsia.result import Level
from lintarsia.rules import catalogue
from lintarsia.rules.base import NoOptions, Rule
from lintarsia.rules.rulebook import Rulebook
from toy_rules import LetterOptions, fails, info, letters

# How long an example takes says more of the machine than of the code.
settings.register_profile("untimed", deadline=None)
settings.load_profile("untimed")


@pytest.fixture(autouse=True)
def _nobody_s_pull_request() -> Iterator[None]:
    """The tests say themselves where rules from elsewhere are refused, wherever they run.

    By a patch of its own: the usual one would then be undone last, and a test still stand in a folder that goes away.
    """
    from lintarsia.settings.trust import VARIABLES

    with pytest.MonkeyPatch.context() as patch:
        for name in VARIABLES:
            patch.delenv(name, raising=False)
        yield


def pytest_configure(config: pytest.Config) -> None:
    folding.QUICK = config.option.markexpr == "quick"


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """`-m quick` is what neither says `slow` nor looks with a browser: a new test is quick unless it says otherwise.

    One that needs what `debian-packages.txt` lists, git aside, is to say so: quick tests run wherever Python does.
    """
    for item in items:
        looks = {"browser", "npm"} & set(getattr(item, "fixturenames", ()))
        if looks or item.get_closest_marker("slow"):
            item.add_marker("slow")
        else:
            item.add_marker("quick")
    if folding.QUICK:
        for item in items:
            _try_fewer(getattr(item, "obj", None))


FEW = 40


def _try_fewer(test: Callable[..., None] | None) -> None:
    """Of what is tried by lot the quick run tries a part, `FEW` at least; all of it is for the whole suite."""
    if is_hypothesis_test(test):
        whole = test._hypothesis_internal_use_settings  # type: ignore[union-attr]
        few = settings(whole, max_examples=max(min(FEW, whole.max_examples), whole.max_examples // 4))
        test._hypothesis_internal_use_settings = few  # type: ignore[union-attr]


CHART = """\
lintarsia: 1
title: Toy
worked: flat
gauge: {stitches: 22, rows: 30, over: 10 cm}
colours:
  B: {name: Dusk blue, shade: "#27406b"}
  W: {name: Bone, shade: "#efe9dc"}
"""
GRID = "BBBB\nBWBB\nBBBB\n"
# Two blocks side by side: nothing that any rule has a word about, notes included.
CLEAN = f"{'B' * 14}{'W' * 14}\n" * 20
# The same with a stitch missing at the left of row 2, which stands in line 27 of the file; nothing else is wrong.
SHORT = f"{CLEAN[: 29 * 18]}{CLEAN[1:29]}{CLEAN[:29]}"
GRIDS = {"clean": CLEAN, "short": SHORT}


@pytest.fixture
def toy_book() -> Rulebook:
    """toy/letters (warning, options), toy/fails (off), and the engine's own rules."""
    rules = {
        "toy/letters": Rule(info("toy/letters", Level.WARNING), LetterOptions, letters),
        "toy/fails": Rule(info("toy/fails", Level.OFF), NoOptions, fails),
    }
    for name in set(catalogue.BY_THE_ENGINE) - {"baseline/stale"}:
        rules[name] = Rule(replace(catalogue.load(name).info, remedy=f"remedy of {name}"), NoOptions)
    return Rulebook(tuple(sorted(rules)), rules.__getitem__)


@pytest.fixture
def write_chart(tmp_path: Path) -> Callable[..., Path]:
    """Write a chart below the test's folder: `write_chart("a/b.chart.yaml", grid, extra)`.

    `grid` may be "clean" or "short" instead of rows.
    """

    def write(name: str = "toy.chart.yaml", grid: str = GRID, extra: str = "") -> Path:
        file = tmp_path / name
        file.parent.mkdir(parents=True, exist_ok=True)
        rows = "".join(f"  {line}\n" for line in GRIDS.get(grid, grid).splitlines())
        file.write_text(f"{CHART}{extra}chart: |\n{rows}", encoding="utf-8")
        return file

    return write
