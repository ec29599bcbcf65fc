"""What --fix mends, to the byte, however the file ends its lines."""

import pytest

from folding import each
from lintarsia.engine import check_chart
from lintarsia.mending import mend
from lintarsia.result import Level
from lintarsia.result.baseline import Mark
from lintarsia.settings import Settings

HOUSE = Settings(root="/")
HEAD = "# ours\ntitle: Small field   # a remark\ngauge: {stitches: 22, rows: 30, over: 10 cm}\n"
BLUE, BONE = '{name: Dusk blue, shade: "#27406b"}', '{name: Bone, shade: "#efe9dc"}'
KEY = f"colours:\n  B: {BLUE}\n  # bone is from the stash\n  W: {BONE}\n"
PLAIN = "  BBBBBBBBBBBBBBBBBBBB\n"
FIELD = "chart: |\n" + "  BBBBBBBBBBBBBBBBBBBB\n" * 3 + "  BBBBBBBBWWWWBBBBBBBB\n" * 3

# What stands in the file, and what stands there afterwards.
MENDS = {
    "the version is missing, below the comments": (HEAD + KEY + FIELD, "title", "lintarsia: 1\ntitle"),
    "a colour in a line of its own": (
        "lintarsia: 1\n" + HEAD + KEY + '  R: {name: Rust, shade: "#b8743c"} # not bought yet\n' + FIELD,
        '  R: {name: Rust, shade: "#b8743c"} # not bought yet\n',
        "",
    ),
    "a colour over several lines": (
        "lintarsia: 1\n" + HEAD + KEY + '  R:\n    name: Rust\n    shade: "#b8743c"\n' + FIELD,
        '  R:\n    name: Rust\n    shade: "#b8743c"\n',
        "",
    ),
    "the first colour of a key in braces": (
        f"lintarsia: 1\n{HEAD}colours: {{R: {{name: R, shade: '#b8743c'}}, B: {{name: B, shade: '#27406b'}},"
        f" W: {{name: W, shade: '#efe9dc'}}}} # three\n{FIELD}",
        "R: {name: R, shade: '#b8743c'}, ",
        "",
    ),
    "the last colour of a key in braces": (
        f"lintarsia: 1\n{HEAD}colours: {{B: {{name: B, shade: '#27406b'}}, W: {{name: W, shade: '#efe9dc'}},"
        f" R: {{name: R, shade: '#b8743c'}}}} # three\n{FIELD}",
        ", R: {name: R, shade: '#b8743c'}",
        "",
    ),
    "a colour in a line of braces": (
        f"lintarsia: 1\n{HEAD}colours: {{\n  B: {BLUE}, # one\n  R: {{name: R, shade: '#b8743c'}}, # two\n"
        f"  W: {BONE} # three\n  }}\n{FIELD}",
        "  R: {name: R, shade: '#b8743c'}, # two\n",
        "",
    ),
    "white space behind a row": (
        "lintarsia: 1\n" + HEAD + KEY + FIELD.replace("WWWWBBBBBBBB\n", "WWWWBBBBBBBB \t\n", 1),
        " \t\n",
        "\n",
    ),
    "a blank line between rows": (
        "lintarsia: 1\n" + HEAD + KEY + FIELD.replace("BBBB\n  BBBBBBBBW", "BBBB\n\n  BBBBBBBBW", 1),
        "BBBB\n\n  BBBBBBBBW",
        "BBBB\n  BBBBBBBBW",
    ),
    "a stitch missing in a plain row": (
        "lintarsia: 1\n" + HEAD + KEY + FIELD.replace(PLAIN * 2, PLAIN + "  BBBBBBBBBBBBBBBBBBB\n", 1),
        "\n  BBBBBBBBBBBBBBBBBBB\n",
        "\n  BBBBBBBBBBBBBBBBBBBB\n",
    ),
    "too few supplies": (
        "lintarsia: 1\n" + HEAD + KEY + "supplies:\n  B: 1 # one\n  W: 1\n" + FIELD,
        "B: 1 # one",
        "B: 2 # one",
    ),
    "too few supplies in a list": (
        "lintarsia: 1\n" + HEAD + KEY + "supplies:\n  B:\n    - {holder: ball} # the big one\n  W: 1\n" + FIELD,
        "# the big one\n",
        "# the big one\n    - {holder: loose strand}\n",
    ),
    "a colour that supplies forget": (
        "lintarsia: 1\n" + HEAD + KEY + "supplies:\n  B: 2 # two\n" + FIELD,
        "B: 2 # two\n",
        "B: 2 # two\n  W: 1\n",
    ),
    "a colour with no supply": (
        "lintarsia: 1\n" + HEAD + KEY + "supplies: {B: 2, W: 0}\n" + FIELD,
        "W: 0",
        "W: 1",
    ),
}  # fmt: skip
ENDS = {"LF": "\n", "CRLF": "\r\n", "CR": "\r"}


@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"], ids=["bare", "byte-order mark"])
@pytest.mark.parametrize("last", [True, False], ids=["ended", "not ended"])
@pytest.mark.parametrize("end", ENDS.values(), ids=ENDS)
@each("what", MENDS)
def test_only_the_fault_changes(what: str, end: str, last: bool, mark: bytes) -> None:
    text, found, wanted = MENDS[what]
    assert text.count(found) == 1
    before, after = (t if last else t.removesuffix("\n") for t in (text, text.replace(found, wanted)))
    old, new = (mark + t.replace("\n", end).encode() for t in (before, after))
    mended = mend("x.chart.yaml", old, HOUSE)
    assert mended.data == new
    assert len(mended.fixed) == 1
    assert mend("x.chart.yaml", new, HOUSE).data == new


