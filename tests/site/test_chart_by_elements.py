"""The page of a chart by its elements: what the chart and its plan have stands where a knitter looks for it."""

import json
import re
from pathlib import Path
from typing import Any

import pytest
from pagecheck import Page
from smallsite import KITE, TERN, Pages, built, write

from lintarsia.chart import Chart
from lintarsia.chart.content import chart_fingerprint, row_marks
from lintarsia.engine import check_paths
from lintarsia.planning.model import Plan
from lintarsia.planning.planner import make_plan
from lintarsia.reading import read_chart
from lintarsia.result import Result


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, Pages]:
    folder = tmp_path_factory.mktemp("elements")
    write(folder / "charts")
    return folder, built(folder / "charts", folder / "site", base_url="")


@pytest.fixture
def kite(made: tuple[Path, Pages]) -> Page:
    return made[1]["charts/kite.html"]


@pytest.fixture
def tern(made: tuple[Path, Pages]) -> Page:
    return made[1]["charts/sub/tern.html"]


def chart_of(text: str) -> Chart:
    chart = read_chart("kite.chart.yaml", text.encode()).chart
    assert chart is not None
    return chart


def both(text: str) -> tuple[Chart, Plan]:
    chart = chart_of(text)
    return chart, make_plan(chart)


def results(made: tuple[Path, Pages], name: str) -> list[Result]:
    return [one for one in check_paths([str(made[0] / "charts" / name)], jobs=1).results if not one.suppressed]


def said(element: Page) -> str:
    return " ".join(element.text_content().split())


def one(page: Page, path: str) -> Page:
    found = page.xpath(path)
    assert len(found) == 1, path
    return found[0]


def section(page: Page, name: str) -> Page:
    return one(page, f"//section[contains(concat(' ', @class, ' '), ' {name} ')]")


def table(page: Page, path: str) -> list[list[str]]:
    """The words of the rows of a table's body, cell by cell."""
    return [[said(cell) for cell in row.xpath("th|td")] for row in page.xpath(f"{path}//tbody/tr")]


def test_the_head_says_what_page_it_is(kite: Page) -> None:
    assert one(kite, "//head/title").text == "Kite <&> tail · Test knits"
    metas = {m.get("name") or m.get("property"): m.get("content") for m in kite.iter("meta")}
    about = "12 stitches × 6 rows, 5.5 × 2 cm; intarsia, worked flat"
    assert metas["description"] == metas["og:description"] == about
    assert (metas["og:title"], metas["og:site_name"], metas["og:type"]) == ("Kite <&> tail", "Test knits", "article")
    assert "og:image" not in metas, "previews need whole addresses"
    (policy,) = [m.get("content") for m in kite.iter("meta") if m.get("http-equiv")]
    assert "unsafe" not in policy
    assert "default-src 'none'" in policy
    scripts = [s.get("src").rpartition("/")[2] for s in kite.iter("script") if s.get("src")]
    assert scripts[0] == "theme.js", "before anything is painted"
    assert len(scripts) == len(set(scripts))
    assert all(s.get("defer") is not None for s in kite.iter("script") if s.get("src") and "theme" not in s.get("src"))
    styles = [link.get("href") for link in kite.iter("link") if link.get("rel") == "stylesheet"]
    assert styles == ["../assets/lintarsia.css", "../assets/answers.css", "../assets/theme.css"]


def test_the_article_carries_what_scripts_ask_for(kite: Page) -> None:
    chart = chart_of(KITE)
    article = one(kite, "//article")
    assert article.get("data-page") == "chart"
    assert article.get("data-place") == "kite"
    assert article.get("data-fingerprint") == chart_fingerprint(chart)
    assert article.get("data-row-marks").split() == row_marks(chart)
    assert (article.get("data-word"), article.get("data-pattern"), article.get("data-turned")) == ("row", "", "")


def test_the_way_up_and_the_pattern_that_it_is_part_of(kite: Page, tern: Page) -> None:
    assert [a.get("href") for a in kite.xpath("//p[@class='crumb']/a")] == ["../index.html"]
    assert [a.get("href") for a in tern.xpath("//p[@class='crumb']/a")] == ["../../index.html"]
    part = one(kite, "//p[@class='part-of']/a")
    assert (part.text, part.get("href")) == ("Shore set", "shore-pattern.html")
    assert tern.xpath("//p[@class='part-of']") == []
    assert one(kite, "//h1").text == "Kite <&> tail"
    caution = kite.xpath("//p[@data-part='caution']")
    assert len(caution) == 1, "it is for a child"
    assert tern.xpath("//p[@data-part='caution']") == []


