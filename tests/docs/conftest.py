"""The documentation's own code, and the documentation built as `mkdocs build --strict` builds it."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "docs" / "making"))


@pytest.fixture(scope="session")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of the built documentation. A warning of MkDocs fails the build."""
    folder = tmp_path_factory.mktemp("documentation") / "out"
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", "--quiet", "--site-dir", str(folder)]
    done = subprocess.run(command, cwd=ROOT, env=dict(os.environ), capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return folder
