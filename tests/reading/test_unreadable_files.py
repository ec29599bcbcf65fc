"""Files that cannot be read: each gives one clear finding with its place, and nothing is ever raised."""

import os
import stat
import sys
from pathlib import Path

import pytest
from reading_charts import PLAIN, faults, read

from lintarsia.reading import read_chart

DEEP_BLOCK = "\n".join(" " * i + "a:" for i in range(400))


def one(text: str | bytes) -> str:
    (fault,) = faults(text)
    assert read(text).chart is None
    return fault


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("", "empty 1:1 the file is empty; expected `key: value` lines"),
        (" \n\n", "empty 1:1 the file is empty; expected `key: value` lines"),
        ("# a\n# b", "empty 1:1 the file is empty; expected `key: value` lines"),
        ("---\n...\n", "empty 1:1 the file is empty; expected `key: value` lines"),
        ("AAAA\nABBA\n", "not-a-mapping 1:1 the file holds plain text; expected `key: value` lines"),
        ("- AAAA\n", "not-a-mapping 1:1 the file holds a list; expected `key: value` lines"),
        (PLAIN + "---\n" + PLAIN, "several-documents 11:1 a second document begins here; expected one document a file"),
        ("a: " + "[" * 60 + "]" * 60, "too-deep 1:35 the file nests more than 32 levels deep; four are needed"),
        ("a: " + "{b: " * 60 + "}" * 60, "too-deep 1:128 the file nests more than 32 levels deep; four are needed"),
        (DEEP_BLOCK, "too-deep 33:33 the file nests more than 32 levels deep; four are needed"),
        ("a:\n  " + "- " * 90, "too-deep 2:65 the file nests more than 32 levels deep; four are needed"),
        (
            "a: [" + "b," * 320_000 + "]",
            "too-large 1:1 the file has far more entries than a chart needs; they are not read",
        ),
    ],
    ids=lambda value: repr(value[:30]),
)
def test_what_a_file_may_not_hold(text: str, fault: str) -> None:
    assert one(text) == f"file/unreadable {fault}"


@pytest.mark.parametrize(
    ("good", "bad", "fault"),
    [
        ("  A: {", "\tA: {", "tab 5:1 a tab stands where the indent belongs; YAML allows spaces only"),
        ("  AAAAAA\n  AB", "\tAAAAAA\n\tAB", "tab 8:1 a tab stands where the indent belongs; YAML allows spaces only"),
        ("Two pebbles", "@home", "yaml 2:8 no text can begin with '@' here unless it stands in quotes"),
        ("Two pebbles", "%", "yaml 2:8 no text can begin with '%' here unless it stands in quotes"),
        ("Two pebbles", "a: b", "yaml 2:9 a colon stands where none can; quote the text, or see the line above"),
        ("Two pebbles", '"\\q"', "yaml 2:9 this backslash means nothing here; use single quotes to keep it"),
        ("Two pebbles", "- a", "yaml 2:8 a list begins where none can; start it on its own line"),
        ("Two pebbles", "*pebbles", "alias 2:8 the name after * is defined nowhere; expected the value itself"),
        ("10 cm}", "10 cm", "yaml 4:8 the { in line 3 is not closed, or a comma is missing before this"),
        (
            "  B: {",
            " B: {",
            "yaml 6:2 this line does not line up with its neighbours; expected a key at the same depth",
        ),
        (
            "  AAAAAA\n  AB",
            "  AAAAAA\n AB",
            "yaml 9:2 this line is indented less than the lines above it, or has no colon; expected `key: value`",
        ),
        (
            '"#5a5f66"}',
            "#5a5f66}",
            "yaml 6:28 # begins a comment here, which swallows the rest of the line; expected the shade in quotes",
        ),
    ],
)
def test_slips_of_yaml(good: str, bad: str, fault: str) -> None:
    assert good in PLAIN
    text = PLAIN.replace(good, bad)
    assert one(text) == f"file/unreadable {fault}"


