"""Where pages stand: names that nothing can break out of, and links between them."""

import posixpath
from hashlib import sha256

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lintarsia.publishing.pages.layout import Layout, piece_slug, slugs


def names(*paths: str) -> list[str]:
    return slugs((path, path) for path in paths)


def test_a_slug_is_the_path_without_its_suffix() -> None:
    assert names("heron.chart.yaml", "hats/Fir Tree.chart.yml") == ["heron", "hats/fir-tree"]


def test_two_paths_that_fold_into_one_slug_are_kept_apart() -> None:
    one, two = names("fir tree.chart.yaml", "Fir-Tree.chart.yaml")
    assert one == "fir-tree"
    assert two.startswith("fir-tree-")
    assert two != one


def test_a_slug_does_not_depend_on_other_charts() -> None:
    lone = names("b.chart.yaml")
    assert names("a.chart.yaml", "b.chart.yaml", "c.chart.yaml")[1:2] == lone


def test_what_is_lost_of_a_name_leaves_digits_so_that_names_stay_apart() -> None:
    heron, crane = names("鷺.chart.yaml", "鶴.chart.yaml")
    assert heron != crane
    assert heron.isascii()


def digits(text: str) -> str:
    return sha256(text.encode("utf-8", "surrogateescape")).hexdigest()[:8]


def test_slashes_and_dots_that_lead_nowhere_are_no_part_of_a_slug() -> None:
    assert names("./a//b/../Fir.chart.yaml", "/c/kite.chart.yml") == ["a/b/fir", "c/kite"]


def test_a_name_of_bytes_that_are_no_text_leaves_digits_of_the_bytes() -> None:
    """As Python has such a name: each byte that is no UTF-8 as a lone surrogate (PEP 383)."""
    assert names("fr\udcfft.chart.yaml") == [f"frt-{digits('fr' + chr(0xDCFF) + 't.chart.yaml')}"]
    assert slugs([("a/Fir.chart.yaml", "/x/a/Fir.chart.yaml"), ("A/fir.chart.yaml", "/y")]) == [
        "a/fir", f"a/fir-{digits('/y')}",
    ]  # fmt: skip
    assert names("é/fir.chart.yaml") == [f"e/fir-{digits('é/fir.chart.yaml')}"]


@pytest.mark.parametrize(
    ("piece", "size", "slug"),
    [
        ("front", "", "set/front"),
        ("Left front", "small", "set/left-front-small"),
        ("front", "2–4", f"set/front-24-{digits('front/2–4')}"),
        ("鷺", "small", f"set/chart-small-{digits('鷺/small')}"),
        ("taken", "", f"set/taken-{digits('taken/')}"),
        ("fr\udcfft", "", f"set/frt-{digits('fr' + chr(0xDCFF) + 't/')}"),
    ],
)
def test_a_piece_has_a_page_below_its_patterns(piece: str, size: str, slug: str) -> None:
    assert piece_slug("set", piece, size, {"set/taken", "set/other"}) == slug


def test_no_slug_takes_the_name_of_an_index() -> None:
    assert names("index.chart.yaml", "hats/index.chart.yaml") == [
        name for name in names("index.chart.yaml", "hats/index.chart.yaml") if not name.endswith("index")
    ]


@given(st.lists(st.text(max_size=90), max_size=6, unique=True))
def test_slugs_are_plain_and_all_different(paths: list[str]) -> None:
    made = slugs((path, path) for path in paths)
    assert len(set(made)) == len(paths)
    for slug in made:
        for part in slug.split("/"):
            assert part
            assert set(part) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


@pytest.mark.parametrize(
    ("folders", "page", "to", "link"),
    [
        (False, "charts/heron", "rules/grid/stitch-count", "../rules/grid/stitch-count.html"),
        (False, "charts/hats/fir", "index", "../../index.html"),
        (False, "index", "charts/heron", "charts/heron.html"),
        (True, "charts/heron", "rules/grid/stitch-count", "../../rules/grid/stitch-count/"),
        (True, "charts/heron", "index", "../../"),
        (True, "index", "charts/heron", "charts/heron/"),
        (True, "index", "index", "./"),
    ],
)
def test_links(folders: bool, page: str, to: str, link: str) -> None:
    assert Layout(folders=folders).link(page, to) == link


PLACES = st.lists(st.sampled_from("ab"), min_size=1, max_size=4).map("/".join)


@given(PLACES, PLACES)
def test_links_to_files_are_those_that_python_s_library_makes(folder: str, file: str) -> None:
    """`posixpath.relpath` of the standard library."""
    expected = posixpath.relpath(f"{file}.svg", folder)
    assert Layout().file_link(f"{folder}/page", f"{file}.svg") == expected


@given(st.text(max_size=40))
def test_a_rule_s_page_stays_among_the_rules(name: str) -> None:
    page = Layout().rule(name)
    assert page.startswith("rules/")
    for part in page.split("/"):
        assert part
        assert set(part) <= set("abcdefghijklmnopqrstuvwxyz0123456789-")


def test_a_rule_s_page_is_named_as_the_rule_is() -> None:
    assert Layout().rule("grid/stitch-count") == "rules/grid/stitch-count"


@pytest.mark.parametrize("name", ["con", "PRN", "Aux", "nul", "com1", "LPT9", "com0"])
def test_no_page_has_the_name_of_a_device_of_windows(name: str) -> None:
    """Microsoft, Naming Files, Paths, and Namespaces: CON, PRN, AUX, NUL, COM0 to COM9, LPT0 to LPT9, with whatever
    ending."""
    (slug,) = slugs([(f"{name}/{name}.chart.yaml", name)])
    plain = f"{name.lower()}-chart"
    assert slug.startswith(f"{plain}/{plain}")
    assert Layout().rule(f"{name}/{name}") == f"rules/{name.lower()}-rule/{name.lower()}-rule"
    assert slugs([("console.chart.yaml", "c"), ("com10.chart.yaml", "d")]) == ["console", "com10"]