def test_every_part_that_is_listed_is_there_and_no_other(kite: Page, tern: Page) -> None:
    for page in (kite, tern):
        listed = [a.get("href")[1:] for a in page.xpath("//nav[@class='contents']/a")]
        headings = [h.get("id") for h in page.iter("h2") if h.get("id") not in (None, "knit-title", "edges-title")]
        assert [h for h in listed if h not in headings] == []
        assert len(listed) == len(set(listed)) >= 7
    assert "sewn-title" in [a.get("href")[1:] for a in kite.xpath("//nav[@class='contents']/a")]
    assert "sewn-title" not in [a.get("href")[1:] for a in tern.xpath("//nav[@class='contents']/a")]


def test_pictures_are_there_in_their_size(made: tuple[Path, Pages]) -> None:
    for name in ("charts/kite.html", "charts/sub/tern.html", "index.html", "charts/shore-pattern.html"):
        for image in made[1][name].iter("img"):
            file = (made[0] / "site" / name).parent / image.get("src")
            assert file.is_file()
            if image.get("width") and file.name != "mark.svg":
                size = re.search(r'width="([0-9.]+)" height="([0-9.]+)"', file.read_text("utf-8"))
                assert size is not None
                wide, high = float(size[1]), float(size[2])
                ratio = float(image.get("width")) / float(image.get("height"))
                assert ratio == pytest.approx(wide / high, rel=0.02)
    kite = made[1]["charts/kite.html"]
    front = one(kite, "//figure[contains(@class,'picture-fabric')]//img")
    assert front.get("alt").startswith("Kite <&> tail")
    assert [svg.get("class") for svg in kite.xpath("//div[@id='viewport']//*[name()='svg']")] == ["lx lx-chart"]
    assert len(kite.xpath("//figure[contains(@class,'picture-back')]//*[name()='svg']")) == 1
    radios = {i.get("id"): i.get("checked") for i in kite.xpath("//input[@name='picture']")}
    assert radios == {"show-chart": "checked", "show-fabric": None, "show-back": None, "show-paths": None}
    layers = [i.get("id") for i in kite.xpath("//fieldset[@class='layers']//input")]
    assert layers == ["over-results", "over-supplies", "over-floats", "over-ends", "over-said", "left-handed"]


@pytest.mark.parametrize(("name", "text"), [("kite", KITE), ("sub/tern", TERN)])
def test_the_key_counts_the_stitches_of_each_colour(made: tuple[Path, Pages], name: str, text: str) -> None:
    chart = chart_of(text)
    items = section(made[1][f"charts/{name}.html"], "key-list").xpath("ul/li")
    colours = [item for item in items if "sign" not in (item.get("class") or "")]
    assert [one(item, "b").text for item in colours] == [c.name for c in chart.colours.values()]
    for item, (symbol, colour) in zip(colours, chart.colours.items(), strict=True):
        number = sum(row.count(symbol) for row in chart.grid.rows)
        words = said(one(item, "span"))
        assert words.startswith(f"{number} stitch{'es' if number > 1 else ''}")
        assert words.endswith(chart.yarns[colour.yarn or ""].name)
        assert ("2 in duplicate stitch" in words) is (name == "kite" and symbol == "R")
        (chip,) = list(item.iter("use"))
        (drawn,) = made[1][f"charts/{name}.html"].xpath(f"//*[@id='{chip.get('href')[1:]}']")
        assert [rect.get("fill") for rect in drawn.iter("rect")] == [colour.shade]
        assert drawn.text_content().strip() == symbol
    signs = [one(item, "b").text for item in items if "sign" in (item.get("class") or "")]
    expected = ["duplicate stitch", "repeat"] if name == "kite" else ["no stitch", "bind off", "hold", "decrease"]
    assert signs == expected


