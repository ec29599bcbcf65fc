"""A tester says something of a stitch, from the card or by a press on it; it is kept, shown, sent and brought back.

What leaves the browser is read by the program's own reader, which holds it to `schema/knit.schema.json`.
"""

import json
import random
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, unquote, urlsplit

import pytest
from jsonschema import Draft202012Validator
from playwright.sync_api import BrowserContext, Page, expect
from sitekit import EXAMPLES, PHONE, Look, Site, box

from lintarsia.cli.main import main
from lintarsia.knits.model import KnitLog
from lintarsia.knits.reading import read_knit
from lintarsia.publishing.site.building import build_site
from lintarsia.reading import read_document

BAG = "charts/orchard-bag.html"
SCHEMA = json.loads((EXAMPLES.parent / "schema" / "knit.schema.json").read_text("utf-8"))
NEVER = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };"


def open_at(page: Page, row: int, stitch: int, **how: Any) -> None:
    """Presses on a stitch of the chart, found by what the drawing says of itself."""
    x, y = point(page, row, stitch)
    page.mouse.click(x, y, **how)


def point(page: Page, row: int, stitch: int) -> tuple[float, float]:
    svg = page.locator("svg.lx-chart")
    svg.scroll_into_view_if_needed()
    place: dict[str, float] = svg.evaluate("""(svg) => {
      const { columns, rows, left, top, cellWidth, cellHeight } = svg.dataset;
      const { width } = svg.viewBox.baseVal;
      return { columns, rows, left: +left, top: +top, wide: +cellWidth, high: +cellHeight, natural: width };
    }""")
    whole = box(svg)
    scale = whole["width"] / place["natural"]
    x = whole["x"] + (place["left"] + (float(place["columns"]) - stitch + 0.5) * place["wide"]) * scale
    return x, whole["y"] + (place["top"] + (float(place["rows"]) - row + 0.5) * place["high"]) * scale


def say(page: Page, words: str, kind: str = "Trouble") -> None:
    page.get_by_label(kind).check()
    page.get_by_label("In your words").fill(words)
    page.get_by_role("button", name="Keep it").click()


def downloaded(page: Page, folder: Path) -> tuple[str, str]:
    with page.expect_download() as waiting:
        page.get_by_role("button", name="Download").first.click()
    file = folder / waiting.value.suggested_filename
    waiting.value.save_as(file)
    return file.name, file.read_text("utf-8")


def read(text: str) -> KnitLog:
    """A log in order, by the schema as others read it as well."""
    found = read_knit("x.knit.yaml", text.encode())
    assert found.problems == ()
    assert found.log is not None
    data = read_document("x.knit.yaml", text.encode(), schema="knit.schema.json").data
    assert list(Draft202012Validator(SCHEMA).iter_errors(data)) == []
    return found.log


def test_what_is_half_written_waits_until_it_is_kept_or_cleared(look: Look) -> None:
    page = look.at(BAG)
    words, dialog = page.get_by_label("In your words"), page.locator('[data-part="saying"]')
    open_at(page, 14, 7, button="right")
    words.fill("the yarns would")
    page.get_by_label("to stitch").fill("9")
    page.get_by_role("button", name="Leave").click()
    open_at(page, 5, 2, button="right")
    expect(words).to_have_value("the yarns would")
    expect(dialog.locator('[name="row"]')).to_have_value("14")
    expect(page.get_by_text("You had begun this.")).to_be_visible()
    words.press("Escape")
    page.reload()
    open_at(page, 5, 2, button="right")
    expect(words).to_have_value("the yarns would")
    page.get_by_label("Row", exact=True).fill("500")
    expect(page.get_by_role("alert")).to_contain_text("The chart has rows 1 to ")
    page.get_by_label("Row", exact=True).fill("14")
    page.get_by_role("button", name="Keep it").click()
    expect(page.locator('[data-part="kept"]')).to_contain_text("Kept: row 14, stitches 7–9.")
    open_at(page, 5, 2, button="right")
    expect(words).to_have_value("")
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("alert")).to_have_text("There are no words yet.")
    words.fill("no")
    page.get_by_role("button", name="Leave").click()
    open_at(page, 6, 2, button="right")
    page.get_by_role("button", name="Clear").click()
    expect(words).to_have_value("")
    expect(dialog.locator('[name="row"]')).to_have_value("6")


