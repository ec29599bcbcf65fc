"""An old site and a new one change places at once where the system can, and one after the other elsewhere."""

from pathlib import Path

import pytest

from lintarsia.publishing.site import swapping
from lintarsia.publishing.site.marker import HEAD, MARKER
from lintarsia.publishing.site.swapping import exchange, replacing


def folder(path: Path, text: str) -> Path:
    path.mkdir()
    (path / "index.html").write_text(text)
    (path / MARKER).write_text(f"{HEAD}index.html\n")
    return path


def test_two_folders_change_places(tmp_path: Path) -> None:
    one, other = folder(tmp_path / "one", "1"), folder(tmp_path / "other", "2")
    if exchange(str(one), str(other)):  # else nothing may have happened
        one, other = other, one
    assert (one / "index.html").read_text() == "1"
    assert (other / "index.html").read_text() == "2"


def test_what_is_not_there_is_not_exchanged(tmp_path: Path) -> None:
    one = folder(tmp_path / "one", "1")
    assert not exchange(str(one), str(tmp_path / "none"))
    assert (one / "index.html").read_text() == "1"


@pytest.mark.parametrize("able", [True, False], ids=["at once", "one after the other"])
def test_the_new_site_stands_alone_afterwards(able: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    if not able:
        monkeypatch.setattr(swapping, "exchange", lambda one, other: False)
    site = folder(tmp_path / "site", "old")
    with replacing(str(site)) as fresh:
        Path(fresh, "index.html").write_text("new")
        assert (site / "index.html").read_text() == "old"
    assert (site / "index.html").read_text() == "new"
    assert list(tmp_path.iterdir()) == [site]
