"""What commands say beside their answers, word for word, and what standard input and paths are called there."""

import io
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from lintarsia.cli.exits import CANNOT, FOUND, OK
from lintarsia.ground.replacing import replace_file
from lintarsia.ground.trouble import Trouble

Invoke = Callable[..., Any]
HEAD = """\
lintarsia: 1
title: Leaf
gauge: {stitches: 20, rows: 30, over: 10 cm}
colours: {B: {name: Oat, shade: "#f0e7d4"}, W: {name: Leaf, shade: "#35603a"}}
"""
LEAF = f"{HEAD}chart: |\n  BWB\n  WWB\n"
UNUSED = (
    f"{HEAD.replace('}}', '}, R: {name: Rust, shade: red}}').replace('red', chr(34) + '#a04020' + chr(34))}chart: |\n"
)


@pytest.fixture(autouse=True)
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    Path("leaf.chart.yaml").write_text(LEAF, "utf-8")
    return tmp_path


@pytest.fixture
def typed(monkeypatch: pytest.MonkeyPatch) -> Callable[[str], None]:
    """Puts a text on standard input."""
    return lambda text: monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(text.encode())))


def test_what_stands_in_the_way_is_told_with_place_and_rule(invoke: Invoke, typed: Callable[[str], None]) -> None:
    Path("bad.chart.yaml").write_text(LEAF.replace("title: Leaf\n", "titel: Leaf\n"), "utf-8")
    fault = "2:1: unknown key 'titel'; did you mean 'title'? [file/schema]"
    last = "lintarsia: no plan can be made of this chart until that is mended"
    done = invoke("plan", "bad.chart.yaml")
    assert (done.status, done.err.splitlines()) == (FOUND, [f"bad.chart.yaml:{fault}", last])
    typed(Path("bad.chart.yaml").read_text("utf-8"))
    assert invoke("plan", "-").err.splitlines() == [f"stdin.chart.yaml:{fault}", last]
    Path("bad.pattern.yaml").write_text("title: Mat\ntitel: Mat\n", "utf-8")
    faults = [
        "1:1: the file has no 'lintarsia-pattern'; expected the format version, 1 [file/schema]",
        "1:1: the file has no 'pieces'; expected pieces, each under its name [file/schema]",
        fault,
    ]
    ends = {
        "plan": "no plan can be made of this pattern until that is mended",
        "release": "there is no pattern here to release",
    }
    for command, end in ends.items():
        told = invoke(command, "bad.pattern.yaml").err.splitlines()
        assert told == [*(f"bad.pattern.yaml:{each}" for each in faults), f"lintarsia: {end}"]


def test_too_many_stitches_are_told_with_what_to_do(invoke: Invoke) -> None:
    """The chart has six."""
    Path("lintarsia.yaml").write_text("max-stitches: 5\n")
    assert invoke("plan", "leaf.chart.yaml").err == (
        "leaf.chart.yaml:5:8: the chart has 2 rows and the longest is 3 stitches wide; that is 6 stitches, and at most "
        "5 are read [file/unreadable]\n"
        "  mend  check that this is a chart and no photograph; if it is, raise max-stitches in the settings\n"
        "lintarsia: no plan can be made of this chart until that is mended\n"
    )
    Path("lintarsia.yaml").write_text("max-stitches: 6\n")
    assert invoke("plan", "leaf.chart.yaml").status == OK


def test_a_chart_that_is_typed_in_takes_the_place_of_a_file(invoke: Invoke, typed: Callable[[str], None]) -> None:
    for command in ("plan", "write", "draw"):
        own = invoke(command, "leaf.chart.yaml")
        typed(LEAF)
        assert invoke(command, "-") == own
        assert own.out


def test_no_more_is_read_of_standard_input_than_a_chart_may_have(invoke: Invoke, typed: Callable[[str], None]) -> None:
    """As many bytes as the settings allow pass. Of more one byte is read, by which it is too large."""
    Path("lintarsia.yaml").write_text(f"max-size: {len(LEAF)} B\n")
    for command, said in (("plan", "err"), ("check", "out")):
        typed(LEAF)
        assert invoke(command, "-").status == OK
        typed(LEAF + "#" * 12)
        done = invoke(command, "-")
        assert done.status == FOUND
        assert f"the file has {len(LEAF) + 1} bytes; at most {len(LEAF)} are read" in " ".join(
            getattr(done, said).split()
        )
        assert sys.stdin.buffer.read() == b"#" * 11


def test_what_was_looked_in_when_nothing_was_found(
    invoke: Invoke, repository: Path, commit: Callable[[], None], typed: Callable[[str], None]
) -> None:
    commit()
    done = invoke("check", "--since", "HEAD")
    assert (done.status, done.err) == (OK, "lintarsia: no charts differ from HEAD in .\n")
    Path("lintarsia.yaml").write_text("exclude: [drafts, leaf.chart.yaml]\n", "utf-8")
    Path("drafts").mkdir()
    typed(LEAF)
    done = invoke("check", "-", "--stdin-name", "drafts/x.chart.yaml")
    assert done.err == "lintarsia: the settings exclude standard input (as drafts/x.chart.yaml)\n"
    typed(LEAF)
    done = invoke("check", "leaf.chart.yaml", "-", "--stdin-name", "drafts/x.chart.yaml")
    assert done.err == "lintarsia: the settings exclude leaf.chart.yaml, standard input (as drafts/x.chart.yaml)\n"
    assert invoke("check", "drafts").err == "lintarsia: no charts found in drafts\n"
    assert invoke("check", "--before-commit").err == ""


