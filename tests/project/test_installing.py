"""What to type to get an extra, as each installer records what it did.

Sources: the PyPA's specifications `direct_url.json` (PEP 610) and recording installed projects (INSTALLER, PEP 376);
`pipx_metadata.json` and `uv-receipt.toml` are what pipx 1.7 and uv 0.5 leave in the environment of a program (from
memory).
"""

import json
import sys
from importlib import metadata
from pathlib import Path

import pytest

from lintarsia.ground import installing
from lintarsia.ground.installing import how_to_install

CHECKOUT = {"url": "file:///home/me/my%20knits", "dir_info": {}}
EDITABLE = {"url": "file:///home/me/lintarsia", "dir_info": {"editable": True}}
GIT = {
    "url": "https://example.org/lintarsia",
    "vcs_info": {"vcs": "git", "commit_id": "f" * 40, "requested_revision": "v0.1.0"},
}
BARE_GIT = {"url": "https://example.org/lintarsia", "vcs_info": {"vcs": "git", "commit_id": "f" * 40}}
WHEEL = {"url": "https://example.org/lintarsia-0.1.0-py3-none-any.whl", "archive_info": {}}


@pytest.fixture
def environment(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "bin").mkdir()
    for name in ("python", "pip"):
        (tmp_path / "bin" / name).write_text("#!/bin/sh\n")
        (tmp_path / "bin" / name).chmod(0o755)
    monkeypatch.setattr(sys, "prefix", str(tmp_path))
    monkeypatch.setattr(sys, "executable", str(tmp_path / "bin" / "python"))
    monkeypatch.setenv("PATH", str(tmp_path / "bin"))
    return tmp_path


def recorded(monkeypatch: pytest.MonkeyPatch, direct: object = None, installer: str = "pip\n") -> None:
    said = {"METADATA": "Name: lintarsia\n", "INSTALLER": installer, "direct_url.json": direct and json.dumps(direct)}
    monkeypatch.setattr(installing, "_said", lambda file: said[file] or "")


@pytest.mark.parametrize(
    ("direct", "line"),
    [
        (None, 'pip install "lintarsia[site]"'),
        (CHECKOUT, 'pip install "/home/me/my knits[site]"'),
        (EDITABLE, 'pip install --editable "/home/me/lintarsia[site]"'),
        (GIT, 'pip install "lintarsia[site] @ git+https://example.org/lintarsia@v0.1.0"'),
        (BARE_GIT, f'pip install "lintarsia[site] @ git+https://example.org/lintarsia@{"f" * 40}"'),
        (WHEEL, 'pip install "lintarsia[site] @ https://example.org/lintarsia-0.1.0-py3-none-any.whl"'),
    ],
)
def test_from_where_it_came(direct: object, line: str, environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    recorded(monkeypatch, direct)
    assert how_to_install("site") == line


@pytest.mark.parametrize(
    ("file", "command"),
    [("pipx_metadata.json", "pipx install --force"), ("uv-receipt.toml", "uv tool install --force")],
)
def test_as_a_program_of_its_own(file: str, command: str, environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    recorded(monkeypatch)
    (environment / file).write_text("")
    assert how_to_install("pdf") == f'{command} "lintarsia[pdf]"'


def test_into_an_environment_by_uv(environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    recorded(monkeypatch, installer="uv")
    assert how_to_install("pdf") == 'uv pip install "lintarsia[pdf]"'
    monkeypatch.setenv("PATH", "")
    assert how_to_install("pdf") == f'uv pip install --python "{sys.executable}" "lintarsia[pdf]"'


def test_where_the_shell_would_find_another_pip(environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    recorded(monkeypatch)
    monkeypatch.setenv("PATH", "")
    assert how_to_install("images") == f'"{sys.executable}" -m pip install "lintarsia[images]"'


def test_in_a_checkout_that_was_never_installed(environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(installing, "_said", lambda file: "")
    checkout = Path(__file__).parents[2]
    assert how_to_install("site") == f'pip install "{checkout}[site]"'


@pytest.mark.parametrize("text", ["", "null", "[]", "{", '{"url": 3}'])
def test_records_that_make_no_sense(text: str, environment: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    said = {"METADATA": "Name: lintarsia\n", "INSTALLER": "", "direct_url.json": text}
    monkeypatch.setattr(installing, "_said", said.__getitem__)
    assert "[site]" in how_to_install("site")


def test_what_the_installer_has_left_is_read_beside_this_package(monkeypatch: pytest.MonkeyPatch) -> None:
    class Left:
        def read_text(self, file: str) -> str | None:
            return {"INSTALLER": "uv\n"}.get(file)

    def distribution(name: str) -> Left:
        if name != "lintarsia":
            raise metadata.PackageNotFoundError(name)
        return Left()

    monkeypatch.setattr(metadata, "distribution", distribution)
    assert (installing._said("INSTALLER"), installing._said("direct_url.json")) == ("uv\n", "")


@pytest.mark.parametrize("extra", ["site", "images", "pdf"])
def test_readme_and_docs_name_every_extra(extra: str) -> None:
    root = Path(__file__).parents[2]
    assert f'"lintarsia[{extra}]"' in (root / "README.md").read_text()
    assert f"`{extra}`" in (root / "docs" / "index.md").read_text()
