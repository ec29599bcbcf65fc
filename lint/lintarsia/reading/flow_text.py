"""A quoted or bare YAML text, character by character, each with its place in the file."""

import re

from yaml import ScalarNode

from lintarsia.ground.values import dataclass

_FOLD = r"(?P<fold>[ \t]*(?:\r\n|\n|\r)(?:[ \t]*(?:\r\n|\n|\r))*[ \t]*)"
_PIECES = {
    "": _FOLD + r"|(?P<char>.)",
    "'": _FOLD + r"|(?P<quote>'')|(?P<char>.)",
    '"': r"(?P<join>\\(?:\r\n|\n|\r)[ \t]*)|" + _FOLD + r"|\\(?P<code>x..|u.{4}|U.{8})|\\(?P<escape>.)|(?P<char>.)",
}
_BREAK = re.compile("\r\n|\n|\r")
_ESCAPES = {"n": "\n", "t": "\t", "N": "\x85", "_": "\xa0", "L": "\u2028", "P": "\u2029"}


@dataclass(frozen=True, slots=True)
class Spelt:
    """One character of the value and where it is spelt (indices from 0); `fold` where YAML made it of a line's end."""

    text: str
    line: int
    column: int
    end_column: int
    fold: bool = False


def spell_out(node: ScalarNode, text: str) -> list[Spelt] | None:
    """The pieces of a text that is not a block; None where they do not add up to what YAML read."""
    inset = 1 if node.style else 0
    start, end = node.start_mark.index + inset, node.end_mark.index - inset
    line, line_start = node.start_mark.line, node.start_mark.index - node.start_mark.column
    pieces: list[Spelt] = []
    for match in re.compile(_PIECES[node.style or ""]).finditer(text, start, end):
        kind = match.lastgroup
        column, end_column = match.start() - line_start, match.end() - line_start
        if kind in ("fold", "join"):
            breaks = list(_BREAK.finditer(match[0]))
            if kind == "fold":
                ends = "\n" * (len(breaks) - 1)
                pieces += [Spelt(c, line, column, column, fold=not ends) for c in (ends or " ")]
            line, line_start = line + len(breaks), match.start() + breaks[-1].end()
            continue
        pieces.append(Spelt(_character(kind, match), line, column, end_column))
    return pieces if "".join(piece.text for piece in pieces) == node.value else None


def _character(kind: str | None, match: re.Match[str]) -> str:
    if kind == "code":
        return chr(int(match["code"][1:], 16))
    if kind == "escape":
        return _ESCAPES.get(match["escape"], match["escape"])
    return "'" if kind == "quote" else match[0]
