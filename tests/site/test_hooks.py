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
LOOKED_UP = re.compile(r"""(?:querySelector(?:All)?|closest(?:\?\.)?|matches)\(\s*(?:"([^"]*)"|'([^']*)'|`([^`]*)`)""")


class Hook(NamedTuple):
    """One line of the list."""

    name: str
    page: str
    scripts: tuple[str, ...]

    @property
    def xpath(self) -> str:
        if self.name.startswith("#"):
            stem = self.name[1:].removesuffix("N")
            return f"//*[starts-with(@id, '{stem}')]" if self.name.endswith("N") else f"//*[@id='{stem}']"
        return f"//*{self.name.replace('[', '[@')}"

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


def _filled(script: str) -> str:
    """`[data-told="${name}"]` with each word that the function is called with."""
    told = re.findall(r"\btold\(\"([a-z]+)\"\)", script)
    return script + "".join(f'[data-told="${{{name}"]' for name in told)


HOOKS = [
    Hook(match[1], match[2], tuple(match[3].split(", ")))
    for match in re.finditer(
        r"^\| `([^`]+)` \| (\w+) \| ([\w., ]+) \|", (ASSETS.parent / "hooks.md").read_text(encoding="utf-8"), re.M
    )
]


def _selectors(script: str) -> Iterator[str]:
    for match in LOOKED_UP.finditer(script):
        yield next(part for part in match.groups() if part is not None)


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
    by_class = [
        selector for selector in _selectors(SCRIPTS[script]) if re.search(r"(?:^|[\s,>a-z\])])\.[a-z]", selector)
    ]
    assert by_class == []
    assert not re.search(r"classList\.contains|getElementsByClassName|[=:(,?] *\w+\.className", SCRIPTS[script])


@each("hook", HOOKS)
def test_what_is_listed_is_read(hook: Hook) -> None:
    assert [script for script in hook.scripts if not hook.read_in(SCRIPTS[script])] == []


@each("hook", HOOKS)
def test_what_is_listed_stands_in_made_pages(site: Site, hook: Hook) -> None:
    pages = _pages(site.folder)[hook.page]
    assert any(page.xpath(hook.xpath) for page in pages)
    if hook.page == "every":
        assert all(page.xpath(hook.xpath) for page in pages)
