"""The pages of patterns, rules and all charts by their elements: each number and link stands where it is looked for."""

import json
import posixpath
import re
from pathlib import Path
from typing import Any

import pytest
from pagecheck import Page
from smallsite import Pages, built, write
from test_chart_by_elements import one, said, table

from lintarsia.chart.content import chart_fingerprint
from lintarsia.engine import check_paths
from lintarsia.engine.subjects.pattern import work_on
from lintarsia.pattern.content import pattern_fingerprint
from lintarsia.pattern.reading import read_pattern
from lintarsia.pattern.work import PatternWork
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.rules.rulebook import house_rulebook
from lintarsia.settings import Settings

SIZES = ("small", "large")


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Pages]:
    folder = tmp_path_factory.mktemp("pages")
    write(folder / "charts")
    return folder, built(folder / "charts", folder / "site")


@pytest.fixture
def shore(made: tuple[Path, Pages]) -> Page:
    return made[1]["charts/shore-pattern.html"]


@pytest.fixture
def index(made: tuple[Path, Pages]) -> Page:
    return made[1]["index.html"]


def work(made: tuple[Path, Pages]) -> PatternWork:
    pattern = read_pattern(str(made[0] / "charts" / "shore.pattern.yaml")).pattern
    assert pattern is not None
    return work_on(pattern, Settings(root=str(made[0] / "charts")))


def counted(found: list[Any]) -> dict[str, int]:
    return {level: sum(r.level == level and not r.suppressed for r in found) for level in ("error", "warning", "note")}


def test_the_cover_says_what_the_pattern_says(made: tuple[Path, Pages], shore: Page) -> None:
    article = one(shore, "//article")
    assert (article.get("data-page"), article.get("data-place")) == ("pattern", "shore-pattern")
    assert one(shore, "//h1").text == "Shore set"
    assert one(shore, "//p[@class='about']").text == "A set for windy days."
    lede = said(one(shore, "//p[@class='lede']"))
    assert ("2 pieces" in lede, "2 sizes" in lede, "1.2" in lede) == (True, True, True)
    figures = {said(div[0]): said(div[1]) for div in shore.xpath("//dl[@class='figures']/div")}
    assert list(figures.values()) == ["small, large", "22 sts × 30 rows in 10 cm", "4 mm", "flat"]
    assert [p.text for p in shore.xpath("//p[@class='note']")] == ["Wash it cold.", "Dry it flat."]
    assert len(shore.xpath("//p[@class='caution']")) == 1
    stamp = said(one(shore, "//p[@class='stamp']"))
    assert stamp.startswith(f"version 1.2 · fingerprint {pattern_fingerprint(work(made))}")
    radios = [(i.get("value"), i.get("checked")) for i in shore.xpath("//fieldset[@data-part='sizes']//input")]
    assert radios == [("", "checked"), ("small", None), ("large", None)]
    starts = [(a.get("href"), a.get("data-sizes")) for a in shore.xpath("//a[@class='start']")]
    assert starts == [("shore-pattern/front-small.html", "0"), ("shore-pattern/front-large.html", "1")]


def test_each_piece_in_each_size_leads_to_its_page(made: tuple[Path, Pages], shore: Page) -> None:
    pattern = work(made)
    items = shore.xpath("//ul[@class='pieces']/li")
    assert [one(item, "b").text for item in items] == ["front", "belt"]
    for item, name in zip(items, ("front", "belt"), strict=True):
        for number, (line, size) in enumerate(zip(item.xpath("p"), SIZES, strict=True)):
            laid = pattern.laid(pattern.pattern.pieces[name], size)
            assert laid is not None
            grid, gauge = laid.chart.grid, laid.chart.gauge
            link = one(line, "a")
            assert link.get("href") == f"shore-pattern/{name}-{size}.html"
            assert (link.text_content(), link.get("aria-label")) == (size, f"{name}, {size}")
            assert line.get("data-sizes") == str(number)
            words = said(line)
            assert f"{grid.width} stitches, {grid.height} rows" in words
            wide, high = grid.width * 10 / gauge.stitches, grid.height * 10 / gauge.rows
            assert words.endswith(f"{round(wide, 1):g} × {round(high, 1):g} cm")
            assert ("garter stitch" in words) is (name == "belt")
            page = made[1][f"charts/shore-pattern/{name}-{size}.html"]
            assert one(page, "//article").get("data-fingerprint") == chart_fingerprint(laid.chart)
            assert one(page, "//h1").text == f"Shore set: {name}, {size}"
        pictures = item.xpath("span/img")
        assert [(i.get("data-sizes"), i.get("hidden")) for i in pictures] == [("0", ""), ("1", None)]


