"""Outlets divided over circuits as a model for CP-SAT: trees with a flow of load."""

from ortools.sat.python import cp_model

from setday.cable.circuits.grouping import GroupingProblem
from setday.solving import Answer, Limits, run_cpsat

__all__ = ["PER_FOOT", "groups_of", "solve_groups"]

PER_FOOT = 100
"""Lengths go into the model in hundredths of a foot."""
_HALF = 0.5
_STEPS = 0.4
"""Deterministic time of the search: the same on every machine (our own)."""


def solve_groups(
    problem: GroupingProblem, *, hint: tuple[tuple[int, ...], ...] | None, limits: Limits
) -> Answer:
    """Divide outlets over circuits; the objective is in 1/100 ft, rounded down a cable.

    Every node is reached by one cable, from the panel or from another node; exactly so many cables leave
    the panel as there are circuits; the load that flows into a cable from the panel is what a circuit may
    carry at most.
    """
    model = _Model(problem)
    if hint:
        model.add_hint(hint)
    return run_cpsat(
        model.model,
        limits=limits,
        options={"max_deterministic_time": _STEPS, "linearization_level": 2},
    )


def groups_of(problem: GroupingProblem, answer: Answer) -> tuple[tuple[int, ...], ...] | None:
    """Return the division that an answer of the model stands for, or None where it has none."""
    if not answer.values:
        return None
    model = _Model(problem)
    leader = {n: n for n, var in enumerate(model.first) if answer.values[var.index] > _HALF}
    before = {b: a for (a, b), var in model.pulled.items() if answer.values[var.index] > _HALF}
    groups: dict[int, list[int]] = {n: [] for n in leader}
    for node in range(len(problem.names)):
        home = node
        while home not in leader:
            home = before[home]
        groups[home].append(node)
    return tuple(sorted(tuple(group) for group in groups.values()))


class _Model:
    """The variables: which cables are pulled, and the load each feeds."""

    def __init__(self, problem: GroupingProblem) -> None:
        self.problem = problem
        self.model = cp_model.CpModel()
        nodes = range(len(problem.names))
        self.first = [self.model.new_bool_var(f"first {n}") for n in nodes]
        self.pulled = {(a, b): self.model.new_bool_var(f"{a} to {b}") for a in nodes for b in nodes if a != b}
        self._each_node_is_reached_once()
        self._load_flows()
        if problem.spread:
            self._spread_over_the_circuits()
        self._shortest()

    def _each_node_is_reached_once(self) -> None:
        for n in range(len(self.problem.names)):
            into = [var for (_, b), var in self.pulled.items() if b == n]
            self.model.add_exactly_one([self.first[n], *into])
        self.model.add(sum(self.first) == self.problem.circuits)

    def _load_flows(self) -> None:
        """Load on each cable: at least what its end needs, at most what the circuit may still carry."""
        loads, most = self.problem.loads, self.problem.most_va
        nodes = range(len(loads))
        flow = {
            (a, b): self.model.new_int_var(0, max(0, most - loads[a]), f"load {a} to {b}")
            for a, b in self.pulled
        }
        home = [self.model.new_int_var(0, most, f"load of {n}") for n in nodes]
        for (a, b), var in self.pulled.items():
            self.model.add(flow[a, b] <= max(0, most - loads[a]) * var)
            self.model.add(flow[a, b] >= loads[b] * var)
        for n in nodes:
            self.model.add(home[n] <= most * self.first[n])
            self.model.add(home[n] >= loads[n] * self.first[n])
            into = sum(flow[a, n] for a in nodes if a != n)
            out = sum(flow[n, b] for b in nodes if b != n)
            self.model.add(home[n] + into - out == loads[n])

    def _spread_over_the_circuits(self) -> None:
        """Each circuit, named by the node its home run goes to, holds a node that all must have one of."""
        nodes = range(len(self.problem.names))
        on = {(n, h): self.model.new_bool_var(f"{n} with {h}") for n in nodes for h in nodes}
        for n in nodes:
            self.model.add_exactly_one([on[n, h] for h in nodes])
            self.model.add(on[n, n] == self.first[n])
        for h in nodes:
            self.model.add_bool_or(
                [self.first[h].negated(), *(on[n, h] for n in sorted(self.problem.spread))]
            )
            for (a, b), var in self.pulled.items():
                self.model.add_implication(on[a, h], on[b, h]).only_enforce_if(var)
                self.model.add_implication(on[b, h], on[a, h]).only_enforce_if(var)

    def _shortest(self) -> None:
        problem = self.problem
        cost = [(int(problem.from_panel[n] * PER_FOOT), var) for n, var in enumerate(self.first)]
        cost += [(int(problem.between[a][b] * PER_FOOT), var) for (a, b), var in self.pulled.items()]
        self.model.minimize(sum(price * var for price, var in cost))

    def add_hint(self, groups: tuple[tuple[int, ...], ...]) -> None:
        """Start from a division: the cables of its least trees."""
        pulled = set()
        for group in groups:
            home = min(group, key=lambda n: self.problem.from_panel[n])
            reached, left = [home], [n for n in group if n != home]
            self.model.add_hint(self.first[home], 1)
            while left:
                a, b = min(
                    ((a, b) for a in reached for b in left), key=lambda ab: self.problem.between[ab[0]][ab[1]]
                )
                pulled.add((a, b))
                reached.append(b)
                left.remove(b)
        for ab, var in self.pulled.items():
            self.model.add_hint(var, ab in pulled)
