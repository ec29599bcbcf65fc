"""The best links of flat and turned work: an opening for all runs at once, an exact search, and ties settled."""

from typing import NamedTuple

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
    scale = _scale(links, runs)
    if count >= FEW and scale.none >= SAFE:
        scale = _scale(links, _largest_part(links, runs))
    if count < FEW or scale.none >= SAFE:
        return _one_by_one(links, runs, scale)
    cost, none = scale.costs(links), scale.none
    first = np.searchsorted(links.tail, np.arange(runs + 1))
    taken, owner, price, opened = make_offers(first, links.head, cost, none)
    tails, heads, costs = links.tail.tolist(), links.head.tolist(), cost.tolist()
    has, had, worth = taken.tolist(), owner.tolist(), price.tolist()
    search(opened.tolist()[::-1], first.tolist(), tails, heads, costs, none, has, had, worth)
    taken, owner, price = np.array(has), np.array(had), np.array(worth)
    loose = loose_links(links.tail, links.head, cost, none, taken, owner, price)
    area = areas(links.tail, links.head, loose, owner).tolist()
    settle_ties(loose.tolist(), area, tails, heads, costs, none, has, had, worth)
    return np.array(has)


class _Scale(NamedTuple):
    """The four wishes of the plan in one number a link, each so dear that all that come after it weigh less together.

    One idle row costs more than all the carried stitches that a plan could have. A run without a link costs more than
    all idle rows and carried stitches, and a link that leaves its block more than all runs without a link. `none`, the
    price of going without a link, holds both: what goes without does not go on with its block either. So the least sum
    has the most links that go on, then the most links at all, then the fewest idle rows, then carried stitches.
    """

    leaves: int
    idle: int
    none: int

    def costs(self, links: LinkTable) -> Integers:
        """One number a link, where they fit into 64 bits."""
        return np.where(links.goes_on, 0, self.leaves) + links.idle * self.idle + links.carried

    def costs_of_any_size(self, links: LinkTable) -> list[int]:
        """The same as Python's whole numbers."""
        columns = (links.goes_on.tolist(), links.idle.tolist(), links.carried.tolist())
        return [(0 if on else self.leaves) + w * self.idle + c for on, w, c in zip(*columns, strict=True)]


def _scale(links: LinkTable, runs: int) -> _Scale:
    """The scale for links among `runs` runs, at most one link from each."""
    farthest = int(links.carried.max())
    idle = runs * farthest + 1
    dearest = int(links.idle.max()) * idle + farthest
    missing = runs * dearest + 1
    leaves = (runs + 1) * missing
    return _Scale(leaves, idle, leaves + missing)


def _largest_part(links: LinkTable, runs: int) -> int:
    """The most runs that have a choice in one part of the chart whose links share no run with those of another.

    Each part is best by itself, so that a scale which is right for the largest is right for all.
    """
    label = np.arange(2 * runs)  # a run as a tail, and as a head
    one, other = links.tail, runs + links.head
    while True:
        near, far = label[one], label[other]
        if np.array_equal(near, far):
            return int(np.bincount(label[np.unique(one)]).max())
        low = np.minimum(near, far)
        np.minimum.at(label, near, low)
        np.minimum.at(label, far, low)
        label = label[label]
        while not np.array_equal(label, label[label]):
            label = label[label]


def _one_by_one(links: LinkTable, runs: int, scale: _Scale) -> Integers:
    """The same without arrays: quicker for a small chart, and exact where the numbers outgrow 64 bits."""
    none, tails, heads = scale.none, links.tail.tolist(), links.head.tolist()
    costs = scale.costs(links).tolist() if none < SAFE else scale.costs_of_any_size(links)
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
