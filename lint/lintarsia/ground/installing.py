"""How to install a part that is missing (an extra), in the way that this very program was installed."""

import json
import os
import shutil
import sys
from importlib import metadata
from pathlib import Path
from typing import Any


def how_to_install(extra: str) -> str:
    """`pip install "lintarsia[pdf]"`, or the same with pipx, uv, or from a checkout: a line for a shell."""
    told = _origin()
    editable = " --editable" if told.get("dir_info", {}).get("editable") else ""
    return f'{_command()}{editable} "{_named(extra, told)}"'


def _command() -> str:
    """pipx and uv keep each program in an environment of its own, with a file that says so."""
    if os.path.isfile(os.path.join(sys.prefix, "pipx_metadata.json")):
        return "pipx install --force"
    if os.path.isfile(os.path.join(sys.prefix, "uv-receipt.toml")):
        return "uv tool install --force"
    if _said("INSTALLER").strip() == "uv":
        return "uv pip install" if _is_found("python") else f'uv pip install --python "{sys.executable}"'
    return "pip install" if _is_found("pip") else f'"{sys.executable}" -m pip install'


def _is_found(name: str) -> bool:
    """Whether the shell finds `name` in the environment that this runs in, and in no other."""
    found = shutil.which(name)
    return found is not None and os.path.dirname(found) == os.path.dirname(sys.executable)


def _origin() -> dict[str, Any]:
    """Where the installer had it from, if not by its name."""
    try:
        told = json.loads(_said("direct_url.json") or "{}")
    except ValueError:
        return {}
    return told if isinstance(told, dict) else {}


def _named(extra: str, told: dict[str, Any]) -> str:
    """What to install, from where this came: by name, from a checkout or an address."""
    address = str(told.get("url", ""))
    if not address:
        checkout = "" if _said("METADATA") else _checkout()
        return f"{checkout or 'lintarsia'}[{extra}]"
    if "dir_info" in told:
        from urllib.request import url2pathname

        return f"{url2pathname(address.removeprefix('file://'))}[{extra}]"
    version = told.get("vcs_info", {})
    if version:
        address = f"{version.get('vcs', 'git')}+{address}@{version.get('requested_revision') or version['commit_id']}"
    return f"lintarsia[{extra}] @ {address}"


def _said(file: str) -> str:
    """A file that the installer has left beside the package, "" where there is none (PyPA: recording installed
    projects, `direct_url.json`: PEP 610)."""
    try:
        return metadata.distribution("lintarsia").read_text(file) or ""
    except metadata.PackageNotFoundError:
        return ""


def _checkout() -> str:
    """The folder of a checkout that this runs in without having been installed."""
    folder = Path(__file__).resolve().parents[3]
    return str(folder) if (folder / "pyproject.toml").is_file() else ""
