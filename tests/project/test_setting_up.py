"""Setting up on a machine where something is missing: it is named at once, and nothing is made or fetched unasked."""

import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture
def old_python(tmp_path: Path) -> Path:
    """A folder with a `python3` that says it is 3.10 and refuses all but to run a line of code."""
    folder = tmp_path / "old"
    folder.mkdir()
    stand_in = folder / "python3"
    stand_in.write_text(
        "#!/bin/sh\n"
        '[ "$1" = -c ] || { echo "python3 $*" >>"$0.asked"; exit 99; }\n'
        f'exec "{sys.executable}" -c "import sys; sys.version_info = (3, 10, 13); $2"\n'
    )
    stand_in.chmod(0o755)
    return folder


def run(command: list[str], folder: Path, **variables: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(command, cwd=folder, env=os.environ | variables, capture_output=True, text=True)


def test_the_first_command_of_readme_names_the_python_it_needs(old_python: Path, tmp_path: Path) -> None:
    found = re.search(r"```sh\n(.*?)```", (ROOT / "README.md").read_text(encoding="utf-8"), re.DOTALL)
    assert found
    done = run(["sh", "-c", found[1]], tmp_path, PATH=f"{old_python}{os.pathsep}{os.environ['PATH']}")
    assert (done.returncode, done.stdout, done.stderr) == (1, "", "lintarsia needs Python 3.11 or later\n")
    assert os.listdir(tmp_path) == ["old"]
    assert os.listdir(old_python) == ["python3"]


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """As much of this project as its scripts look at before they set anything up."""
    folder = tmp_path / "a checkout"
    (folder / "tests").mkdir(parents=True)
    for name in ("run", "packages", "debian-packages.txt"):
        shutil.copy(ROOT / "tests" / name, folder / "tests")
    return folder


def test_the_tests_name_the_python_they_need(old_python: Path, checkout: Path) -> None:
    done = run(["sh", "tests/run"], checkout, PYTHON=str(old_python / "python3"))
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr.startswith(f"tests/run: {old_python / 'python3'} is no Python 3.11 or later with venv")
    assert os.listdir(checkout) == ["tests"]


def test_packages_that_are_missing_are_named(checkout: Path) -> None:
    (checkout / "tests" / "debian-packages.txt").write_text(
        "# of what\nsh sh\nspindle-whorl /no/such/whorl\nloom no-loom\n"
    )
    done = run(["sh", "tests/packages"], checkout)
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("missing here: spindle-whorl loom (Debian's names)")
    (checkout / "tests" / "debian-packages.txt").write_text("sh sh\n")
    assert run(["sh", "tests/packages"], checkout).returncode == 0


def test_packages_are_fetched_by_nobody_but_root(checkout: Path) -> None:
    (checkout / "tests" / "debian-packages.txt").write_text("loom no-loom\n")
    tools = checkout / "tools"
    tools.mkdir()
    (tools / "id").write_text("#!/bin/sh\necho 1000\n")
    (tools / "apt-get").write_text('#!/bin/sh\necho "$*" >>"$0.asked"\n')
    for tool in tools.iterdir():
        tool.chmod(0o755)
    path = f"{tools}{os.pathsep}{os.environ['PATH']}"
    done = run(["sh", "tests/packages", "--install"], checkout, PATH=path)
    assert done.returncode == 1
    assert "only root can fetch them" in done.stderr
    assert not (tools / "apt-get.asked").exists()
    (tools / "id").write_text("#!/bin/sh\necho 0\n")
    assert run(["sh", "tests/packages", "--install"], checkout, PATH=path).returncode == 0
    asked = (tools / "apt-get.asked").read_text().splitlines()
    assert asked == ["-qq update", "-qq install --yes --no-install-recommends loom"]
