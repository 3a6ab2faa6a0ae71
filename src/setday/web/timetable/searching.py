"""The long work of timetables: a search from a record, a repair, the odds."""

from time import perf_counter
from typing import TYPE_CHECKING, Any, Protocol

from setday.solving import Limits
from setday.web.houses.opening import opened
from setday.web.keeping.models import TimetableRun
from setday.web.timetable.figured import day_of, saved_timetable
from setday.web.timetable.gated import gates_standing
from setday.web.timetable.logged import Logged, logged

if TYPE_CHECKING:
    from setday.actions.timetable.odds import ClassOdds
    from setday.actions.timetable.problem import ClassDay
    from setday.actions.timetable.repair import Repaired
    from setday.actions.timetable.solving import Progress, Timetable
    from setday.actions.timetable.standing import Standing

__all__ = ["Watch", "explain", "facts_of", "play_odds", "repair", "search", "standing_of"]

_WORKERS = 2
_SIMULATIONS = 20_000
_CARRIERS = 10
_HELPS = 12
_SHARES = (0.5, 0.8, 0.95)


class Watch(Protocol):
    """Writes down how far long work is, and tells whether it may go on."""

    def take(self, progress: "Progress") -> bool:
        """Note the best timetable so far."""

    def share(self, share: float) -> bool:
        """Note how much is done."""

    def keep(self, facts: dict[str, Any]) -> None:
        """Keep a timetable that is to be bettered yet."""


def limits_of(run: TimetableRun) -> Limits:
    """Return how long and with how many threads a run may search."""
    return Limits(
        seconds=float(run.options["seconds"]),
        clock=perf_counter,
        seed=1,
        workers=int(run.options.get("workers", _WORKERS)),
    )


def standing_of(run: TimetableRun) -> "tuple[ClassDay, Standing, Logged]":
    """Return how far the house of a run is: by the timetable it was made from, closed periods and gates.

    Raises
    ------
    NoAnswer
        When no timetable can be made, or the log says what cannot be.
    """
    from setday.actions.timetable.standing import standing
    from setday.files import SavedTimetable

    gates = gates_standing(run.house, run.version)
    day = day_of(run.version, run.class_file, gates=gates)
    log = logged(run.house, day)
    planned = (
        saved_timetable(run.before)
        if run.before is not None and run.before.document
        else SavedTimetable(house=run.house.name, periods=(), minutes={})
    )
    stand = standing(day, planned, log.periods)
    if stand.since:  # who may do what, and who can be booked, is asked as of the next period
        day = day_of(run.version, run.class_file, since=stand.since, gates=gates)
        stand = standing(day, planned, log.periods)
    return day, stand, log


def search(run: TimetableRun, watch: Watch) -> dict[str, Any]:
    """Search for a timetable from the next period on; return what is kept of it."""
    from dataclasses import replace

    from setday.actions.timetable.solving import solve_timetable
    from setday.timetable.classwork import Fixed

    day, stand, log = standing_of(run)
    found = solve_timetable(
        replace(day, problem=stand.problem) if stand.since else day,
        limits=limits_of(run),
        fixed=Fixed(happened=stand.happened) if stand.since else None,
        on_progress=watch.take,
    )
    return facts_of(found, left_out=list(log.left_out))


def facts_of(found: "Timetable", **told: object) -> dict[str, Any]:
    """Return what a run keeps of a timetable; what it breaks is asked of the independent check."""
    from setday.actions.timetable.document import timetable_document

    broken = [said for said in found.broken() if said not in found.undone]
    return {
        "document": timetable_document(found),
        "finish": found.finish,
        "bound": found.bound or None,
        "ready": found.ready,
        "earliest": found.day.ready_on(found.bound) if found.bound else None,
        "seconds": found.seconds,
        "told": {"broken": broken, **told},
    }


