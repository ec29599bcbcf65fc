"""How far names lead, what kinds of file there are, and files read within a bound."""

import os
from pathlib import Path

import pytest

from lintarsia.ground.bounds import leads_out, repository
from lintarsia.ground.kinds import Kind, kind_of
from lintarsia.ground.regular import read_regular


@pytest.fixture
def outer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """outer/house/charts/deep, and beside the house a folder whose name begins like it."""
    (tmp_path / "house" / "charts" / "deep").mkdir(parents=True)
    (tmp_path / "house-of-others").mkdir()
    (tmp_path / "house-of-others" / "secret.yaml").write_text("x")
    (tmp_path / "house" / "charts" / "a.chart.yaml").write_text("a")
    monkeypatch.chdir(tmp_path)
    return tmp_path


def within(outer: Path) -> str:
    return os.path.relpath(repository("house/charts/deep/b.chart.yaml"), outer)


def test_the_bounds_are_the_nearest_repository_then_the_nearest_settings(outer: Path) -> None:
    assert within(outer) == "house/charts/deep"
    (outer / "lintarsia.yaml").touch()
    assert within(outer) == "."
    (outer / "house" / "charts" / "lintarsia.yaml").touch()
    assert within(outer) == "house/charts"
    (outer / "house" / ".git").mkdir()
    assert within(outer) == "house", "a repository goes before settings, though these are nearer"
    (outer / "house" / "charts" / "deep" / ".git").write_text("gitdir: elsewhere")
    assert within(outer) == "house/charts/deep"


def test_a_link_may_lead_anywhere_within_and_nowhere_else(outer: Path) -> None:
    house = outer / "house"
    (house / ".git").mkdir()
    (house / ".git" / "config").write_text("x")
    (house / "charts" / "deep" / ".github").mkdir()
    links = {
        "in": house / "charts" / "a.chart.yaml",
        "out": outer / "house-of-others" / "secret.yaml",
        "git": house / ".git" / "config",
        "github": house / "charts" / "deep" / ".github",
        "top": house,
        "gone": outer / "no" / "such",
    }
    for name, target in links.items():
        (house / "charts" / "deep" / name).symlink_to(target)
    own = {name: leads_out(f"house/charts/deep/{name}") for name in links}
    assert own == {"in": False, "out": True, "git": True, "github": False, "top": False, "gone": True}
    assert not leads_out("house/charts/a.chart.yaml")
    assert not leads_out("house-of-others/secret.yaml"), "no link is on the way"
    assert leads_out("house-of-others/secret.yaml", str(house))
    assert leads_out("house/charts/a.chart.yaml", str(house / "charts" / "deep"))
    assert not leads_out("house/charts/a.chart.yaml", str(house))
    assert not leads_out("house/charts/a.chart.yaml", os.sep)
    with pytest.raises(ValueError, match="null"):
        leads_out("house/\0")


def test_a_link_on_the_way_counts_like_one_at_the_end(outer: Path) -> None:
    (outer / "house" / ".git").mkdir()
    (outer / "house" / "others").symlink_to(outer / "house-of-others")
    assert leads_out("house/others/secret.yaml")


def test_a_folder_that_has_become_a_link_is_followed_again(outer: Path) -> None:
    house = outer / "house"
    (house / ".git").mkdir()
    (house / "charts" / "secret.yaml").write_text("ours")
    assert not leads_out("house/charts/secret.yaml")
    (house / "charts").rename(house / "drafts")
    (house / "charts").symlink_to(outer / "house-of-others")
    assert leads_out("house/charts/secret.yaml")
    (house / "charts").unlink()
    (house / "drafts").rename(outer / "drafts")
    (house / "charts").symlink_to(outer / "drafts")
    assert leads_out("house/charts/secret.yaml"), "the same folder, which lies elsewhere by now"
    (house / "charts").unlink()
    (outer / "drafts").rename(house / "charts")
    (house / "charts" / "own.yaml").symlink_to(outer / "house-of-others" / "secret.yaml")
    assert not leads_out("house/charts/secret.yaml")
    assert leads_out("house/charts/own.yaml")


@pytest.mark.parametrize(
    ("file", "kind"),
    [
        ("a.chart.yaml", Kind.CHART),
        ("b/a.pattern.yaml", Kind.PATTERN),
        ("a.knit.yaml", Kind.KNIT),
        ("a.pattern.yml", Kind.CHART),
        ("pattern.yaml", Kind.CHART),
        ("notes.txt", Kind.CHART),
    ],
)
def test_a_kind_is_told_by_the_name(file: str, kind: Kind) -> None:
    assert kind_of(file) is kind


def test_kinds_in_words() -> None:
    told = {
        Kind.CHART: (".chart.yaml", "chart", "a chart", True),
        Kind.PATTERN: (".pattern.yaml", "pattern", "a pattern of several charts", False),
        Kind.KNIT: (".knit.yaml", "test knit", "the log of a test knit", False),
    }
    assert {kind: (kind.suffix, kind.noun, kind.what, kind.whole) for kind in told} == told


def test_a_file_is_read_no_further_than_a_byte_beyond_the_bound(tmp_path: Path) -> None:
    file = tmp_path / "seven"
    file.write_bytes(b"1234567")
    assert [read_regular(str(file), most) for most in (3, 6, 7, 100)] == [b"1234", b"1234567", b"1234567", b"1234567"]


def test_what_is_no_file_is_told_in_plain_words(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    for path, told in (
        (str(tmp_path), "it is a folder; expected a file"),
        (str(tmp_path / "pipe"), "it is a pipe or a device; expected a file"),
        ("/dev/null", "it is a pipe or a device; expected a file"),
        ("a\0b", "no file can have this name"),
        (str(tmp_path / "none"), "No such file or directory"),
    ):
        with pytest.raises(OSError, match=told) as raised:
            read_regular(path, 10)
        assert raised.value.strerror == told
    before = len(os.listdir("/proc/self/fd")) if os.path.isdir("/proc/self/fd") else 0
    for _ in range(5):
        with pytest.raises(OSError, match="folder"):
            read_regular(str(tmp_path), 10)
    assert before in (0, len(os.listdir("/proc/self/fd"))), "nothing stays open"
