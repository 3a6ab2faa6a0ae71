"""The planning problem as a mixed model for CP-SAT: another way to the least conductor-feet.

It shares no code with the search: connectedness is said by constraints, boxes may be wired as two halves
reached over different paths, and the solver proves the bound.
"""

from itertools import combinations

from ortools.sat.python import cp_model

from setday.switching import DeviceKind, Hookup

WIDTHS = ((0, 0), (2, 3), (3, 4))
"""Insulated conductors of a cable and all its conductors: two- and three-conductor cable with ground."""


class CableModel:
    def __init__(self, hookup: Hookup) -> None:
        self.m = cp_model.CpModel()
        self.h = hookup
        self.device = {d.name: d for d in hookup.devices}
        self.root = (hookup.feed.box, 0)
        self.halves = [(b.name, n) for b in hookup.boxes for n in (0, 1) if n == 0 or b.name != self.root[0]]
        self.edges = [
            ((p.a, i), (p.b, j), p.length_ft)
            for p in hookup.paths
            for i in (0, 1)
            for j in (0, 1)
            if {(p.a, i), (p.b, j)} <= set(self.halves)
        ]
        groups: dict[tuple[str, ...], list[str]] = {}
        for want in hookup.wants:
            load = next(d.name for d in hookup.devices if any(want.load == name for name, _, _ in d.loads))
            groups.setdefault(want.switches, []).append(load)
        self.groups = groups
        self.roles: dict[str, int] = {"hot": 1, "neutral": 1}
        for number, switches in enumerate(groups):
            if switches:
                self.roles[f"switched {number}"] = 1
                self.roles |= {f"pair {number} {k}": 2 for k in range(len(switches) - 1)}
        self.tree()
        self.at_halves()
        self.role_parts()
        for number, (switches, loads) in enumerate(groups.items()):
            self.group(number, switches, loads)
        self.price()

    def new(self):
        return self.m.new_bool_var("")

    def tree(self):
        self.used = {h: self.new() for h in self.halves}
        depth = {h: self.m.new_int_var(0, len(self.halves), "") for h in self.halves}
        self.run = [self.new() for _ in self.edges]
        into = {h: [] for h in self.halves}
        for n, (a, b, _) in enumerate(self.edges):
            arcs = self.new(), self.new()
            self.m.add(sum(arcs) == self.run[n])
            for arc, tail, head in ((arcs[0], a, b), (arcs[1], b, a)):
                into[head].append(arc)
                self.m.add_implication(arc, self.used[tail])
                self.m.add(depth[head] == depth[tail] + 1).only_enforce_if(arc)
        for h in self.halves:
            self.m.add(sum(into[h]) == (0 if h == self.root else self.used[h]))
        self.m.add(self.used[self.root] == 1)
        for box, n in self.halves:
            if n:
                self.m.add_implication(self.used[box, 1], self.used[box, 0])

    def at_halves(self):
        self.at = {}
        for d in self.h.devices:
            here = [h for h in self.halves if h[0] == d.box]
            self.at[d.name] = {h: self.new() for h in here}
            self.m.add_exactly_one(self.at[d.name].values())
            for h, var in self.at[d.name].items():
                self.m.add_implication(var, self.used[h])

    def role_parts(self):
        self.has = {(r, h): self.new() for r in self.roles for h in self.halves}
        self.along = {(r, n): self.new() for r in self.roles for n in range(len(self.edges))}
        for r in self.roles:
            for n, (a, b, _) in enumerate(self.edges):
                for implied in (self.run[n], self.has[r, a], self.has[r, b]):
                    self.m.add_implication(self.along[r, n], implied)
            self.m.add(
                sum(self.along[r, n] for n in range(len(self.edges)))
                == sum(self.has[r, h] for h in self.halves) - 1
            )
        for r in ("hot", "neutral"):
            self.m.add(self.has[r, self.root] == 1)

    def needs(self, role, device, *conditions):
        for h, var in self.at[device].items():
            self.m.add_bool_or([self.has[role, h], ~var, *(~c for c in conditions)])

    def group(self, number, switches, loads):
        switched = f"switched {number}" if switches else "hot"
        for load in loads:
            self.needs(switched, load)
            self.needs("neutral", load)
        many = len(switches)
        place = {(s, k): self.new() for s in switches for k in range(many)}
        for k in range(many):
            self.m.add_exactly_one(place[s, k] for s in switches)
        for s in switches:
            self.m.add_exactly_one(place[s, k] for k in range(many))
            if many > 1:
                inner = self.device[s].kind is DeviceKind.FOUR_WAY
                for k in range(many):
                    if inner == (k in (0, many - 1)):
                        self.m.add(place[s, k] == 0)
            self.needs("hot", s, place[s, 0])
            self.needs(switched, s, place[s, many - 1])
            for k in range(many - 1):
                self.needs(f"pair {number} {k}", s, place[s, k])
                self.needs(f"pair {number} {k}", s, place[s, k + 1])
        boxes = {self.device[s].box for s in switches}
        if boxes:
            self.m.add_bool_or([self.has["neutral", h] for h in self.halves if h[0] in boxes])
        self.cuts(number, switches, loads, place)

    def cuts(self, number, switches, loads, place):
        """Help the proof along: a role with ends on both sides of a division of the boxes crosses it."""
        names = [b.name for b in self.h.boxes if b.name != self.root[0]]
        for count in range(1, len(names) + 1):
            for far in combinations(names, count):
                over = [n for n, (a, b, _) in enumerate(self.edges) if (a[0] in far) != (b[0] in far)]
                beyond = [s for s in switches if self.device[s].box in far]
                if any(self.device[load].box in far for load in loads):
                    self.m.add(sum(self.along["neutral", n] for n in over) >= 1)
                for k in range(len(switches) - 1):
                    across = sum(self.along[f"pair {number} {k}", n] for n in over)
                    one, other = (sum(place[s, i] for s in beyond) for i in (k, k + 1))
                    self.m.add(across >= one - other)
                    self.m.add(across >= other - one)

    def price(self):
        cost = []
        for n, (_, _, feet) in enumerate(self.edges):
            width = [self.new() for _ in WIDTHS]
            self.m.add_exactly_one(width)
            self.m.add(width[0] == 1 - self.run[n])
            needed = sum(many * self.along[r, n] for r, many in self.roles.items())
            self.m.add(needed <= sum(room * var for (room, _), var in zip(WIDTHS, width, strict=True)))
            cost += [
                all_ * round(feet * 12) * var for (_, all_), var in zip(WIDTHS, width, strict=True) if all_
            ]
        self.m.minimize(sum(cost))


def least_conductor_feet(hookup: Hookup, *, seconds: float = 20.0) -> float | None:
    """Return the least conductor-feet as CP-SAT proves it; None where nothing is possible."""
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = seconds
    solver.parameters.num_workers = 1
    solver.parameters.random_seed = 1
    status = solver.solve(CableModel(hookup).m)
    if status == cp_model.INFEASIBLE:
        return None
    assert status == cp_model.OPTIMAL, "no proof in the time given"
    return solver.objective_value / 12
