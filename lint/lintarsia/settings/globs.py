"""Path patterns of the settings file, relative to its folder, always with forward slashes.

`*` and `?` stay within one name, `**` crosses folders, `[abc]` is one of these. A pattern without a slash matches a
name at any depth (`*.draft.chart.yaml`, `drafts`); one that matches a folder holds for all within it.
"""

import re
from collections.abc import Sequence
from functools import lru_cache

_TOKENS = re.compile(r"\*\*/|/\*\*\Z|\*\*|\*|\?|\[!?[^\]/]+\]|.", re.DOTALL)
_MEANING = {"**/": "(?:[^/]+/)*", "/**": "/.+", "**": ".*", "*": "[^/]*", "?": "[^/]"}


@lru_cache(maxsize=512)
def glob_regex(pattern: str) -> re.Pattern[str]:
    """A pattern as a regular expression over a whole relative path."""
    bare = pattern.removeprefix("./").strip("/")
    anchored = "/" in pattern.removeprefix("./").rstrip("/")
    parts = [] if anchored else ["(?:.*/)?"]
    for token in _TOKENS.findall(bare):
        if token in _MEANING:
            parts.append(_MEANING[token])
        elif token[0] == "[" and len(token) > 2:
            inside = token[1:-1].replace("\\", "\\\\")
            parts.append("[^" + inside[1:] + "]" if inside[0] == "!" else f"[{inside}]")
        else:
            parts.append(re.escape(token))
    return re.compile("".join(parts) + "(?:/.*)?", re.DOTALL)


def matches(patterns: Sequence[str], path: str) -> bool:
    """Whether any of `patterns` matches `path`, or a folder that `path` lies in."""
    return any(glob_regex(pattern).fullmatch(path) for pattern in patterns)