@pytest.mark.parametrize("name", ["kite", "sub/tern"])
def test_every_result_is_told_where_it_is(made: tuple[Path, Pages], name: str) -> None:
    page, found = made[1][f"charts/{name}.html"], results(made, f"{name}.chart.yaml")
    blocks = section(page, "results").xpath("div[contains(@class, 'result')]")
    told = {(one(block, ".//a[@class='rule']").text, block.get("data-level")) for block in blocks}
    assert told == {(r.rule, str(r.level)) for r in found}
    ranks = [["error", "warning", "note"].index(block.get("data-level")) for block in blocks]
    assert ranks == sorted(ranks), "the gravest first"
    spots = {spot.get("id"): spot for spot in page.xpath("//p[@class='spot']")}
    assert set(spots) == {f"result-{r.fingerprint[:16]}" for r in found}
    marks = {e.get("id") for e in page.iter() if (e.get("class") or "").startswith("lx-mark")}
    for result in found:
        spot = spots[f"result-{result.fingerprint[:16]}"]
        assert spot.get("data-of-row") == (None if result.row is None else str(result.row))
        see = one(spot, "*[@class='see']")
        if result.row is None:
            assert see.tag == "b"
            assert str(result.region.line) in said(see)
        else:
            first, last = result.stitches or (1, 15)
            assert (see.get("data-row"), see.get("data-first"), see.get("data-last")) == (
                str(result.row), str(first), str(last),
            )  # fmt: skip
            assert see.get("href")[1:] in marks
            assert see.get("href") == f"#c-mark-{see.get('data-mark')}"
        assert result.message.casefold().endswith(said(spot)[len(said(see)) :].strip(" .:").casefold()[-20:])
    for block in blocks:
        rule = one(block, ".//a[@class='rule']")
        assert rule.get("href").endswith(f"rules/{rule.text}.html")
        assert block.xpath("details[@class='why']/p")
        assert block.xpath("p[@class='remedy']")
        assert ("blocks" in block.get("class")) is (block.get("data-level") == "error")
    state = one(page, "//p[contains(@class,'state')]/a")
    errors = len([r for r in found if r.level == "error"])
    assert said(state).startswith(f"{errors} result")
    assert state.get("href") == "#results"


def test_what_the_designer_accepted_is_told_with_her_reason(kite: Page) -> None:
    kept = one(kite, "//details[@class='kept']")
    assert kept.xpath("summary")[0].text.startswith("1 ")
    assert [p.get("data-of-row") for p in kept.xpath("p")] == ["5"]
    assert one(kept, "p/i").text == "the eye; worked in duplicate stitch"
    assert one(kept, "p/a").text == "area/single-stitch"


def test_what_test_knitters_said_stands_by_its_stitches(kite: Page, tern: Page) -> None:
    """The front's plain knitting puts the kite three rows up and five stitches to the left in the small size."""
    items = kite.xpath("//ul[@class='said-of']/li")
    assert [item.get("class") for item in items] == ["said said-warning", "said said-clear"]
    assert [said(p) for p in kite.xpath("//ul[@class='said-of']/li/p[2]")] == ["“a yarn <too> few”", "“lovely”"]
    (asked,) = tern.xpath("//ul[@class='said-of']/li")
    link = one(asked, ".//a")
    assert link.get("data-spot") == "#row-7-s9"
    assert said(link).endswith("row 7, stitch 9")
    assert [said(p) for p in asked.xpath("p")][1] == "“which blue?”"
    assert "the dark one" in said(asked)
    marks = {e.get("id") for e in kite.iter() if e.get("class") == "lx-said"}
    assert {a.get("href")[1:] for a in kite.xpath("//ul[@class='said-of']//a")} == marks


@pytest.mark.parametrize(("name", "text"), [("kite", KITE), ("sub/tern", TERN)])
def test_figures_and_yarn(made: tuple[Path, Pages], name: str, text: str) -> None:
    chart, plan = both(text)
    page = section(made[1][f"charts/{name}.html"], "materials")
    figures = {said(div[0]): said(div[1]) for div in page.xpath("dl[@class='figures']/div")}
    values = list(figures.values())
    wide, high = (12 / 2.2, 6 / 3) if name == "kite" else (15 / 2, 10 / 2.8)
    assert values[0] == f"{round(wide, 1):g} × {round(high, 1):g} cm"
    assert values[1].startswith(f"{chart.gauge.stitches:g} stitches × {chart.gauge.rows:g} rows in 10 cm")
    assert values[1].endswith("4 mm") is (name == "kite")
    assert values[2] == f"{plan.totals.supplies} supplies"
    assert values[3].split()[0] == str(plan.totals.most_in_a_row)
    assert values[4] == str(plan.totals.ends)
    assert values[5] == f"{plan.totals.metres:.1f} m"
    (row,) = table(page, ".//table[@class='yarns']")
    assert row[0] == next(iter(chart.yarns.values())).name
    (need,) = plan.yarns
    told = row[-1] if name == "kite" else row[-2]
    assert told.startswith(f"{need.metres:.1f} m") or row[-1].startswith(f"{need.to_buy} ball")
    assert one(page, ".//tr[@data-yarn]").get("data-yarn") == next(iter(chart.yarns))


