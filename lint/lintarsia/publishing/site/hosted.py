"""Pages in somebody else's site: our styles, scripts and contents, made to live beside theirs.

A theme has ideas about every table, heading and picture of a page, and some of its scripts expect every page to be
its own. So that neither breaks the other,

* each of our rules holds within `.lintarsia` alone, and outweighs whatever a theme says of elements; before them, what
  the theme says of ours is taken back (`hosted.css`). A selector weighs as much as `:not(#_#_)` adds, which is true of
  everything: two names by id, more than any theme's;
* lengths in `rem` are counted from the reader's own letter size, since some themes make a `rem` a quarter larger;
* colours follow the `color-scheme` that the theme states, not the system's: a theme that is light stays light;
* scripts are one function that can be called again, for themes that change pages without loading them.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from lintarsia.ground.resources import resource
from lintarsia.publishing.imprint import Imprint
from lintarsia.publishing.pages.phrasescript import PHRASES, phrases_script

STYLES = ("lintarsia.css", "answers.css")
STYLE_FILE, START_FILE, SCRIPT_FILE = "lintarsia.css", "hosted.js", "pages.js"
SHARED = frozenset({"mark.svg", "worker.js", PHRASES})  # what pages in another's site need besides
HEAVIER = ":not(#_#_)"
WITHIN = ":where(.lintarsia, .lintarsia *)"  # adds nothing to a selector's weight
_EVENING = ':root[data-lamp="evening"]'
_WITH_SCRIPTS = ("html:not(.no-script) ", ".lintarsia.is-started ")
_REM = re.compile(r"(?<![\w.#-])(-?\d*\.?\d+)rem\b")
_LENGTH = r"calc(var(--li-rem) * \1)"
# That of Read the Docs gives every cell of a table a border that nothing outweighs but what is as important.
_BORDER = re.compile(r"((?<![\w-])border(?:-[a-z]+)*:[^;}!]*[^;}!\s])(?=\s*(?:;|\Z))")
_COLOUR = re.compile(r"#[0-9a-f]{3,8}", re.IGNORECASE)
_ONCE = re.compile(r"^globalThis\.lintarsia[A-Z]", re.MULTILINE)  # what scripts share is made once
_ROOT = re.compile(r'<(article|div|figure) (?=class="lintarsia[ "])')
_SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_ROWS = re.compile(r'<script type="application/json" data-part="rows">(.*?)</script>', re.DOTALL)


def hosted_content(html: str) -> str:
    """A page's content for a theme that may take it out of one document and put it into another.

    Material for MkDocs then runs every `<script>` as a program, whatever its type, and sets the `href` of every element
    that has one, which those of drawings do not allow; one with a prefix it does not see (SVG 2, "Linking").
    What is ours is marked for `hosted.js`.
    """
    rows = _ROWS.sub(lambda found: f'<div data-part="rows" hidden>{found[1].replace("&", "&amp;")}</div>', html)
    apart = _SVG.sub(lambda found: found[0].replace(' href="', ' xlink:href="'), rows)
    return _ROOT.sub(r'<\1 data-part="hosted" ', apart)


def hosted_styles(imprint: Imprint) -> str:
    """All rules of our pages, as they hold in a page of somebody else's."""
    folder = _folder()
    own = [scoped((folder / name).read_text("utf-8")) for name in STYLES]
    return "".join([(folder / "hosted.css").read_text("utf-8"), *own, by_lamplight(_evening(folder)), _accent(imprint)])


def hosted_scripts(names: Iterable[str], language: str) -> str:
    """What shared scripts make, and a function `lintarsiaPages` that starts the others on the page as it stands.

    It is given what they listen, watch and wait with, so that whoever calls it can end that.
    """
    said = phrases_script(language)
    told = [(_folder() / name).read_text("utf-8") for name in names if name != PHRASES]
    once = [said, *(text for text in told if _ONCE.search(text))]
    again = [said, *(text for text in told if not _ONCE.search(text))]
    pages = "\n".join(f"try {{\n{text}}} catch (fault) {{ reportError(fault); }}" for text in again)
    given = "{ addEventListener, matchMedia, ResizeObserver, requestAnimationFrame, requestIdleCallback, setTimeout }"
    return f"{''.join(once)}globalThis.lintarsiaPages = ({given}) => {{\n{pages}\n}};\n"


