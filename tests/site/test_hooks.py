"""What scripts read from pages is what `site/hooks.md` lists, and it stands in made pages. No browser is needed."""

import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import NamedTuple

from lxml import html
from sitekit import EXAMPLES, Site

from folding import each
from lintarsia.publishing.site.hosted import hosted_content

ASSETS = EXAMPLES.parent / "site" / "assets"
SCRIPTS = {script.name: script.read_text(encoding="utf-8") for script in sorted(ASSETS.glob("*.js"))}
LOOKING = r"(?:querySelector(?:All)?|closest|matches)(?:\?\.)?\("
TEXT = re.compile(r"""\s*(?:"([^"]*)"|'([^']*)'|`([^`]*)`)(?!\s*\+)""")


# `.key`, `b.key`, `li > .key`, `:is(.key)`, `[class~="key"]`
BY_LOOKS = re.compile(r"(?:^|[\s,>+~*(a-z\])])\.[a-zA-Z$]|\[class")


class Hook(NamedTuple):
    """One line of the list."""

    name: str
    page: str
    scripts: tuple[str, ...]
    fields: tuple[str, ...] = ()
    stands_as: tuple[str, ...] = ()

    @property
    def xpath(self) -> str:
        if self.name.startswith("#"):
            stem = self.name[1:].removesuffix("N")
            return f"//*[starts-with(@id, '{stem}')]" if self.name.endswith("N") else f"//*[@id='{stem}']"
        return _xpath(self.name)

    @property
    def whole(self) -> list[str]:
        """XPaths of all that has to stand in some page: what it stands as, and the fields within it."""
        return [*map(_xpath, self.stands_as), *(f"{self.xpath}//*[@name='{field}']" for field in self.fields)]

    def read_in(self, script: str) -> bool:
        """Whether the script names the hook: in a selector, as a property of `dataset`, or in a list of such."""
        if self.name.startswith("#"):
            stem = self.name[1:].removesuffix("N")
            return any(f"{before}{stem}" in script for before in "#\"'`")
        if "=" in self.name:
            return self.name in script or self.name.replace('="', '="${') in _filled(script)
        name = self.name[len("[data-") : -1]
        camel = re.sub("-(.)", lambda match: match[1].upper(), name)
        spread = "...item.dataset" in script or "tr.dataset]" in script or "svg.dataset[name]" in script
        own = rf"\[data-{name}[\]=]|dataset\.{camel}\b" + (rf"|\"{camel}\"|\.{camel}\b" if spread else "")
        return re.search(own, script) is not None


def _xpath(selector: str) -> str:
    """Of a selector like `tr[data-supply] input[data-tick]`."""
    return "".join(f"//{'*' if part[0] == '[' else ''}{part.replace('[', '[@')}" for part in selector.split(" "))


def _filled(script: str) -> str:
    """`[data-told="${name}"]` with each word that the function is called with."""
    told = re.findall(r"\btold\(\"([a-z]+)\"\)", script)
    return script + "".join(f'[data-told="${{{name}"]' for name in told)


def _quoted(said: str) -> list[str]:
    return re.findall(r"`([^`]+)`", said)


HOOKS = [
    Hook(
        match[1],
        match[2],
        tuple(match[3].split(", ")),
        tuple(field for said in re.findall(r"\bfields? ((?:`\w+`(?:, )?)+)", match[4]) for field in _quoted(said)),
        tuple(_quoted(match[5])),
    )
    for match in re.finditer(
        r"^\| `([^`]+)` \| (\w+) \| ([\w., ]+) \| ([^|]+) \| ([^|]*) ?\|$",
        (ASSETS.parent / "hooks.md").read_text(encoding="utf-8"),
        re.M,
    )
]


def _selectors(script: str) -> Iterator[str]:
    """Every selector by which a script looks something up, and "?" for one that does not stand in the script as a text.
    A function that only looks up what it is given, as `(part) => page.querySelector(part)`, stands for its calls."""
    helpers = re.findall(rf"(\w+) = \((\w+)\) => [^;]*?{LOOKING}\2\)", script)
    for match in re.finditer("|".join([LOOKING, *(rf"\b{name}\(" for name, _ in helpers)]), script):
        rest = script[match.end() :]
        if any(rest.startswith(f"{argument})") for _, argument in helpers) or _is_named(script, match):
            continue
        # Text, or a choice of two: `asked ? "#one" : "#other"`.
        found = TEXT.match(rest) or re.match(r"[^;`]*? \? \"([^\"]*)\" : \"([^\"]*)\"\)", rest)
        yield from [part for part in found.groups() if part is not None] if found else ["?"]


def _is_named(script: str, match: re.Match[str]) -> bool:
    """Whether it is no call, but a function of the script by that name: `matches(chart)`."""
    name = match[0].rstrip("(")
    return re.search(rf"(?:function|get) {name}\(", script) is not None and script[match.start() - 1] != "."


