"""What a crew sees of its place, and what it takes from which pile: drawings and material by room."""

from collections import Counter
from collections.abc import Callable, Iterable
from functools import cached_property

from setday.actions.cable import HouseCable, figure_cable
from setday.actions.houses import OpenHouse
from setday.drawing import Paper, plan, surface_elevation, wall_wiring, wiring_plan
from setday.house import Surface, SurfaceKind
from setday.timetable.tasks import Work, Zone

__all__ = ["Pictures"]

_PAPER = Paper(width=345, height=235, to_scale=False)
_WIDE = Paper(width=720, height=430, to_scale=False)
_MOST = 4
_CEILINGS = ("hang-ceilings",)
_WIRED = ("set-boxes", "make-up", "set-devices")
_CIRCUITS = ("pull", "bore", "try", "inspect")


class Pictures:
    """Draws the place of a work and lists its material; figures the cable when it is first asked for.

    Parameters
    ----------
    opened : OpenHouse
    zones : tuple of Zone
    clock : callable
        Returns seconds.
    """

    def __init__(self, opened: OpenHouse, *, zones: tuple[Zone, ...], clock: Callable[[], float]) -> None:
        self.opened, self.house, self.zones, self.clock = opened, opened.built(), zones, clock
        self.drawn: dict[tuple[str, ...], tuple[tuple[str, ...], str]] = {}

    @cached_property
    def wired(self) -> HouseCable | None:
        """The cable of the house; None without a panel."""
        return figure_cable(self.opened, clock=self.clock) if self.house.wiring.panel else None

    def rooms(self, work: Work) -> tuple[str, ...]:
        """Return the rooms of a work's place; none for the house, the yard, the shop."""
        return next((zone.rooms for zone in self.zones if zone.name == work.place), ())

    def of_work(self, work: Work) -> tuple[tuple[str, ...], str]:
        """Return the drawings of a work's place, and where the rest of them is."""
        key = (work.kind, work.place, *work.parts) if work.kind in _CIRCUITS else (work.kind, work.place)
        if key not in self.drawn:
            self.drawn[key] = self._made(work)
        return self.drawn[key]

    def _made(self, work: Work) -> tuple[tuple[str, ...], str]:
        rooms = self.rooms(work)
        if work.kind in _CIRCUITS and self.wired is not None:
            return (self._wiring(work),), ""
        if work.kind in _WIRED and rooms and self.wired is not None:
            return self._walls(rooms)
        if rooms:
            wanted = SurfaceKind.CEILING if work.kind in _CEILINGS else SurfaceKind.WALL
            return self._surfaces(rooms, wanted, members=work.kind in _CEILINGS)
        if work.place == "house":
            return (plan(self.house, paper=_WIDE, key=f"plan-{work.kind}"),), ""
        return (), ""

    def _wiring(self, work: Work) -> str:
        assert self.wired is not None
        figure = self.wired.figure
        lit = next((part.removeprefix("cable/pull/") for part in work.parts if "/pull/" in part), "")
        return wiring_plan(
            figure.house,
            circuits=figure.plan.circuits,
            runs=figure.routing.runs,
            lit=lit,
            with_key=False,
            paper=_WIDE,
            key=f"wiring-{work.key}",
        )

    def _walls(self, rooms: tuple[str, ...]) -> tuple[tuple[str, ...], str]:
        """Return the wall of some rooms that has most boxes, with its runs."""
        assert self.wired is not None
        figure = self.wired.figure
        boxes: Counter[str] = Counter()
        sides: dict[str, str] = {}
        for device in figure.house.devices:
            wall = device.typed.wall
            if device.room in rooms and wall:
                boxes[wall] += 1
        for surface in self._of(rooms, SurfaceKind.WALL):
            for span in surface.spans:
                if span.side in ("left", "right"):
                    sides.setdefault(span.wall, span.side)
        walls = [wall for wall, _ in boxes.most_common() if wall in sides]
        if not walls:
            return (), ""
        drawn = wall_wiring(
            figure.house,
            self.house.wall(walls[0]),
            side=sides[walls[0]],
            runs=figure.routing.runs,
            holes=figure.routing.holes,
            plates=figure.routing.plates,
            circuits=[circuit.name for circuit in figure.plan.circuits],
            paper=_WIDE,
            key=f"wall-{walls[0]}",
        )
        return (drawn,), _more(len(walls), "walls", "wiring sheets", shown=1)

    def _surfaces(
        self, rooms: tuple[str, ...], kind: SurfaceKind, *, members: bool
    ) -> tuple[tuple[str, ...], str]:
        found = list(self._of(rooms, kind))
        drawn = [
            surface_elevation(surface, paper=_PAPER, members=members, key=f"bell-{surface.id}")
            for surface in found[:_MOST]
        ]
        return tuple(drawn), _more(len(found), "surfaces", "surface sheets")

    def _of(self, rooms: tuple[str, ...], kind: SurfaceKind) -> Iterable[Surface]:
        by_room = sorted(self.house.surfaces, key=lambda s: rooms.index(s.room) if s.room in rooms else 99)
        return (surface for surface in by_room if surface.room in rooms and surface.kind is kind)

    def material(self, work: Work) -> tuple[str, ...]:
        """Return what a work takes, and from which pile."""
        if work.kind == "pull" and self.wired is not None:
            return tuple(self._runs(work))
        if work.kind in _WIRED and self.wired is not None:
            return (f"{work.quantity:,.0f} {work.unit}, from the bin marked '{work.place}'",)
        if work.kind.startswith("hang-"):
            return (f"boards for about {work.quantity:,.0f} ft2, from the stack in {work.place}; screws",)
        if work.kind in ("tape", "second-coat", "third-coat", "skim-coat"):
            return (f"compound for {work.quantity:,.0f} ft2 of board, from the pails by the door",)
        return ()

    def _runs(self, work: Work) -> Iterable[str]:
        assert self.wired is not None
        names = {part.removeprefix("cable/pull/") for part in work.parts}
        runs = [run for run in self.wired.figure.routing.runs if run.circuit in names]
        kinds = dict.fromkeys(run.cable.kind for run in runs)
        for kind in kinds:
            mine = [run for run in runs if run.cable.kind == kind]
            feet = sum(run.cut.feet for run in mine)
            listed = ", ".join(str(run.number) for run in mine[:12]) + (" ..." if len(mine) > 12 else "")
            yield f"cable {kind}: runs {listed}, {feet:,.0f} ft, cut from the coils on the pull list"


def _more(many: int, what: str, where: str, *, shown: int = _MOST) -> str:
    rest = many - shown
    if rest <= 0:
        return ""
    return f"{rest} more {what if rest > 1 else what[:-1]} of this place among the {where}."
