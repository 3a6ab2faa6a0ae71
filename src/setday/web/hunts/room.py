"""What a crew's sheet shows: the room, its log, and, once opened, the answer."""

from collections.abc import Mapping
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING, Any

from setday.drawing import LETTER, PHONE, house_front
from setday.switching import Hookup, Measured, Seen, position_words
from setday.web.houses.drawings import Drawings
from setday.web.hunts.crews import ground_in, log_of, name_given
from setday.web.hunts.said import cautions, front_word, line_of, named_words
from setday.web.keeping.models import Hunt, HuntCrew
from setday.web.switching.pictures import rest_pictures

if TYPE_CHECKING:
    from setday.actions.switching.hunts import CrewLog

__all__ = ["after_context", "best_of", "room_context"]

_NARROW = 324.0


def room_context(crew: HuntCrew, *, form: Mapping[str, str] | None = None, wrong: str = "") -> dict[str, Any]:
    """Return what the crew's sheet shows.

    Parameters
    ----------
    crew : HuntCrew
    form : mapping of str to str or None
        What was typed, where it is to be put right.
    wrong : str
        What is to be put right.
    """
    hunt = crew.hunt
    ground, log = ground_in(hunt), log_of(crew)
    hookup = ground.circuit.hookup
    over = bool(crew.named) or hunt.closed or hunt.opened
    words: dict[str, Any] = {
        "crew": crew,
        "hunt": hunt,
        "hookup": hookup,
        "picture": front(hookup, log),
        "lines": [line_of(each, hookup) for each in log.seen],
        "handles": _handles(hookup, log, form),
        "boxes": _boxes(hookup, log, form),
        "over": over,
        "wrong": wrong,
        "cautions": cautions(),
        "plan": rest_pictures(hookup, key="plan") if hunt.plan_shown or hunt.opened else None,
    }
    return {**words, **after_context(crew, log)} if over else words


def front(hookup: Hookup, log: "CrewLog") -> Drawings:
    """Draw the room as it stands, for a wide screen and for a phone.

    Once a cover is off the breaker stands locked off in the picture, and no lamp burns: what the lamps did
    with the covers on for the look stands in the log.
    """
    seen = next(
        (each for each in reversed(log.seen) if isinstance(each, Seen) and each.position == log.position),
        None,
    )
    dead = bool(log.opened) or (bool(log.seen) and isinstance(log.seen[-1], Measured))
    draw = partial(
        house_front,
        hookup,
        position=log.position,
        seen=None if dead else seen,
        opened=log.opened,
        say=front_word,
    )
    return Drawings(
        wide=draw(paper=LETTER, key="room"), phone=draw(paper=replace(PHONE, width=_NARROW), key="room-phone")
    )


def _handles(hookup: Hookup, log: "CrewLog", form: Mapping[str, str] | None) -> list[dict[str, Any]]:
    found = []
    for place, switch in enumerate(hookup.switches):
        now = str(log.position[place])
        chosen = (form or {}).get(f"handle-{place}", now)
        down, up = position_words(switch.kind)
        choices = [("1", front_word(up)), ("0", front_word(down))]
        found.append({"place": place, "switch": switch, "choices": choices, "chosen": chosen})
    return found


def _boxes(hookup: Hookup, log: "CrewLog", form: Mapping[str, str] | None) -> list[dict[str, Any]]:
    last = next((each.test for each in reversed(log.seen) if isinstance(each, Measured)), None)
    found = []
    for place, box in enumerate(hookup.boxes):
        here = last is not None and last.first.box == box.name
        picked = [str(last.first), str(last.second)] if last is not None and here else ["", ""]
        if form is not None:
            picked = [form.get(f"first-{place}", picked[0]), form.get(f"second-{place}", picked[1])]
        found.append(
            {
                "place": place,
                "box": box,
                "open": box.name in log.opened,
                "points": [str(point) for point in hookup.points_in(box.name)],
                "first": picked[0],
                "second": picked[1],
            }
        )
    return found


def after_context(crew: HuntCrew, log: "CrewLog") -> dict[str, Any]:
    """Return what is told when a hunt is over: before the answer is opened, only what was seen says."""
    from setday.actions.switching.hunts import outcome, standing, thrifty_way

    hunt, ground, named = crew.hunt, ground_in(crew.hunt), name_given(crew)
    stands = standing(ground, log.seen, named=named)
    best = best_of(hunt)
    told: dict[str, Any] = {
        "named": named_words(named) if named else "",
        "standing": stands,
        "tests": len(log.seen),
        "best": best,
        "listed": stands.open if hunt.plan_shown or hunt.opened else (),
    }
    if hunt.opened:
        planted = ground.planted(hunt.planted)
        told["answer"] = hunt.planted
        told["way"] = [line_of(each, ground.circuit.hookup) for each in thrifty_way(ground, planted)]
        if best is not None:
            told["outcome"] = outcome(ground, planted, log, named=named, best=best)
    return told


def best_of(hunt: Hunt) -> Any:
    """Return what the shortest hunts take; None while that is being worked out."""
    from setday.actions.switching.hunts import BestHunt

    record = hunt.best
    return BestHunt(**{**record, "by_group": tuple(record["by_group"])}) if record else None
