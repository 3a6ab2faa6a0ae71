"""Planning: the hookup with the fewest conductor-feet, proven and tried before it is shown."""

from dataclasses import dataclass

from setday.errors import NoAnswer
from setday.rules import RuleBook
from setday.switching.choice import Outcome
from setday.switching.hookup import Hookup
from setday.switching.judging import Judgment, judge
from setday.switching.kinds import cable_kind
from setday.switching.laying import laid
from setday.switching.roles import plan_problem
from setday.switching.rulebook import switching_rules
from setday.switching.search import solve
from setday.switching.trial import Breaker

__all__ = ["Plan", "conductor_feet", "plan"]


@dataclass(frozen=True, kw_only=True, eq=False)
class Plan:
    """A planned hookup.

    Parameters
    ----------
    hookup : Hookup
    conductor_feet : float
        Of its cables without the feed, grounds counted [ft].
    bound_feet : float
        Proven: no choice of cables has fewer [ft].
    proven : bool
        True when the two are equal, within the scope.
    judgment : Judgment
        It was tried in every position, and held against the code rules in force.
    scope : str
        Among which hookups it is the best.
    """

    hookup: Hookup
    conductor_feet: float
    bound_feet: float
    proven: bool
    judgment: Judgment
    scope: str


_KIND = (
    "in which the supply goes to the first switch of each light, travelers go from switch to switch, the"
    " neutral goes to the lamps unswitched, and the cables follow a tree of the given paths, so that each"
    " carries out and back the same current (two on one path where one is too narrow, each with its own"
    " devices)"
)
_SCOPES = {
    "proven": f"Least among all hookups {_KIND}: every tree and every order of the switches was weighed or"
    " ruled out by its length, boxes wired in two parts included.",
    "proven whole": f"Least among all hookups {_KIND}, every box wired as a whole. Boxes wired in two parts"
    " over a loop of paths were not all weighed in the time given.",
    "found": f"The best found in the time given, among hookups {_KIND}.",
}


def conductor_feet(hookup: Hookup) -> float:
    """Return length times conductors, grounds counted, over all cables but the feed [ft]."""
    return sum(cable.length_ft * len(cable_kind(cable.kind).colors) for cable in hookup.cables)


def plan(
    hookup: Hookup, rules: RuleBook | None = None, *, stock: tuple[str, ...] = (), seconds: float = 1.5
) -> Plan:
    """Plan the hookup with the fewest conductor-feet.

    Parameters
    ----------
    hookup : Hookup
        Boxes, devices, feed, paths and wants; cables and joins in it are passed over.
    rules : RuleBook or None
        None takes the published rules with the hookup's own local ones.
    stock : tuple of str
        Cables there are, like ("14/2", "14/3", "14/4"); empty for two- and three-conductor cable of the
        feed's size.
    seconds : float
        Time limit of the search [s].

    Raises
    ------
    NoAnswer
        When no hookup does what is wanted with these paths and cables; it says what would help.
    """
    rules = rules or switching_rules(hookup.local)
    problem = plan_problem(hookup, rules, stock=stock)
    outcome = solve(problem, seconds=seconds)
    if outcome.choice is None:
        raise _no_answer(hookup, rules, outcome, stock, seconds)
    found = laid(problem, outcome.choice)
    judgment = judge(found, rules, mend=False)
    overload = [tried for tried in judgment.trial.positions if tried.breaker is Breaker.OVERLOAD]
    if overload:
        raise NoAnswer(
            f"The loads together take {max(tried.breaker_a for tried in overload):.1f} A, more than the"
            f" breaker's {hookup.feed.breaker_a:g} A.",
            do="Take smaller lamps, or divide them over two circuits.",
        )
    if not judgment.works:
        raise AssertionError(f"a planned hookup does not work: {judgment.behavior}")
    return Plan(
        hookup=found,
        conductor_feet=conductor_feet(found),
        bound_feet=outcome.bound_feet,
        proven=outcome.status != "found",
        judgment=judgment,
        scope=_SCOPES[outcome.status],
    )


def _no_answer(
    hookup: Hookup, rules: RuleBook, outcome: Outcome, stock: tuple[str, ...], seconds: float
) -> NoAnswer:
    if outcome.status == "unknown":
        return NoAnswer("No hookup was found in the time given.", do="Give it more time.")
    apart = _unreached(hookup)
    if apart:
        return NoAnswer(
            f"No path leads from the feed's box to {', '.join(apart)}.",
            do=f"Say under 'paths' where a cable could be run, like '{hookup.feed.box} to {apart[0]}, 12 ft';"
            " cables that are there already are not taken for paths.",
        )
    size = hookup.feed.kind.split("/")[0]
    wider = tuple(dict.fromkeys((*(stock or (f"{size}/2", f"{size}/3")), f"{size}/4")))
    if wider != stock and f"{size}/4" not in stock:
        with_four = solve(plan_problem(hookup, rules, stock=wider), seconds=seconds)
        if with_four.choice:
            where = ", ".join(
                f"'{run.near[0]}' to '{run.far[0]}'"
                for run in with_four.choice.runs
                if f"{size}/4" in run.kinds
            )
            return NoAnswer(
                f"Four conductors must run together from {where}.",
                do=f"Take cables {', '.join(wider)}, or add a path, or have the local authority say whether"
                " two cables may share the circuit (local rule switching.one_cable: no).",
            )
    return NoAnswer(
        "No hookup does what is wanted over these paths with these cables.",
        do="Add paths between the boxes, or wider cables.",
    )


def _unreached(hookup: Hookup) -> list[str]:
    reached = {hookup.feed.box}
    for _ in hookup.boxes:
        reached |= {path.b for path in hookup.paths if path.a in reached}
        reached |= {path.a for path in hookup.paths if path.b in reached}
    needed = dict.fromkeys(device.box for device in hookup.devices)
    return [box for box in needed if box not in reached]
