"""`::chart fox.chart.yaml`: one line of a designer's page that stands for a chart.

Two colons and a name, as the leaf directives of the proposal for generic directives in CommonMark have it, are nothing
to the plugins that people use beside this one: templates in pages take braces for theirs, references to code three
colons, pieces of other files scissors. Markdown without this plugin shows the line as it stands.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

PICTURES = ("chart", "fabric")
KNIT = "knit"
WORDS = (*PICTURES, KNIT)
_LINE = re.compile(r"^ {0,3}::chart(?![\w-])[ \t]*(.*?)[ \t]*$")
_FENCE = re.compile(r"^ {0,3}(`{3,}|~{3,})(.*)$")
_ASKED = re.compile(r"""(?:"([^"]+)"|'([^']+)'|([^\s"']\S*))((?:[ \t]+\S+)*)""")


@dataclass(frozen=True, slots=True)
class Directive:
    """A line that asks for a chart: what it says after `::chart`."""

    at: int  # among the page's lines, from 0
    said: str

    def asked(self) -> tuple[str, tuple[str, ...]] | None:
        """The file and the words after it; None where no file is named."""
        found = _ASKED.fullmatch(self.said)
        if not found:
            return None
        return found[1] or found[2] or found[3], tuple(found[4].split())


def directives(markdown: str) -> Iterator[Directive]:
    """Those of a page, in order; what stands in a fenced block is a text about them."""
    fence = ""
    for at, line in enumerate(markdown.split("\n")):
        found = _FENCE.match(line)
        if found and not fence:
            fence = found[1]
        elif found and found[1].startswith(fence) and not found[2].strip():
            fence = ""
        elif not fence and (asked := _LINE.match(line)):
            yield Directive(at, asked[1])
