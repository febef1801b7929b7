"""A short way through stops that may each be entered at several places; mm.

Nearest neighbour, then 2-opt and Or-opt over near neighbours until nothing is gained (G. A. Croes
1958; I. Or 1976), then the best place of each stop for that order, and the same again. The way
starts at a given point and ends anywhere. Points are complex numbers here, whose difference has
its length by `abs`.
"""

from __future__ import annotations

from collections.abc import Sequence

from cutpaths.shapes import Point
from cutpaths.values import Value

NEIGHBOURS = 8
ROUNDS = 2
_GAIN = 1e-9  # mm; less is rounding
_LONGEST_MOVED = 3
_MOVES_MOST = 30  # times the number of stops; never reached but by mistake


class Stop(Value):
    """Places where a stop may be entered, and for each where it is then left."""

    entries: tuple[Point, ...]
    exits: tuple[Point, ...]

    @property
    def turns(self) -> bool:
        """Whether it is left elsewhere than entered, so that it can be passed both ways."""
        return self.entries != self.exits


def toured(stops: Sequence[Stop], home: Point) -> tuple[tuple[int, int], ...]:
    """The order of the stops, and the place where each is entered."""
    if not stops:
        return ()
    chosen = [0] * len(stops)
    near = _neighbours([complex(*stop.entries[0]) for stop in stops])
    order = _nearest_first(stops, near, complex(*home))
    for _ in range(ROUNDS):
        tour = _Tour(stops, order, chosen, near, complex(*home))
        tour.improve()
        order = tour.nodes[1:]
        flips = tour.flipped
        chosen = [
            1 - chosen[n] if flips[n] and stops[n].turns else chosen[n] for n in range(len(stops))
        ]
        chosen = _best_entries(stops, order, complex(*home))
    return tuple((n, chosen[n]) for n in order)


def _nearest_first(
    stops: Sequence[Stop], near: Sequence[Sequence[int]], here: complex
) -> list[int]:
    """Always to the nearest stop left; among near neighbours while there are any."""
    places = [[complex(*p) for p in stop.entries[:2]] for stop in stops]
    left = set(range(len(stops)))
    order: list[int] = []
    while left:
        candidates = [n for n in near[order[-1]] if n in left] if order else []
        best = min(
            (abs(p - here), n, k) for n in candidates or left for k, p in enumerate(places[n])
        )
        _, nearest, entry = best
        left.discard(nearest)
        order.append(nearest)
        here = complex(*stops[nearest].exits[entry])
    return order


def _best_entries(stops: Sequence[Stop], order: Sequence[int], home: complex) -> list[int]:
    """The places that make an order shortest: the shortest way through layers of places."""
    ways: list[list[int]] = []
    costs, exits = [0.0], [home]
    for n in order:
        entries = [complex(*p) for p in stops[n].entries]
        best = [
            min(
                (cost + abs(e - x), k) for k, (cost, x) in enumerate(zip(costs, exits, strict=True))
            )
            for e in entries
        ]
        costs, exits = [cost for cost, _ in best], [complex(*p) for p in stops[n].exits]
        ways.append([k for _, k in best])
    chosen = [0] * len(stops)
    place = costs.index(min(costs))
    for n, way in zip(reversed(order), reversed(ways), strict=True):
        chosen[n] = place
        place = way[place]
    return chosen


