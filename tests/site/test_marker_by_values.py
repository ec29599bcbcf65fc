"""The file that says what a build made: read back as it was written, and nothing taken for it that is not."""

import os
from pathlib import Path

import pytest

from lintarsia.publishing.site import marker
from lintarsia.publishing.site.marker import (
    HEAD,
    MARKER,
    PUBLIC_HEAD,
    could_be_made,
    is_public,
    marker_text,
    read_marker,
)

NAMES = ("charts/fox.html", "assets/page.js", "index.html")


@pytest.mark.parametrize("public", [True, False])
def test_a_marker_says_which_files_and_which_face(tmp_path: Path, public: bool) -> None:
    (tmp_path / MARKER).write_text(marker_text(NAMES, public=public), encoding="utf-8")
    assert read_marker(str(tmp_path)) == frozenset(NAMES)
    assert is_public(str(tmp_path)) is public
    head = PUBLIC_HEAD if public else HEAD
    assert marker_text(NAMES, public=public) == f"{head}assets/page.js\ncharts/fox.html\nindex.html\n"
    assert ("--public" in head) is public


def test_a_site_of_our_own_is_not_for_everybody() -> None:
    assert marker_text(["a.html"]) == f"{HEAD}a.html\n"


@pytest.mark.parametrize(
    ("text", "names"),
    [
        (HEAD, frozenset()),
        (HEAD.rstrip("\n"), frozenset()),
        ("", None),
        ("This folder holds a site.\nindex.html\n", None),
        (f" {HEAD}index.html\n", None),
        (f"{HEAD[:-1]}X\nindex.html\n", None),
        (f"{HEAD}index.html\n../a.html\n/b.html\n.c.html\nd.yaml\na/.b/e.html\na\\f.html\n-g.html\n\nh/i-2.j.svg\n",
         frozenset({"index.html", "-g.html", "h/i-2.j.svg"})),
        (f"{PUBLIC_HEAD}caf\ufffd.html\nindex.html\r\n", frozenset({"index.html"})),
    ],
)  # fmt: skip
def test_what_is_read_of_a_marker(tmp_path: Path, text: str, names: frozenset[str] | None) -> None:
    (tmp_path / MARKER).write_bytes(text.encode().replace("\ufffd".encode(), b"\xff"))
    assert read_marker(str(tmp_path)) == names


def test_no_marker_is_what_is_no_file_or_too_long(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    assert read_marker(str(tmp_path)) is None
    text = marker_text(NAMES)
    (tmp_path / MARKER).write_text(text)
    monkeypatch.setattr(marker, "_LONGEST", len(text))
    assert read_marker(str(tmp_path)) == frozenset(NAMES)
    monkeypatch.setattr(marker, "_LONGEST", len(text) - 1)
    assert read_marker(str(tmp_path)) is None
    monkeypatch.undo()
    (tmp_path / MARKER).rename(tmp_path / "elsewhere")
    (tmp_path / MARKER).symlink_to("elsewhere")
    assert read_marker(str(tmp_path)) is None
    (tmp_path / MARKER).unlink()
    os.mkfifo(tmp_path / MARKER)
    assert read_marker(str(tmp_path)) is None


def test_the_names_that_a_build_gives() -> None:
    for end in ("html", "svg", "png", "js", "css", "json"):
        assert could_be_made(f"a/b_c.{end}")
    for name in ("a", "a.txt", "a.html/", "a//b.html", "../a.html", "a/../b.html", "é.html", "a.html\n"):
        assert not could_be_made(name)
