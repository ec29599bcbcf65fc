"""Path patterns of the settings file, relative to its folder, always with forward slashes.

`*` and `?` stay within one name, `**` crosses folders, `[abc]` is one of these. A pattern without a slash matches a
name at any depth (`*.draft.chart.yaml`, `drafts`); one that matches a folder holds for all within it.

A path is gone through once, with all the places that the pattern may have got to by then: no pattern takes longer than
its length times the path's. A regular expression tries one way after another, and some patterns take it years.
"""

import re
from collections.abc import Callable, Sequence
from functools import lru_cache

_TOKENS = re.compile(r"\*\*/|/\*\*\Z|\*\*|\*|\?|\[[!^]?[^\]/]+\]|.", re.DOTALL)
_ONE, _MANY, _FOLDERS = range(3)  # takes one character; any number of them; whole folders, any number
_Step = tuple[int, Callable[[str], bool]]


class BadGlob(ValueError):  # noqa: N818 - what a settings file says is not a programming error
    """A pattern that can match nothing."""


def _any(character: str) -> bool:
    return True


def _within(character: str) -> bool:
    return character != "/"


_MEANING: dict[str, tuple[_Step, ...]] = {
    "**/": ((_FOLDERS, _any),),
    "/**": ((_ONE, "/".__eq__), (_ONE, _any), (_MANY, _any)),
    "**": ((_MANY, _any),),
    "*": ((_MANY, _within),),
    "?": ((_ONE, _within),),
}


def _steps(pattern: str) -> list[_Step]:
    bare = pattern.removeprefix("./").strip("/")
    anchored = "/" in pattern.removeprefix("./").rstrip("/")
    steps = [] if anchored else [*_MEANING["**/"]]
    for token in _TOKENS.findall(bare):
        if token in _MEANING:
            steps += _MEANING[token]
        elif token[0] == "[" and len(token) > 2:
            steps.append((_ONE, _one_of(token)))
        else:
            steps.append((_ONE, token.__eq__))
    return steps


def _one_of(token: str) -> Callable[[str], bool]:
    """`[abc]`, `[a-c]`, `[!abc]`. Raises BadGlob for a range that runs backwards."""
    inside = token[1:-1]
    other = inside[0] in "!^" and len(inside) > 1
    spans = re.findall(r"(.)-(.)|(.)", inside[1:] if other else inside, re.DOTALL)
    for first, last, _ in spans:
        if first > last:
            raise BadGlob(f"{first}-{last} in {token} runs backwards; expected {last}-{first}")
    ends = [(first or single, last or single) for first, last, single in spans]

    def takes(character: str) -> bool:
        return character != "/" and other != any(first <= character <= last for first, last in ends)

    return takes


_State = tuple[int, int]  # the places reached; those in the midst of a folder's name
_MOST_KNOWN = 10_000  # steps remembered for a pattern; what a hostile one has more is worked out anew


class Glob:
    """A pattern ready to be matched. Raises BadGlob where it is not in order.

    Places in the pattern are the bits of a number: bit i is set where its first i steps have been matched.
    """

    def __init__(self, pattern: str) -> None:
        self._steps = _steps(pattern)
        self._end = 1 << len(self._steps)
        self._folders = self._bits(lambda step: step[0] == _FOLDERS)
        self._skipped = self._bits(lambda step: step[0] != _ONE)
        self._start: _State = self._closed(1), 0
        self._known: dict[tuple[_State, str], _State] = {}

    def matches(self, path: str) -> bool:
        """Whether it matches `path`, or a folder that `path` lies in."""
        state, known = self._start, self._known
        for character in path:
            if character == "/" and state[0] & self._end:
                return True
            following = known.get((state, character))
            state = self._after(state, character) if following is None else following
            if not state[0]:
                return False
        return bool(state[0] & self._end)

    def _after(self, state: _State, character: str) -> _State:
        places, named = state
        over = self._bits(lambda step: step[0] == _ONE and step[1](character))
        on = self._bits(lambda step: step[0] == _MANY and step[1](character))
        reached = (places & over) << 1 | places & on
        if character == "/":  # whoever was in a folder's name is through with it
            following = self._closed(reached | named), 0
        else:
            inside = places & self._folders
            following = self._closed(reached) | inside, inside
        if len(self._known) < _MOST_KNOWN:
            self._known[state, character] = following
        return following

    def _bits(self, wanted: Callable[[_Step], bool]) -> int:
        return sum(1 << i for i, step in enumerate(self._steps) if wanted(step))

    def _closed(self, places: int) -> int:
        """With those that are reached by matching nothing."""
        while (more := places | (places & self._skipped) << 1) != places:
            places = more
        return places


_glob = lru_cache(maxsize=512)(Glob)


def matches(patterns: Sequence[str], path: str) -> bool:
    """Whether any of `patterns` matches `path`, or a folder that `path` lies in."""
    return any(_glob(pattern).matches(path) for pattern in patterns)


def check_glob(pattern: str) -> None:
    """Raises BadGlob, with what was expected, for a pattern that is not in order."""
    _glob(pattern)