def repair(run: TimetableRun, watch: Watch) -> dict[str, Any]:
    """Repair a timetable after periods were closed: one at once, then a better one near it."""
    from setday.actions.timetable.repair import pin_from, repair_timetable

    day, stand, log = standing_of(run)
    pins = tuple(each for text in run.options.get("pins", ()) for each in pin_from(text, day))
    pins = tuple(pin for pin in pins if pin.period >= stand.since)
    left_out = list(log.left_out)
    at_once = repair_timetable(day, stand, limits=None, pins=pins)
    watch.keep(_moved(at_once, left_out))
    found = repair_timetable(day, stand, limits=limits_of(run), pins=pins, on_progress=watch.take)
    return _moved(found, left_out)


def _moved(found: "Repaired", left_out: list[str]) -> dict[str, Any]:
    day = found.timetable.day

    def on(period: int | None) -> str | None:
        date = day.date_of(period) if period is not None else None
        return date.isoformat() if date else None

    moves = [
        {"label": move.label, "was": on(move.was), "now": on(move.now), "reason": move.reason}
        for move in found.moves
    ]
    return facts_of(
        found.timetable,
        left_out=left_out,
        said=list(found.said),
        moves=moves,
        places_changed=found.places_changed,
        places=found.places,
    )


def play_odds(run: TimetableRun, watch: Watch) -> dict[str, Any]:
    """Play a timetable many times from the next period on."""
    from setday.actions.timetable.odds import class_odds

    day, stand, log = standing_of(run)
    many = int(run.options.get("simulations", _SIMULATIONS))
    found = class_odds(
        day,
        stand,
        rows=stand.rows,
        local=opened(run.version).local,
        clock=perf_counter,
        simulations=many,
        workers=int(run.options.get("workers", _WORKERS)),
        on_progress=lambda done, _chance: watch.share(done / many),
    )
    told = {"left_out": list(log.left_out)}
    return {"document": _odds_kept(found), "seconds": found.seconds, "share": 1.0, "told": told}


def _odds_kept(found: "ClassOdds") -> dict[str, Any]:
    days: dict[str, int] = {}
    beyond = 0
    for finish, many in found.odds.counts:
        on = found.day.ready_on(finish + found.since)
        if on is None:
            beyond += many
        else:
            days[on.isoformat()] = days.get(on.isoformat(), 0) + many
    ready = {str(round(100 * share)): found.ready(share) for share in _SHARES}
    return {
        "set_day": found.day.plan.calendar.set_day.isoformat(),
        "simulations": found.odds.simulations,
        "chance": found.odds.chance,
        "between": list(found.odds.between),
        "ready": {share: day.isoformat() if day else None for share, day in ready.items()},
        "as_planned": found.as_planned.isoformat() if found.as_planned else None,
        "spread": sorted(days.items()),
        "beyond": beyond,
        "absent": found.chances.absent,
        "carriers": [
            {
                "label": found.day.works[each.task].label,
                "carries": each.carries,
                "periods": each.periods,
                "chance": each.chance,
            }
            for each in found.carriers[:_CARRIERS]
        ],
    }


def explain(run: TimetableRun, watch: Watch) -> dict[str, Any]:
    """Find which demands clash with set day, as few as prove it, and try what would help."""
    from setday.actions.timetable.explain import explain_timetable

    day, stand, log = standing_of(run)
    found = explain_timetable(
        day,
        stand,
        local=opened(run.version).local,
        limits=limits_of(run),
        on_progress=lambda done, many: watch.share(done / many if many else 1.0),
    )

    def on(finish: int) -> str | None:
        ready = found.ready(finish)
        return ready.isoformat() if ready else None

    kept = {
        "by": found.by.isoformat(),
        "proven": found.clash.proven,
        "smallest": found.clash.smallest,
        "said": found.clash.said,
        "helps": [
            {
                "label": each.label,
                "ready": on(each.finish),
                "without": on(each.finish_without),
                "periods": each.periods,
                "chance": each.chance,
                "chance_without": each.chance_without,
            }
            for each in found.helps[:_HELPS]
        ],
    }
    return {"document": kept, "share": 1.0, "told": {"left_out": list(log.left_out)}}
