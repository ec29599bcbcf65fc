"""The catalogues of words, `site/words/<language>.po`, held to what pages and scripts say.

    python docs/making/words.py            says what each language lacks
    python docs/making/words.py --write    brings the catalogues up to date: new phrases without words, old ones gone
    python docs/making/words.py --write nl begins one in another language

What is said is gathered from the sources: from Python and scripts `phrase("…")`, `phrase_of("context", "…")`,
`counted(n, "…", "…")`, `count(n, "row")` and `marked("…")`, from templates the same and `markup("…")`, and what the
kinds of file are called that have pages.
"""

import ast
import os
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_javascript
from babel.messages.pofile import read_po, write_po
from jinja2.ext import babel_extract

from lintarsia.publishing.site.makers import kinds_with_pages

ROOT = Path(__file__).parents[2]
WORDS = ROOT / "site" / "words"
FROM_MEMORY = "from memory"
SAYING = ("phrase", "phrase_of", "markup", "counted", "count", "stitch_count", "marked", "marked_counts")
# What is counted in the rooms above is counted for reports too, which are English: these are the ones that pages ask.
SOURCES = (
    "lint/lintarsia/publishing/**/*.py",
    "lint/lintarsia/telling/*.py",
    "lint/lintarsia/drawing/*.py",
    "lint/lintarsia/plansheets/winding.py",
    "lint/lintarsia/comparing/consequences.py",
    "lint/lintarsia/comparing/telling.py",
    "lint/lintarsia/pattern/aroundpieces.py",
    "lint/lintarsia/pattern/edgewords.py",
    "lint/lintarsia/written/kindwords.py",
    "site/parts/*.html",
    "site/theme/*.html",
    "site/assets/*.js",
)
KINDS, SEARCH = "lint/lintarsia/ground/kinds.py", "site/assets/search.js"
HEADER = """\
# Words of lintarsia's pages. Under the license of lintarsia.
# A phrase marked “from memory” has not been read by a native knitter yet: whoever reads it takes the mark away."""


class Said(NamedTuple):
    """A phrase: its text, those of one and of many where it counts, and a context where it is said in several ways."""

    text: str
    many: str = ""
    context: str = ""


def said_in(file: Path) -> Iterator[Said]:
    """The phrases of a source file, in its order."""
    if file.suffix == ".py":
        yield from _in_python(file.read_text("utf-8"))
        return
    method: Any = extract_javascript if file.suffix == ".js" else babel_extract
    with file.open("rb") as source:
        for _, function, texts, _ in method(source, SAYING, (), {"parse_template_string": True}):
            yield from _phrases(function, list(texts) if isinstance(texts, (tuple, list)) else [texts])


def _in_python(text: str) -> Iterator[Said]:
    """By its syntax, since a phrase may stand inside an f-string, where a reader of tokens sees none."""
    calls = [
        node for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    ]
    for call in sorted(calls, key=lambda call: (call.lineno, call.col_offset)):
        if isinstance(call.func, ast.Name) and call.func.id in SAYING:
            yield from _phrases(call.func.id, [_literal(argument) for argument in call.args])


def _literal(node: ast.expr) -> str | None:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else None


def _phrases(function: str, arguments: list[str | None]) -> Iterator[Said]:
    texts = [text for text in arguments if isinstance(text, str) and text]
    if function in ("phrase", "markup") and arguments and arguments[0]:
        yield Said(arguments[0])
    elif function == "phrase_of" and len(texts) > 1:
        yield Said(texts[1], context=texts[0])
    elif function == "counted" and len(texts) > 1:
        yield Said(texts[0], texts[1])
    elif function == "count" and texts and len(arguments) > 1 and arguments[1]:
        one, *many = texts
        yield Said(f"{{n}} {one}", f"{{n}} {many[0] if many else one + ('es' if one.endswith('ch') else 's')}")
    elif function == "marked":
        yield from map(Said, texts)
    elif function == "marked_counts":
        yield from (Said(f"{{n}} {one}", f"{{n}} {one}s") for one in texts)


@cache
def everything_said() -> dict[Said, list[str]]:
    """Every phrase, with the files that it is in."""
    found: dict[Said, list[str]] = {}
    for pattern in SOURCES:
        for file in sorted(ROOT.glob(pattern)):
            for said in said_in(file):
                places = found.setdefault(said, [])
                if file.relative_to(ROOT).as_posix() not in places:
                    places.append(file.relative_to(ROOT).as_posix())
    for kind in kinds_with_pages():  # which pages count and the search names, asking the kind itself
        (count,) = _phrases("count", [None, kind.noun])
        for one, asked in ((Said(kind.noun), [KINDS, SEARCH]), (count, [KINDS])):
            found[one] = list(dict.fromkeys([*found.get(one, ()), *asked]))
    return found


def catalogue(language: str) -> Catalog:
    """The catalogue as it is, an empty one where there is none."""
    file = WORDS / f"{language}.po"
    if not file.exists():
        return Catalog(locale=language)
    with file.open("rb") as stream:
        return read_po(stream, locale=language, abort_invalid=True)


def brought_up_to_date(old: Catalog, said: dict[Said, list[str]]) -> Catalog:
    """The words that there are, for what is said now. Where a phrase is another, its old words are gone: words that are
    only nearly right are worse than English ones."""
    new = Catalog(locale=old.locale, header_comment=HEADER, project="lintarsia", charset="utf-8")
    for one, places in said.items():
        key = (one.text, one.many) if one.many else one.text
        known = old.get(key, one.context or None)
        words = known.string if known is not None else None
        comments = known.user_comments if known is not None else [FROM_MEMORY]
        new.add(key, words, [(place, 0) for place in places], user_comments=comments, context=one.context or None)
    return new


def write(language: str, new: Catalog) -> None:
    """The catalogue as a file, without the day and the name of whoever wrote it: these are in the history."""
    file = WORDS / f"{language}.po"
    beside = file.with_suffix(".part")
    with beside.open("wb") as stream:
        write_po(stream, new, width=120, include_lineno=False, omit_header=True)
    head = f'{HEADER}\nmsgid ""\nmsgstr ""\n"Language: {language}\\n"\n"MIME-Version: 1.0\\n"\n'
    head += f'"Content-Type: text/plain; charset=utf-8\\n"\n"Plural-Forms: {new.plural_forms}\\n"\n\n'
    beside.write_text(head + beside.read_text("utf-8"), "utf-8")
    os.replace(beside, file)


def lacking(language: str) -> list[str]:
    """What a language has no words for; pages say it in English."""
    own = catalogue(language)
    found = []
    for one in everything_said():
        message = own.get((one.text, one.many) if one.many else one.text, one.context or None)
        words = message.string if message is not None else ""
        if not (all(words) if isinstance(words, (tuple, list)) and words else words):
            found.append(one.text)
    return found


def main(arguments: list[str]) -> int:
    languages = sorted({file.stem for file in WORDS.glob("*.po")} | {one for one in arguments if one[0] != "-"})
    if "--write" in arguments:
        said = everything_said()
        for language in languages:
            write(language, brought_up_to_date(catalogue(language), said))
    for language in languages:
        lacks = lacking(language)
        print(f"{language}: {len(lacks)} of {len(everything_said())} phrases have no words")
        for text in lacks:
            print(f"  {text}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
