"""The rules a run knows: the house's catalogue, and room for more beside it."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import field
from functools import cache

from lintarsia.ground.values import dataclass
from lintarsia.result import Kind, RuleInfo
from lintarsia.rules.base import Rule


@dataclass(frozen=True, slots=True)
class Rulebook:
    """`names` sorted; `load` imports a rule when it is first needed and raises KeyError for a name not in `names`.

    `kinds` says what the rules look at where that is known without importing them.
    """

    names: tuple[str, ...]
    load: Callable[[str], Rule]
    kinds: Mapping[str, tuple[Kind, ...]] = field(default_factory=dict)

    def __contains__(self, name: str) -> bool:
        return name in self.names

    def looks_at(self, name: str, kind: Kind) -> bool:
        """Whether the rule of that name has a check for files of a kind."""
        known = self.kinds.get(name)
        return kind in (self.load(name).kinds if known is None else known)

    def info(self, name: str) -> RuleInfo:
        return self.load(name).info


def together(books: Iterable[Rulebook]) -> Rulebook:
    """One book with the rules of several, which charts below several settings files have; the first has the say."""
    distinct: list[Rulebook] = []
    for book in books:
        if book not in distinct:
            distinct.append(book)
    if len(distinct) == 1:
        return distinct[0]
    holder = {name: book for book in reversed(distinct) for name in book.names}
    kinds = {name: book.kinds[name] for name, book in holder.items() if name in book.kinds}
    return Rulebook(tuple(sorted(holder)), lambda name: holder[name].load(name), kinds)


@cache
def house_rulebook() -> Rulebook:
    """The rules that lintarsia ships."""
    from lintarsia.rules import catalogue

    return Rulebook(catalogue.NAMES, catalogue.load, catalogue.KINDS)
