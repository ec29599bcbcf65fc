"""Our styles and contents as they stand in another's site. What selectors weigh: Selectors Level 4, section 17."""

import re

import pytest

from lintarsia.publishing.imprint import NO_IMPRINT, Imprint
from lintarsia.publishing.site.hosted import hosted_content, hosted_scripts, hosted_styles, scoped
from lintarsia.publishing.site.pagespecs import SCRIPTS
from lintarsia.settings.designer import Designer

SELECTOR = re.compile(r"^(?!@|\s*$)([^{}]+)\{", re.MULTILINE)


def test_a_rule_holds_within_our_pages_and_outweighs_a_theme_s() -> None:
    made = scoped(
        ".lintarsia h1, .cover .by:is(a, b) { margin: 1rem .5rem; } /* { */ "
        "@media (max-width: 40rem) { .cover { top: 0; } }"
    )
    assert made == (
        ".lintarsia:not(#_#_) h1, .cover:where(.lintarsia, .lintarsia *):not(#_#_) .by:is(a, b) "
        "{ margin: calc(var(--li-rem) * 1) calc(var(--li-rem) * .5); }\n"
        "@media (max-width: 40rem) {\n.cover:where(.lintarsia, .lintarsia *):not(#_#_) { top: 0; }\n}\n"
    )


def test_borders_are_as_important_as_a_theme_s() -> None:
    assert scoped(".lintarsia th { border: 0; border-bottom: 1px solid red }") == (
        ".lintarsia:not(#_#_) th { border: 0 !important; border-bottom: 1px solid red !important }\n"
    )


def test_paper_of_the_host_s_own_pages_is_theirs_to_choose() -> None:
    assert scoped("@page { margin: 1cm; } @page lying { size: landscape; }") == "@page lying { size: landscape; }\n"


@pytest.mark.parametrize("selector", ["h1", "*", "body .lintarsia", "#content"])
def test_a_rule_that_would_hold_everywhere_is_refused(selector: str) -> None:
    with pytest.raises(AssertionError, match="would hold in all of a host's page"):
        scoped(f"{selector} {{ top: 0; }}")


def test_no_rule_of_ours_reaches_a_host_s_element() -> None:
    styles = re.sub(r"/\*.*?\*/", "", hosted_styles(NO_IMPRINT), flags=re.DOTALL)
    rules = [one.strip() for one in SELECTOR.findall(styles)]
    assert len(rules) > 500
    assert [one for one in rules if ".lintarsia" not in one] == []
    outside = re.sub(r"\([^()]*\)", "", styles)
    assert "rem" not in re.sub(r"--li-rem", "", outside), "a length that a theme's letter size would change"


def test_an_accent_is_the_designer_s_by_day_and_by_lamplight() -> None:
    styles = hosted_styles(Imprint(Designer(accent="#2f6f5e")))
    assert re.search(r"--li-accent: light-dark\(#[0-9a-f]{6}, #[0-9a-f]{6}\)", styles[styles.rindex("@supports") :])


def test_what_a_theme_would_run_or_set_is_out_of_its_reach() -> None:
    page = (
        '<article class="lintarsia mine"><a href="x.html">x</a><svg><use href="#key-0"/><a href="#said-1"></a></svg>'
        '<script type="application/json" data-part="rows">{"a":"b & c"}</script>'
    )
    assert hosted_content(page) == (
        '<article data-part="hosted" class="lintarsia mine"><a href="x.html">x</a>'
        '<svg><use xlink:href="#key-0"/><a xlink:href="#said-1"></a></svg>'
        '<div data-part="rows" hidden>{"a":"b &amp; c"}</div>'
    )


def test_what_scripts_share_is_made_once_and_all_else_at_every_start() -> None:
    made = hosted_scripts(SCRIPTS, "en")
    once, _, again = made.partition("globalThis.lintarsiaPages = ")
    assert [f"globalThis.lintarsia{name} =" in once for name in ("LogFile", "Logs", "LogReading", "Photos")] == [
        True
    ] * 4
    assert "globalThis.lintarsia = " in again
    assert "document.addEventListener" not in again.replace('document.addEventListener("lintarsia:said"', "")
