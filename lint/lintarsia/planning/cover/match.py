"""The best links of flat and turned work: an opening for all runs at once, an exact search, and ties settled."""

import numpy as np

from lintarsia.planning.cover.links import LinkTable
from lintarsia.planning.cover.offers import make_offers
from lintarsia.planning.cover.search import search
from lintarsia.planning.cover.ties import areas, loose_links, settle_ties
from lintarsia.planning.runs import Integers

FEW = 1500  # links; below, the opening costs more than it saves
SAFE = 2**60  # numbers under this may be doubled and added in 64 bits


def best_links(links: LinkTable, runs: int) -> Integers:
    """The place in `links` of the link that each run takes, −1 for none: the least of all best sets of links."""
    count = len(links.tail)
    if count == 0:
        return np.full(runs, -1)
    # One number for both costs: all the idle rows that a plan could have weigh less than one carried stitch. And going
    # without costs more than all links together, so that the most links come first.
    longest = int(links.idle.max())
    weight = runs * longest + 1
    dearest = int(links.carried.max()) * weight + longest
    none = runs * dearest + 1
    if count < FEW or none >= SAFE:
        return _one_by_one(links, runs, weight, none)
    first = np.searchsorted(links.tail, np.arange(runs + 1))
    cost = links.carried * weight + links.idle
    taken, owner, price, opened = make_offers(first, links.head, cost, none)
    tails, heads, costs = links.tail.tolist(), links.head.tolist(), cost.tolist()
    has, had, worth = taken.tolist(), owner.tolist(), price.tolist()
    search(opened.tolist()[::-1], first.tolist(), tails, heads, costs, none, has, had, worth)
    taken, owner, price = np.array(has), np.array(had), np.array(worth)
    loose = loose_links(links.tail, links.head, cost, none, taken, owner, price)
    area = areas(links.tail, links.head, loose, owner).tolist()
    settle_ties(loose.tolist(), area, tails, heads, costs, none, has, had, worth)
    return np.array(has)


def _one_by_one(links: LinkTable, runs: int, weight: int, none: int) -> Integers:
    """The same without arrays: quicker for a small chart, and exact where the numbers outgrow 64 bits."""
    tails, heads = links.tail.tolist(), links.head.tolist()
    if none < SAFE:
        costs = (links.carried * weight + links.idle).tolist()
    else:
        costs = [c * weight + w for c, w in zip(links.carried.tolist(), links.idle.tolist(), strict=True)]
    first = links.tail.searchsorted(np.arange(runs + 1)).tolist()
    liked = [-1] * runs  # the cheapest link of each tail, the first of equals
    for link in range(len(tails) - 1, -1, -1):
        best = liked[tails[link]]
        if best < 0 or costs[link] <= costs[best]:
            liked[tails[link]] = link
    taken, owner, price = [-1] * runs, [-1] * runs, [0] * runs
    opened = []
    for tail in range(runs - 1, -1, -1):
        link = liked[tail]
        if link >= 0:
            head = heads[link]
            if owner[head] < 0:  # nobody has what the tail likes best, as is usual: nothing to search for
                taken[tail], owner[head] = link, tail
            else:
                opened.append(tail)
    search(opened, first, tails, heads, costs, none, taken, owner, price)
    worth = [costs[has] - price[heads[has]] if has >= 0 else none for has in taken]
    loose: list[int] = []  # tight links that nobody has taken, as `loose_links` finds them for many
    moving = set()
    for link in range(len(tails) - 1, -1, -1):
        tail = tails[link]
        if costs[link] - price[heads[link]] == worth[tail] and link != taken[tail]:
            rival = owner[heads[link]]
            # No round leads through a rival with nowhere else to go, which is known by now of those worked later.
            if rival < tail or rival in moving or worth[rival] == none:
                loose.append(link)
                moving.add(tail)
    if loose:
        settle_ties(loose[::-1], [0] * runs, tails, heads, costs, none, taken, owner, price)
    return np.array(taken, np.int64)