def both(*parts: str) -> bytes:
    return "".join(("lintarsia: 1\n", HEAD, *parts)).encode()


def test_a_colour_goes_with_its_supplies_and_leaves_its_yarn() -> None:
    yarns = "yarns: {dk: {name: DK}}\n"
    rust = '  R: {name: Rust, shade: "#b8743c", yarn: dk}\n'
    supplies = "supplies:\n  B: 2\n  R: 1 # of rust\n  W: 1\n"
    mended = mend("x.chart.yaml", both(yarns, KEY, rust, supplies, FIELD), HOUSE)
    assert mended.data == both(yarns, KEY, supplies.replace("  R: 1 # of rust\n", ""), FIELD)


def test_the_last_line_of_the_file_goes_with_the_line_end_before_it() -> None:
    rust = '  R: {name: Rust, shade: "#b8743c"}'
    mended = mend("x.chart.yaml", both(FIELD, KEY, rust), HOUSE)
    assert mended.data == both(FIELD, KEY).removesuffix(b"\n")


@pytest.mark.parametrize(
    "key",
    [
        KEY + '  R:\n    name: Rust\n    # keep this\n    shade: "#b8743c"\n',
        KEY + '  ? R\n  : {name: Rust, shade: "#b8743c"}\n',
        f'colours: {{B: {BLUE}, # one\n  R: {{name: R, shade: "#b8743c"}}, W: \n  {BONE}}}\n',
    ],
    ids=["a comment inside", "an explicit key", "line ends on both sides"],
)  # fmt: skip
def test_where_the_layout_is_in_doubt_at_most_the_entry_goes(key: str) -> None:
    data = both(key, FIELD)
    mended = mend("x.chart.yaml", data, HOUSE)
    assert mended.data.count(b"#") >= data.count(b"#") - 1  # the shade's own


def test_an_accepted_result_is_left_alone() -> None:
    rust = '  R: {name: Rust, shade: "#b8743c"}\n'
    accepted = "suppress: [{rule: colour/unused, justification: for the second sleeve}]\n"
    data = both(KEY, rust, FIELD, accepted)
    assert mend("x.chart.yaml", data, HOUSE).data == data


def test_an_accepted_colour_stays_while_other_faults_are_mended() -> None:
    """A colour to be taken out makes the text shorter, and the other faults the counts smaller: only the acceptance
    stands in the way."""
    rust = '  R: {name: Rust, shade: "#b8743c"}\n'
    accepted = "suppress: [{rule: colour/unused, justification: for the second sleeve}]\n"
    slip = FIELD.replace("WWWWBBBBBBBB\n", "WWWWBBBBBBBB \n", 2)
    for own in (accepted, ""):
        old, new = both(KEY, rust, slip, own), both(KEY, rust, FIELD, own)
        marks = frozenset(Mark(r.rule, r.fingerprint) for r in check_chart("x.chart.yaml", new, HOUSE).results)
        for risky in (False, True):
            mended = mend("x.chart.yaml", old, HOUSE, risky=risky, accepted=frozenset() if own else marks)
            assert mended.data == new
            assert [(fixed.rule, fixed.row) for fixed in mended.fixed] == [("file/schema", 3), ("file/schema", 2)]
            assert [(result.rule, result.suppressed) for result in mended.results] == [("colour/unused", True)]


def test_counts_are_made_for_the_whole_picture() -> None:
    """The short row would part the field in two and ask for more supplies than the mended one needs."""
    row = "  " + "B" * 20 + "\n"
    grid = f"chart: |\n{row * 3}  {'B' * 19}\n{row * 3}  {'B' * 8}WWWW{'B' * 8}\n"
    mended = mend("x.chart.yaml", both(KEY, "supplies: {B: 1, W: 1}\n", grid), HOUSE)
    assert mended.data == both(KEY, "supplies: {B: 2, W: 1}\n", grid.replace("  " + "B" * 19 + "\n", row))
    assert [fixed.rule for fixed in mended.fixed] == ["grid/stitch-count", "supply/too-few"]


def test_a_fix_that_brings_what_blocks_is_left_out_and_the_others_stay() -> None:
    """With the colour gone from the key, its yarn is used by none: harmless as a rule, not where any result blocks."""
    yarns = "yarns: {dk: {name: DK}, sock: {name: Sock}}\n"
    key = KEY.replace("blue,", "blue, yarn: dk,").replace("Bone,", "Bone, yarn: dk,")
    rust = '  R: {name: Rust, yarn: sock, shade: "#b8743c"}\n'
    slip = FIELD.replace("WWWWBBBBBBBB\n", "WWWWBBBBBBBB \n", 1)
    assert mend("x.chart.yaml", both(yarns, key, rust, slip), HOUSE).data == both(yarns, key, FIELD)
    strict = mend("x.chart.yaml", both(yarns, key, rust, slip), HOUSE, block=Level.NOTE)
    assert strict.data == both(yarns, key, rust, FIELD)
    assert [fixed.rule for fixed in strict.fixed] == ["file/schema"]


def test_two_hundred_and_more_faults_of_a_kind_are_all_mended() -> None:
    """No more than two hundred of a kind are told of one file."""
    field = "chart: |\n" + "  BBBBBBBBWWWWBBBBBBBB  \n" * 450
    mended = mend("x.chart.yaml", both(KEY, field), HOUSE)
    assert mended.data == both(KEY, field.replace("B  \n", "B\n"))
    assert len(mended.fixed) == 450