def _fields(script: str) -> set[str]:
    """The fields of forms that a script asks for by name."""
    by_name = r"(?:\[name=\"|\belements\.|\belements\[\"|\bnamedItem\(\"|getElementsByName\(\")([a-z]+)"
    shortly = r"\bfields\.([a-z]+)" if "fields = form.elements" in script else "(?!)"
    return {*re.findall(by_name, script), *re.findall(shortly, script)}


def _asked(script: str) -> set[str]:
    """Every hook that a script asks for, as the list writes it."""
    asked = set(re.findall(r'\[data-[a-z-]+="[a-z-]+"\]', script))
    asked |= {
        f"[data-{name}]" for name in re.findall(r'\[data-([a-z-]+)(?:\]|="\$)', script) if name not in ("told", "key")
    }
    asked |= {f"[data-{name}]" for name in re.findall(r'\[data-(knit|zoom|say|log|act|keep)="', script)}
    asked -= {hook for hook in asked if re.match(r"\[data-(knit|zoom|say|log|act|keep)=", hook)}
    own = {"lamp", "key", "hands", "units"}  # which scripts set
    camel = set(re.findall(r"dataset\.([A-Za-z]+)", script)) - own
    asked |= {"[data-" + re.sub("([A-Z])", lambda m: "-" + m[1].lower(), name) + "]" for name in camel}
    asked |= {f'[data-told="{name}"]' for name in re.findall(r"\btold\(\"([a-z]+)\"\)", script)}
    asked |= {f"[data-{name}]" for name in re.findall(r"""(?:get|has)Attribute\(["'`]data-([a-z-]+)""", script)}
    asked |= {f"[data-{name}]" for name in re.findall(r"""dataset\[["'`]([a-z]+)""", script)}
    ids = re.findall(r"""getElementById\((?:"([^"]+)"|`([a-z-]+)\$)""", script)
    asked |= {f"#{whole}" if whole else f"#{stem}N" for whole, stem in ids}
    asked |= {f"#{name}" for selector in _selectors(script) for name in re.findall(r"#([a-z-]+)", selector)}
    return asked


@cache
def _pages(folder: Path) -> dict[str, list[html.HtmlElement]]:
    made: dict[str, list[html.HtmlElement]] = {
        k: [] for k in ("every", "chart", "pattern", "overview", "search", "mine", "hosted")
    }
    made["hosted"].append(html.fromstring(hosted_content((folder / "mine.html").read_text(encoding="utf-8"))))
    for file in sorted(folder.rglob("*.html")):
        page = html.fromstring(file.read_bytes())
        made["every"].append(page)
        kinds = page.xpath("//*/@data-page") or (["search"] if file.name == "search.html" else [])
        for kind in kinds:
            made[kind].append(page)
    return made


def test_the_list_can_be_read() -> None:
    assert len(HOOKS) == len({hook.name for hook in HOOKS}) > 60
    # What is only called by other scripts asks pages for nothing.
    assert {script for hook in HOOKS for script in hook.scripts} == {name for name in SCRIPTS if _asked(SCRIPTS[name])}


@each("script", SCRIPTS)
def test_scripts_ask_for_what_is_listed(script: str) -> None:
    assert _asked(SCRIPTS[script]) <= {hook.name for hook in HOOKS if script in hook.scripts}


@each("script", SCRIPTS)
def test_scripts_look_nothing_up_by_its_looks(script: str) -> None:
    assert [selector for selector in _selectors(SCRIPTS[script]) if BY_LOOKS.search(selector)] == []
    read = re.sub(r"\.className = ", "", SCRIPTS[script])  # to set one is what scripts may
    assert not re.search(
        r"classList\.(?:contains|value)|getElementsByClassName|\bclassName|(?:get|has)Attribute\(.class", read
    )


@each("script", SCRIPTS)
def test_scripts_say_outright_what_they_look_up(script: str) -> None:
    """A selector that is put together out of sight of this file could ask for anything."""
    assert "?" not in set(_selectors(SCRIPTS[script]))
    taken_apart = re.findall(r"\} = [\w.]*dataset\b|\(\w+\.dataset\)", SCRIPTS[script])
    assert taken_apart == []


@each("script", SCRIPTS)
def test_scripts_ask_forms_for_fields_that_are_listed(script: str) -> None:
    pages = {hook.page for hook in HOOKS if script in hook.scripts}
    assert _fields(SCRIPTS[script]) <= {field for hook in HOOKS if hook.page in pages for field in hook.fields}


@each("hook", HOOKS)
def test_what_is_listed_is_read(hook: Hook) -> None:
    assert [script for script in hook.scripts if not hook.read_in(SCRIPTS[script])] == []


@each("hook", HOOKS)
def test_what_is_listed_stands_in_made_pages(site: Site, hook: Hook) -> None:
    pages = _pages(site.folder)[hook.page]
    assert any(page.xpath(hook.xpath) for page in pages)
    everywhere = [page for pages in _pages(site.folder).values() for page in pages]
    assert [path for path in hook.whole if not any(page.xpath(path) for page in everywhere)] == []
    if hook.page == "every":
        assert all(page.xpath(hook.xpath) for page in pages)