def test_measurements_are_those_of_stitches_and_rows(shore: Page) -> None:
    """22 stitches and 30 rows to 10 cm: 16 stitches are 7.3 cm, and printed to half a centimetre above five."""
    rows = table(shore, "//table[caption[contains(., 'easurement')]]")
    cells = [row[2:] for row in rows]
    numbers = [[float(cell.split()[0]) for cell in row] for row in cells]
    stitches = {"front": ((16, 20), (8, 10)), "belt": ((6, 8), (12, 12))}
    expected = [
        [width * 10 / 22 for width in stitches[piece][0]]
        if line == 0
        else [row * 10 / 30 for row in stitches[piece][1]]
        for piece in ("front", "belt")
        for line in (0, 1)
    ]
    assert [row[0] for row in rows] == ["front", "", "belt", ""]
    for found, wanted in zip(numbers, expected, strict=True):
        assert found == pytest.approx(wanted, abs=0.26)
    for row, wanted in zip(cells, expected, strict=True):
        for cell, cm in zip(row, wanted, strict=True):
            inches = re.fullmatch(r"[0-9.]+ cm / ([0-9]*)([¼½¾]?) in", cell)
            assert inches is not None
            parts = {"": 0.0, "¼": 0.25, "½": 0.5, "¾": 0.75}
            assert int(inches[1] or 0) + parts[inches[2]] == pytest.approx(cm / 2.54, abs=0.2)
    heads = [th.get("data-sizes") for th in shore.xpath("//table[caption[contains(., 'easurement')]]//thead//th")]
    assert heads == [None, None, "0", "1"]
    assert [f.get("data-sizes") for f in shore.xpath("//div[@class='schematics']/figure")] == ["", "0", "1"] * 2
    captions = [c.text for c in shore.xpath("//div[@class='schematics']/figure/figcaption")]
    assert captions == ["front", "front, small", "front, large", "belt", "belt, small", "belt, large"]


def test_materials_and_finishing(shore: Page) -> None:
    (row,) = table(shore, "//section[@aria-labelledby='yarns-title']")
    assert row[0] == "Plain DK"
    assert [cell.split(" (")[0] for cell in row[1:]] == ["1 ball", "1 ball"]
    small, large = (float(re.findall(r"\(([0-9.]+) m\)", cell)[0]) for cell in row[1:])
    assert 5 < small < large < 20
    needed = {one(li, "b").text.casefold(): said(li) for li in shore.xpath("//ul[@class='needed']/li")}
    assert needed["needles"].endswith("4 mm")
    assert needed["buttons"].endswith("3 (5)")
    terms = {dt.text: dt.getnext().text for dt in shore.xpath("//dl[@class='terms']//dt")}
    assert (terms["k"], terms["p"], terms["sts"]) == ("knit", "purl", "stitches")
    assert terms["Seam"] == "join front left to belt right"
    ends = {dt: re.findall("[0-9]+", dd or "") for dt, dd in terms.items() if dt.startswith("Ends of")}
    assert {name: numbers for name, numbers in ends.items() if "belt" in name} == {"Ends of belt": ["2"]}
    headings = [h.get("id") for h in shore.iter("h2")]
    assert headings.index("pieces-title") < headings.index("measures-title") < headings.index("yarns-title")
    assert headings.index("yarns-title") < headings.index("notes-title") < headings.index("knits-title")


