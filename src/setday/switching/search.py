"""The cheapest cables of a plan: every tree of paths and every order of switches, weighed or ruled out.

On a tree every cable carries out and back the same current.  How many conductors must cross a path
follows from which devices lie beyond it; that gives a bound for each tree and order, and where one cable
holds them it is the cost itself.  Where one cable is too narrow, the devices beyond are divided between
two cables that share nothing but the grounds; the division is chosen by dynamic programming from the
ends of the tree toward the feed.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations_with_replacement, product
from time import perf_counter

from setday.switching.choice import Choice, Half, Outcome, Run
from setday.switching.demands import Demand, demands
from setday.switching.hookup import Hookup
from setday.switching.parting import whole_name, with_parted_boxes
from setday.switching.roles import PlanProblem
from setday.switching.trees import Tree, trees

__all__ = ["solve"]

_LEAST = 3
"""Conductors of the narrowest cable, ground counted: no path costs less."""
_ROUND = 1e-6


@dataclass(frozen=True, kw_only=True)
class _Prices:
    """For each number of conductors the cables that hold them and their conductors, ground counted."""

    rows: tuple[tuple[tuple[str, ...], int] | None, ...]

    def cost(self, strands: int) -> int | None:
        row = self.rows[strands] if strands < len(self.rows) else None
        return row[1] if row else None

    def kinds(self, strands: int) -> tuple[str, ...]:
        row = self.rows[strands]
        assert row is not None
        return row[0]


def _prices(problem: PlanProblem, *, cables: int) -> _Prices:
    widths = dict(problem.stock)
    offers = [
        (sum(widths[k] for k in kinds) + count, sum(widths[k] for k in kinds), kinds)
        for count in range(1, cables + 1)
        for kinds in combinations_with_replacement(widths, count)
    ]
    most = max(room for _, room, _ in offers)
    rows: list[tuple[tuple[str, ...], int] | None] = []
    for strands in range(most + 1):
        fitting = [(cost, kinds) for cost, room, kinds in offers if room >= strands]
        cost, kinds = min(fitting)
        rows.append((kinds, cost))
    return _Prices(rows=tuple(rows))


Division = tuple[int, ...]
"""The devices beyond a path, divided between its cables, as masks."""


@dataclass(frozen=True, slots=True)
class _Best:
    """The cheapest way to wire what is beyond a path with a given division there."""

    cost: float
    below: tuple[tuple[str, Division], ...]


@dataclass(slots=True, kw_only=True)
class _Found:
    cost: float = float("inf")
    strands: int = 0
    hookup: Hookup | None = None
    tree: Tree | None = None
    demand: Demand | None = None
    divisions: dict[str, Division] | None = None


def solve(problem: PlanProblem, *, seconds: float = 20.0) -> Outcome:
    """Find the cables with the fewest conductor-feet, every conductor of a cable counted, ground too.

    Parameters
    ----------
    problem : PlanProblem
    seconds : float
        Time limit [s].
    """
    return _Search(problem, deadline=perf_counter() + seconds).outcome()


class _Search:
    def __init__(self, problem: PlanProblem, *, deadline: float) -> None:
        self.problem = problem
        self.deadline = deadline
        self.one = _prices(problem, cables=2 if problem.two_cables else 1)
        self.loosest = _prices(problem, cables=2)
        self.orders: list[Demand] = []
        self.more_orders = demands(problem)
        self.found = _Found()
        self.late = False
        self.trees = 0
        self.least_passed = float("inf")
        self._take(problem.hookup)

    def _take(self, hookup: Hookup) -> None:
        """Go on with a layout: the file's own, or one with boxes parted."""
        self.hookup = hookup
        self.here = {
            box.name: sum(1 << n for n, d in enumerate(hookup.devices) if d.box == box.name)
            for box in hookup.boxes
        }

    def outcome(self) -> Outcome:
        """Weigh all trees and orders; where the paths have loops, those with parted boxes too."""
        self._sweep()
        whole = self.late
        for parted in with_parted_boxes(self.problem.hookup):
            if self.late or perf_counter() > self.deadline:
                self.late = True
                break
            self._take(parted)
            self._sweep()
        found = self.found
        counts = {"trees": self.trees, "orders": len(self.orders)}
        if found.tree is None:
            return Outcome(status="unknown" if self.late else "none", choice=None, **counts)
        bound = min(found.cost, self.least_passed) if whole else found.cost
        status = "proven" if not self.late else "found" if bound < found.cost - _ROUND else "proven whole"
        return Outcome(
            status=status, choice=self._choice(), conductor_feet=found.cost, bound_feet=bound, **counts
        )

    def _sweep(self) -> None:
        for tree in trees(self.hookup, enough=self._enough):
            self.trees += 1
            beyond = self._beyond(tree)
            for order in self._each_order():
                if self._out_of_time(tree.length_ft):
                    return
                for demand in self._with_neutrals(tree, beyond, order):
                    self._weigh(tree, beyond, demand)

    def _each_order(self) -> Iterator[Demand]:
        """Yield every order of the switches; each is put together once, when it is first wanted."""
        yield from tuple(self.orders)
        for order in self.more_orders:
            self.orders.append(order)
            yield order

    def _enough(self, length_ft: float) -> bool:
        """Pass over trees too long to be better; when time is up, over all, noting what they could cost."""
        if _LEAST * length_ft >= self.found.cost - _ROUND:
            return True
        return self._out_of_time(length_ft)

    def _out_of_time(self, length_ft: float) -> bool:
        """Say whether the time is up, and note what trees of this length could cost at the least."""
        if perf_counter() <= self.deadline:
            return False
        self.late = True
        self.least_passed = min(self.least_passed, _LEAST * length_ft)
        return True

    def _beyond(self, tree: Tree) -> dict[str, int]:
        """Return for each box the devices in it and beyond it."""
        beyond = {box: self.here[box] for box in tree.order}
        for box in reversed(tree.order[1:]):
            beyond[tree.parent[box][0]] |= beyond[box]
        return beyond

    def _with_neutrals(self, tree: Tree, beyond: dict[str, int], order: Demand) -> Iterator[Demand]:
        """Yield the demand with each choice of switch boxes the neutral could be brought to."""
        problem, hookup = self.problem, self.hookup
        if problem.neutral_at == "no":
            yield order
            return
        bit = {device.name: 1 << n for n, device in enumerate(hookup.devices)}
        choices: list[list[int]] = []
        for group in problem.groups:
            open_boxes = [hookup.box(hookup.device(name).box).reopens for name in group.switches]
            there = [self._has_neutral(tree, beyond, order, name) for name in group.switches]
            if problem.neutral_at == "every switch box":
                lacking = [
                    bit[n]
                    for n, there_, opened in zip(group.switches, there, open_boxes, strict=True)
                    if not (there_ or opened)
                ]
                choices.append([sum(lacking)])
            elif hookup.lighting & set(group.switches) and not any(there) and not any(open_boxes):
                choices.append([bit[name] for name in group.switches])
        for chosen in product(*choices):
            extra = 0
            for mask in chosen:
                extra |= mask
            yield order.with_neutral(extra) if extra else order

    def _has_neutral(self, tree: Tree, beyond: dict[str, int], order: Demand, switch: str) -> bool:
        """Say whether the neutral comes to the box of a switch on its way to a lamp."""
        box = whole_name(self.hookup.device(switch).box)
        parts = [name for name in tree.order if whole_name(name) == box]
        return any(name == tree.order[0] or order.neutral & beyond[name] for name in parts)

    def _weigh(self, tree: Tree, beyond: dict[str, int], demand: Demand) -> None:
        least = total = 0.0
        strands, narrow = 0, False
        for box in tree.order[1:]:
            length = tree.parent[box][1].length_ft
            crossing = demand.strands(beyond[box])
            strands += crossing
            single, any_ = self.one.cost(crossing), self.loosest.cost(crossing)
            least += length * (any_ if any_ is not None else _LEAST * 2)
            narrow = narrow or single is None
            total += length * (single or 0)
            if least > self.found.cost + _ROUND:
                return
        if not narrow:
            self._keep(total, strands, tree, demand, {box: (beyond[box],) for box in tree.order[1:]})
        elif least < self.found.cost - _ROUND:
            self._divide(tree, demand, strands)

    def _keep(
        self, cost: float, strands: int, tree: Tree, demand: Demand, divisions: dict[str, Division]
    ) -> None:
        better = cost < self.found.cost - _ROUND
        tidier = abs(cost - self.found.cost) <= _ROUND and strands < self.found.strands
        if better or tidier:
            self.found = _Found(
                cost=cost, strands=strands, hookup=self.hookup, tree=tree, demand=demand, divisions=divisions
            )

    def _divide(self, tree: Tree, demand: Demand, strands: int) -> None:
        """Divide the devices beyond each path between one or two cables, at the least cost."""
        options: dict[str, dict[Division, _Best]] = {}
        for box in reversed(tree.order[1:]):
            options[box] = self._options(tree, demand, box, options)
            if not options[box]:
                return
        divisions: dict[str, Division] = {}
        cost = 0.0
        for child in tree.children(tree.order[0]):
            division, best = min(options[child].items(), key=lambda item: (item[1].cost, item[0]))
            cost += best.cost
            self._unfold(child, division, options, divisions)
        self._keep(cost, strands, tree, demand, divisions)

    def _unfold(
        self,
        box: str,
        division: Division,
        options: dict[str, dict[Division, _Best]],
        into: dict[str, Division],
    ) -> None:
        into[box] = division
        for child, below in options[box][division].below:
            self._unfold(child, below, options, into)

    def _options(
        self, tree: Tree, demand: Demand, box: str, options: dict[str, dict[Division, _Best]]
    ) -> dict[Division, _Best]:
        """Return the cheapest wiring of a box and what is beyond, for each division on the path to it."""
        children = tree.children(box)
        own = [1 << n for n in range(len(self.hookup.devices)) if self.here[box] >> n & 1]
        length = tree.parent[box][1].length_ft
        best: dict[Division, _Best] = {}
        costs: dict[int, int | None] = {}
        for below in product(*(options[child].items() for child in children)):
            items = [*own, *(part for division, _ in below for part in division)]
            base = sum(each.cost for _, each in below)
            kept = tuple((child, division) for child, (division, _) in zip(children, below, strict=True))
            for division in _divisions(items):
                cost = base
                for part in division:
                    if part not in costs:
                        costs[part] = self.one.cost(demand.strands(part))
                    each = costs[part]
                    cost = float("inf") if each is None else cost + length * each
                if cost < best.get(division, _WORST).cost:
                    best[division] = _Best(cost, kept)
        return best

    def _choice(self) -> Choice:
        """Return the best as runs between halves of boxes."""
        found = self.found
        tree, demand, divisions, hookup = found.tree, found.demand, found.divisions, found.hookup
        assert tree is not None
        assert demand is not None
        assert divisions is not None
        assert hookup is not None
        half_of = {device.name: _half(device.box, 0) for device in hookup.devices}
        runs: list[Run] = []
        for box in tree.order[1:]:
            above, path = tree.parent[box]
            for n, part in enumerate(divisions[box]):
                near = _half(above, _holder(divisions.get(above, ()), part))
                kinds = self.one.kinds(demand.strands(part))
                far = _half(box, n)
                roles = demand.roles(part)
                runs.append(Run(near=near, far=far, length_ft=path.length_ft, kinds=kinds, roles=roles))
                for place, device in enumerate(hookup.devices):
                    if device.box == box and part >> place & 1:
                        half_of[device.name] = far
        halves = tuple((name, half[1]) for name, half in half_of.items())
        return Choice(runs=tuple(runs), chains=demand.chains, halves=halves)


def _half(box: str, division: int) -> Half:
    """Return a half by the box's own name: 0 and 1 for a division, 2 and 3 where the box is parted."""
    whole = whole_name(box)
    return whole, division if whole == box else division + 2


_WORST = _Best(float("inf"), ())


def _divisions(items: list[int]) -> Iterator[Division]:
    """Yield every way to put items in one or two parts."""
    whole = 0
    for item in items:
        whole |= item
    yield (whole,)
    for chosen in range(1, 1 << max(0, len(items) - 1)):
        part = 0
        for n, item in enumerate(items[1:]):
            if chosen >> n & 1:
                part |= item
        first = whole & ~part
        yield (min(first, part), max(first, part))


def _holder(divisions: Division, part: int) -> int:
    """Return which part of the box nearer the feed a cable's devices belong to."""
    return next((n for n, above in enumerate(divisions) if above & part == part), 0)