def scoped(css: str) -> str:
    """Style rules, each held within `.lintarsia` and made to outweigh those of a theme."""
    return "".join(_rules(re.sub(r"/\*.*?\*/", "", css, flags=re.DOTALL)))


def by_lamplight(evening: Mapping[str, str]) -> str:
    """Colours by day and in the evening, for `scoped` rules: which it is the page says by its `color-scheme`."""
    return (
        "@supports (color: light-dark(#000, #fff)) { @media screen { .lintarsia { "
        + " ".join(f"{name}: {value};" for name, value in evening.items())
        + " } } }\n"
    )


def _folder() -> Path:
    return Path(str(resource("site"))) / "assets"


def _evening(folder: Path) -> dict[str, str]:
    """Each colour that has another tone in the evening, as `light-dark(day, evening)`."""
    day = _variables((folder / STYLES[0]).read_text("utf-8"), ":root")
    evening = _variables((folder / "theme.css").read_text("utf-8"), _EVENING)
    return {name: f"light-dark({day[name]}, {tone})" for name, tone in evening.items() if _COLOUR.fullmatch(tone)}


def _variables(css: str, selector: str) -> dict[str, str]:
    """Those that the first rule with this selector sets that sets any."""
    found = re.search(rf"{re.escape(selector)} \{{\s*(--li-[^}}]*)\}}", css)
    assert found, f"no colours for {selector}"
    return {name: value.strip() for name, value in re.findall(r"(--li-[\w-]+):\s*([^;]+);", found[1])}


def _accent(imprint: Imprint) -> str:
    """The designer's accent by day and in the evening."""
    tones = imprint.accents
    if tones is None:
        return ""
    day, evening, ground = tones
    plain = f".lintarsia {{ --li-accent: {day}; --li-on-accent: #ffffff; }}\n"
    both = {"--li-accent": f"light-dark({day}, {evening})", "--li-on-accent": f"light-dark(#ffffff, {ground})"}
    return f"@media screen {{ {plain} }}\n" + by_lamplight(both)


def _rules(css: str) -> Iterator[str]:
    for prelude, body in _blocks(css):
        if prelude == "@page":  # of all pages of that site: theirs to say
            continue
        if prelude.startswith(("@media", "@supports")):
            yield f"{prelude} {{\n{''.join(_rules(body))}}}\n"
        elif prelude.startswith("@page"):
            yield f"{prelude} {{{body}}}\n"
        else:
            told = _BORDER.sub(r"\1 !important", _REM.sub(_LENGTH, body))
            yield f"{', '.join(map(_held, _listed(prelude)))} {{{told}}}\n"


def _blocks(css: str) -> Iterator[tuple[str, str]]:
    """What stands before each pair of outermost braces, and what in it."""
    depth, start, opened = 0, 0, 0
    for at, letter in enumerate(css):
        if letter == "{":
            depth += 1
            opened = at if depth == 1 else opened
        elif letter == "}":
            depth -= 1
            if depth == 0:
                yield " ".join(css[start:opened].split()), css[opened + 1 : at]
                start = at + 1
    assert depth == 0, "a style sheet with an open brace"


def _listed(selectors: str) -> Iterator[str]:
    """The selectors of a list, cut at the commas that are in no brackets."""
    depth, start = 0, 0
    for at, letter in enumerate(selectors):
        depth += (letter == "(") - (letter == ")")
        if letter == "," and depth == 0:
            yield selectors[start:at].strip()
            start = at + 1
    yield selectors[start:].strip()


def _held(selector: str) -> str:
    if selector.startswith(":root"):  # variables, which weigh nothing
        return ".lintarsia" + selector.removeprefix(":root")
    found = re.match(r"([a-z]*\.[\w-]+)(.*)", selector.replace(*_WITH_SCRIPTS), re.DOTALL)
    assert found, f"{selector!r} begins with no class, so that it would hold in all of a host's page"
    first, rest = found.groups()
    return f"{first}{'' if first == '.lintarsia' else WITHIN}{HEAVIER}{rest}"