def test_a_stitch_by_the_other_button(look: Look, tmp_path: Path) -> None:
    page = look.at(BAG)
    open_at(page, 14, 7, button="right")
    fields = page.locator('[data-part="saying-form"]')
    assert [fields.locator(f'[name="{name}"]').input_value() for name in ("row", "first", "last")] == ["14", "7", "7"]
    expect(page.locator('[data-part="saying-side"]')).to_have_text("wrong side facing")
    say(page, "the yarns would not lie flat")
    expect(page.locator('[data-part="kept"]')).to_contain_text("Kept: row 14, stitch 7.")
    page.get_by_role("link", name="My knitting").first.click()
    page.get_by_label("Handle, which").fill("Wren")
    name, text = downloaded(page, tmp_path)
    assert name == "wren-orchard-bag.knit.yaml"
    log = read(text)
    assert (log.names, log.knitter, log.site) == ("orchard-bag.chart.yaml", "Wren", True)
    (one,) = log.rows
    assert (one.row, one.stitches, one.side, one.kind, one.said) == (
        14, (7, 7), "WS", "trouble", "the yarns would not lie flat",
    )  # fmt: skip


def test_a_row_from_the_card_and_what_was_said_is_looked_at_again(look: Look) -> None:
    page = look.at(f"{BAG}#row-9", size=PHONE)
    page.get_by_role("button", name="Say something of this row").click()
    assert page.locator('[name="row"]').input_value() == "9"
    assert page.locator('[name="first"]').input_value() == ""
    say(page, "clear", "Praise")
    page.get_by_role("link", name="You said: clear").click()
    expect(page.get_by_label("In your words")).to_have_value("clear")
    page.get_by_label("In your words").fill("very clear")
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("link", name="You said: very clear")).to_have_count(1)
    page.get_by_role("link", name="You said: very clear").click()
    page.get_by_role("button", name="Take it back").click()
    expect(page.locator(".own-marks a")).to_have_count(0)


def test_by_the_keyboard(look: Look) -> None:
    page = look.at(f"{BAG}#row-5")
    page.locator('[data-part="viewport"]').focus()
    page.locator('[data-part="viewport"]').dispatch_event("contextmenu", {"button": 0})  # as the menu key does
    assert page.locator('[name="row"]').input_value() == "5"
    page.keyboard.type("a word")
    page.keyboard.press("Escape")
    expect(page.locator('[data-part="saying"]')).to_be_hidden()


def test_a_long_press_says_and_picks_no_row(look: Look) -> None:
    page = look.at(BAG, size=PHONE, has_touch=True)
    x, y = point(page, 20, 11)
    session = page.context.new_cdp_session(page)
    session.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [{"x": x, "y": y}]})
    expect(page.get_by_label("In your words")).to_be_visible()
    session.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    assert [page.locator(f'[name="{name}"]').input_value() for name in ("row", "first")] == ["20", "11"]
    expect(page.get_by_label("In your words")).to_be_visible()
    page.get_by_role("button", name="Leave").click()
    expect(page.locator('[data-part="card"]')).to_be_hidden()


def test_a_log_without_a_word(look: Look, tmp_path: Path) -> None:
    page = look.at(BAG, size=PHONE)
    page.get_by_role("button", name="Begin a log").click()
    expect(page.locator('[data-part="kept"]')).to_contain_text("Your log is begun.")
    page.locator('[data-part="kept"]').get_by_role("link", name="My knitting").click()
    page.get_by_label("Hours").fill("3")
    log = read(downloaded(page, tmp_path)[1])
    assert (log.names, log.hours, log.rows) == ("orchard-bag.chart.yaml", 3, ())
    page.go_back()
    expect(page.get_by_role("button", name="Begin a log")).to_be_hidden()


