"""The parts of the search for the best links, each against what it promises to the next."""

import networkx as nx
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lintarsia.planning.cover import offers
from lintarsia.planning.cover.groups import strong_groups
from lintarsia.planning.cover.offers import make_offers
from lintarsia.planning.cover.search import search
from lintarsia.planning.cover.ties import areas

ARCS = st.integers(1, 9).flatmap(
    lambda nodes: st.dictionaries(st.integers(0, nodes), st.lists(st.integers(0, nodes), max_size=4), max_size=nodes)
)


@settings(max_examples=200)
@given(ARCS)
def test_strong_groups_are_networkxs(after: dict[int, list[int]]) -> None:
    graph = nx.DiGraph([(a, b) for a, others in after.items() for b in others])
    graph.add_nodes_from(after)
    group = strong_groups(after)
    assert set(group) == set(graph)
    found: dict[int, set[int]] = {}
    for node, number in group.items():
        found.setdefault(number, set()).add(node)
    assert sorted(map(sorted, found.values())) == sorted(map(sorted, nx.strongly_connected_components(graph)))


@st.composite
def tables(draw: st.DrawFn) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """(first, head, cost) of links from each of some tails to heads after it, as `search` wants them."""
    size = draw(st.integers(1, 12))
    tails = [draw(st.lists(st.integers(0, size - 1), unique=True, max_size=5).map(sorted)) for _ in range(size)]
    head = np.array([h for own in tails for h in own], np.int64)
    cost = np.array([draw(st.integers(0, 6)) for _ in head], np.int64)
    return np.cumsum([0, *map(len, tails)]), head, cost


def check_prices(first, head, cost, none, taken, owner, price, searched) -> None:
    """What proves a set of links the best of the tails searched so far (complementary slackness)."""
    assert (price <= 0).all()
    assert (price[owner < 0] == 0).all(), "a head that nobody has is free"
    for tail in range(len(taken)):
        links = range(first[tail], first[tail + 1])
        values = [int(cost[k] - price[head[k]]) for k in links]
        if taken[tail] >= 0:
            assert taken[tail] in links
            assert owner[head[taken[tail]]] == tail
            worth = int(cost[taken[tail]] - price[head[taken[tail]]])
            assert worth == min(values)
            assert worth <= none
        elif tail in searched:
            assert min(values, default=none) >= none
    assert sorted(owner[owner >= 0].tolist()) == np.flatnonzero(taken >= 0).tolist()


@settings(max_examples=200)
@given(tables(), st.integers(0, 12), st.integers(0, 3))
def test_offers_leave_prices_that_the_search_can_go_on_from(table, rounds, enough) -> None:
    first, head, cost = table
    none = int(cost.sum()) + 1
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(offers, "ROUNDS", rounds)
        patch.setattr(offers, "ENOUGH", enough)
        taken, owner, price, opened = make_offers(first, head, cost, none)
    assert opened.tolist() == sorted(set(opened.tolist()))
    assert (taken[opened] < 0).all()
    settled = set(range(len(taken))) - set(opened.tolist())
    check_prices(first, head, cost, none, taken, owner, price, settled)
    if rounds >= 10 and not enough:
        assert len(opened) < max(int(np.count_nonzero(np.diff(first))), 1), "offers settle some tails at least"


@settings(max_examples=200)
@given(tables(), st.integers(0, 12), st.randoms(use_true_random=False), st.integers(0, 8))
def test_the_search_ends_with_prices_that_prove_it(table, rounds, chance, dear) -> None:
    """From any opening, in any order; also where going without is cheaper than some links."""
    first, head, cost = table
    none = int(cost.sum()) + 1 if dear > 5 else dear
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(offers, "ROUNDS", rounds)
        patch.setattr(offers, "ENOUGH", 0)
        taken, owner, price, opened = make_offers(first, head, cost, none)
    order = opened.tolist()
    chance.shuffle(order)
    tails = np.repeat(np.arange(len(taken)), np.diff(first)).tolist()
    has, had, worth = taken.tolist(), owner.tolist(), price.tolist()
    search(order, first.tolist(), tails, head.tolist(), cost.tolist(), none, has, had, worth)
    check_prices(first, head, cost, none, np.array(has), np.array(had), np.array(worth), set(range(len(has))))


@settings(max_examples=200)
@given(tables(), st.randoms(use_true_random=False))
def test_areas_are_the_components_that_loose_links_make(table, chance) -> None:
    """Tails are joined by a link to a head that another has, and by links to the same head that nobody has."""
    first, head, _ = table
    size = len(first) - 1
    tail = np.repeat(np.arange(size), np.diff(first))
    loose = np.array([k for k in range(len(head)) if chance.random() < 0.5], np.int64)
    owner = np.array([chance.choice([-1, other]) for other in chance.sample(range(size), size)])
    graph = nx.Graph()
    graph.add_nodes_from(range(size))
    for link in loose.tolist():
        other = int(owner[head[link]])
        graph.add_edge(int(tail[link]), other if other >= 0 else ("head", int(head[link])))
    label = areas(tail, head, loose, owner)
    found: dict[int, set[int]] = {}
    for node, number in enumerate(label.tolist()):
        found.setdefault(number, set()).add(node)
    expected = [{n for n in part if isinstance(n, int)} for part in nx.connected_components(graph)]
    assert sorted(map(sorted, found.values())) == sorted(map(sorted, filter(None, expected)))
