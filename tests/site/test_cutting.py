"""A template that is filled in once for many pages says what it would say filled in for each."""

import pytest

from lintarsia.publishing.pages.chartkind import PageKind, cut_of
from lintarsia.publishing.pages.cutting import Marks
from lintarsia.publishing.pages.templates import environment

TEMPLATE = "<h1>{{ page.title }}</h1>{% if kind %}<p>{{ page.words }} of {{ page.title }}</p>{% endif %}"


@pytest.mark.parametrize("kind", [True, False])
def test_a_page_that_was_cut_reads_like_one_that_was_filled_in(kind: bool) -> None:
    texts = {"title": "<b>Owl &amp; moon – 2 × 3</b>", "words": ""}
    marks = Marks(*texts)
    template = environment().from_string(TEMPLATE.replace(" }}", "|safe }}"))
    cut = marks.cut(template.render(page=marks, kind=kind))
    assert cut.filled(texts) == template.render(page=texts, kind=kind).encode()
    assert cut.filled(texts) == cut.filled(texts)  # nothing of a page is left in it


def test_a_text_that_is_missing_is_an_error() -> None:
    marks = Marks("title", "words")
    cut = marks.cut(environment().from_string(TEMPLATE).render(page=marks, kind=True))
    with pytest.raises(KeyError, match="words"):
        cut.filled({"title": "Owl"})


def test_a_template_cannot_ask_about_what_differs() -> None:
    marks = Marks("title")
    with pytest.raises(TypeError, match="only put in"):
        environment().from_string("{% if page.title %}yes{% endif %}").render(page=marks)


def test_pages_of_a_chart_are_cut_once_for_each_kind() -> None:
    kind = PageKind("row", (), False, 0, False, None, False, False, False, True, True, False, False, False)
    assert cut_of(kind) is cut_of(kind._replace())
    assert cut_of(kind) != cut_of(kind._replace(word="round"))
