"""What the commands print, for the door to be held against."""

from collections.abc import Callable

import pytest

from lintarsia.cli.main import main


@pytest.fixture
def printed(capfd: pytest.CaptureFixture[str]) -> Callable[..., str]:
    """`printed("plan", "a.chart.yaml")`: what a command writes to standard output, once it has done as it was told."""

    def run(*argv: str) -> str:
        capfd.readouterr()
        status = main(argv)
        out, err = capfd.readouterr()
        assert status in (0, 1), err
        return out

    return run
