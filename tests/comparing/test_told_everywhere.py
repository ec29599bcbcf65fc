"""A comparison with a file of each kind, spelt out: at a terminal, in Markdown, on a page and for programs."""

import json

import jsonschema
from lxml import html
from manyfiles import MANY

from lintarsia.comparing.html import comparison_body, comparison_html
from lintarsia.comparing.json import comparison_json
from lintarsia.comparing.markdown import comparison_markdown
from lintarsia.comparing.model import Comparison, State
from lintarsia.comparing.outline import headline
from lintarsia.comparing.text import comparison_text
from lintarsia.ground.resources import resource

TEXT = """\
From v1.0 to the working tree, 10 files: 5 changed, 1 new, 1 gone, 1 moved, 2
  the same.

Gone: gone.chart.yaml
  gone

Kite: kite.chart.yaml
  unchanged up to row 8: whoever is no further goes on with the new chart

  row 9 (RS): stitch 11 is in another colour
    was  BBRWRRRBBBBBBBBB
    now  BBRWRWRBBBBBBBBB
              ^
    was: k9 B, k3 R, k1 W, k1 R, k2 B
    now: k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B
    if you are past it: work it over in duplicate stitch, in Bone (W)

  row 13 (RS) is new, like row 12
    now  BBBBRBBBBBBBBBBB
    now: k11 B, k1 R, k4 B
    if you are past it: rip back to row 12, the last row that is right

  rows 14–15: an odd number of rows came or went below, so right side and wrong
    side have changed places here

  What it comes to
    supplies: 3 → 4
    ends to weave in: 6 → 8
    stitches: 224 → 240
    yarn worked: 4.5 m → 5.0 m
    balls of Plain DK: 1 → 2
    balls of Moss: none → –

  New results (1)
    warning: row 9 has a lone stitch of W [area/single-stitch]

  Results that are gone (1)
    error: row 3 has 15 stitches, not 16 [grid/stitch-count]

New: new.chart.yaml
  new

Moved: sub/moved.chart.yaml (was old.chart.yaml)
  moved; nothing differs for the knitter

held.chart.yaml
  nothing differs for the knitter

  New results (1)
    warning: row 9 has a lone stitch of W [area/single-stitch]

torn.chart.yaml
  it cannot be read now

mended.chart.yaml
  it could not be read before

both.chart.yaml
  it can be read in neither state

Set: set.pattern.yaml
  5 pieces changed, small and large

  the version: 1.0 → 1.1

  seams: new, front left to back right

  front, small and large: 1 row changed; unchanged up to row 2: whoever is no
    further goes on with the new chart
    if you are past it: work the 2 stitches over in duplicate stitch, in Dusk
      blue (B) and Bone (W)

  hood, large: new

  bow, small: no longer knitted

  cuff, small: cannot be laid out

  What it comes to
    balls of Plain DK, large: 3 → 4
    balls of Moss, large: none → 1
    balls of Old gold, small: – → none
"""
MARKDOWN = """\
## Changes for the knitter

From v1.0 to the working tree, 10 files: 5 changed, 1 new, 1 gone, 1 moved, 2 the same.

### Gone: gone.chart.yaml

**gone**


### Kite: kite.chart.yaml

**unchanged up to row 8: whoever is no further goes on with the new chart**

- row 9 (RS): stitch 11 is in another colour — *if you are past it: work it over in duplicate stitch, in Bone (W)*

  ```text
  row 9 (RS)
  was  BBRWRRRBBBBBBBBB
  now  BBRWRWRBBBBBBBBB
            ^
  was: k9 B, k3 R, k1 W, k1 R, k2 B
  now: k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B
  ```

- row 13 (RS) is new, like row 12 — *if you are past it: rip back to row 12, the last row that is right*

  ```text
  row 13 (RS)
  now  BBBBRBBBBBBBBBBB
  now: k11 B, k1 R, k4 B
  ```

- rows 14–15: an odd number of rows came or went below, so right side and wrong side have changed places here

| What it comes to | was | now |
|---|---:|---:|
| supplies | 3 | 4 |
| ends to weave in | 6 | 8 |
| stitches | 224 | 240 |
| yarn worked | 4.5 m | 5.0 m |
| balls of Plain DK | 1 | 2 |
| balls of Moss | none | – |

New results:

- warning: row 9 has a lone stitch of W \\[area/single-stitch\\]

Results that are gone:

- error: row 3 has 15 stitches, not 16 \\[grid/stitch-count\\]

### New: new.chart.yaml

**new**


### Moved: sub/moved.chart.yaml (was old.chart.yaml)

**moved; nothing differs for the knitter**


### held.chart.yaml

**nothing differs for the knitter**


New results:

- warning: row 9 has a lone stitch of W \\[area/single-stitch\\]

### torn.chart.yaml

**it cannot be read now**


### mended.chart.yaml

**it could not be read before**


### both.chart.yaml

**it can be read in neither state**


### Set: set.pattern.yaml

**5 pieces changed, small and large**

- the version: 1.0 → 1.1
- seams: new, front left to back right
- front, small and large: 1 row changed; unchanged up to row 2: whoever is no further goes on with the new \
chart — *if you are past it: work the 2 stitches over in duplicate stitch, in Dusk blue (B) and Bone (W)*
- hood, large: new
- bow, small: no longer knitted
- cuff, small: cannot be laid out

| What it comes to | was | now |
|---|---:|---:|
| balls of Plain DK, large | 3 | 4 |
| balls of Moss, large | none | 1 |
| balls of Old gold, small | – | none |
"""