def test_charts_results_and_test_knits_of_a_pattern(made: tuple[Path, Pages], shore: Page) -> None:
    kite = counted(list(check_paths([str(made[0] / "charts" / "kite.chart.yaml")], jobs=1).results))
    (part,) = shore.xpath("//ul[@class='parts']/li")
    assert one(part, "a").get("href") == "kite.html#results"
    assert one(part, "a").text == "Kite <&> tail"
    assert [int(n) for n in re.findall(r"([0-9]+) (?:error|warning|note)", said(part))] == list(kite.values())
    own = list(check_paths([str(made[0] / "charts" / "shore.pattern.yaml")], jobs=1).results)
    spots = {spot.get("id") for spot in shore.xpath("//p[@class='spot']")}
    assert spots == {f"result-{r.fingerprint[:16]}" for r in own if not r.suppressed}
    alike = shore.xpath("//details[@class='alike']")
    assert [len(group.xpath(".//p[@class='spot']")) for group in alike] == [2], "two sizes of one seam"
    testers = [
        [said(cell) for cell in row.xpath("th|td")][:2] for row in shore.xpath("//table[@class='matrix']//tbody/tr")
    ]
    assert testers == [["small", "1 of 1 finished"], ["large", "nobody has taken it"]]
    assert [row.get("class") for row in shore.xpath("//table[@class='matrix']//tbody/tr")] == [None, "free"]
    heads = [said(th) for th in shore.xpath("//table[@class='matrix']//thead//th")]
    assert heads[2:] == ["Wren"], "Pipit wants no place on the site"
    ((size, who, state, _, gauge, yarn, hours),) = table(shore, "//section[@class='board']//details")
    assert (size, who, state, gauge, hours) == ("small", "Wren", "finished 2026-11-05", "21 × 29 to 10 cm", "4")
    assert re.fullmatch(r"w [0-9.]+", yarn)
    talk = [
        (li.get("class"), one(li, ".//a").get("href"), said(li.xpath("p")[1]))
        for li in shore.xpath("//ul[@class='said-of']/li")
    ]
    assert talk == [
        ("said said-warning", "shore-pattern/front-small.html#row-3-s4-6", "“a yarn <too> few”"),
        ("said said-clear", "shore-pattern/front-small.html#row-5", "“lovely”"),
    ]
    assert "thank you" in said(shore.xpath("//ul[@class='said-of']/li")[1])


def test_a_piece_s_page_names_its_sizes_and_edges(made: tuple[Path, Pages]) -> None:
    front = made[1]["charts/shore-pattern/front-large.html"]
    assert one(front, "//article").get("data-pattern") == "shore-pattern"
    up = [a.get("href") for a in front.xpath("//p[@class='crumb']//a")]
    assert "../shore-pattern.html" in up
    sizes = [a.get("href") for a in front.xpath("//nav[contains(@class,'sizes')]//a")]
    assert all(made[0].joinpath("site/charts/shore-pattern", s).is_file() for s in sizes)
    rows = front.xpath("//section[@class='row-list']//tbody/tr")
    numbers = [one(row, "th/a").text for row in rows]
    assert numbers[0].startswith("1")
    assert numbers[-1].endswith("10")
    counts = [sum(int(b.text) for b in row.xpath("td[1]//span[@class='run']/b")) for row in rows]
    assert set(counts) == {19, 20}, "the kite lacks a stitch in a row"


