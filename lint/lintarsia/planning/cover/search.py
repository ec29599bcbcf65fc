"""The exact search for the best links, one tail after another, each by the cheapest chain of changes.

Successive shortest paths with prices (J. Edmonds and R. M. Karp, J. ACM 19 (1972) 248–264). The prices of heads, never
over zero, and zero where nobody has the head, keep every tail's link its cheapest; a tail without a link has none under
`none`. Together these prove that the links are the best for the tails seen so far. A search touches the neighbourhood
of its tail only, so that cost follows the number of runs, and what is not tangled is never looked at.
"""

from collections.abc import Iterable, MutableSequence, Sequence
from heapq import heappop, heappush


def search(
    opened: Iterable[int],
    first: Sequence[int],
    tails: Sequence[int],
    heads: Sequence[int],
    costs: Sequence[int],
    none: int,
    taken: MutableSequence[int],
    owner: MutableSequence[int],
    price: MutableSequence[int],
) -> None:
    """Bring the tails `opened` into the links, changing `taken`, `owner` and `price` (see `offers.make_offers`).

    Links are sorted by tail; all numbers are whole and may be of any size. A tail that finds no head, or is left out in
    favour of another, keeps `taken` −1, as does one for which going without, at the price `none`, is cheaper.
    """
    for start in opened:
        reached: dict[int, int] = {}  # the least distance of a head so far
        by: dict[int, int] = {}  # and the link that leads there
        closed: list[int] = []
        queue: list[tuple[int, int]] = []
        tail, base = start, 0
        # The cheapest end of a chain so far: a free head, or a tail that goes without.
        stop, last_tail, last_head = none, start, -1
        while True:
            for link in range(first[tail], first[tail + 1]):
                head = heads[link]
                distance = base + costs[link] - price[head]
                if distance < stop and (head not in reached or distance < reached[head]):
                    reached[head] = distance
                    by[head] = link
                    if owner[head] < 0:
                        stop, last_head = distance, head
                    else:
                        heappush(queue, (distance, head))
            while queue and reached[queue[0][1]] < queue[0][0]:
                heappop(queue)
            if not queue or queue[0][0] >= stop:
                break
            distance, head = heappop(queue)
            closed.append(head)
            tail = owner[head]
            base = distance - costs[taken[tail]] + price[head]
            if base + none < stop:
                stop, last_tail, last_head = base + none, tail, -1
        for head in closed:
            price[head] += reached[head] - stop
        if last_head >= 0:
            head = last_head
        elif last_tail == start:
            continue
        else:
            head = heads[taken[last_tail]]
            taken[last_tail] = -1
        while True:
            link = by[head]
            tail = tails[link]
            before = taken[tail]
            taken[tail], owner[head] = link, tail
            if tail == start:
                break
            head = heads[before]
