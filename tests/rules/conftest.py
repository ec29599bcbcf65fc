"""The `told` fixture: what a rule says of a pattern."""

from pathlib import Path

import pytest
from pattern_told import Told, told_in


@pytest.fixture
def told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Told:
    """Messages of one rule about a pattern of some pieces; charts by name, `options` as the settings state them."""

    def told(rule: str, pieces: str, options: str = "", head: str = "", **charts: str) -> list[str]:
        monkeypatch.chdir(tmp_path)
        return told_in(tmp_path, rule, pieces, options, head, **charts)

    return told