def test_a_place_that_the_chart_does_not_have(look: Look) -> None:
    page = look.at(f"{BAG}#row-5")
    page.get_by_role("button", name="Say something of this row").click()
    page.locator('[name="row"]').fill("500")
    expect(page.locator('[data-part="saying-fault"]')).to_contain_text("The chart has rows 1 to ")
    page.locator('[name="row"]').fill("5")
    page.locator('[name="last"]').fill("900")
    expect(page.locator('[data-part="saying-fault"]')).to_contain_text("The chart has stitches 1 to ")


def test_what_the_browser_will_not_keep_is_said_and_not_lost(look: Look, tmp_path: Path) -> None:
    page = look.at(BAG)
    page.add_init_script(NEVER)
    page.reload()
    for words in ("too short", "and too thin"):
        open_at(page, 3, 2, button="right")
        say(page, words)
    expect(page.locator('[data-part="kept"]')).to_contain_text("would not keep it")
    _, text = downloaded(page, tmp_path)
    assert [one.said for one in read(text).rows] == ["too short", "and too thin"]


def filled(look: Look) -> Page:
    """Her page with a log of the bag, its form filled in as people write."""
    page = look.at(BAG)
    open_at(page, 14, 7, button="right")
    say(page, "it said <img src=x onerror=alert(1)> & \"quotes\": # {none} 'either'")
    page.goto(look.site.address + "mine.html")
    page.get_by_label("Handle, which").fill("<b>Wren</b>")
    page.get_by_label("Stitches").fill("18,5")
    page.get_by_label("Rows").fill("24")
    page.get_by_label("Needle, mm").fill("4")
    page.get_by_label("Hours").fill("9.5")
    page.get_by_label("Finished on").fill("2026-11-05")
    page.get_by_label("Of the whole").fill("clear throughout\nand warm")
    line = page.locator("[data-key]").first
    line.get_by_label("Before").fill("50")
    line.get_by_label("After").fill("9,5")
    line.get_by_label("After").blur()
    return page


