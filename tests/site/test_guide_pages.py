"""Pages written by hand: what is for one face of the site, their drawings, and what a search finds in them."""

import pytest

from lintarsia.publishing.pages.guidepages import for_face, parts_of, put_drawings

PAGE = """\
<h1 id="how">How <b>to</b></h1>
<p>Take yarn &amp; needle<!-- working --> , for us<!-- all -->.</p>
<p>[[drawing: interlock]]</p>
<h2 class="x" id="one">First <em>things</em></h2>
<p>Knit ( a ) row , then</p><p>another ; so !</p>
<h2 id="two">Last</h2>
"""


def test_what_is_for_us_is_not_for_everybody() -> None:
    assert "for us" not in for_face(PAGE, public=True)
    assert "needle." in for_face(PAGE, public=True)
    assert "needle , for us." in for_face(PAGE, public=False)
    for public in (True, False):
        assert "<!-- working" not in for_face(PAGE, public=public)
        assert "<!-- all" not in for_face(PAGE, public=public)


def test_a_search_finds_the_words_under_their_headings() -> None:
    assert list(parts_of(for_face(PAGE, public=True))) == [
        ("", "", "Take yarn & needle."),
        ("First things", "one", "Knit ( a) row, then another; so !"),
        ("Last", "two", ""),
    ]


def test_a_drawing_stands_where_it_is_named_with_its_words() -> None:
    made = put_drawings(PAGE)
    assert "[[drawing" not in made
    assert made.count('<figure class="sheet"><svg ') == 1
    assert made.count("<figcaption>") == made.count("</svg><figcaption>") == 1
    assert 'id="interlock-' in made
    with pytest.raises(KeyError):
        put_drawings("<p>[[drawing: none-of-the-kind]]</p>")
