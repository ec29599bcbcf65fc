"""Some hundreds of real glyphs as charts; `benchmarks/every_glyph.py` does all of them."""

import random

import pytest
from glyphs import faults_of, read_glyphs

from lintarsia.settings import Settings

SAMPLE = 300


@pytest.mark.slow
def test_sampled_glyphs_become_charts_that_read_back_equal() -> None:
    glyphs = read_glyphs()
    assert len(glyphs) > 50_000
    chosen = random.Random(1965).sample(glyphs, SAMPLE)
    settings = Settings(root=".")
    faults = [f"U+{code}: {fault}" for code, bits in chosen for fault in faults_of(code, bits, settings)]
    assert faults == []