def test_the_form_makes_a_log_that_the_check_has_nothing_against(
    look: Look, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    page = filled(look)
    page.locator("[data-key]").nth(1).get_by_label("Used").fill("9")
    page.locator("[data-key]").nth(1).get_by_label("in", exact=True).select_option("g")
    name, text = downloaded(page, tmp_path)
    log = read(text)
    assert log.gauge is not None
    assert (log.gauge.stitches, log.gauge.rows, str(log.gauge.over), str(log.gauge.needle)) == (
        18.5,
        24,
        "10 cm",
        "4 mm",
    )
    assert (log.hours, log.finished, log.knitter) == (9.5, "2026-11-05", "<b>Wren</b>")
    assert log.remarks == "clear throughout and warm"
    assert [str(used.spent) for used in log.used.values()] == ["40.5 g", "9 g"]
    assert log.rows[0].said == "it said <img src=x onerror=alert(1)> & \"quotes\": # {none} 'either'"
    (tmp_path / "orchard-bag.chart.yaml").write_text((EXAMPLES / "orchard-bag.chart.yaml").read_text("utf-8"), "utf-8")
    assert main(["check", "--format", "json", str(tmp_path / name)]) == 0
    assert json.loads(capsys.readouterr().out)["results"] == []


def test_faulty_numbers_are_said(look: Look) -> None:
    page = filled(look)
    page.get_by_label("Stitches").fill("about 20")
    page.get_by_label("Stitches").blur()
    expect(page.locator('[data-log="fault"]')).to_contain_text("Stitches: write a number above 0")
    page.locator("[data-key]").first.get_by_label("After").fill("60")
    page.locator("[data-key]").first.get_by_label("After").blur()
    expect(page.locator('[data-log="fault"]')).to_contain_text("more after (60 g) than before (50 g)")


def test_another_device_takes_the_file_and_gives_the_same(look: Look, tmp_path: Path) -> None:
    page = filled(look)
    name, text = downloaded(page, tmp_path)
    answered = text.replace("'either'\"}", '\'either\'", answered: "mended"}')
    assert answered != text
    (tmp_path / name).write_text(answered, encoding="utf-8")
    other = look.at("mine.html")
    expect(other.get_by_text("Nothing yet.")).to_be_visible()
    other.get_by_label("A log that was kept elsewhere").set_input_files(tmp_path / name)
    expect(other.locator('[data-log="answer"]')).to_have_text("Answered: mended")
    assert downloaded(other, tmp_path)[1] == answered
    # Here, where it was written, the same file brings the answer and doubles nothing.
    page.get_by_label("A log that was kept elsewhere").set_input_files(tmp_path / name)
    expect(page.locator('[data-log="answer"]')).to_have_text("Answered: mended")
    expect(page.locator(".log")).to_have_count(1)
    expect(page.locator('[data-log="said"] > li')).to_have_count(1)
    # The chart's page finds it by the file that it names, and knows its yarns.
    other.goto(look.site.address + BAG)
    expect(other.locator(".own-marks a")).to_have_count(1)


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("title: x\n", "no log of a test knit"),
        ("lintarsia-knit: 1\nsize: small\n", "does not say which chart or pattern"),
        ("lintarsia-knit: 1\nchart: &a x\n", "line 2: & is more than this page reads"),
        ('lintarsia-knit: 1\nchart: "x\n', "line 2: a quotation mark is never closed"),
        ("lintarsia-knit: 1\nchart: x\nrows: [[[[[[[[[[[[[[[[[[[[[[[[[[\n", "line 3: braces in braces"),
        ("{", "a { is never closed"),
        ("\x00\x01", "expected"),
    ],
)
def test_files_that_are_no_logs_change_nothing(text: str, why: str, look: Look, tmp_path: Path) -> None:
    (tmp_path / "x.knit.yaml").write_text(text)
    page = look.at("mine.html")
    page.get_by_label("A log that was kept elsewhere").set_input_files(tmp_path / "x.knit.yaml")
    told = page.locator('[data-part="brought"]')
    expect(told).to_contain_text(why)
    expect(told).to_contain_text("Nothing was changed.")
    expect(page.locator(".log")).to_have_count(0)


@pytest.fixture
def mine(look: Look) -> Page:
    return look.at("mine.html")


LETTERS = (
    " \t\n\"'\\#:,-{}[]&*!|>%@`~?/.<\x00\x07\x1b\x7f\x85\xa0\xad\u200b\u202e\u2028\ufeff\ufffe\ud800äß編\U0001f9f6x1"
)


def test_whatever_is_said_is_read_as_it_was_said(mine: Page) -> None:
    """By the program and by the page: 300 texts of letters that mean something to YAML, to terminals or to pages."""
    rng = random.Random(18)
    said = ["".join(rng.choices(LETTERS, k=rng.randint(1, 40))) + "." for _ in range(300)]
    base = {"of": "chart", "file": "a/b.chart.yaml", "size": None, "fingerprint": "1234567890123456", "knitter": "null"}
    rows = [{"row": n + 1, "kind": "praise", "said": text.replace("\ud800", "�")} for n, text in enumerate(said)]
    text, again = mine.evaluate(
        """(log) => { const text = lintarsiaLogFile.write(log); return [text, lintarsiaLogReading.read(text)]; }""",
        {**base, "rows": rows},
    )
    log = read(text)
    assert (log.fingerprint, log.knitter) == ("1234567890123456", "null")
    as_one_line = [
        " ".join("".join(c if c.isprintable() else " " for c in s.replace("\ud800", "�")).split()) for s in said
    ]
    assert [one.said for one in log.rows] == as_one_line
    trimmed = [one["said"] for one in again["rows"]]
    # What a browser trims at either end, a mark of byte order among it, is no loss to anybody.
    ends = lambda words: words.replace("\ud800", "�").strip(" \t\n\xa0\u2028\ufeff")  # noqa: E731
    assert [ends(s) for s in trimmed] == [ends(s) for s in said]