@pytest.mark.parametrize(
    ("good", "bad", "remedy"),
    [
        ("title: Two", "title:Two", "write a space after the colon"),
        ("Two pebbles", "Two: pebbles", "put a text that has a colon in it in quotes"),
        ("10 cm}", "10 cm", "close it with }"),
        ("  B: {", " B: {", "indent it as its neighbours are"),
        ("Two pebbles", "'Two pebbles", "close it with the quote that it opens with"),
        ("Two pebbles", "@home", "put it in straight quotes"),
        (PLAIN, "", "begin with `lintarsia: 1` and `title: …`"),
    ],
)
def test_every_slip_of_yaml_says_what_to_do(good: str, bad: str, remedy: str) -> None:
    assert good in PLAIN
    ((_, finding),) = read(PLAIN.replace(good, bad)).problems
    assert (finding.remedy or "").startswith(remedy)


def test_a_colon_without_a_space_is_found_where_it_stands() -> None:
    assert one(PLAIN.replace("title: Two", "title:Two")) == (
        "file/unreadable yaml 2:6 no space follows the colon, so this is no key; expected `key: value`"
    )


def test_depth_that_no_stack_could_follow() -> None:
    # Newer releases of libyaml give up first, at a depth of their own.
    for text in ("a: " + "[" * 50_000, "a: " + "{b: " * 50_000, "a:\n" + "- " * 50_000, "? " * 50_000):
        ((rule, finding),) = read(text).problems
        assert (rule, finding.key) == ("file/unreadable", "too-deep")


def test_a_row_without_any_indent() -> None:
    text = PLAIN.replace("  AAAAAA\n  AB", "  AAAAAA\nAB") + "wearer: adult\n"
    fault = "this line is indented less than the lines above it, or has no colon; expected `key: value`"
    assert one(text) == f"file/unreadable yaml 9:1 {fault}"


def test_a_text_in_quotes_that_is_never_closed() -> None:
    fault = "a text in quotes is not closed before the file ends"
    assert one("title: 'Two pebbles\n") == f"file/unreadable yaml 2:1 {fault}"


@pytest.mark.parametrize(
    ("data", "fault"),
    [
        (PLAIN.encode("utf-16"), "not-utf-8 1:1 the text is UTF-16 or UTF-32, or no text at all; expected UTF-8"),
        (PLAIN.encode("utf-16-be"), "not-utf-8 1:1 the text is UTF-16 or UTF-32, or no text at all; expected UTF-8"),
        (PLAIN.encode("utf-32-le"), "not-utf-8 1:1 the text is UTF-16 or UTF-32, or no text at all; expected UTF-8"),
        (b"\x89PNG\r\n\x1a\n\0\0\0\rIHDR", "not-utf-8 1:1 byte 0x89 is not UTF-8; expected UTF-8 text"),
        ("title: Bär".encode("latin-1"), "not-utf-8 1:9 byte 0xe4 is not UTF-8; expected UTF-8 text"),
        ("# 🧶é\r\n# é".encode() + b"\xff", "not-utf-8 2:4 byte 0xff is not UTF-8; expected UTF-8 text"),
        (b"a: 1\rb: \xed\xa0\x80", "not-utf-8 2:4 byte 0xed is not UTF-8; expected UTF-8 text"),
        (
            b"title: a\0b",
            "control-character 1:9 the character U+0000 cannot stand in a chart file; expected plain text",
        ),
        (
            b"a: b\nc: \x1b[0m",
            "control-character 2:4 the character U+001B cannot stand in a chart file; expected plain text",
        ),
        (
            "# \u2028".encode(),
            "control-character 1:3 the character U+2028 cannot stand in a chart file; expected plain text",
        ),
        (
            "a: é\ufeff".encode(),
            "control-character 1:5 the character U+FEFF cannot stand in a chart file; expected plain text",
        ),
    ],
    ids=lambda value: repr(value[:30]),
)
def test_what_is_no_text(data: bytes, fault: str) -> None:
    assert one(data) == f"file/unreadable {fault}"


def test_rows_that_would_pad_to_a_huge_grid() -> None:
    head, _, _ = PLAIN.partition("  AAAAAA")
    text = head + "  A\n" * 19_000 + "  " + "A" * 1000 + "\n"
    assert one(text) == (
        "file/unreadable too-many-stitches 7:8 the chart has 19,001 rows and the longest is 1,000 stitches wide; "
        "that is 19,001,000 stitches, and at most 8,388,608 are read"
    )
    ((_, finding),) = read_chart("x", (head + "  A\n" * 20_001).encode()).problems
    assert finding.message == "the chart has 20,001 lines; at most 20,000 rows are read"
    assert tuple(finding.region) == (7, 8, 7, 9)  # where the block begins, not all of its lines