def test_at_a_terminal() -> None:
    assert comparison_text(MANY) == TEXT


def test_in_markdown() -> None:
    assert comparison_markdown(MANY) == MARKDOWN


def test_on_a_page() -> None:
    page = html.document_fromstring(comparison_html(MANY))
    assert [e.text_content() for e in page.iter("h1", "title")] == ["Changes for the knitter"] * 2
    assert page.xpath("//h1/following-sibling::p[1]")[0].text_content() == headline(MANY)
    sections = {h.text_content(): h.getnext().xpath("strong")[0].text_content() for h in page.iter("h2")}
    assert sections == {
        "Gone: gone.chart.yaml": "gone",
        "Kite: kite.chart.yaml": "unchanged up to row 8: whoever is no further goes on with the new chart",
        "New: new.chart.yaml": "new",
        "Moved: sub/moved.chart.yaml (was old.chart.yaml)": "moved; nothing differs for the knitter",
        "held.chart.yaml": "nothing differs for the knitter",
        "torn.chart.yaml": "it cannot be read now",
        "mended.chart.yaml": "it could not be read before",
        "both.chart.yaml": "it can be read in neither state",
        "Set: set.pattern.yaml": "5 pieces changed, small and large",
    }
    assert [p.text_content() for p in page.xpath("//p[@class='key']")] == ["B Dusk blue · W Bone · R Madder"]
    kite, pattern = page.xpath("//ul[@class='changed-rows']")
    assert [list(item.itertext("li", "br")) for item in pattern][2] == [
        "front, small and large: 1 row changed; unchanged up to row 2: whoever is no further goes on with the new "
        "chart",
        "If you are past it: work the 2 stitches over in duplicate stitch, in Dusk blue (B) and Bone (W).",
    ]
    assert [item.text for item in kite] == [
        "row 9 (RS): stitch 11 is in another colour",
        "row 13 (RS) is new, like row 12",
        "rows 14–15: an odd number of rows came or went below, so right side and wrong side have changed places here",
    ]
    assert [list(caption.itertext()) for caption in page.iter("figcaption")] == [
        ["row 9 (RS)", "was: k9 B, k3 R, k1 W, k1 R, k2 B", "now: k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B"],
        ["row 13 (RS)", "now: k11 B, k1 R, k4 B"],
    ]
    tables = [[[cell.text for cell in row] for row in table.iter("tr")] for table in page.iter("table")]
    head = ["What it comes to", "was", "now"]
    assert tables == [
        [head, ["supplies", "3", "4"], ["ends to weave in", "6", "8"], ["stitches", "224", "240"],
         ["yarn worked", "4.5 m", "5.0 m"], ["balls of Plain DK", "1", "2"], ["balls of Moss", "none", "–"]],
        [head, ["balls of Plain DK, large", "3", "4"], ["balls of Moss, large", "none", "1"],
         ["balls of Old gold, small", "–", "none"]],
    ]  # fmt: skip
    assert {cell.get("scope") for cell in page.iter("th") if cell.getparent().getparent().tag == "thead"} == {"col"}
    assert {cell.get("scope") for cell in page.iter("th") if cell.getparent().getparent().tag == "tbody"} == {"row"}
    before_lists = page.xpath("//p[following-sibling::*[1][self::ul]]")
    results = [(p.text, [one.text for one in p.getnext()]) for p in before_lists if (p.text or "").endswith(":")]
    lone = "warning: row 9 has a lone stitch of W (area/single-stitch)"
    assert results == [
        ("New results:", [lone]),
        ("Results that are gone:", ["error: row 3 has 15 stitches, not 16 (grid/stitch-count)"]),
        ("New results:", [lone]),
    ]