class _Tour:
    """An order under improvement; changed in place. Position 0 is home and stays.

    `enter` and `leave` go by position; a stop that is passed the other way round is flipped.
    """

    __slots__ = ("enter", "flipped", "leave", "near", "nodes", "place")

    def __init__(
        self,
        stops: Sequence[Stop],
        order: Sequence[int],
        chosen: Sequence[int],
        near: Sequence[Sequence[int]],
        home: complex,
    ) -> None:
        self.nodes = [-1, *order]
        self.enter = [home, *(complex(*stops[n].entries[chosen[n]]) for n in order)]
        self.leave = [home, *(complex(*stops[n].exits[chosen[n]]) for n in order)]
        self.place = {n: k for k, n in enumerate(self.nodes)}
        self.flipped = [False] * len(stops)
        self.near = near

    def improve(self) -> None:
        """Makes every gainful move there is."""
        moves = _MOVES_MOST * len(self.nodes)
        waiting = list(self.nodes[1:])
        queued = set(waiting)
        while waiting and moves:
            n = waiting.pop()
            queued.discard(n)
            touched = self._uncross(n) or self._carry(n)
            if touched:
                moves -= 1
                for each in (*touched, n):
                    if each >= 0 and each not in queued:
                        queued.add(each)
                        waiting.append(each)

    def _uncross(self, n: int) -> tuple[int, ...]:
        """2-opt: turns the stretch between n and a neighbour round; the stops at its ends."""
        enter, leave, last = self.enter, self.leave, len(self.nodes) - 1
        p = self.place[n]
        for c in self.near[n]:
            q = self.place[c]
            i, j = (p + 1, q) if p < q else (q + 1, p)
            for low, high in ((i, j), (i - 1, j - 1)):
                if low < 1 or low >= high:
                    continue
                gain = abs(leave[low - 1] - enter[low]) - abs(leave[low - 1] - leave[high])
                if high < last:
                    gain += abs(leave[high] - enter[high + 1]) - abs(enter[low] - enter[high + 1])
                if gain > _GAIN:
                    self._turn(low, high)
                    after = self.nodes[high + 1] if high < last else -1
                    return self.nodes[low - 1], self.nodes[low], self.nodes[high], after
        return ()

    def _turn(self, low: int, high: int) -> None:
        part = slice(low, high + 1)
        self.nodes[part] = self.nodes[part][::-1]
        enter, leave = self.enter[part], self.leave[part]
        self.enter[part], self.leave[part] = leave[::-1], enter[::-1]
        for k in range(low, high + 1):
            self.place[self.nodes[k]] = k
            self.flipped[self.nodes[k]] = not self.flipped[self.nodes[k]]

    def _carry(self, n: int) -> tuple[int, ...]:
        """Or-opt: carries n, and up to two stops after it, to the side of a neighbour."""
        for length in range(1, _LONGEST_MOVED + 1):
            p = self.place[n]
            if p + length > len(self.nodes):
                return ()
            for c in self.near[n]:
                for q in (self.place[c], self.place[c] - 1):
                    # The stretch p .. p + length - 1 goes between q and q + 1.
                    if q < p - 1 or q >= p + length:
                        touched = self._carried(p, length, q)
                        if touched:
                            return touched
        return ()

    def _carried(self, p: int, length: int, q: int) -> tuple[int, ...]:
        """Moves a stretch to behind position q, either way round, where that gains."""
        enter, leave, last = self.enter, self.leave, len(self.nodes) - 1
        if q < 0:
            return ()
        r = p + length - 1
        gain = abs(leave[p - 1] - enter[p])
        if r < last:
            gain += abs(leave[r] - enter[r + 1]) - abs(leave[p - 1] - enter[r + 1])
        straight, turned = abs(leave[q] - enter[p]), abs(leave[q] - leave[r])
        if q < last:
            gain += abs(leave[q] - enter[q + 1])
            straight += abs(leave[r] - enter[q + 1])
            turned += abs(enter[p] - enter[q + 1])
        if gain - min(straight, turned) <= _GAIN:
            return ()
        touched = (self.nodes[p - 1], self.nodes[min(r + 1, last)], self.nodes[q])
        if turned < straight:
            self._turn(p, r)
        self._shift(p, length, q)
        return touched

    def _shift(self, p: int, length: int, q: int) -> None:
        for row in (self.nodes, self.enter, self.leave):
            self._move(row, p, length, q)
        low, high = min(p, q + 1), max(p + length, q + 1)
        for k in range(low, high):
            self.place[self.nodes[k]] = k

    @staticmethod
    def _move(row: list[int] | list[complex], p: int, length: int, q: int) -> None:
        part = row[p : p + length]
        del row[p : p + length]
        at = q + 1 if q < p else q + 1 - length
        row[at:at] = part  # type: ignore[assignment]  # a part of the same list


def _neighbours(points: list[complex]) -> list[list[int]]:
    """For each point the nearest others, by way of a grid of squares."""
    size = len(points)
    if size <= NEIGHBOURS + 1:
        return [[m for m in range(size) if m != n] for n in range(size)]
    xs, ys = [p.real for p in points], [p.imag for p in points]
    span = max(max(xs) - min(xs), max(ys) - min(ys), 1.0)
    cell = span / max(1.0, (size / 2) ** 0.5)
    grid: dict[tuple[int, int], list[int]] = {}
    for n, p in enumerate(points):
        grid.setdefault((int(p.real // cell), int(p.imag // cell)), []).append(n)
    return [_nearest(n, points, grid, cell) for n in range(size)]


def _nearest(
    n: int, points: list[complex], grid: dict[tuple[int, int], list[int]], cell: float
) -> list[int]:
    here = points[n]
    column, row = int(here.real // cell), int(here.imag // cell)
    found: list[int] = []
    reach = 1
    while len(found) < NEIGHBOURS and reach < 64:
        found = [
            m
            for i in range(column - reach, column + reach + 1)
            for j in range(row - reach, row + reach + 1)
            for m in grid.get((i, j), ())
            if m != n
        ]
        reach *= 2
    return sorted(found, key=lambda m: abs(points[m] - here))[:NEIGHBOURS]
