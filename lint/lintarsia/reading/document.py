"""Any YAML file of ours that has a schema: text, tree, places, check. Charts, settings and patterns begin here."""

from typing import Any

from yaml import MappingNode

from lintarsia.chart import Places
from lintarsia.reading.editing import Editing
from lintarsia.reading.places import LatePlaces
from lintarsia.reading.schema import load_schema
from lintarsia.reading.source import MAX_BYTES, CannotRead, Read, cannot_read, decode, read_inside
from lintarsia.reading.tree import Tree, compose
from lintarsia.result import Finding

UNREADABLE = "file/unreadable"
SCHEMA = "file/schema"


class Document:
    """What came of reading a file.

    `data` is plain (dict, list, str; numbers and truth values where the schema asks for them) and None where the file
    could not be parsed; a value that was faulty is None in it, a key that the schema does not know is gone. `problems`
    are (rule name, finding) and may be added to until `sorted_problems` is taken. `text` has no byte-order mark.
    """

    __slots__ = ("data", "file", "places", "problems", "root", "text")

    def __init__(self, file: str) -> None:
        self.file = file
        self.data: dict[str, Any] | None = None
        self.places = Places()
        self.text: str | None = None
        self.root: MappingNode | None = None
        self.problems: list[tuple[str, Finding]] = []

    def add(self, *findings: Finding) -> None:
        """More faults of the kind that a schema would find."""
        self.problems += [(SCHEMA, finding) for finding in findings]

    def sorted_problems(self) -> tuple[tuple[str, Finding], ...]:
        """All problems in the order of their places."""
        return tuple(sorted(self.problems, key=lambda p: (p[1].region, p[0], p[1].key, p[1].message)))


def read_document(
    path: str,
    data: bytes | None = None,
    *,
    schema: str = "chart.schema.json",
    max_bytes: int = MAX_BYTES,
    read: Read | None = None,
) -> Document:
    """The file `path` (or `data`, which `path` then only names) by a schema of ours. Never raises for bad input.

    `read` has the file's content; without it the disk has, where no link on the way leads out of the repository.
    """
    document = Document(path)
    try:
        if data is None:
            data = read_inside(path, max_bytes) if read is None else read(path)
        document.text = decode(data, max_bytes)
        root = compose(document.text)
        _check(document, root, schema)
    except CannotRead as error:
        document.data = None
        document.problems = [(UNREADABLE, error.finding)]
    except RecursionError:
        document.data = None
        document.problems = [(UNREADABLE, cannot_read("too-deep", "the file nests far too deep").finding)]
    return document


def _check(document: Document, root: MappingNode, schema_name: str) -> None:
    schema = load_schema(schema_name)
    text = document.text
    assert text is not None
    tree = Tree(text)
    plain: dict[str, Any] = tree.build(root, schema.shape)
    document.root, document.data = root, plain
    document.places = Places(
        LatePlaces(root, text, keys=True), LatePlaces(root, text, keys=False), editor=Editing(root, text)
    )
    document.add(*tree.findings)
    if not schema.accepts(plain):
        from lintarsia.reading.wording import schema_findings

        document.add(*schema_findings(schema, plain, document.places, tree.cut))
