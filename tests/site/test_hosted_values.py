"""Our styles, scripts and contents in another's site, text for text: selectors, lengths, colours by day and evening.

What selectors weigh: Selectors Level 4, section 17; `light-dark()`: CSS Color Adjustment and CSS Color 5 (from memory).
"""

import re

import pytest

from lintarsia.ground.resources import resource
from lintarsia.publishing.imprint import NO_IMPRINT, Imprint
from lintarsia.publishing.pages.phrasescript import phrases_script
from lintarsia.publishing.site.hosted import by_lamplight, hosted_content, hosted_scripts, hosted_styles, scoped
from lintarsia.publishing.site.pagespecs import SCRIPTS
from lintarsia.settings.designer import Designer

ASSETS = resource("site") / "assets"
W, H = ":where(.lintarsia, .lintarsia *)", ":not(#_#_)"


@pytest.mark.parametrize(
    ("css", "held"),
    [
        (":root { --a: 1rem; }", ".lintarsia { --a: calc(var(--li-rem) * 1); }\n"),
        (':root[data-lamp="day"] .a { top: 0; }', '.lintarsia[data-lamp="day"] .a { top: 0; }\n'),
        (".a { top: 0; }", f".a{W}{H} {{ top: 0; }}\n"),
        ("p.a:hover > b { top: 0; }", f"p.a{W}{H}:hover > b {{ top: 0; }}\n"),
        (".lintarsia .a { top: 0; }", f".lintarsia{H} .a {{ top: 0; }}\n"),
        ("html:not(.no-script) .a { top: 0; }", f".lintarsia{H}.is-started .a {{ top: 0; }}\n"),
        (".a:is(b, i),\n.c { top: 0; }", f".a{W}{H}:is(b, i), .c{W}{H} {{ top: 0; }}\n"),
        (".a { top: -.5rem; left: 12.25rem; right: 2em; }",
         f".a{W}{H} {{ top: calc(var(--li-rem) * -.5); left: calc(var(--li-rem) * 12.25); right: 2em; }}\n"),
        (".a { --x1rem: 0; content: '#2rem'; }", f".a{W}{H} {{ --x1rem: 0; content: '#2rem'; }}\n"),
        (".a { border: 1px solid; border-top: 0 !important; --border: 1px; }",
         f".a{W}{H} {{ border: 1px solid !important; border-top: 0 !important; --border: 1px; }}\n"),
        (".a { border-collapse: collapse }", f".a{W}{H} {{ border-collapse: collapse !important }}\n"),
        ("@media print { .a { top: 0; } .b { top: 1px; } }",
         f"@media print {{\n.a{W}{H} {{ top: 0; }}\n.b{W}{H} {{ top: 1px; }}\n}}\n"),
        ("@supports (a: b) { @media print { .a { top: 0; } } }",
         f"@supports (a: b) {{\n@media print {{\n.a{W}{H} {{ top: 0; }}\n}}\n}}\n"),
        ("@page { margin: 0; } @page lying { size: a4 landscape; }", "@page lying { size: a4 landscape; }\n"),
        ("/* .x { */ .a /* } */ { top: 0; }", f".a{W}{H} {{ top: 0; }}\n"),
        ("/* one\n.x { top: 0; }\n*/ .a { top: 0; } /* two */", f".a{W}{H} {{ top: 0; }}\n"),
        ("", ""),
    ],
)  # fmt: skip
def test_a_rule_as_it_is_held(css: str, held: str) -> None:
    assert scoped(css) == held


def test_an_open_brace_is_a_fault_of_ours() -> None:
    with pytest.raises(AssertionError, match="an open brace"):
        scoped(".a { top: 0;")


def test_colours_by_lamplight() -> None:
    assert by_lamplight({"--a": "light-dark(#fff, #000)", "--b": "x"}) == (
        "@supports (color: light-dark(#000, #fff)) { @media screen { "
        ".lintarsia { --a: light-dark(#fff, #000); --b: x; } } }\n"
    )


def colours(name: str, selector: str) -> dict[str, str]:
    """The colours of the first rule of a style sheet that has this selector and sets any."""
    for body in re.findall(re.escape(selector) + r" \{([^}]*)\}", (ASSETS / name).read_text("utf-8")):
        if found := dict(re.findall(r"(--li-[\w-]+):\s*(#[0-9a-fA-F]{3,8});", body)):
            return found
    raise AssertionError(selector)