@pytest.mark.parametrize("file", sorted((EXAMPLES / "test-knit").glob("*.knit.yaml")), ids=lambda file: file.stem)
def test_logs_by_hand_are_read_as_the_program_reads_them(file: Path, mine: Page) -> None:
    text = file.read_text("utf-8")
    by_page, written = mine.evaluate(
        "(text) => { const log = lintarsiaLogReading.read(text); return [log, lintarsiaLogFile.write(log)]; }", text
    )
    by_hand, again = read(text), read(written)
    assert by_page["lost"] == 0
    kept = ("names", "of", "size", "fingerprint", "knitter", "gauge", "used", "hours", "finished", "remarks", "site")
    assert [getattr(again, key) for key in kept] == [getattr(by_hand, key) for key in kept]
    assert [(r.piece, r.row, r.stitches, r.said, r.answered) for r in again.rows] == [
        (r.piece, r.row, r.stitches, r.said, r.answered) for r in by_hand.rows
    ]


def test_a_photograph_is_hers_alone(look: Look, tmp_path: Path) -> None:
    page = filled(look)
    picture = tmp_path / "swatch.png"
    page.screenshot(path=picture)
    page.get_by_label("Add one").set_input_files(picture)
    expect(page.get_by_role("img", name="swatch.png")).to_be_visible()
    page.reload()
    expect(page.get_by_role("img", name="swatch.png")).to_be_visible()
    assert "swatch" not in downloaded(page, tmp_path)[1]
    (tmp_path / "no.png").write_text("no picture")
    page.get_by_label("Add one").set_input_files(tmp_path / "no.png")
    expect(page.get_by_text("no.png is no picture")).to_be_visible()
    page.get_by_role("button", name="Remove swatch.png").click()
    expect(page.get_by_role("img", name="swatch.png")).to_have_count(0)


@pytest.fixture
def answering(look: Look, tmp_path: Path) -> BrowserContext:
    """A site whose settings say where logs may go."""
    settings = 'answers: {mail: knits@example.org, issue: "https://git.example.org/new?title={title}&body={body}"}\n'
    (tmp_path / "lintarsia.yaml").write_text(settings)
    (tmp_path / "orchard-bag.chart.yaml").write_text((EXAMPLES / "orchard-bag.chart.yaml").read_text("utf-8"), "utf-8")
    build_site([str(tmp_path)], str(look.site.folder / "answering"), title="Answers")
    return look.at("answering/charts/orchard-bag.html").context


def test_by_mail_and_as_an_issue(answering: BrowserContext, site: Site) -> None:
    (page,) = answering.pages
    open_at(page, 14, 7, button="right")
    say(page, "5 & 6 = {body}?")
    page.goto(f"{site.address}answering/mine.html")
    mail = urlsplit(page.get_by_role("link", name="By mail").get_attribute("href") or "")
    assert (mail.scheme, mail.path) == ("mailto", "knits@example.org")
    assert read(parse_qs(mail.query)["body"][0]).rows[0].said == "5 & 6 = {body}?"
    issue = urlsplit(page.get_by_role("link", name="As an issue").get_attribute("href") or "")
    assert (issue.scheme, issue.netloc, issue.path) == ("https", "git.example.org", "/new")
    body = parse_qs(issue.query)["body"][0]
    assert read(body.removeprefix("```yaml\n").removesuffix("```\n")).rows[0].said == "5 & 6 = {body}?"
    assert "Orchard" in unquote(issue.query)
    page.evaluate("""() => {
      const [log] = lintarsiaLogs.all();
      log.rows = Array(60).fill({ ...log.rows[0], said: "x".repeat(400) });
      lintarsiaLogs.keep(log);
    }""")
    page.reload()
    expect(page.get_by_text("It is too long to be put into a mail or an issue")).to_be_visible()
    expect(page.get_by_role("link", name="By mail")).to_be_hidden()
