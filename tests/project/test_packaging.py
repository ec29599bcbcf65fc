"""Wheel and sdist as a user gets them: built, installed in a fresh environment away from the checkout, and run."""

import os
import subprocess
import sys
import tarfile
import venv
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder with both archives; the wheel is built from the sdist, so the sdist has all it takes."""
    folder = tmp_path_factory.mktemp("dist")
    _run([sys.executable, "-m", "build", "--outdir", str(folder), str(ROOT)], ROOT)
    return folder


@pytest.fixture(scope="module")
def installed(built: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command in a fresh environment that has the wheel and what it depends on, nothing else."""
    folder = tmp_path_factory.mktemp("fresh")
    venv.create(folder / "venv", with_pip=True)
    (wheel,) = built.glob("*.whl")
    _run(
        [str(folder / "venv/bin/python"), "-m", "pip", "install", "-q", "--disable-pip-version-check", str(wheel)],
        folder,
    )
    return folder / "venv/bin/lintarsia"


def test_the_wheel_holds_the_package_and_what_it_reads(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    names = set(zipfile.ZipFile(wheel).namelist())
    for name in ("__init__.py", "py.typed", "schema/chart.schema.json", "schema/settings.schema.json"):
        assert f"lintarsia/{name}" in names
    assert all(name.startswith(("lintarsia/", "lintarsia-")) for name in names)
    assert not [name for name in names if "__pycache__" in name or "/tests/" in name]


def test_the_sdist_holds_tests_examples_and_guides(built: Path) -> None:
    (sdist,) = built.glob("*.tar.gz")
    with tarfile.open(sdist) as archive:
        names = {name.partition("/")[2] for name in archive.getnames()}
    for name in (
        "README.md",
        "DEVELOPERS.md",
        "LICENSE",
        "SECURITY.md",
        "tests/conftest.py",
        ".pre-commit-hooks.yaml",
        "pyproject.toml",
    ):
        assert name in names
    assert any(name.startswith("examples/") and name.endswith(".chart.yaml") for name in names)


def test_the_installed_command_checks_charts(installed: Path, write_chart: Callable[..., Path], tmp_path: Path) -> None:
    write_chart("good.chart.yaml", grid="clean")
    assert _run([str(installed), "check", "."], tmp_path).stdout == "1 chart: nothing to mend\n"
    write_chart("short.chart.yaml", grid="short")
    done = _run([str(installed), "check", "."], tmp_path, status=1)
    assert "grid/stitch-count" in done.stdout
    assert done.stdout.endswith("2 charts: 1 error\n")


def test_the_installed_command_explains_every_rule(installed: Path, tmp_path: Path) -> None:
    listed = _run([str(installed), "explain"], tmp_path).stdout
    assert "grid/stitch-count" in listed
    assert "Why it matters" in _run([str(installed), "explain", "grid/stitch-count"], tmp_path).stdout


def test_the_installed_command_has_its_settings_schema(installed: Path, tmp_path: Path) -> None:
    (tmp_path / "lintarsia.yaml").write_text("exclud: []\n", encoding="utf-8")
    done = _run([str(installed), "check", "."], tmp_path, status=2)
    assert "did you mean 'exclude'?" in done.stderr


def _run(command: list[str], folder: Path, status: int = 0) -> "subprocess.CompletedProcess[str]":
    env = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "VIRTUAL_ENV", "LINTARSIA"))}
    done = subprocess.run(command, cwd=folder, env=env, capture_output=True, text=True)
    assert done.returncode == status, done.stdout + done.stderr
    return done