@pytest.mark.parametrize(("name", "text"), [("kite", KITE), ("sub/tern", TERN)])
def test_what_is_wound_and_what_stays_on_its_ball(made: tuple[Path, Pages], name: str, text: str) -> None:
    chart, plan = both(text)
    page = section(made[1][f"charts/{name}.html"], "winding")
    rows = page.xpath(".//tr[@data-supply]")
    wound = [r.get("data-supply") for r in rows if r.xpath(".//input")]
    assert set(wound) == {s.id for s in plan.supplies if s.wound}
    assert {r.get("data-supply") for r in rows} == {s.id for s in plan.supplies}
    for row in rows:
        (supply,) = [s for s in plan.supplies if s.id == row.get("data-supply")]
        cells = [said(cell) for cell in row.xpath("th|td") if "tick" not in (cell.get("class") or "")]
        assert cells[0] == supply.id
        assert chart.colours[supply.colour].name in cells[1]
        number, unit = cells[2].split()
        length = float(number) / (100 if unit == "cm" else 1)
        assert 1.1 * supply.metres - 0.05 <= length <= 1.1 * supply.metres + 0.15
        if supply.wound:
            assert cells[3] == supply.holder
            box = one(row, ".//input")
            assert (box.get("data-tick"), box.get("aria-label").rpartition(" ")[2]) == (supply.id, supply.id)
        first = plan.threads.runs
        entry = chart.grid.width - int(first.entry[supply.runs[0]])
        assert cells[-1].startswith(f"row {supply.first_row} at stitch {entry}")
        only = supply.first_row == supply.last_row
        assert cells[-1].endswith("only" if only else f"to row {supply.last_row}")


def runs_of(chart: Chart, row: int) -> list[tuple[int, str]]:
    """Stitches and colour of each run, in working order."""
    text = chart.grid.rows[row - 1].replace(".", "")
    text = text[::-1] if chart.leftward(row) else text
    return [(len(m[0]), chart.colours[m[0][0]].name) for m in re.finditer(r"(.)\1*", text)]


def test_each_row_of_the_list_is_the_row_of_the_plan(kite: Page) -> None:
    chart, plan = both(KITE)
    rows = kite.xpath("//section[@class='row-list']//tbody/tr")
    assert [row.get("id") for row in rows] == [f"row-{n}" for n in range(1, 7)]
    for number, (row, turn) in enumerate(zip(rows, plan.rows, strict=True), 1):
        leftward = chart.leftward(number)
        assert row.get("class") == ("rtl" if leftward else "ltr")
        assert one(row, "th/a").text == str(number)
        assert one(row, "th/span[@class='side']").text == ("right side" if number % 2 else "wrong side")
        way = one(row, "th/span[starts-with(@class, 'way')]")
        assert (way.get("data-way"), (way.text or "").strip()) == (("left", "←") if leftward else ("right", "→"))
        runs = [(int(one(run, "b").text), one(run, "span").text) for run in row.xpath("td[1]//span[@class='run']")]
        assert runs == runs_of(chart, number)
        names = [e.text for e in row.xpath("td[1]//em")]
        assert list(dict.fromkeys(names)) == list(turn.line_up)
        hangs = row.xpath("td[2]/ol/li")
        assert [one(li, "b").text for li in hangs] == list(turn.line_up)
        for li, name in zip(hangs, turn.line_up, strict=True):
            classes = (li.get("class") or "").split()
            assert ("new" in classes) is (name in turn.joins)
            assert ("last" in classes) is (name in turn.finishes)
            assert [i.text for i in li.xpath("i")] == ["new"] * (name in turn.joins) + ["last row"] * (
                name in turn.finishes
            )
        assert said(row.xpath("td[3]")[0]) == str(turn.needs)
        assert said(row.xpath("td[4]")[0]) == (str(turn.interlocks) if turn.interlocks else "–")


def test_rows_that_are_alike_stand_in_one_line_and_sides_apart(tern: Page) -> None:
    rows = {row.get("id"): row for row in tern.xpath("//section[@class='row-list']//tbody/tr")}
    assert list(rows) == [
        "row-1", "row-2", "row-4", "row-5", "row-6", "row-7", "row-8", "row-9", "row-10", "row-9-left", "row-10-left",
    ]  # fmt: skip
    assert one(rows["row-2"], "th/a").text == "2–3"
    assert one(rows["row-2"], "th/i").get("id") == "row-3"
    halves = {name: row.get("data-half") for name, row in rows.items() if row.get("data-half")}
    assert halves == {"row-9": "right", "row-10": "right", "row-9-left": "left", "row-10-left": "left"}
    shaped = {name: [said(p) for p in row.xpath(".//p[@class='shaped']")] for name, row in rows.items()}
    assert [name for name, words in shaped.items() if words] == [
        "row-5", "row-6", "row-9", "row-10", "row-9-left", "row-10-left",
    ]  # fmt: skip
    assert "decrease 2" in shaped["row-5"][0]
    assert "hold 2" in shaped["row-6"][0]
    assert "right-hand side" in shaped["row-9"][0]
    assert "leave the other 7 stitches on a holder" in shaped["row-9"][0]
    assert "back to row 9" in shaped["row-9-left"][0]
    assert [said(p) for p in rows["row-9"].xpath(".//p[@class='rests']")] == ["Left hanging on the other side: S1"]
    assert said(rows["row-9"].xpath("td[3]")[0]) == "1 of 2 hanging"


