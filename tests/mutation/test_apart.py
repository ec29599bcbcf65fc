"""What a fork is answered is what the library itself answers, and it never asks the library where it is."""

import os
from typing import Any

import pytest
import resvg_py
import typst
from apart import answering

DRAWN = '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 2 3"><path d="M0 0h2v3z" fill="#{}"/></svg>'


@pytest.fixture
def forked(monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """Both libraries as a fork sees them, after one drawing in 27406b: asked where it is, either would fail."""
    home, inside = os.getpid(), list[str]()

    def here(name: str, function: Any) -> Any:
        def asked(*given: Any, **named: Any) -> Any:
            assert not inside, f"{name} was asked in the fork"
            return function(*given, **named)

        return asked

    pixels = answering("resvg_py", "svg_to_bytes", here("pixels", resvg_py.svg_to_bytes))
    pages = answering("typst", "compile", here("pages", typst.compile))
    pixels(svg_string=DRAWN.format("27406b"))
    monkeypatch.setattr(os, "getpid", lambda: home + 1)
    inside.append("fork")
    return {"pixels": pixels, "pages": pages}


@pytest.mark.parametrize("colour", ["27406b", "a33b2a"])
def test_a_fork_has_the_same_pixels(forked: dict[str, Any], colour: str) -> None:
    drawn = DRAWN.format(colour)
    assert bytes(forked["pixels"](svg_string=drawn)) == bytes(resvg_py.svg_to_bytes(svg_string=drawn))


def test_a_fork_has_the_same_pages(forked: dict[str, Any]) -> None:
    assert forked["pages"](b"A gate.", format="svg") == typst.compile(b"A gate.", format="svg")


def test_a_fork_has_the_same_failure(forked: dict[str, Any]) -> None:
    with pytest.raises(RuntimeError) as known:
        typst.compile(b"#nothing-of-the-kind()")
    with pytest.raises(RuntimeError) as failure:
        forked["pages"](b"#nothing-of-the-kind()")
    assert str(failure.value) == str(known.value)
