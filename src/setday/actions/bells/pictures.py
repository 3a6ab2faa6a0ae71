"""What a crew sees of its place, and what it takes from which pile: drawings and material by room."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property

from setday.actions.bells.boards import boards_of
from setday.actions.bells.sealed import NOTHING, Withheld
from setday.actions.cable.figured import HouseCable, figure_cable
from setday.actions.houses import OpenHouse
from setday.boards import BoardFigure
from setday.drawing import Paper, plan, surface_elevation, surface_sketch, wall_wiring, wiring_plan
from setday.house import Surface, SurfaceKind
from setday.timetable.tasks import Work, Zone

__all__ = ["PHONES", "SHEETS", "Pictures"]

_Papers = tuple[Paper, Paper, Paper]
SHEETS: _Papers = (
    Paper(width=345, height=235, to_scale=False),
    Paper(width=720, height=430, to_scale=False),
    Paper(width=345, height=400, to_scale=False),
)
"""On paper: one of several drawings, one that stands alone, and a surface with its boards."""
PHONES: _Papers = (
    Paper(width=310, height=420, to_scale=False),
    Paper(width=640, height=900, to_scale=False),
    Paper(width=310, height=420, to_scale=False),
)
"""The same on the narrowest phone, where the second is pushed sideways."""
_MOST = 4
_COATS = ("tape", "second-coat", "third-coat", "skim-coat")
_HANGS = ("hang-ceilings", "hang-walls")
_CEILINGS = ("hang-ceilings",)
_WIRED = ("set-boxes", "make-up", "set-devices")
_CIRCUITS = ("pull", "bore", "try", "inspect")
_LATER = "A figure of this house is sealed: the drawing comes when it is opened."
_SKETCHED = (
    "A figure of this place is sealed: it is sketched without measures and boards until that is opened."
)
_BARE = "The boards of this place are sealed: they are drawn when that is opened."
_ALONE = "Boards are numbered on each surface by itself while a figure of boards is sealed."


class Pictures:
    """Draws the place of a work and lists its material; figures the cable when it is first asked for.

    Parameters
    ----------
    opened : OpenHouse
    zones : tuple of Zone
    clock : callable
        Returns seconds.
    boards : BoardFigure or None
        The kept layout of the house; without one its surfaces are drawn without boards.
    withheld : Withheld
        What may not be told while figures are sealed.
    cable : callable or None
        Returns the cable of the house where it is figured elsewhere already.
    papers : (Paper, Paper, Paper)
        For one of several drawings, for one that stands alone, and for a surface with its boards.
    """

    def __init__(
        self,
        opened: OpenHouse,
        *,
        zones: tuple[Zone, ...],
        clock: Callable[[], float],
        boards: BoardFigure | None = None,
        withheld: Withheld = NOTHING,
        cable: Callable[[], HouseCable] | None = None,
        papers: _Papers = SHEETS,
    ) -> None:
        self.opened, self.house, self.zones, self.clock = opened, opened.built(), zones, clock
        self.boards, self.withheld, self.cable = boards, withheld, cable
        self.paper, self.wide, self.tall = papers
        self.drawn: dict[tuple[str, ...], tuple[tuple[str, ...], str]] = {}

    @cached_property
    def wired(self) -> HouseCable | None:
        """The cable of the house; None without a panel."""
        if not self.house.wiring.panel:
            return None
        return self.cable() if self.cable else figure_cable(self.opened, clock=self.clock)

    def rooms(self, work: Work) -> tuple[str, ...]:
        """Return the rooms of a work's place; none for the house, the yard, the shop."""
        found = next((zone.rooms for zone in self.zones if zone.name == work.place), ())
        return found or tuple(room.name for room in self.house.rooms if room.name == work.place)

    def of_work(self, work: Work) -> tuple[tuple[str, ...], str]:
        """Return the drawings of a work's place, and where the rest of them is."""
        key = (work.kind, work.place, *work.parts) if work.kind in _CIRCUITS else (work.kind, work.place)
        if key not in self.drawn:
            self.drawn[key] = self._made(work)
        return self.drawn[key]

    def _made(self, work: Work) -> tuple[tuple[str, ...], str]:
        rooms, kept_back = self.rooms(work), self.withheld
        cables = work.kind in _CIRCUITS or (work.kind in _WIRED and bool(rooms))
        if cables and self.house.wiring.panel:
            if kept_back.wiring or (kept_back.anything and not rooms):
                return (), _LATER
            return ((self._wiring(work),), "") if work.kind in _CIRCUITS else self._walls(rooms)
        if rooms:
            return self._surfaces(rooms, work)
        if work.place == "house":
            return ((), _LATER) if kept_back.anything else ((self._plan(work),), "")
        return (), ""

    def _plan(self, work: Work) -> str:
        return plan(self.house, paper=self.wide, key=f"plan-{work.kind}")

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
            paper=self.wide,
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
        if self.withheld.anything and any(
            self.withheld.sketches(s) for s in self._of(rooms, SurfaceKind.WALL)
        ):
            return (), _LATER
        drawn = wall_wiring(
            figure.house,
            self.house.wall(walls[0]),
            side=sides[walls[0]],
            runs=figure.routing.runs,
            holes=figure.routing.holes,
            plates=figure.routing.plates,
            circuits=[circuit.name for circuit in figure.plan.circuits],
            paper=self.wide,
            key=f"wall-{walls[0]}",
        )
        return (drawn,), _more(len(walls), "walls", "wiring sheets", shown=1)

    def _surfaces(self, rooms: tuple[str, ...], work: Work) -> tuple[tuple[str, ...], str]:
        ceilings = work.kind in _CEILINGS
        found = list(self._of(rooms, SurfaceKind.CEILING if ceilings else SurfaceKind.WALL))
        drawn: list[str] = []
        for surface in found[:_MOST]:
            drawn += self._surface(surface, work)
        said = [self._bare(found[:_MOST], work), _more(len(found), "surfaces", "surface sheets")]
        return tuple(drawn), " ".join(each for each in said if each)

    def _surface(self, surface: Surface, work: Work) -> Iterator[str]:
        """Yield a surface: a sketch while its measures are sealed, with kept boards where they are hung."""
        if self.withheld.sketches(surface):
            yield surface_sketch(surface, paper=self.paper, key=f"bell-{work.kind}")
            return
        if work.kind in _HANGS and self.boards is not None and surface.id not in self.withheld.bare:
            alone = self.withheld.boards
            boards = list(
                boards_of(self.boards, surface.id, paper=self.tall, key=f"bell-{work.kind}", alone=alone)
            )
            if boards:
                yield from boards
                return
        yield surface_elevation(
            surface, paper=self.paper, members=work.kind in _CEILINGS, key=f"bell-{work.kind}"
        )

    def _bare(self, surfaces: Iterable[Surface], work: Work) -> str:
        """Return why surfaces are drawn without measures or boards."""
        shown = list(surfaces)
        if any(self.withheld.sketches(surface) for surface in shown):
            return _SKETCHED
        if work.kind in _HANGS and any(surface.id in self.withheld.bare for surface in shown):
            return _BARE
        if work.kind in _HANGS and self.boards is not None and self.withheld.boards:
            return _ALONE
        return ""

    def _of(self, rooms: tuple[str, ...], kind: SurfaceKind) -> Iterable[Surface]:
        by_room = sorted(self.house.surfaces, key=lambda s: rooms.index(s.room) if s.room in rooms else 99)
        return (surface for surface in by_room if surface.room in rooms and surface.kind is kind)

    def material(self, work: Work) -> tuple[str, ...]:
        """Return what a work takes, and from which pile; without amounts while a figure is sealed."""
        if self.withheld.anything:
            return _piles(work)
        if work.kind == "pull" and self.wired is not None:
            return tuple(self._runs(work))
        if work.kind in _WIRED and self.wired is not None:
            return (f"{work.quantity:,.0f} {work.unit}, from the bin marked '{work.place}'",)
        if work.kind in _HANGS:
            return (f"boards for about {work.quantity:,.0f} ft2, from the stack in {work.place}; screws",)
        if work.kind in _COATS:
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


def _piles(work: Work) -> tuple[str, ...]:
    if work.kind == "pull":
        return ("cable, cut from the coils on the pull list",)
    if work.kind in _WIRED:
        return (f"from the bin marked '{work.place}'",)
    if work.kind in _HANGS:
        return (f"boards, from the stack in {work.place}; screws",)
    return ("compound, from the pails by the door",) if work.kind in _COATS else ()


def _more(many: int, what: str, where: str, *, shown: int = _MOST) -> str:
    rest = many - shown
    if rest <= 0:
        return ""
    return f"{rest} more {what if rest > 1 else what[:-1]} of this place among the {where}."
