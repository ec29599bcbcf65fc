"""What is taken through the steps together."""

import shutil
from itertools import pairwise
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from lintarsia.engine.batches import MOST, MOST_BYTES, batches, check_charts
from lintarsia.engine.checking import check_chart
from lintarsia.engine.targets import find_targets
from lintarsia.ground.kinds import Kind
from lintarsia.settings import SettingsFinder

EXAMPLES = Path(__file__).parents[2] / "examples"


@given(st.lists(st.integers(0, 2 * MOST_BYTES) | st.integers(0, 2000), max_size=40))
def test_batches_keep_the_order_and_stay_small(sizes: list[int]) -> None:
    made = list(batches(sizes, lambda size: size))
    assert [size for batch in made for size in batch] == sizes
    assert all(0 < len(batch) <= MOST and (len(batch) == 1 or sum(batch) <= MOST_BYTES) for batch in made)
    for one, other in pairwise(made):
        assert len(one) == MOST or sum(one) + other[0] > MOST_BYTES  # no smaller than they have to be


def test_charts_and_patterns_come_to_the_same_together_and_alone(tmp_path: Path) -> None:
    for folder in ("broken", "fox-jumper"):
        shutil.copytree(EXAMPLES / folder, tmp_path / folder)
    targets = find_targets([str(tmp_path)], SettingsFinder(None), tuple(Kind))
    assert len(targets) > MOST
    alone = [check_chart(target.path, None, target.settings) for target in targets]
    assert [answer.results for answer in check_charts(targets)] == [answer.results for answer in alone]
