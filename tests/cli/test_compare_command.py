"""`lintarsia compare` in real repositories, as its callers run it."""

import json
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from lintarsia.ground.resources import resource

Invoke = Callable[..., Any]
HEAD = """\
lintarsia: 1
title: {title}
gauge: {{stitches: 22, rows: 30, over: 10 cm}}
yarns: {{w: {{name: Plain, length: 30 m, mass: 25 g, balls: 1}}}}
colours:
  B: {{name: Dusk blue, shade: "#27406b", yarn: w}}
  W: {{name: Bone, shade: "#efe9dc", yarn: w}}
chart: |
"""
ROWS = ["BBBBBBBB", "BBBBWBBB", "BBBWWWBB", "BBBBWWBB", "BBBBBBBB", "BBBBBBBB"]


def chart(rows: list[str] = ROWS, title: str = "Leaf") -> str:
    return HEAD.format(title=title) + "".join(f"  {row}\n" for row in rows)


def closed(schema: Any) -> Any:
    """The schema with every object closed, so that a key it does not describe is found."""
    if isinstance(schema, list):
        return [closed(item) for item in schema]
    if not isinstance(schema, dict):
        return schema
    schema = {key: closed(value) for key, value in schema.items()}
    if "required" in schema and isinstance(schema.get("properties"), dict):
        schema["additionalProperties"] = False
    return schema


SCHEMA = json.loads((resource("schema") / "compare.schema.json").read_text("utf-8"))


@pytest.fixture
def compare(invoke: Invoke) -> Callable[..., tuple[int, dict[str, Any]]]:
    """Exit status and the JSON, held to its schema."""

    def run(*words: str) -> tuple[int, dict[str, Any]]:
        done = invoke("compare", *words, "--format", "json")
        assert done.status in (0, 1), done.err
        document = json.loads(done.out)
        errors = jsonschema.Draft202012Validator(closed(SCHEMA)).iter_errors(document)
        assert [error.message for error in errors] == []
        return done.status, document

    return run


Compare = Callable[..., tuple[int, dict[str, Any]]]


def test_the_schema_is_one() -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)


def test_states_of_files(repository: Path, commit: Callable[[], None], compare: Compare) -> None:
    for name in ("same", "changed", "gone", "old", "laid"):
        Path(f"{name}.chart.yaml").write_text(chart(title=name))
    commit()
    Path("changed.chart.yaml").write_text(chart(["BBBBBBBB", "BBBWWBBB", *ROWS[2:]], "changed"))
    Path("gone.chart.yaml").unlink()
    Path("sub").mkdir()
    Path("old.chart.yaml").rename("sub/new.chart.yaml")
    Path("added.chart.yaml").write_text(
        "lintarsia: 1\ntitle: Other\nworked: round\ngauge: {stitches: 9, rows: 9, over: 4 in}\n"
        'colours: {Z: {name: Zinc, shade: "#123456"}}\nchart: |\n' + "  ZZZ\n" * 9
    )
    Path("laid.chart.yaml").write_text("# only a comment\n" + chart(title="laid"))
    Path("ada.knit.yaml").write_text("lintarsia-knit: 1\n")  # is knitted from nowhere
    status, found = compare()
    assert status == 1
    assert {file["file"]: (file["was"], file["state"]) for file in found["files"]} == {
        "added.chart.yaml": (None, "added"),
        "changed.chart.yaml": ("changed.chart.yaml", "changed"),
        "gone.chart.yaml": ("gone.chart.yaml", "removed"),
        "laid.chart.yaml": ("laid.chart.yaml", "same"),
        "same.chart.yaml": ("same.chart.yaml", "same"),
        "sub/new.chart.yaml": ("old.chart.yaml", "moved"),
    }
    assert (found["from"], found["to"], found["differs"]) == ("HEAD", "working tree", True)
    commit()
    assert compare("--from", "HEAD~1", "--to", "HEAD")[1]["files"] == found["files"]
    assert compare("--from", "HEAD") == (0, compare("--from", "HEAD")[1])
    assert [file["file"] for file in compare("sub", "--from", "HEAD~1")[1]["files"]] == ["sub/new.chart.yaml"]