def test_inside_a_page_of_a_site_the_headings_go_along() -> None:
    inside = html.fragment_fromstring(comparison_body(MANY, level=4), create_parent="div")
    assert len(inside.xpath("h4")) == 9
    assert inside.xpath("h1 | h2 | h3") == []
    assert headline(MANY) not in inside.text_content(), "the page says it itself"


def whole(name: str) -> dict[str, object]:
    (file,) = (file for file in json.loads(comparison_json(MANY))["files"] if file["file"] == name)
    return dict(file)


NOTHING: dict[str, object] = {
    "same_to_row": None,
    "safe": None,
    "rows": [],
    "turned": [],
    "facts": [],
    "recolourings": [],
    "told": [],
}
NO_NUMBERS = {name: {"was": None, "now": None} for name in ("supplies", "ends", "most_in_a_row", "stitches", "metres")}
LONE = {
    "rule": "area/single-stitch", "key": "key", "level": "warning", "message": "row 9 has a lone stitch of W",
    "file": "kite.chart.yaml", "region": {"line": 20, "column": 3, "end_line": 20, "end_column": 9}, "row": 9,
    "stitches": [2, 5], "suppressed": False, "fingerprint": "",
}  # fmt: skip


def test_for_programs_as_a_whole() -> None:
    document = json.loads(comparison_json(MANY))
    assert comparison_json(MANY).endswith("\n}\n")
    assert {name: said for name, said in document.items() if name != "files"} == {
        "schema": "lintarsia/compare/1", "from": "v1.0", "to": "working tree", "differs": True,
    }  # fmt: skip
    assert [(file["file"], file["was"], file["state"], file["unreadable"]) for file in document["files"]] == [
        ("gone.chart.yaml", "gone.chart.yaml", "removed", []),
        ("kite.chart.yaml", "kite.chart.yaml", "changed", []),
        ("new.chart.yaml", None, "added", []),
        ("sub/moved.chart.yaml", "old.chart.yaml", "moved", []),
        ("same.chart.yaml", "same.chart.yaml", "same", []),
        ("held.chart.yaml", "held.chart.yaml", "same", []),
        ("torn.chart.yaml", "torn.chart.yaml", "changed", ["now"]),
        ("mended.chart.yaml", "mended.chart.yaml", "changed", ["was"]),
        ("both.chart.yaml", "both.chart.yaml", "changed", ["was", "now"]),
        ("set.pattern.yaml", "set.pattern.yaml", "changed", []),
    ]
    fingerprints = [(file["fingerprint"]["was"], file["fingerprint"]["now"]) for file in document["files"][:3]]
    assert fingerprints == [("3" * 16, None), ("4" * 16, "5" * 16), (None, "6" * 16)]
    jsonschema.validate(document, json.loads(resource("schema/compare.schema.json").read_text("utf-8")))


def test_a_chart_for_programs() -> None:
    assert whole("kite.chart.yaml") == {
        "file": "kite.chart.yaml", "was": "kite.chart.yaml", "state": "changed", "unreadable": [],
        "fingerprint": {"was": "4" * 16, "now": "5" * 16}, "same_to_row": 8,
        "safe": "unchanged up to row 8: whoever is no further goes on with the new chart",
        "rows": [
            {"row": 9, "was_row": 9, "state": "changed", "how": "stitches", "stitches": [[11, 11]],
             "was_words": "k9 B, k3 R, k1 W, k1 R, k2 B", "now_words": "k9 B, k1 R, [k1 W, k1 R] 2 times, k2 B"},
            {"row": 13, "was_row": None, "state": "added", "how": "doubled", "like_row": 12, "was_words": None,
             "now_words": "k11 B, k1 R, k4 B"},
        ],
        "turned": [[14, 15]], "facts": [], "recolourings": [],
        "told": [
            {"words": "row 9 (RS): stitch 11 is in another colour",
             "means": "work it over in duplicate stitch, in Bone (W)", "rows": [9], "was_rows": [9]},
            {"words": "row 13 (RS) is new, like row 12", "means": "rip back to row 12, the last row that is right",
             "rows": [13], "was_rows": []},
            {"words": "rows 14–15: an odd number of rows came or went below, so right side and wrong side have "
                      "changed places here", "means": None, "rows": [], "was_rows": []},
        ],
        "supplies": {"was": 3, "now": 4}, "ends": {"was": 6, "now": 8}, "most_in_a_row": {"was": 3, "now": 3},
        "stitches": {"was": 224, "now": 240}, "metres": {"was": 4.51, "now": 5.02},
        "yarns": {
            "w": {"name": "Plain DK", "balls": {"was": 1, "now": 2}, "metres": {"was": 4.51, "now": 5.02}},
            "m": {"name": "Moss", "balls": {"was": None, "now": None}, "metres": {"was": None, "now": 0.31}},
        },
        "results": {"new": [LONE], "gone": [LONE | {
            "rule": "grid/stitch-count", "level": "error", "message": "row 3 has 15 stitches, not 16", "row": 3,
        }]},
    }  # fmt: skip


