"""The gates that stand in the records, read by the timetable: what is over, and what boards wait for."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace

from setday.actions.tasks.gathering import HouseWork
from setday.actions.tasks.inspections import INSPECTIONS
from setday.closein import GateStanding, GateState
from setday.errors import NoAnswer
from setday.house import House, Surface, SurfaceKind
from setday.timetable.tasks import After, Work

__all__ = ["GateRecords", "as_the_gates_stand", "boards_of"]

_NEARLY = 0.99
"""What is looked at as long as a gate is not open: something is still to be seen; our own."""
_HANG = "boards/hang/"
_ROUGH_TRADES = frozenset({"cable", "switching"})


@dataclass(frozen=True, kw_only=True)
class GateRecords:
    """The gates of a house as they stood in the records, put to its work.

    Parameters
    ----------
    standings : tuple of GateStanding
    done : mapping
        Key of a work to the least and the most of it that is done by the records, 0 to 1, whatever a
        log says.
    """

    standings: tuple[GateStanding, ...] = ()
    done: Mapping[str, tuple[float, float]] = field(default_factory=dict)

    def share(self, key: str, logged: float) -> float:
        """Return how much of a work is done, by the log and the records.

        Parameters
        ----------
        key : str
            Of the work.
        logged : float
            What the log says is done, 0 to 1.
        """
        least, most = self.done.get(key, (0.0, 1.0))
        return min(most, max(least, logged))


def as_the_gates_stand(
    work: HouseWork, house: House, standings: Iterable[GateStanding]
) -> tuple[HouseWork, GateRecords]:
    """Return the work of a house by the records of its gates.

    What was looked at shrinks the looking; an inspection that passed everywhere is over, and the rough
    work it looked at is in; boards that are on are hung, those that came off again are not.  Boards whose
    gates stand open wait for nobody's look; the others wait for the looking and for every inspection that
    has not passed there.

    Parameters
    ----------
    work : HouseWork
    house : House
    standings : iterable of GateStanding
        Of the surfaces of the house; one that is not among them counts as not ready.

    Raises
    ------
    NoAnswer
        When a surface is named that the house does not have.
    """
    given = {each.surface: each for each in standings}
    surfaces = {surface.id: surface for surface in house.surfaces}
    unknown = [surface for surface in given if surface not in surfaces]
    if unknown:
        named = ", ".join(f"'{surface}'" for surface in unknown[:6])
        raise NoAnswer(
            f"The gates are those of another house or an older file: there is no surface {named}.",
            do="Take the records of this house file anew.",
        )
    if not given:
        return work, GateRecords()
    for surface in surfaces.values():
        given.setdefault(surface.id, _unknown(surface))
    return _Standing(work, surfaces, given).applied()


def _unknown(surface: Surface) -> GateStanding:
    return GateStanding(surface=surface.id, label=surface.label, state=GateState.NOT_READY, things=1)


def boards_of(work: Work, house: House) -> tuple[str, ...]:
    """Return the ids of the surfaces that a work covers; nothing for what is no hanging of boards.

    Parameters
    ----------
    work : Work
    house : House
    """
    return tuple(each.id for each in house.surfaces if _covered(each) in _rooms_of(work))


def _covered(surface: Surface) -> tuple[str, bool]:
    return surface.room, surface.kind is SurfaceKind.CEILING


def _rooms_of(work: Work) -> set[tuple[str, bool]]:
    parts = (part.removeprefix(_HANG) for part in work.parts if part.startswith(_HANG))
    rooms = (part.rpartition("/") for part in parts)
    return {(room, which == "ceilings") for room, _slash, which in rooms}


class _Standing:
    """The work of one house while the records are put to it."""

    def __init__(
        self, work: HouseWork, surfaces: Mapping[str, Surface], given: Mapping[str, GateStanding]
    ) -> None:
        self.work, self.surfaces, self.given = work, surfaces, given
        self.works = {each.key: each for each in work.works}
        self.done: dict[str, tuple[float, float]] = {}

    def applied(self) -> tuple[HouseWork, GateRecords]:
        self._inspections()
        for zone in self.work.zones:
            self._zone(zone.rooms, self.works.get(f"look/{zone.name}"))
        works = tuple(self._as_done(each) for each in self.works.values())
        records = GateRecords(standings=tuple(self.given.values()), done=self.done)
        return replace(self.work, works=works), records

    def _as_done(self, work: Work) -> Work:
        least, _most = self.done.get(work.key, (0.0, 1.0))
        done = max(work.done, least)
        return replace(work, done=done, after=()) if done >= 1 else replace(work, done=done)

    def _inspections(self) -> None:
        for key, asked in INSPECTIONS.items():
            waiting = [each for each in self.given.values() if asked in (*each.passed, *each.awaited)]
            if key not in self.works or not waiting:
                continue
            passed = all(asked in each.passed for each in waiting)
            self.done[key] = (1.0, 1.0) if passed else (0.0, 0.0)
            if passed:
                self._rough_is_in(key)

    def _rough_is_in(self, key: str) -> None:
        """Take everything for done that an inspector has passed."""
        for after in self.works[key].after:
            earlier = self.works.get(after.key)
            if earlier is not None and earlier.trade in _ROUGH_TRADES and after.key not in self.done:
                self.done[after.key] = (1.0, 1.0)
                self._rough_is_in(after.key)

    def _zone(self, rooms: tuple[str, ...], look: Work | None) -> None:
        here = [surface for surface in self.surfaces.values() if surface.room in rooms]
        if look is None or not here:
            return
        stands = [self.given[surface.id] for surface in here]
        many = [max(1, each.things) for each in stands]
        looked = sum(n * each.looked_at for n, each in zip(many, stands, strict=True)) / sum(many)
        over = all(each.open or each.looked_at >= 1 for each in stands)
        share = 1.0 if over else min(_NEARLY, looked)
        self.done[look.key] = (share, share)
        waits = look.after
        self.works[look.key] = replace(look, after=self._not_passed(waits, stands))
        for work in tuple(self.works.values()):
            covers = [each for each in here if _covered(each) in _rooms_of(work)]
            if covers:
                self._boards(work, covers, look.key, waits)

    def _not_passed(self, waits: tuple[After, ...], stands: Iterable[GateStanding]) -> tuple[After, ...]:
        """Return waits without those for inspections that passed wherever they are asked for here."""
        awaited = {key for each in stands for key in each.awaited}
        passed = {key for each in stands for key in each.passed} - awaited
        return tuple(each for each in waits if INSPECTIONS.get(each.key) not in passed)

    def _boards(self, work: Work, covers: list[Surface], look: str, waits: tuple[After, ...]) -> None:
        stands = [self.given[surface.id] for surface in covers]
        on = [surface for surface in covers if self.given[surface.id].state is GateState.CLOSED]
        off = [surface for surface in covers if self.given[surface.id].reopened]
        whole = sum(map(_area, covers)) or 1.0
        least, most = sum(map(_area, on)) / whole, 1.0 - sum(map(_area, off)) / whole
        if len(on) == len(covers):
            least = most = 1.0
        self.done[work.key] = (least, max(least, most))
        own = tuple(each for each in work.after if each.key != look)
        if all(each.open for each in stands):
            more = tuple(each for each in waits if each.key not in INSPECTIONS)
        else:
            held = () if self.done[look][0] >= 1 else (After(key=look, why="gate: looked"),)
            more = (*held, *self._not_passed(waits, stands))
        together = {each.key: each for each in (*own, *more)}
        self.works[work.key] = replace(work, after=tuple(together.values()))


def _area(surface: Surface) -> float:
    """Return the area of a surface to its framing, openings in it [in2]."""
    points = [(x.inches, y.inches) for x, y in surface.outline]
    turned = zip(points, points[1:] + points[:1], strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in turned)) / 2
