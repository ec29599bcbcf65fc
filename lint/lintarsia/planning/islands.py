"""A plan in islands, parts that cannot influence each other, so that a change somewhere is solved there alone."""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise

import numpy as np

from lintarsia.chart import Bounds, Chart
from lintarsia.chart.grid import RowIndex
from lintarsia.planning.cover import best_cover
from lintarsia.planning.cover.links import possible_links
from lintarsia.planning.edgework import EdgeWork, edge_work, first_row
from lintarsia.planning.parts import NewRun, Sums, table_with
from lintarsia.planning.runs import RunTable
from lintarsia.planning.threads import Ints, Threads


class Islands:
    """The components of a plan: runs that links could tie to each other, however far around."""

    def __init__(self, chart: Chart, bounds: Bounds, threads: Threads) -> None:
        self.chart, self.bounds, self.threads = chart, bounds, threads
        self._starts = np.searchsorted(threads.runs.row, np.arange(chart.grid.height + 1)).tolist()
        self._colours: list[int] = threads.runs.colour.tolist()

    def in_row(self, index: RowIndex) -> range:
        return range(self._starts[index], self._starts[index + 1])

    def colour(self, run: int) -> int:
        return self._colours[run]

    def joined(self, chain: Sequence[int], colour: int | None = None) -> NewRun:
        """Runs of a row, in the order worked, made into one. Without `colour`, gaps between them become floats."""
        runs = self.threads.runs
        first, last = chain[0], chain[-1]
        start, end = int(runs.start[first]), int(runs.start[last] + runs.stitches[last])
        steps = [] if colour is not None else pairwise(chain)
        floats = tuple(int(runs.start[b] - runs.start[a] - runs.stitches[a]) for a, b in steps)
        return NewRun(
            row=RowIndex(int(runs.row[first])),
            left=min(int(runs.left[run]) for run in (first, last)),
            right=max(int(runs.right[run]) for run in (first, last)),
            colour=self._colours[first] if colour is None else colour,
            entry=int(runs.entry[first]),
            exit=int(runs.exit[last]),
            start=start,
            extent=end - start,
            side=int(runs.side[first]),
            changed_from=int(runs.changed_from[first]),
            changed_to=int(runs.changed_to[first]),
            cast_on=int(self._edges.cast_on[list(chain)].sum()),
            bind_off=int(self._edges.bind_off[list(chain)].sum()),
            floats=floats,
        )

    @cached_property
    def _edges(self) -> EdgeWork:
        return edge_work(self.chart, self.threads)

    @cached_property
    def _component(self) -> Ints:
        """The component of each run. Without bounds a colour is one component, and cheap to solve whole."""
        runs, bounds = self.threads.runs, self.bounds
        if self._whole_colours:
            return runs.colour
        links = possible_links(runs, strand=bounds.strand, carry=bounds.carry, idle=bounds.idle)
        return _label(len(runs), links.tail, links.head)

    @cached_property
    def _whole_colours(self) -> bool:
        return self.threads.spiral or (self.bounds.strand is None and self.bounds.carry is None)

    @cached_property
    def _members(self) -> dict[int, Ints]:
        order = np.argsort(self._component, kind="stable")
        labels, first = np.unique(self._component[order], return_index=True)
        return dict(zip(labels.tolist(), np.split(order, first[1:]), strict=True))

    @cached_property
    def _floats(self) -> list[tuple[int, int]]:
        """(longest float, component), longest first, where there is any."""
        at = np.flatnonzero(self.threads.floats & (self.threads.cover.idle == 0))
        longest = np.zeros(int(self._component.max(initial=0)) + 1, np.int64)
        np.maximum.at(longest, self._component[at], self.threads.cover.carried[at])
        found = np.flatnonzero(longest)
        return sorted(((int(longest[c]), int(c)) for c in found), reverse=True)

    def longest_without(self, gone: set[int]) -> int:
        """The longest float of the plan outside some components."""
        return next((length for length, component in self._floats if component not in gone), 0)

    def without(self, gone: Sequence[int]) -> tuple[Sums, Sums]:
        """The part of the plan that some runs belong to, and the same with these runs left out."""
        return self.exchange(gone, [])

    def alone(self, chosen: Sequence[int], strand: int | None = None) -> tuple[Sums, Sums]:
        """Nothing, and some runs solved by themselves, with at least `strand`."""
        own = np.array(chosen)
        table = table_with(self.threads.runs, own, [])
        bound = self.bounds.strand
        wide = bound if bound is None or strand is None else max(bound, strand)
        return self._none, self._solve(table, own, [], wide)

    def exchange(self, gone: Sequence[int], new: Sequence[NewRun]) -> tuple[Sums, Sums]:
        """The part of the plan that a change touches: as it stands, and solved again with `new` for `gone`."""
        touched = {int(self._component[run]) for run in gone} | self._near(new)
        own = np.sort(np.concatenate([self._members[c] for c in sorted(touched)])) if touched else np.zeros(0, np.int64)
        kept = own[~np.isin(own, np.array(gone, np.int64))]
        table = table_with(self.threads.runs, kept, new)
        return self._standing(own, frozenset(touched)), self._solve(table, kept, new, self.bounds.strand)

    def _near(self, new: Sequence[NewRun]) -> set[int]:
        """The components that new runs could be linked to."""
        if not new:
            return set()
        if self._whole_colours:
            return {one.colour for one in new} & self._members.keys()
        runs, bounds = self.threads.runs, self.bounds
        rows = {one.row for one in new}
        reach = self.chart.grid.height if bounds.idle is None else bounds.idle + 1
        low, high = max(0, min(rows) - reach), min(self.chart.grid.height - 1, max(rows) + reach)
        window = np.arange(self._starts[low], self._starts[high + 1])
        window = window[np.isin(runs.colour[window], [one.colour for one in new])]
        table = table_with(runs, window, new)
        links = possible_links(table, strand=bounds.strand, carry=bounds.carry, idle=bounds.idle)
        starts = {int(start): int(run) for start, run in zip(runs.start[window], window, strict=True)}
        fresh = np.isin(table.start, [one.start for one in new])
        # A new run may begin where an old one did: then what it replaces is known by `gone` already.
        ties = np.flatnonzero(fresh[links.tail] | fresh[links.head])
        beside = np.concatenate([links.tail[ties], links.head[ties]])
        return {int(self._component[starts[s]]) for s in table.start[beside].tolist() if s in starts}

    def _standing(self, own: Ints, components: frozenset[int]) -> Sums:
        cover, runs = self.threads.cover, self.threads.runs
        floats = self.threads.floats[own]
        carried = cover.carried[own]
        needs = np.bincount(runs.row[own], minlength=self.threads.height)
        needs -= np.bincount(runs.row[own][cover.same_row[own]], minlength=self.threads.height)
        return Sums(
            supplies=int((cover.previous[own] < 0).sum()),
            stitches=int(runs.stitches[own].sum()),
            carried=int(carried[~floats].sum()),
            floated=int(carried[floats].sum()),
            idle=int(cover.idle[own].sum()),
            cast_on=int(self._edges.cast_on[own].sum()),
            bind_off=int(self._edges.bind_off[own].sum()),
            casting=int(needs[first_row(self.threads)]),
            needs=needs,
            components=components,
        )

    @cached_property
    def _none(self) -> Sums:
        return Sums(0, 0, 0, 0, 0, 0, 0, 0, np.zeros(self.threads.height, np.int64))

    def _solve(self, table: RunTable, kept: Ints, new: Sequence[NewRun], strand: int | None) -> Sums:
        if not len(table):
            return self._none
        bounds = self.bounds
        cover = best_cover(table, self.chart.worked, strand=strand, carry=bounds.carry, idle=bounds.idle)
        part = Threads(table, cover, self.threads.height, self.threads.spiral)
        floats = part.floats
        behind = [length for one in new for length in one.floats]
        return Sums(
            supplies=cover.supplies,
            stitches=int(table.stitches.sum()) - sum(behind),
            carried=int(cover.carried[~floats].sum()),
            floated=int(cover.carried[floats].sum()) + sum(behind),
            idle=int(cover.idle.sum()),
            cast_on=int(self._edges.cast_on[kept].sum()) + sum(one.cast_on for one in new),
            bind_off=int(self._edges.bind_off[kept].sum()) + sum(one.bind_off for one in new),
            casting=int(part.needs[first_row(self.threads)]),
            needs=part.needs,
            longest_float=max(part.longest_float, max(behind, default=0)),
        )


def _label(count: int, tail: Ints, head: Ints) -> Ints:
    """A number for each component of a graph: the lowest of its nodes."""
    label = np.arange(count)
    while True:
        low = np.minimum(label[tail], label[head])
        better = label.copy()
        np.minimum.at(better, label[tail], low)
        np.minimum.at(better, label[head], low)
        better = better[better]
        if np.array_equal(better, label):
            return label
        label = better