def test_files_that_are_gone_are_named_from_where_one_stands(
    repository: Path, commit: Callable[[], None], compare: Compare, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Those of other folders by their way from the top."""
    for folder in ("one", "two"):
        Path(folder).mkdir()
        Path(folder, f"{folder}.chart.yaml").write_text(chart(title=folder))
        Path(folder, "kept.chart.yaml").write_text(chart(title=f"{folder} kept"))
    commit()
    Path("one/one.chart.yaml").unlink()
    Path("two/two.chart.yaml").unlink()
    monkeypatch.chdir("one")
    gone = {file["file"] for file in compare("..")[1]["files"] if file["state"] == "removed"}
    assert gone == {"one.chart.yaml", "two/two.chart.yaml"}
    assert {file["file"] for file in compare(".")[1]["files"]} == {"kept.chart.yaml", "one.chart.yaml"}


def test_a_moved_and_changed_file_is_followed(repository: Path, commit: Callable[[], None], compare: Compare) -> None:
    Path("a.chart.yaml").write_text(chart())
    commit()
    Path("a.chart.yaml").rename("b.chart.yaml")
    Path("b.chart.yaml").write_text(chart(["BBBBBBBW", *ROWS[1:]]))
    [file] = compare()[1]["files"]
    assert (file["file"], file["was"], file["state"], file["same_to_row"]) == (
        "b.chart.yaml",
        "a.chart.yaml",
        "changed",
        5,
    )


def test_the_contract_of_a_changed_chart(repository: Path, commit: Callable[[], None], compare: Compare) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    commit()
    Path("leaf.chart.yaml").write_text(chart(["BBBBBBBB", *ROWS[:3], "BBBBWBBB", *ROWS[4:]]))
    [file] = compare()[1]["files"]
    assert file["fingerprint"]["was"] != file["fingerprint"]["now"]
    assert file["same_to_row"] == 2
    assert file["rows"] == [
        {"row": 3, "was_row": 3, "state": "changed", "how": "stitches", "stitches": [[3, 3]],
         "was_words": "k2 B, k2 W, k4 B", "now_words": "k3 B, k1 W, k4 B"},
        {"row": 7, "was_row": None, "state": "added", "how": "doubled", "like_row": 6, "was_words": None,
         "now_words": "k8 B"},
    ]  # fmt: skip
    assert (file["stitches"], file["turned"]) == ({"was": 48, "now": 56}, [])
    assert set(file["yarns"]) == {"w"}
    assert file["metres"]["now"] > file["metres"]["was"] > 0


def test_results_new_and_gone(repository: Path, commit: Callable[[], None], compare: Compare) -> None:
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:4], "BWBBBBBB", "BBBBBBBB"]))
    commit()
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:4], "BBBBBBBB", "BBBBBBB"]))
    [file] = compare()[1]["files"]
    assert "area/single-stitch" in {result["rule"] for result in file["results"]["gone"]}
    assert "grid/stitch-count" in {result["rule"] for result in file["results"]["new"]}
    assert {result["file"] for kind in file["results"].values() for result in kind} == {"leaf.chart.yaml"}


def test_a_file_that_cannot_be_read_now(repository: Path, commit: Callable[[], None], compare: Compare) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    commit()
    Path("leaf.chart.yaml").write_text("title: [never closed\n")
    status, found = compare()
    [file] = found["files"]
    assert (status, file["state"], file["unreadable"], file["same_to_row"]) == (1, "changed", ["now"], None)


def test_two_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, compare: Compare, invoke: Invoke) -> None:
    """Outside any repository, too."""
    monkeypatch.chdir(tmp_path)
    Path("a.chart.yaml").write_text(chart())
    Path("b.chart.yaml").write_text(chart(["BBBBBBBW", *ROWS[1:]]))
    status, found = compare("b.chart.yaml", "--from", "a.chart.yaml")
    assert (status, found["from"], found["to"]) == (1, "a.chart.yaml", "b.chart.yaml")
    assert [(file["was"], file["file"]) for file in found["files"]] == [("a.chart.yaml", "b.chart.yaml")]
    assert compare("a.chart.yaml", "--from", "a.chart.yaml")[0] == 0
    assert invoke("compare", ".", "--from", "a.chart.yaml").status == 2


def test_what_it_cannot_do(repository: Path, commit: Callable[[], None], invoke: Invoke) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    commit()
    done = invoke("compare", "--from", "no-such")
    assert (done.status, "git knows no revision 'no-such'" in done.err) == (2, True)
    assert invoke("compare", "--from", "HEAD", "--to", "no-such").status == 2
    assert invoke("compare", "nowhere").status == 2


def test_only_report(
    repository: Path, commit: Callable[[], None], invoke: Invoke, monkeypatch: pytest.MonkeyPatch
) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    commit()
    Path("leaf.chart.yaml").write_text(chart(["BBBBBBBW", *ROWS[1:]]))
    commit()
    assert "nothing differs for the" in invoke("compare", "--only-report").out
    monkeypatch.setenv("PRE_COMMIT_FROM_REF", "HEAD~1")
    done = invoke("compare", "--only-report")
    assert (done.status, "row 6 (WS): stitch 1 is in another colour" in done.out) == (0, True)


PATTERN = """\
lintarsia-pattern: 1
title: Cushion
version: "{version}"
sizes: [small, large]
pieces:
  front: {{chart: leaf.chart.yaml, cast-on: {{small: 8, large: 12}}, rows: {{small: 6, large: 10}}, plain: B}}
"""


def test_a_pattern_in_its_sizes(
    repository: Path,
    commit: Callable[[], None],
    compare: Compare,
    invoke: Invoke,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("cushion.pattern.yaml").write_text(PATTERN.format(version="1.0"))
    commit()
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:3], "BBBBWBBB", *ROWS[4:]]))
    Path("cushion.pattern.yaml").write_text(PATTERN.format(version="1.1"))
    pattern = compare()[1]["files"][0]
    assert (pattern["state"], pattern["version"]) == ("changed", {"was": "1.0", "now": "1.1"})
    assert [(p["piece"], p["size"], p["same_to_row"]) for p in pattern["pieces"]] == [
        ("front", "small", 2),
        ("front", "large", 2),
    ]
    assert pattern["facts"] == [{"what": "the version", "was": "1.0", "now": "1.1"}]
    text = invoke("compare").out
    assert "front, small and large: 1 row changed; unchanged up to row 2" in " ".join(text.split())
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1793000000")  # 2026-10-26
    assert invoke("compare", "--as", "errata").out == (
        "Corrections, 2026-10-26\n\nCushion, version 1.0 (corrected in 1.1)\n\n"
        "  front, small\n    Row 3 (RS) should read: k3 B, k1 W, k4 B. (8 sts)\n\n"
        "  front, large\n    Row 3 (RS) should read: k5 B, k1 W, k6 B. (12 sts)\n"
    ), "and not again of the chart that the pieces are knitted from"


SHAPED = """\
lintarsia-pattern: 1
title: Pennant
sizes: [small, large]
pieces:
  flag:
    chart: leaf.chart.yaml
    cast-on: {small: 12, large: 15}
    rows: {small: 6, large: 8}
    plain: B
    shaping: {small: {5: {right: -2}}, large: {5: {right: -WIDE}}}
"""


@pytest.mark.parametrize(("said", "word"), [("american", "BO"), ("british", "cast off")])
def test_a_correction_is_the_sentence_that_write_prints(
    repository: Path, commit: Callable[[], None], invoke: Invoke, said: str, word: str
) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("lintarsia.yaml").write_text(f"words: {{terms: {said}}}\n")
    Path("pennant.pattern.yaml").write_text(SHAPED.replace("WIDE", "2"))
    commit()
    Path("pennant.pattern.yaml").write_text(SHAPED.replace("WIDE", "3"))
    printed = invoke("write", "pennant.pattern.yaml", "--piece", "flag", "--size", "large").out
    row = next(line for line in printed.splitlines() if line.startswith("Row 5 (RS): "))
    corrected = " ".join(invoke("compare", "--as", "errata").out.split())
    assert f"Row 5 (RS) should read: {row.removeprefix('Row 5 (RS): ')} " in f"{corrected} "
    assert row.startswith(f"Row 5 (RS): {word} 3 sts")
    assert row.endswith("(12 sts)")


RIBBED = """\
lintarsia-pattern: 1
title: Pennant
sizes: [small, middle, large]
pieces:
  rib: {colour: B, cast-on: {small: 8, middle: 10, large: 12}, rows: {small: 3, middle: 5, large: 5}}
  flag: {chart: leaf.chart.yaml, cast-on: {small: 8, middle: 10, large: 12}, rows: 7, plain: B}
"""


def test_a_change_of_several_sizes_is_told_once(repository: Path, commit: Callable[[], None], invoke: Invoke) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("pennant.pattern.yaml").write_text(RIBBED)
    commit()
    Path("pennant.pattern.yaml").write_text(RIBBED.replace("middle: 5, large: 5", "middle: 8, large: 8"))
    lines = invoke("compare").out.splitlines()
    assert [line.strip() for line in lines if "rib" in line] == ["rib, middle and large: rows: 5 → 8"]
    assert "  1 piece changed, middle and large" in lines
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:3], "BBBBWBBB", *ROWS[4:]]))
    assert "  2 pieces changed, small, middle and large" in invoke("compare").out.splitlines()


def test_what_a_change_of_a_piece_means_to_who_is_past_it(
    repository: Path, commit: Callable[[], None], invoke: Invoke
) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("pennant.pattern.yaml").write_text(RIBBED)
    commit()
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:3], "BBBBWBBB", *ROWS[4:]]))
    told = " ".join(invoke("compare", "pennant.pattern.yaml").out.split())
    assert "flag, small, middle and large: 1 row changed; unchanged up to row 2" in told
    assert told.count("if you are past it: work it over in duplicate stitch, in Dusk blue (B)") == 1
    Path("pennant.pattern.yaml").write_text(
        RIBBED.replace("plain: B}", "plain: B, shaping: {large: {5: {right: -2}}}}")
    )
    told = " ".join(invoke("compare", "pennant.pattern.yaml").out.split())
    assert told.count("if you are past it: ") == 2
    assert told.count("if you are past it: rip back to row 2, the last row that is right") == 1


MOVED = """\
lintarsia-pattern: 1
title: Pennant
sizes: [small, large]
pieces:
  flag:
    chart: leaf.chart.yaml
    cast-on: {small: 14, large: 17}
    rows: 9
    plain: B
    at: {stitch: {small: 3, large: 4}, row: {small: 2, large: 3}}
"""


def test_a_motif_that_has_moved_is_told_once(repository: Path, commit: Callable[[], None], invoke: Invoke) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("pennant.pattern.yaml").write_text(MOVED)
    commit()
    Path("pennant.pattern.yaml").write_text(MOVED.replace("large: 4}", "large: 7}"))
    told = " ".join(invoke("compare").out.split())
    assert "flag, large: the motif begins at stitch 7, not 4; unchanged up to row " in told
    assert ("first stitch" in told, "changed;" in told) == (False, False)
    [piece] = json.loads(invoke("compare", "pennant.pattern.yaml", "--format", "json").out)["files"][0]["pieces"]
    assert [one["words"] for one in piece["told"]] == ["the motif begins at stitch 7, not 4"]
    assert piece["told"][0]["rows"] == [row["row"] for row in piece["rows"]]
    assert len(piece["rows"]) > 1, "programs still have every row"
    corrected = " ".join(invoke("compare", "--as", "errata").out.split())
    assert corrected.endswith(
        "Pennant flag, large The motif begins at stitch 7, not 4; its rows are otherwise as printed."
    )


def test_what_differs_besides_a_motif_that_has_moved(
    repository: Path, commit: Callable[[], None], invoke: Invoke
) -> None:
    Path("leaf.chart.yaml").write_text(chart())
    Path("pennant.pattern.yaml").write_text(MOVED)
    commit()
    Path("pennant.pattern.yaml").write_text(
        MOVED.replace("large: 4}, row: {small: 2, large: 3}", "large: 7}, row: {small: 2, large: 4}")
    )
    Path("leaf.chart.yaml").write_text(chart([*ROWS[:3], "BBBBWBBB", *ROWS[4:]]))
    corrected = " ".join(invoke("compare", "--as", "errata").out.split())
    move = (
        "flag, large The motif begins at stitch 7 of row 4, not stitch 4 of row 3; its rows are otherwise as printed."
    )
    assert f"{move} Row 6 (WS) should read: p7 B, p1 W, p9 B. (17 sts)" in corrected
    assert corrected.count("should read") == 2, "row 4 of the small size is the other"


HOSTILE = "<b>bold</b> `code` ![x](y) \x1b[31m |"


def test_text_markdown_and_html(repository: Path, commit: Callable[[], None], invoke: Invoke) -> None:
    title = json.dumps(HOSTILE)
    Path("leaf.chart.yaml").write_text(chart(title=title))
    commit()
    Path("leaf.chart.yaml").write_text(chart(["BBBBBBBW", *ROWS[1:]], title))
    text = invoke("compare").out
    assert max(map(len, text.splitlines())) <= 80
    assert "\x1b" not in text
    assert "    was  BBBBBBBB\n    now  BBBBBBBW\n                ^\n" in text
    marked = invoke("compare", "--format", "markdown").out
    assert "\\<b\\>bold\\</b\\> \\`code\\` \\!\\[x\\](y)" in marked
    assert "```text" in marked
    page = invoke("compare", "--format", "html").out
    assert "<b>bold</b>" not in page
    assert "&lt;b&gt;bold&lt;/b&gt;" in page
    assert '<rect x="28" y="0" width="14" height="14" fill="#27406b"' in page
    for format in ("markdown", "html"):
        assert invoke("compare", "--as", "errata", "--format", format).status == 1
    assert invoke("compare", "--as", "errata", "--format", "json").status == 2
    assert not os.path.exists(".git/index.lock")
