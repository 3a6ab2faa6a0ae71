"""OR-Tools' CP-SAT behind a small door: silent, seeded, a time limit, progress, an answer with its bound."""

from collections.abc import Callable, Mapping
from threading import Event, Thread

from ortools.sat.python import cp_model

from setday.solving.answer import Answer, Status
from setday.solving.limits import Limits

__all__ = ["OnProgress", "run_cpsat"]

OnProgress = Callable[[Answer], bool | None]
"""Told the best answer so far; answers False to end the search and keep it."""

_HEARTBEAT = 0.2
"""How often progress is told [s]."""


def run_cpsat(
    model: cp_model.CpModel,
    *,
    limits: Limits,
    on_progress: OnProgress | None = None,
    options: Mapping[str, object] | None = None,
) -> Answer:
    """Solve a model.

    Parameters
    ----------
    model : CpModel
    limits : Limits
        Time limit, seed and workers.
    on_progress : callable, optional
        Called in the caller's own thread several times a second, also while nothing better is found.
    options : mapping, optional
        CP-SAT parameters by name: `{"linearization_level": 2}`.

    Returns
    -------
    Answer
        `values[variable.index]` is a variable's value.

    Raises
    ------
    ValueError
        When the model or an option is malformed.
    """
    solver = cp_model.CpSolver()
    solver.parameters.max_time_in_seconds = max(limits.seconds, 0.0)
    solver.parameters.random_seed = limits.seed
    solver.parameters.num_workers = limits.workers
    for name, value in (options or {}).items():
        _set(solver, name, value)
    if on_progress is None:
        return _read(solver, solver.solve(model), stopped=False)
    return _Told(solver, model, on_progress).run()


class _Told:
    """A run that tells how far it is; the solver works in a thread beside the caller's."""

    def __init__(self, solver: cp_model.CpSolver, model: cp_model.CpModel, on_progress: OnProgress) -> None:
        self.solver, self.model, self.on_progress = solver, model, on_progress
        self.latest = Answer(status=Status.NONE)
        self.ended = Event()
        self.status = cp_model.UNKNOWN
        self.failed: BaseException | None = None

    def run(self) -> Answer:
        thread = Thread(target=self._solve, daemon=True)
        thread.start()
        stopped = False
        try:
            while not self.ended.wait(_HEARTBEAT):
                stopped = stopped or self.on_progress(self.latest) is False
                if stopped:
                    self.solver.stop_search()
        finally:
            self.solver.stop_search()
            thread.join()
        if self.failed is not None:
            raise self.failed
        return _read(self.solver, self.status, stopped=stopped)

    def _solve(self) -> None:
        better = _Better(self)
        self.solver.best_bound_callback = better.bound
        try:
            self.status = self.solver.solve(self.model, better)
        except BaseException as fault:  # noqa: BLE001  raised again in the caller's thread
            self.failed = fault
        finally:
            self.ended.set()


class _Better(cp_model.CpSolverSolutionCallback):
    """Keeps the latest answer."""

    def __init__(self, told: _Told) -> None:
        super().__init__()
        self.told = told

    def on_solution_callback(self) -> None:
        self.told.latest = Answer(
            status=Status.FEASIBLE,
            values=tuple(self.response_proto.solution),
            objective=self.objective_value,
            bound=self.best_objective_bound,
        )

    def bound(self, value: float) -> None:
        was = self.told.latest
        self.told.latest = Answer(
            status=was.status, values=was.values, objective=was.objective, bound=float(value)
        )


def _set(solver: cp_model.CpSolver, name: str, value: object) -> None:
    try:
        if isinstance(value, list):
            getattr(solver.parameters, name).extend(value)
        else:
            setattr(solver.parameters, name, value)
    except (AttributeError, TypeError) as fault:
        raise ValueError(f"CP-SAT takes no option {name} = {value!r}") from fault


def _read(solver: cp_model.CpSolver, status: cp_model.CpSolverStatus, *, stopped: bool) -> Answer:
    if status == cp_model.MODEL_INVALID:
        raise ValueError("CP-SAT calls the model invalid")
    if status == cp_model.INFEASIBLE:
        return Answer(status=Status.NONE, final=True)
    if status not in {cp_model.OPTIMAL, cp_model.FEASIBLE}:
        return Answer(status=Status.NONE, bound=solver.best_objective_bound)
    final = status == cp_model.OPTIMAL
    return Answer(
        status=Status.OPTIMAL if final else Status.STOPPED if stopped else Status.FEASIBLE,
        values=tuple(solver.response_proto.solution),
        objective=solver.objective_value,
        bound=solver.best_objective_bound,
        final=final,
    )