def test_all_charts_stand_on_one_page(made: tuple[Path, Pages], index: Page) -> None:
    swatches = index.xpath("//ul[@data-part='wall']/li")
    names = [one(li, ".//a[@class='name']").text for li in swatches]
    assert names == ["Tern front", "Shore set", "Kite <&> tail", "torn.chart.yaml"], "most faults first"
    for li, file in zip(swatches, ("sub/tern.chart", "shore.pattern", "kite.chart", "torn.chart"), strict=True):
        path = made[0] / "charts" / f"{file}.yaml"
        found = [r for r in check_paths([str(path)], jobs=1).results if not r.suppressed]
        assert li.get("data-file") == f"{file}.yaml"
        assert li.get("data-title") == one(li, ".//a[@class='name']").text
        slug = f"charts/{file.replace('.chart', '').replace('.', '-')}.html"
        assert one(li, ".//a[@class='name']").get("href") == slug
        counts = counted(found)
        if not file.endswith("pattern"):
            levels = ("errors", "warnings", "notes")
            assert [li.get(f"data-{name}") for name in levels] == [str(n) for n in counts.values()]
        assert li.get("data-state") == "blocks"
        chart = read_chart(str(path)).chart if file in ("sub/tern.chart", "kite.chart") else None
        if chart is not None:
            plan = make_plan(chart)
            area = chart.grid.width / chart.gauge.stitches * chart.grid.height / chart.gauge.rows * 100
            assert li.get("data-technique") == "intarsia"
            assert int(li.get("data-stitches")) == chart.grid.width * chart.grid.height
            assert (li.get("data-supplies"), li.get("data-ends")) == (str(plan.totals.supplies), str(plan.totals.ends))
            assert li.get("data-fullest") == str(plan.totals.most_in_a_row)
            assert float(li.get("data-metres")) == pytest.approx(plan.totals.metres, abs=0.01)
            assert float(li.get("data-area")) == pytest.approx(area, abs=0.06)
            facts = said(one(li, ".//p[@class='facts']"))
            assert f"{chart.grid.width} × {chart.grid.height} stitches" in facts
            assert f"{plan.totals.metres:.1f} m" in facts
    lede = said(one(index, "//p[@class='lede']"))
    assert re.findall("[0-9]+", lede) == ["3", "1", "4"]


def test_the_table_of_all_charts_says_the_same(index: Page) -> None:
    wall = index.xpath("//ul[@data-part='wall']/li")
    rows = index.xpath("//div[@data-part='listing']//tbody/tr")
    assert [row.get("data-n") for row in rows] == [li.get("data-n") for li in wall] == ["0", "1", "2", "3"]
    for row, li in zip(rows, wall, strict=True):
        cells = [said(cell) for cell in row.xpath("th|td")]
        assert cells[0] == li.get("data-title")
        assert cells[-3:] == [li.get(f"data-{name}") for name in ("errors", "warnings", "notes")]
        assert one(row, "th/a").get("href") == one(li, ".//a[@class='name']").get("href")
        if li.get("data-technique"):
            assert cells[4:8] == [li.get(f"data-{name}") for name in ("technique", "supplies", "fullest", "ends")]
            wide, high = map(int, cells[2].split(" × "))
            assert wide * high == int(li.get("data-stitches"))
    sorts = [th.get("data-sort") for th in index.xpath("//div[@data-part='listing']//th[@data-sort]")]
    options = [o.get("value") for o in index.xpath("//select[@name='sort']/option")]
    assert set(sorts) - {"state", "technique", "errors", "warnings", "notes"} <= set(options)
    assert [o.get("value") for o in index.xpath("//select[@name='state']/option")] == ["", "blocks", "warning", "clear"]


def test_every_rule_has_a_page_that_says_what_it_found(made: tuple[Path, Pages]) -> None:
    book = house_rulebook()
    listing = made[1]["rules/index.html"]
    links = {a.get("href") for a in listing.xpath("//main//a")}
    assert {f"{name}.html" for name in book.names} <= links
    for name in ("area/single-stitch", "grid/stitch-count", "colour/unused"):
        page, info = made[1][f"rules/{name}.html"], book.info(name)
        assert one(page, "//h1").text == name
        words = said(one(page, "//main"))
        assert info.summary.casefold() in words.casefold()
        assert re.sub(r"[`\s]+", "", info.remedy).casefold() in re.sub(r"\s+", "", words).casefold()
        keys = {dt.text_content() for dt in page.xpath("//main//dl//dt[code]")}
        assert set(info.keys) <= keys
        found = [a.get("href") for a in page.xpath("//section[h2]/ul/li/a") if a.get("href").startswith("../../charts")]
        own = {"area/single-stitch": ["kite"], "grid/stitch-count": ["kite", "sub/tern"], "colour/unused": []}[name]
        assert sorted(found) == [f"../../charts/{slug}.html#results" for slug in own]
        assert page.xpath("//figure[@class='case']") or name == "colour/unused"


