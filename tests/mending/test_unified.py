"""The difference that mending makes, as the usual tools apply it, whatever ends the lines."""

import pytest

from lintarsia.mending.files import MendedFile
from lintarsia.mending.mend import Mended
from lintarsia.mending.unified import diff

NO_END = "\\ No newline at end of file\n"


@pytest.mark.parametrize(
    ("old", "new", "lines"),
    [
        ("a\nb\nc\n", "a\nd\nc\n", " a\n-b\n+d\n c\n"),
        ("a\r\nb\r\n", "a\r\nd\r\n", " a\r\n-b\r\n+d\r\n"),
        ("a\nb", "a\nd", f" a\n-b\n{NO_END}+d\n{NO_END}"),
        ("a\nb", "d\nb", f"-a\n+d\n b\n{NO_END}"),
        ("a\rb\r", "a\rd\r", " a\r\n-b\r\n+d\r\n"),  # line ends that no tool knows: a line of its own for each
    ],
)
def test_lines_of_a_difference(old: str, new: str, lines: str) -> None:
    first, second, hunk, rest = diff([changed("field.chart.yaml", old, new)]).split("\n", 3)
    assert [first, second] == ["--- field.chart.yaml", "+++ field.chart.yaml"]
    assert (hunk[:3], hunk[-3:]) == ("@@ ", " @@")
    assert rest == lines


def test_several_files_behind_each_other() -> None:
    both = diff([changed("one.yaml", "a\n", "b\n"), changed("two.yaml", "c\n", "d\n")])
    assert both == "--- one.yaml\n+++ one.yaml\n@@ -1 +1 @@\n-a\n+b\n--- two.yaml\n+++ two.yaml\n@@ -1 +1 @@\n-c\n+d\n"
    assert diff([changed("one.yaml", "a\n", "a\n")]) == ""


def test_a_byte_order_mark_belongs_to_the_first_line() -> None:
    told = diff([changed("one.yaml", "\ufeffa\nb\n", "\ufeffd\nb\n")])
    assert told == "--- one.yaml\n+++ one.yaml\n@@ -1,2 +1,2 @@\n-\ufeffa\n+\ufeffd\n b\n"


def changed(file: str, old: str, new: str) -> MendedFile:
    return MendedFile(file, old.encode(), Mended(new.encode(), (), ()))
