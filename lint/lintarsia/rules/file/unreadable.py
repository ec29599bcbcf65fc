"""file/unreadable: the engine makes these results itself; here are their words and their level."""

from lintarsia.result import Level, Maker, RuleInfo
from lintarsia.rules.base import NoOptions

Options = NoOptions
INFO = RuleInfo(
    name="file/unreadable",
    level=Level.ERROR,
    summary="a file that should hold a chart cannot be read at all",
    why="Nothing can be said of a chart that cannot be read, so nothing may pass for checked.",
    remedy="save the file as plain UTF-8 text in YAML, one chart a file",
    keys={
        "missing": "there is no such file",
        "directory": "a folder stands where a file is expected",
        "outside": "a symbolic link leads out of the repository",
        "not-a-file": "a pipe or a device stands where a file is expected",
        "not-readable": "the file may not be read",
        "too-large": "the file is larger than the limit",
        "not-utf-8": "the text is in another encoding than UTF-8",
        "control-character": "a character that no text has",
        "empty": "the file is empty",
        "not-a-mapping": "the file is not made of `key: value` lines",
        "yaml": "the file is not YAML",
        "tab": "a tab stands where YAML wants spaces",
        "alias": "a name after & or * leads nowhere",
        "several-documents": "the file holds more than one document",
        "too-deep": "the file nests deeper than any chart",
        "too-many-stitches": "the grid is larger than any knitting",
        "too-many-symbols": "the grid uses more symbols than any key has",
    },
    sources=("“YAML Ain’t Markup Language, version 1.2.2”, 2021, https://yaml.org/spec/1.2.2/",),
    made_by=Maker.ENGINE,
    suppressible=False,
    acceptable=False,
    blinds=True,
)