def test_the_report_and_the_search_have_everything(made: tuple[Path, Pages]) -> None:
    report = json.loads((made[0] / "site" / "report.json").read_text("utf-8"))
    found = [r for r in check_paths([str(made[0] / "charts")], jobs=1).results if not r.file.endswith("knit.yaml")]
    assert len(report["results"]) == len(found)
    assert [r["rule"] for r in report["results"]] == [r.rule for r in found]
    assert report["summary"]["charts"] == 3
    assert {level: report["summary"][level] for level in ("error", "warning", "note")} == counted(found)
    assert report["blocked"] is True
    text = (made[0] / "site" / "assets" / "search-index.js").read_text("utf-8")
    lines = json.loads(text[text.index("[") : text.rindex("]") + 1])
    assert all(len(line) == 4 for line in lines)
    kinds = {line[0] for line in lines}
    assert {"chart", "pattern", "result", "rule"} <= kinds
    charts = {line[1]: line[3] for line in lines if line[0] in ("chart", "pattern")}
    assert charts["Kite <&> tail"] == "charts/kite.html"
    assert charts["Shore set: belt, large"] == "charts/shore-pattern/belt-large.html"
    assert {line[3] for line in lines if line[0] == "rule"} >= {f"rules/{name}.html" for name in house_rulebook().names}
    results = [line for line in lines if line[0] == "result"]
    assert len(results) == len([r for r in found if not r.suppressed])
    for line in lines:
        address, _, anchor = line[3].partition("#")
        page = made[1][address]
        assert not anchor or page.xpath(f"//*[@id='{anchor}']")


def _from_top(name: str, link: str) -> str:
    return posixpath.normpath(posixpath.join(posixpath.dirname(name), link))


def test_a_page_is_first_seen_with_its_drawing_or_its_head(made: tuple[Path, Pages]) -> None:
    """HTML, "Render-blocking mechanism", from memory: nothing is painted before the part that a link expects."""
    expected = {
        name: page.xpath("//*[@id=substring(//link[@rel='expect' and @blocking='render']/@href, 2)]")
        for name, page in made[1].items()
    }
    parts = {
        name: (found[0].tag, bool(found[0].xpath(".//*[@id='viewport']"))) for name, found in expected.items() if found
    }
    assert set(parts) == {name for name in made[1] if name.startswith("charts/")}
    assert parts["charts/kite.html"] == ("section", True)
    assert parts["charts/shore-pattern.html"] == parts["charts/torn.html"] == ("header", False)


def test_the_frame_around_every_page(made: tuple[Path, Pages]) -> None:
    for name, page in made[1].items():
        up = "../" * name.count("/")
        brand = one(page, "//a[@class='brand']")
        assert (brand.get("href"), said(brand)) == (f"{up}index.html", "Test knits")
        nav = [_from_top(name, a.get("href")) for a in page.xpath("//nav[@aria-label='Site']/a")]
        assert nav == ["index.html", "rules/index.html", "guide/reading.html", "search.html", "mine.html"]
        assert one(page, "//html").get("lang") == "en"
        assert one(page, "//head/title").text.endswith("Test knits")
        assert one(page, "//a[@class='skip']").get("href") == f"#{one(page, '//main').get('id')}"
        assert len(page.xpath("//h1")) == 1
        foot = [a.get("href") for a in page.xpath("//footer[@class='site-foot']//a")]
        assert foot[-1] == f"{up}report.json"
