"""What changed in a house from one version to another, in the house's own words."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from typing import Any

from django.utils.translation import gettext as _

from setday.house import House, Surface
from setday.measure import write_feet_inches

__all__ = ["Change", "changes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that is not what it was."""

    about: str
    what: str
    before: str
    after: str


def changes(before: House, after: House) -> tuple[Change, ...]:
    """Return the differences in rooms, walls, openings and surfaces, in this order."""
    return (
        *_in(_("Room"), _rooms(before), _rooms(after)),
        *_in(_("Wall"), _walls(before), _walls(after)),
        *_in(_("Opening"), _openings(before), _openings(after)),
        *_in(_("Surface"), _surfaces(before), _surfaces(after)),
    )


Facts = Mapping[str, str]


def _in(kind: str, before: Mapping[str, Facts], after: Mapping[str, Facts]) -> Iterable[Change]:
    for name in dict.fromkeys([*before, *after]):
        about = f"{kind} {name}"
        if name not in after:
            yield Change(about=about, what=_("is gone"), before=_words(before[name]), after="–")
        elif name not in before:
            yield Change(about=about, what=_("is new"), before="–", after=_words(after[name]))
        else:
            old, new = before[name], after[name]
            for what in new:
                if old[what] != new[what]:
                    yield Change(about=about, what=what, before=old[what], after=new[what])


def _words(facts: Facts) -> str:
    return ", ".join(f"{what} {value}" for what, value in facts.items() if value)


def _facts(
    things: Iterable[Any], name: Callable[[Any], str], tell: Callable[[Any], Facts]
) -> dict[str, Facts]:
    return {name(thing): tell(thing) for thing in things}


def _rooms(house: House) -> dict[str, Facts]:
    return _facts(
        house.rooms,
        lambda room: str(room.name),
        lambda room: {_("use"): room.use, _("floor"): str(room.area), _("surfaces"): str(len(room.surfaces))},
    )


def _walls(house: House) -> dict[str, Facts]:
    return _facts(
        house.walls,
        lambda wall: str(wall.name),
        lambda wall: {
            _("kind"): wall.kind.name,
            _("length"): write_feet_inches(wall.length),
            _("height"): write_feet_inches(max(height for _along, height in wall.top)),
            _("from"): str(wall.start),
            _("to"): str(wall.end),
            _("framing members"): str(len(wall.members)),
        },
    )


def _openings(house: House) -> dict[str, Facts]:
    found: dict[str, Facts] = {}
    for wall in house.walls:
        for opening in wall.openings:
            found[opening.name] = {
                _("wall"): wall.name,
                _("width"): write_feet_inches(opening.width),
                _("height"): write_feet_inches(opening.height),
                _("sill"): write_feet_inches(opening.sill),
                _("from the wall's start"): write_feet_inches(opening.along),
            }
    return found


def _surfaces(house: House) -> dict[str, Facts]:
    return _facts(house.surfaces, lambda surface: str(surface.id), _surface)


def _surface(surface: Surface) -> Facts:
    return {
        _("width"): write_feet_inches(surface.width),
        _("height"): write_feet_inches(surface.height),
        _("gross area"): str(surface.gross_area),
        _("openings"): str(len(surface.openings)),
        _("members behind it"): str(len(surface.backing)),
    }