def test_a_file_that_takes_all_the_room_there_is_to_read_it_is_told_as_too_deep(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def compose(text: str) -> None:
        raise RecursionError

    monkeypatch.setattr("lintarsia.reading.document.compose", compose)
    assert one(PLAIN) == "file/unreadable too-deep 1:1 the file nests far too deep"


def test_symbols_without_end() -> None:
    head, _, _ = PLAIN.partition("  AAAAAA")
    many = "".join(map(chr, range(0x4E00, 0x4E00 + 2000)))
    assert one(head + f"  {many}\n").endswith("the chart uses 2,002 different symbols; at most 1,024 are read")


def test_the_largest_file_is_a_parameter() -> None:
    size = len(PLAIN)
    assert read_chart("x", PLAIN.encode(), max_bytes=size).problems == ()
    ((rule, finding),) = read_chart("x", PLAIN.encode(), max_bytes=size - 1).problems
    assert (rule, finding.key) == ("file/unreadable", "too-large")
    assert finding.message == f"the file has {size} bytes; at most {size - 1} are read"


def of_path(path: Path | str) -> tuple[str, str]:
    reading = read_chart(str(path))
    assert reading.chart is None
    ((rule, finding),) = reading.problems
    assert rule == "file/unreadable"
    return finding.key, finding.message


def test_a_file_is_read_from_where_it_lies(tmp_path: Path) -> None:
    path = tmp_path / "pebbles.chart.yaml"
    path.write_bytes(PLAIN.encode())
    reading = read_chart(str(path))
    assert reading.problems == ()
    assert reading.chart is not None
    assert reading.chart.path == reading.file == str(path)


def test_a_file_too_large_is_not_read_at_all(tmp_path: Path) -> None:
    path = tmp_path / "huge.chart.yaml"
    with path.open("wb") as file:
        file.truncate(2**33)  # a hole: 8 GiB that take no room
    assert of_path(path)[0] == "too-large"


def test_paths_that_are_no_file(tmp_path: Path) -> None:
    assert of_path(tmp_path) == ("directory", "this is a folder; expected a file")
    assert of_path(tmp_path / "none.chart.yaml") == ("missing", "there is no such file")
    assert of_path("a\0b")[0] == "missing"
    file = tmp_path / "file"
    file.write_text("")
    assert of_path(file / "below") == ("missing", "there is no such file")


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no pipes, devices or permissions of this kind")
def test_pipes_devices_and_locked_files(tmp_path: Path) -> None:
    pipe = tmp_path / "pipe"
    os.mkfifo(pipe)
    assert of_path(pipe) == ("not-a-file", "this is a pipe or a device; expected a file")
    assert of_path("/dev/zero") == ("not-a-file", "this is a pipe or a device; expected a file")
    link = tmp_path / "link"
    link.symlink_to(tmp_path / "gone")
    assert of_path(link) == ("missing", "there is no such file (it is a link to something that is gone)")
    loop = tmp_path / "loop"
    loop.symlink_to(loop)
    assert of_path(loop)[0] == "not-readable"
    locked = tmp_path / "locked"
    locked.write_text(PLAIN)
    locked.chmod(0)
    if os.geteuid() == 0:  # root may read anything
        assert stat.S_IMODE(locked.stat().st_mode) == 0
    else:
        assert of_path(locked) == ("not-readable", "the file cannot be read: permission denied")


@pytest.mark.parametrize("room", [0, 1, 7])
def test_a_file_that_grows_while_it_is_read_is_read_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, room: int
) -> None:
    """Somebody saves it anew just after its size was asked for; `room`: how many bytes more than that are allowed."""
    path, more, size_of = tmp_path / "grown.chart.yaml", "  BBBBBB\n", os.fstat

    def growing(descriptor: int) -> os.stat_result:
        asked = size_of(descriptor)
        with path.open("a", encoding="utf-8", newline="") as file:
            file.write(more)
        return asked

    path.write_bytes(PLAIN.encode())
    monkeypatch.setattr("lintarsia.reading.source.os.fstat", growing)
    reading = read_chart(str(path), max_bytes=len(PLAIN + more))
    assert reading.problems == ()
    assert reading.text == PLAIN + more
    path.write_bytes(PLAIN.encode())
    reading = read_chart(str(path), max_bytes=len(PLAIN) + room)
    assert reading.chart is None
    assert [finding.key for _, finding in reading.problems] == ["too-large"]
