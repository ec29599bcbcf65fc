"""A page as one file, by its elements, without a browser: what its policy allows is what is in it, its pictures are in
it, and what leads elsewhere is not. Hashes of a policy: W3C, "Content Security Policy Level 3", 2024."""

import base64
import re
from hashlib import sha256
from pathlib import Path
from typing import Any

import pytest
from lxml import etree, html
from smallsite import write

from lintarsia.ground.resources import resource
from lintarsia.ground.trouble import Trouble
from lintarsia.publishing.site.single import single_page
from lintarsia.settings import Settings
from lintarsia.settings.designer import Designer
from straytext import stray

ASSETS = resource("site") / "assets"
Made = dict[str, Any]


@pytest.fixture(scope="module")
def charts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("single")
    write(folder)
    (folder / "empty").mkdir()
    return folder


@pytest.fixture(scope="module")
def made(charts: Path) -> Made:
    kite, shore = str(charts / "kite.chart.yaml"), str(charts / "shore.pattern.yaml")
    pages = {
        "kite": single_page(kite),
        "open": single_page(kite, public=True),
        "german": single_page(kite, Settings(str(charts), designer=Designer(accent="#2f6f5e")), language="de"),
        "front": single_page(shore, piece="front", size="large"),
    }
    return {name: html.document_fromstring(page) for name, page in pages.items()}


def text(part: Any) -> str:
    return " ".join(part.text_content().split())


def shipped(name: str) -> str:
    return (ASSETS / name).read_text("utf-8")


def test_a_designer_s_accent_is_in_it_and_none_where_none_is_stated(made: Made) -> None:
    told = {name: [one.text for one in page.iter("style")][3:] for name, page in made.items()}
    assert ["--li-accent: #2f6f5e;" in style for style in told.pop("german")] == [True]
    assert all(styles == [] for styles in told.values())


def test_its_policy_names_each_style_and_script_by_its_hash_and_nothing_else(made: Made) -> None:
    for page in made.values():
        (policy,) = page.xpath("//meta[@http-equiv='Content-Security-Policy']/@content")
        told = dict(part.strip().split(" ", 1) for part in policy.split(";") if part.strip())
        for kind, tag in (("style-src", "style"), ("script-src", "script")):
            texts = [one.text or "" for one in page.iter(tag) if one.get("type") != "application/json"]
            hashes = [base64.b64encode(sha256(one.encode("utf-8")).digest()).decode() for one in texts]
            assert told[kind].split() == [f"'sha256-{one}'" for one in hashes]
        assert told["default-src"] == "'none'"
        assert told["img-src"] == "data:"


def test_its_scripts_come_in_their_order_and_none_is_worthless_here(made: Made) -> None:
    texts = [one.text or "" for one in made["kite"].iter("script") if one.get("type") != "application/json"]
    known = {shipped(file.name): file.name for file in Path(str(ASSETS)).glob("*.js")}
    names = [known[one] for one in texts]
    assert names[:3] == ["theme.js", "phrases.js", "frame.js"]
    assert len(names) == len(set(names))
    assert {"knit.js", "rows.js", "ticks.js", "mine.js", "logs.js"} <= set(names)
    assert not {"keep.js", "size.js", "overview.js", "worker.js"} & set(names)
    public = [known[one.text] for one in made["open"].iter("script") if one.get("type") != "application/json"]
    assert set(names) - set(public) == {"logread.js", "photos.js", "mine.js"}
    assert [one.text for one in made["kite"].iter("style")] == [
        shipped(name) for name in ("lintarsia.css", "answers.css", "theme.css")
    ]


def test_pictures_are_inside(made: Made) -> None:
    for page in made.values():
        sources = page.xpath("//img/@src")
        assert sources
        for source in sources:
            kind, _, data = source.partition(";base64,")
            assert kind == "data:image/svg+xml"
            assert etree.fromstring(base64.b64decode(data)).tag == "{http://www.w3.org/2000/svg}svg"
    (icon,) = made["kite"].xpath("//link[@rel='icon']/@href")
    assert base64.b64decode(icon.partition(",")[2]) == (ASSETS / "mark.svg").read_bytes()


def test_no_link_leads_out_of_it_and_none_to_nowhere(made: Made) -> None:
    for name, page in made.items():
        ids = {one.get("id") for one in page.iter() if one.get("id")}
        links = page.xpath("//a/@href")
        assert links
        for link in links:
            assert link.startswith("#"), (name, link)
            assert re.sub(r"-s[0-9-]+$", "", link[1:]) in ids, (name, link)
        assert page.xpath("//p[@class='crumb'] | //nav[@class='sizes']") == []
        assert stray(page) == []


def test_what_is_kept_stands_in_it_but_not_for_everybody(made: Made) -> None:
    assert "#mine" in made["kite"].xpath("//a/@href")
    assert made["kite"].xpath("//*[@id='mine']")
    assert made["open"].xpath("//*[@id='mine'] | //a[@href='#mine'] | //*[@id='results']") == []


def test_what_it_is_called(made: Made) -> None:
    assert text(made["kite"].find(".//h1")) == "Kite <&> tail"
    assert text(made["kite"].find(".//title")) == "Kite <&> tail"
    (about,) = made["kite"].xpath("//meta[@name='description']/@content")
    assert about.startswith("12 stitches × 6 rows")
    assert text(made["front"].find(".//h1")).startswith("Shore set")
    assert "large" in text(made["front"].find(".//title"))
    assert made["front"].xpath("//article/@data-place") == ["shore-pattern/front-large"]


def test_in_another_language(made: Made) -> None:
    assert made["german"].get("lang") == "de"
    assert made["kite"].get("lang") == "en"
    phrases = [one.text for one in made["german"].iter("script") if "lintarsiaWords=" in (one.text or "")]
    assert len(phrases) == 1
    assert "Reihe" in text(made["german"].find(".//body"))


@pytest.mark.parametrize(
    ("path", "asked", "why"),
    [
        ("", {}, "--single makes a page of one chart or of one pattern's piece; {path!r} holds 4"),
        ("empty", {}, "--single makes a page of one chart or of one pattern's piece; {path!r} holds 0"),
        ("torn.chart.yaml", {}, "{path}: no page to knit from can be made of it; lintarsia check says why"),
        ("shore.pattern.yaml", {},
         "--single makes a page of one piece in one size, named by --piece and --size; {path} has front, small, front, "
         "large, belt, small and belt, large"),
        ("shore.pattern.yaml", {"piece": "front"},
         "--single makes a page of one piece in one size, named by --piece and --size; {path} has front, small, front, "
         "large, belt, small and belt, large"),
        ("shore.pattern.yaml", {"piece": "hood", "size": "small"},
         "--single makes a page of one piece in one size, named by --piece and --size; {path} has front, small, front, "
         "large, belt, small and belt, large"),
        ("none.pattern.yaml", {}, "{path}: no piece of it can be laid out; lintarsia check says why"),
    ],
)  # fmt: skip
def test_what_is_no_page_of_one_thing_is_said(charts: Path, path: str, asked: dict[str, Any], why: str) -> None:
    (charts / "none.pattern.yaml").unlink(missing_ok=True)
    if path.startswith("none"):
        (charts / path).write_text("lintarsia-pattern: 1\ntitle: N\npieces:\n  a: {chart: nowhere.chart.yaml}\n")
    full = str(charts / path) if path else str(charts)
    with pytest.raises(Trouble) as told:
        single_page(full, **asked)
    assert str(told.value) == why.format(path=full)