def test_what_there_is_nothing_to_say_of_is_null_for_programs() -> None:
    torn = whole("torn.chart.yaml")
    assert torn == {
        "file": "torn.chart.yaml", "was": "torn.chart.yaml", "state": "changed", "unreadable": ["now"],
        "fingerprint": {"was": "9" * 16, "now": None}, **NOTHING, **NO_NUMBERS, "yarns": {},
        "results": {"new": [], "gone": []},
    }  # fmt: skip
    new = whole("new.chart.yaml")
    assert (new["supplies"], new["metres"]) == ({"was": None, "now": 3}, {"was": None, "now": 4.51})


def piece(name: str, size: str, state: str, chart: str | None, was: str | None, now: str | None) -> dict[str, object]:
    return {"piece": name, "size": size, "state": state, "chart": chart, "fingerprint": {"was": was, "now": now}}


def test_a_pattern_for_programs() -> None:
    moved = {
        "same_to_row": 2, "safe": "unchanged up to row 2: whoever is no further goes on with the new chart",
        "rows": [{"row": 3, "was_row": 3, "state": "changed", "how": "shifted", "stitches": [[4, 4], [7, 7]],
                  "moved": {"stitches": 1, "to": "left"}, "was_words": "k3 B, k3 W, k10 B",
                  "now_words": "k4 B, k3 W, k9 B"}],
        "turned": [], "facts": [], "recolourings": [],
        "told": [{"words": "row 3 (RS): moved 1 stitch to the left",
                  "means": "work the 2 stitches over in duplicate stitch, in Dusk blue (B) and Bone (W)",
                  "rows": [3], "was_rows": [3]}],
    }  # fmt: skip
    assert whole("set.pattern.yaml") == {
        "file": "set.pattern.yaml", "was": "set.pattern.yaml", "state": "changed", "unreadable": [],
        "fingerprint": {"was": "a" * 16, "now": "b" * 16}, "version": {"was": "1.0", "now": "1.1"},
        "facts": [{"what": "the version", "was": "1.0", "now": "1.1"},
                  {"what": "seams", "was": None, "now": "front left to back right"}],
        "pieces": [
            piece("front", "small", "changed", "kite.chart.yaml", "a" * 16, "b" * 16) | moved,
            piece("front", "large", "changed", "kite.chart.yaml", "c" * 16, "d" * 16) | moved,
            piece("hood", "large", "added", "hood.chart.yaml", None, "e" * 16) | NOTHING,
            piece("bow", "small", "removed", "bow.chart.yaml", "f" * 16, None) | NOTHING,
            piece("cuff", "small", "changed", None, "1" * 16, "2" * 16) | NOTHING,
        ],
        "yarns": {
            "w": {"small": {"name": "Plain DK", "balls": {"was": 2, "now": 2}, "metres": {"was": 180.5, "now": 190.25}},
                  "large": {"name": "Plain DK", "balls": {"was": 3, "now": 4}, "metres": {"was": 290.0, "now": 310.0}}},
            "m": {"large": {"name": "Moss", "balls": {"was": None, "now": 1}, "metres": {"was": None, "now": 12.0}}},
            "o": {"small": {"name": "Old gold", "balls": {"was": None, "now": None},
                            "metres": {"was": 9.0, "now": None}}},
        },
        "results": {"new": [], "gone": []},
    }  # fmt: skip


def test_headlines() -> None:
    kept = tuple(file for file in MANY.files if file.state is State.SAME)
    assert headline(Comparison("v1.0", "v1.1", kept[:1])) == (
        "From v1.0 to v1.1, 1 file: 1 the same; nothing differs for the knitter."
    )
    assert headline(Comparison("v1.0", "v1.1", ())) == "From v1.0 to v1.1, 0 files; nothing differs for the knitter."
    moved = tuple(file for file in MANY.files if file.state is State.MOVED)
    assert headline(Comparison("a", "working tree", moved)) == (
        "From a to the working tree, 1 file: 1 moved; nothing differs for the knitter."
    )
