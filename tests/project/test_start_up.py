"""What a command has loaded by the time it ends: the budget that keeps a cold start short."""

import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

PROBE = """
import json, sys
from lintarsia.cli.main import main
status = main(sys.argv[1:])
print("\\n" + json.dumps([status, sorted(sys.modules)]))
"""

# Each of these costs more to import than a chart costs to check.
HEAVY = {
    "jsonschema",
    "scipy",
    "mkdocs",
    "coloraide",
    "PIL",
    "networkx",
    "jinja2",
    "multiprocessing",
    "asyncio",
    "difflib",
}


def _loaded(*argv: str) -> tuple[int, set[str]]:
    done = subprocess.run([sys.executable, "-c", PROBE, *argv], capture_output=True, text=True, check=True)
    status, modules = json.loads(done.stdout.splitlines()[-1])
    return status, set(modules)


def test_version_loads_next_to_nothing() -> None:
    status, modules = _loaded("--version")
    assert status == 0
    assert not modules & (HEAVY | {"numpy", "yaml", "lintarsia.engine", "lintarsia.rules", "lintarsia.chart"})


def test_a_clean_check_loads_nothing_heavy(write_chart: Callable[..., Path]) -> None:
    file = write_chart(grid="clean")
    status, modules = _loaded("check", str(file))
    assert status == 0
    assert modules & HEAVY == set()


def test_help_loads_no_command() -> None:
    _, modules = _loaded("--help")
    assert not {name for name in modules if name.startswith("lintarsia.cli.")} - {
        "lintarsia.cli.main",
        "lintarsia.cli.exits",
    }
