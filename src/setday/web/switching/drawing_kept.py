"""What is drawn by hand, between the page and the records."""

from typing import TYPE_CHECKING, Any

from django.db import transaction
from django.utils.translation import gettext as _

from setday.web.keeping.hookups import drawing_of
from setday.web.keeping.models import HookupDrawing, KeptHookup
from setday.web.switching.bench import key_of_point, point_of_key

if TYPE_CHECKING:
    from setday.switching import Hookup, Step

__all__ = ["MOST_STEPS", "drawn_on", "picked_words", "taken"]

MOST_STEPS = 1000


def drawn_on(stage: "Hookup", drawing: HookupDrawing) -> "Hookup":
    """Return the hookup that somebody has drawn so far on a stage."""
    from setday.switching import drawn

    return drawn(stage, [_step(stage, each) for each in drawing.steps[: drawing.at]])


def _step(stage: "Hookup", record: dict[str, Any]) -> "Step":
    from setday.switching import Step

    points = (point_of_key(stage, key) for key in record.get("points", ()))
    return Step(
        act=str(record.get("act", "")),
        points=tuple(point for point in points if point is not None),
        cable=str(record.get("cable", "")),
    )


def picked_words(stage: "Hookup", drawing: HookupDrawing) -> str:
    """Return the end that waits for another, in words; empty for none."""
    point = point_of_key(stage, drawing.picked)
    return f"{point} ({point.box})" if point else ""


@transaction.atomic
def taken(kept: KeptHookup, stage: "Hookup", wanted: dict[str, str], *, by: str = "") -> str:
    """Take one tap of the hand, and keep what is drawn after it.

    Parameters
    ----------
    kept : KeptHookup
    stage : Hookup
    wanted : dict
        What was pressed: "tap" with the key of a point, "apart" with one of a join, "mark" with a cable,
        or "do" with undo, redo, clear.
    by : str
        Who draws; empty for the instructor.

    Returns
    -------
    str
        What to tell: what was joined or undone, or why nothing was.
    """
    KeptHookup.objects.select_for_update().get(pk=kept.pk)
    drawing = drawing_of(kept, by=by)
    said = _tap(stage, drawing, wanted["tap"]) if "tap" in wanted else _other(stage, drawing, wanted)
    drawing.save()
    return said


def _tap(stage: "Hookup", drawing: HookupDrawing, key: str) -> str:
    from setday.switching import step_to_join

    second, first = point_of_key(stage, key), point_of_key(stage, drawing.picked)
    if second is None:
        return _("There is no such end here any more. What you drew is kept.")
    if first is None:
        drawing.picked = key
        return _("%(end)s is picked. Tap what it is joined to, in the same box.") % {"end": second}
    if first == second:
        drawing.picked = ""
        return _("%(end)s is let go.") % {"end": second}
    if first.box != second.box:
        return _(
            "%(first)s is in box %(here)s and %(second)s in box %(there)s: only what is in one box can "
            "touch. A cable between the boxes joins them."
        ) % {"first": first, "here": first.box, "second": second, "there": second.box}
    drawing.picked = ""
    step = step_to_join(drawn_on(stage, drawing), first, second)
    if step is None:
        return _("%(first)s and %(second)s are joined already.") % {"first": first, "second": second}
    _add(drawing, {"act": "join", "points": [key_of_point(first), key_of_point(second)]})
    return _("%(first)s and %(second)s are joined.") % {"first": first, "second": second}


def _other(stage: "Hookup", drawing: HookupDrawing, wanted: dict[str, str]) -> str:
    drawing.picked = ""
    if "apart" in wanted:
        return _apart(stage, drawing, wanted["apart"])
    if "mark" in wanted:
        if wanted["mark"] not in [cable.name for cable in stage.cables]:
            return _("There is no such cable here any more. What you drew is kept.")
        _add(drawing, {"act": "mark", "cable": wanted["mark"]})
        return _("The white of %(cable)s is marked, or its mark taken off.") % {"cable": wanted["mark"]}
    return _again(drawing, wanted.get("do", ""))


def _apart(stage: "Hookup", drawing: HookupDrawing, key: str) -> str:
    from setday.switching import parted

    point = point_of_key(stage, key)
    step = parted(drawn_on(stage, drawing), point) if point else None
    if step is None:
        return _("That is joined to nothing.")
    _add(drawing, {"act": "part", "points": [key_of_point(each) for each in step.points]})
    return _("%(points)s are taken apart.") % {"points": ", ".join(str(each) for each in step.points)}


def _again(drawing: HookupDrawing, wanted: str) -> str:
    if wanted == "undo" and drawing.at:
        drawing.at -= 1
        return _("The last step is undone.")
    if wanted == "redo" and drawing.at < len(drawing.steps):
        drawing.at += 1
        return _("The step is done again.")
    if wanted == "clear" and drawing.at:
        _add(drawing, {"act": "clear"})
        return _("Everything is taken apart. Undo brings it back.")
    return _("There is nothing to undo or do again.")


def _add(drawing: HookupDrawing, step: dict[str, Any]) -> None:
    drawing.steps = [*drawing.steps[: drawing.at], step][-MOST_STEPS:]
    drawing.at = len(drawing.steps)
