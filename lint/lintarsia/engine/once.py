"""What is the same in all charts of a pattern, told once: shades that are hard to tell apart are so in every one."""

import os
from collections.abc import Iterable, Iterator, Mapping

from lintarsia.engine.checking import Checked
from lintarsia.engine.subjects import subject_of
from lintarsia.ground.kinds import kind_of
from lintarsia.settings import Settings


def once_a_pattern(
    checked: Iterable[tuple[str, Checked]], holding: Mapping[str, Settings]
) -> Iterator[tuple[str, Checked]]:
    """Every answer as it comes, less the results of rules that say a thing once a pattern and have said it already in
    another chart of a pattern of this run. They are known by their fingerprints, which hash what is said.
    """
    patterns = {path: settings for path, settings in holding.items() if not kind_of(path).whole}
    of = {chart: path for path, settings in patterns.items() for chart in _parts(path, settings)}
    said: set[tuple[str, str]] = set()
    for path, answer in checked:
        pattern = of.get(os.path.realpath(path))
        if pattern is None or not answer.results:
            yield path, answer
            continue
        kept = []
        for result in answer.results:
            if holding[path].rulebook.info(result.rule).once_a_pattern:
                if (pattern, result.fingerprint) in said:
                    continue
                said.add((pattern, result.fingerprint))
            kept.append(result)
        yield path, answer._replace(results=tuple(kept))


def _parts(path: str, settings: Settings) -> Iterator[str]:
    """Where they really lie. A log names charts too, and they are no parts of it."""
    subject = subject_of(path, None, settings)
    subject.read()
    return map(os.path.realpath, subject.parts())