def test_what_cannot_be_written_is_said_and_the_rest_is_mended(invoke: Invoke, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in "ab":
        Path(f"{name}.chart.yaml").write_text(UNUSED + "  BWB\n  WWB\n", "utf-8")

    def replace(file: str, data: bytes, **more: Any) -> None:
        if file.endswith("a.chart.yaml"):
            raise Trouble("'a.chart.yaml' cannot be written (Read-only file system)")
        replace_file(file, data, **more)

    monkeypatch.setattr("lintarsia.mending.files.replace_file", replace)
    done = invoke("check", "--fix", "a.chart.yaml", "b.chart.yaml")
    assert done.status == CANNOT
    assert done.err == "lintarsia: 'a.chart.yaml' cannot be written (Read-only file system)\n"
    assert "Rust" in Path("a.chart.yaml").read_text("utf-8")
    assert "Rust" not in Path("b.chart.yaml").read_text("utf-8")
    assert "b.chart.yaml:4  mended, take R out of the key  colour/unused\n" in done.out


def test_what_would_be_mended_is_counted(invoke: Invoke) -> None:
    """The stock has no fault; of the other two each has one that can be mended."""
    for name in "ab":
        Path(f"{name}.chart.yaml").write_text(UNUSED + "  BWB\n  WWB\n", "utf-8")
    one = invoke("check", "a.chart.yaml", "leaf.chart.yaml", "--diff").err.splitlines()
    assert one[0] == "lintarsia: 1 fault in 1 file would be mended; nothing was written"
    assert one[1].startswith("as it stands, 2 charts: ")
    assert invoke("check", "--diff").err.startswith("lintarsia: 2 faults in 2 files would be mended; nothing")
    assert invoke("check", "leaf.chart.yaml", "--diff").err.startswith("lintarsia: nothing would be mended; nothing")


MAT = """\
lintarsia-pattern: 1
title: Mat
pieces:
  front: {chart: leaf.chart.yaml}
  back: {chart: leaf.chart.yaml}
"""


@pytest.mark.parametrize(
    "words",
    ["plan leaf.chart.yaml", "plan mat.pattern.yaml", "plan mat.pattern.yaml --piece back",
     "compare leaf.chart.yaml --from old.chart.yaml"],
)  # fmt: skip
def test_colours_are_for_the_screen_and_never_for_a_file(words: str, invoke: Invoke) -> None:
    Path("mat.pattern.yaml").write_text(MAT, "utf-8")
    Path("old.chart.yaml").write_text(LEAF.replace("BWB", "BBB"), "utf-8")
    plain = invoke(*words.split(), "--color", "never")
    shown = invoke(*words.split(), "--color", "always")
    assert "\x1b[" in shown.out
    assert "\x1b[" not in plain.out
    written = invoke(*words.split(), "--color", "always", "-o", "told.txt")
    assert (written.status, written.out, written.err) == (plain.status, "", "")
    assert Path("told.txt").read_text("utf-8") == plain.out


def test_what_is_served_and_watched(invoke: Invoke, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without paths the current folder, and the settings that hold for what is named."""
    found: list[tuple[list[str], str, str, int]] = []

    class Served:
        def __init__(
            self, build: Callable[[], object], watched: list[str], folder: str, *, host: str, port: int,
            language: str, tell: object,
        ) -> None:  # fmt: skip
            found.append((watched, folder, host, port))

        def run(self) -> None:
            pass

    monkeypatch.setattr("lintarsia.publishing.site.serving.Serving", Served)
    assert invoke("site", "--serve").status == OK
    Path("lintarsia.yaml").write_text("block: note\n")
    Path("charts").mkdir()
    assert invoke("site", "--serve", "--output", "pages").status == OK
    assert (
        invoke("site", "charts", "leaf.chart.yaml", "--serve", "-o", "pages", "--port", "0", "--host", "::1").status
        == OK
    )
    Path("other.yaml").write_text("block: note\n")
    assert invoke("site", "charts", "--serve", "-o", "pages", "--settings", "other.yaml").status == OK
    assert [(watched, host, port) for watched, _, host, port in found] == [
        (["."], "127.0.0.1", 8321),
        ([".", "lintarsia.yaml"], "127.0.0.1", 8321),
        (["charts", "leaf.chart.yaml", "lintarsia.yaml"], "::1", 0),
        (["charts", "other.yaml"], "127.0.0.1", 8321),
    ]
    folders = [folder for _, folder, _, _ in found]
    assert folders[1:] == ["pages"] * 3
    assert folders[0].endswith("/site")
    assert not Path(folders[0]).parent.exists(), "what was made for the time of serving is gone"


def test_a_single_file_is_named_after_its_chart(invoke: Invoke) -> None:
    Path("charts").mkdir()
    Path("charts/two.moons.chart.yaml").write_text(LEAF, "utf-8")
    done = invoke("site", "charts/two.moons.chart.yaml", "--single")
    assert (done.status, done.out, done.err) == (OK, "made two.html\n", "")
    assert invoke("site", "leaf.chart.yaml", "--single", "-o", "x.html").out == "made x.html\n"


def test_test_knits_told_and_written(invoke: Invoke) -> None:
    done = invoke("knits")
    assert done.status == OK
    written = invoke("knits", "-o", "knits.txt")
    assert (written.out, written.err) == ("", "")
    assert Path("knits.txt").read_text("utf-8") == done.out
    assert invoke("knits", "--write").err == (
        "lintarsia: nothing to write: no finished test knit has weighed its yarn\n"
    )
