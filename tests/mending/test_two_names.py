"""Two names of one file, mended in one run."""

from pathlib import Path

from lintarsia.mending.files import MendedFile, write
from lintarsia.mending.mend import Mended
from lintarsia.result import Fixed


def test_two_names_of_one_file_are_written_once(tmp_path: Path) -> None:
    """By the second name the file is not as it was read any more, and nobody else has changed it."""
    file, link = tmp_path / "a.chart.yaml", tmp_path / "b.chart.yaml"
    file.write_bytes(b"old")
    link.symlink_to(file)
    fixed = Fixed("a.chart.yaml", "a/b", "k", "d", 1)
    found = [MendedFile(str(name), b"old", Mended(b"new", (fixed,), ())) for name in (file, link)]
    assert write(found) == ((fixed,), ())
    assert file.read_bytes() == b"new"
    again = MendedFile(str(link), b"old", Mended(b"newer", (fixed,), ()))
    assert write([again]) == ((), (f"{str(link)!r} has been changed meanwhile; it was left as it is",))
    assert (file.read_bytes(), link.is_symlink()) == (b"new", True)