def row_data(page: Page) -> dict[str, Any]:
    data: dict[str, Any] = json.loads(one(page, "//script[@data-part='rows']").text)
    return data


def test_scripts_have_the_rows_as_the_list_has_them(kite: Page) -> None:
    """By number: colours, yarns as (name, colour, holder), and each row's runs as stitches and yarn by turns."""
    chart, plan = both(KITE)
    data = row_data(kite)
    assert [colour[:3] for colour in data["colours"]] == [[c.symbol, c.name, c.shade] for c in chart.colours.values()]
    assert {yarn[0]: data["colours"][yarn[1]][0] for yarn in data["yarns"]} == {s.id: s.colour for s in plan.supplies}
    holders = {yarn[0]: data["holders"][yarn[2]] for yarn in data["yarns"]}
    assert holders == {s.id: s.holder if s.wound else "ball" for s in plan.supplies}
    assert (data["sides"], data["ways"]) == (["wrong side", "right side"], ["right", "left"])
    for number, (step, turn) in enumerate(zip(data["steps"], plan.rows, strict=True), 1):
        counts, names = step["r"][::2], [data["yarns"][yarn][0] for yarn in step["r"][1::2]]
        assert counts == [count for count, _ in runs_of(chart, number)]
        assert list(dict.fromkeys(names)) == list(turn.line_up)
        assert {data["yarns"][yarn][0] for yarn in step.get("j", ())} == set(turn.joins)
        assert {data["yarns"][yarn][0] for yarn in step.get("f", ())} == set(turn.finishes)


def test_what_is_embroidered_and_ends_to_weave_in(kite: Page) -> None:
    (row,) = table(kite, "//section[@class='sewn']")
    assert row[1:] == ["2", "stitches 3–4", "Madder", "2"] or row[1:3] == ["2", "stitches 3–4"]
    assert one(kite, "//section[@class='sewn']//tbody//a").get("href") == "#row-2"
    plan = both(KITE)[1]
    ends = kite.xpath("//section[@class='ends']//tbody/tr")
    assert len(ends) == plan.totals.ends == 2 * plan.totals.supplies
    ticks = [one(row, ".//input").get("data-tick") for row in ends]
    assert set(ticks) == {f"{s.id}-{kind}" for s in plan.supplies for kind in ("join", "finish")}
    kinds = {row.xpath("td")[3].text.split(",")[0].split()[0] for row in ends}
    assert kinds == {"joined", "finishes"}
    rows = [int(one(row, ".//a").text) for row in ends]
    assert rows == sorted(rows)
    for row, tick in zip(ends, ticks, strict=True):
        name, _, kind = tick.partition("-")
        (supply,) = [s for s in plan.supplies if s.id == name]
        assert int(one(row, ".//a").text) == (supply.first_row if kind == "join" else supply.last_row)
        run = supply.runs[0 if kind == "join" else -1]
        column = (plan.threads.runs.entry if kind == "join" else plan.threads.runs.exit)[run]
        assert said(row.xpath("td")[2]) == str(12 - int(column))
        assert row.xpath("td")[3].text.startswith("joined" if kind == "join" else "finishes")
        assert re.fullmatch(r"[0-9.]+ [cm]m", said(row.xpath("td")[-1]))


def test_the_page_of_a_file_that_cannot_be_read(made: tuple[Path, Pages]) -> None:
    page = made[1]["charts/torn.html"]
    assert one(page, "//h1").text == "torn.chart.yaml"
    (result,) = results(made, "torn.chart.yaml")
    assert one(page, "//a[@class='rule']").text == result.rule == "file/unreadable"
    excerpt = [[said(cell) for cell in row] for row in page.xpath("//section[@class='excerpt']//tr")]
    assert excerpt == [["1", "title: [never closed"], ["2", ""]]
    assert [row.get("class") for row in page.xpath("//section[@class='excerpt']//tr")] == [None, "faulty"]
