"""Of all best sets of links the least one: the exchange of ties against every set there is."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

import numpy as np
from hypothesis import example, given, settings
from hypothesis import strategies as st

from lintarsia.planning.cover.search import search
from lintarsia.planning.cover.ties import areas, loose_links, settle_ties


class Choice(NamedTuple):
    """Links of each tail in ascending order of their heads; what each costs, and what it costs to go without."""

    first: list[int]
    tails: list[int]
    heads: list[int]
    costs: list[int]
    none: int


@st.composite
def choices(draw: st.DrawFn) -> Choice:
    """Few tails, many equal costs, made as `best_links` makes them, so that sets of equal cost have equally many links.

    A link that leaves its block is dearer than any number that are missing, a missing one dearer than all others.
    """
    size = draw(st.integers(2, 5))
    own = [draw(st.lists(st.integers(0, size - 1), unique=True, max_size=4).map(sorted)) for _ in range(size)]
    heads = [head for links in own for head in links]
    near = [draw(st.integers(0, 2)) for _ in heads]
    missing = sum(near) + 1
    leaves = draw(st.sampled_from([0, missing * (size + 1)]))
    costs = [draw(st.sampled_from([0, leaves])) + cost for cost in near]
    tails = [tail for tail, links in enumerate(own) for _ in links]
    return Choice(np.cumsum([0, *map(len, own)]).tolist(), tails, heads, costs, leaves + missing)


def every_set(choice: Choice, tail: int, used: frozenset[int]) -> Iterator[tuple[int, ...]]:
    """The link of each tail from `tail` on, −1 for none, with no head twice."""
    if tail == len(choice.first) - 1:
        yield ()
        return
    for rest in every_set(choice, tail + 1, used):
        yield (-1, *rest)
    for link in range(choice.first[tail], choice.first[tail + 1]):
        if choice.heads[link] not in used:
            for rest in every_set(choice, tail + 1, used | {choice.heads[link]}):
                yield (link, *rest)


def least(choice: Choice) -> list[int]:
    """The cheapest; of equals the one whose last tail has the earliest head (none is the latest), and so on down."""
    none, last = choice.none, len(choice.heads)

    def order(links: Iterable[int]) -> tuple[int, ...]:
        links = list(links)
        cost = sum(choice.costs[link] if link >= 0 else none for link in links)
        return cost, *(link if link >= 0 else last for link in reversed(links))

    return list(min(every_set(choice, 0, frozenset()), key=order))


def searched(choice: Choice) -> tuple[list[int], list[int], list[int]]:
    """(link of each tail, tail of each head, price of each head) of some best set, with prices that prove it one."""
    size = len(choice.first) - 1
    taken, owner, price = [-1] * size, [-1] * size, [0] * size
    opened = [tail for tail in range(size) if choice.first[tail] < choice.first[tail + 1]]
    search(opened, choice.first, choice.tails, choice.heads, choice.costs, choice.none, taken, owner, price)
    return taken, owner, price


def check(choice: Choice, taken: list[int], owner: list[int]) -> None:
    assert taken == least(choice)
    wanted = [-1] * len(owner)
    for tail, link in enumerate(taken):
        if link >= 0:
            wanted[choice.heads[link]] = tail
    assert owner == wanted


# Tail 3 pushes tail 2 to head 3, which nobody had; tail 2 then wants head 0, and may leave head 3 again.
LEFT_AGAIN = Choice([0, 0, 3, 6, 9], [1, 1, 1, 2, 2, 2, 3, 3, 3], [0, 1, 2, 0, 1, 3, 0, 1, 2], [0] * 6 + [1, 0, 0], 2)


@settings(max_examples=150)
@example(LEFT_AGAIN)
@given(choices())
def test_all_tight_links_at_once_lead_to_the_least_set(choice: Choice) -> None:
    taken, owner, price = searched(choice)
    worth = [choice.costs[link] - price[choice.heads[link]] if link >= 0 else choice.none for link in taken]
    loose = [
        link
        for link, (tail, head, cost) in enumerate(zip(choice.tails, choice.heads, choice.costs, strict=True))
        if link != taken[tail] and cost - price[head] == worth[tail]
    ]
    settle_ties(loose, [0] * len(taken), choice.tails, choice.heads, choice.costs, choice.none, taken, owner, price)
    check(choice, taken, owner)


@settings(max_examples=150)
@example(LEFT_AGAIN)
@given(choices())
def test_links_put_aside_beforehand_are_in_no_best_set(choice: Choice) -> None:
    """As charts of many runs are settled: only links that may be part of a round, and area by area."""
    taken, owner, price = searched(choice)
    arrays = [np.array(values, np.int64) for values in (choice.tails, choice.heads, choice.costs)]
    tail, head, cost = arrays
    now = [np.array(values, np.int64) for values in (taken, owner, price)]
    loose = loose_links(tail, head, cost, choice.none, *now)
    area = areas(tail, head, loose, now[1])
    settle_ties(
        loose.tolist(), area.tolist(), choice.tails, choice.heads, choice.costs, choice.none, taken, owner, price
    )
    check(choice, taken, owner)