def test_every_colour_that_differs_in_the_evening_is_given_both_tones() -> None:
    day, evening = colours("lintarsia.css", ":root"), colours("theme.css", ':root[data-lamp="evening"]')
    assert len(evening) > 5
    styles = hosted_styles(NO_IMPRINT)
    made = styles[styles.rindex("@supports (color: light-dark(#000, #fff))") :]
    told = dict(re.findall(r"(--li-[\w-]+): (light-dark\([^)]*\));", made))
    assert told == {name: f"light-dark({day[name]}, {tone})" for name, tone in evening.items()}


def test_styles_stand_in_their_order_each_whole() -> None:
    styles = hosted_styles(NO_IMPRINT)
    own = [scoped((ASSETS / name).read_text("utf-8")) for name in ("lintarsia.css", "answers.css")]
    assert styles.startswith((ASSETS / "hosted.css").read_text("utf-8") + own[0] + own[1] + "@supports")


def test_the_designer_s_accent_follows_all_else() -> None:
    own = Imprint(Designer(accent="#2f6f5e"))
    assert own.accents is not None
    day, evening, ground = own.accents
    plain = hosted_styles(NO_IMPRINT)
    assert hosted_styles(own) == plain + (
        f"@media screen {{ .lintarsia {{ --li-accent: {day}; --li-on-accent: #ffffff; }}\n }}\n"
        "@supports (color: light-dark(#000, #fff)) { @media screen { .lintarsia { "
        f"--li-accent: light-dark({day}, {evening}); --li-on-accent: light-dark(#ffffff, {ground}); }} }} }}\n"
    )


@pytest.mark.parametrize(
    ("html", "made"),
    [
        ('<div class="lintarsia"><svg a><a href="#x"/></svg><svg><use href="#y"/></svg><a href="z">',
         '<div data-part="hosted" class="lintarsia"><svg a><a xlink:href="#x"/></svg><svg><use xlink:href="#y"/></svg>'
         '<a href="z">'),
        ('<figure class="lintarsia placed">', '<figure data-part="hosted" class="lintarsia placed">'),
        ('<div class="lintarsian"><p class="lintarsia">', '<div class="lintarsian"><p class="lintarsia">'),
        ('<script type="application/json" data-part="rows">["&", "<"]</script><script>a</script>',
         '<div data-part="rows" hidden>["&amp;", "<"]</div><script>a</script>'),
        ("<svg>\n<a href='#x'/>\n</svg>", "<svg>\n<a href='#x'/>\n</svg>"),
    ],
)  # fmt: skip
def test_content_as_it_stands_there(html: str, made: str) -> None:
    assert hosted_content(html) == made


@pytest.mark.parametrize("language", ["en", "de"])
def test_scripts_are_one_function_that_can_be_called_again(language: str) -> None:
    said = phrases_script(language)
    made = hosted_scripts(SCRIPTS, language)
    once, start, again = made.partition(
        "globalThis.lintarsiaPages = ({ addEventListener, matchMedia, ResizeObserver, requestAnimationFrame, "
        "requestIdleCallback, setTimeout }) => {\n"
    )
    assert start
    assert once.startswith(said)
    assert again.startswith(f"try {{\n{said}}} catch (fault) {{ reportError(fault); }}\ntry {{\n")
    assert again.endswith("} catch (fault) { reportError(fault); }\n};\n")
    for name in SCRIPTS:
        text = (ASSETS / name).read_text("utf-8")
        shared = re.search(r"^globalThis\.lintarsia[A-Z]", text, re.MULTILINE) is not None
        if name != "phrases.js":
            assert (text in once, text in again) == (shared, not shared), name
    assert again.count("reportError") == 1 + sum(
        re.search(r"^globalThis\.lintarsia[A-Z]", (ASSETS / name).read_text("utf-8"), re.MULTILINE) is None
        for name in SCRIPTS
        if name != "phrases.js"
    )


def test_the_words_of_a_language_stand_before_the_script_that_says_them() -> None:
    shipped = (ASSETS / "phrases.js").read_text("utf-8")
    assert phrases_script("en") == shipped
    words = re.fullmatch(r"globalThis\.lintarsiaWords=(\{.*?\});\n(.*)", phrases_script("de"), re.DOTALL)
    assert words is not None
    assert words[2] == shipped
    assert words[1].startswith('{"language":"de"')
    assert "Reihe" in words[1]
    assert "<" not in words[1]
    assert '", "' not in words[1][:200]
