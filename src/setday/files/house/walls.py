"""The walls of a house file, as the core takes them."""

from itertools import pairwise
from math import hypot

from setday.files.house.phrases import AsBuilt, Spot, TopPoint
from setday.files.house.shape import HousePart
from setday.files.house.shape_walls import FramedPart, KindPart, WallPart
from setday.files.house.single_walls import by_points, look_at_points, taped_wall
from setday.files.house.taping import Laid, Plan, spot_point
from setday.files.house.unless_noted import UnlessNoted
from setday.files.house.walking import walk_round
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.house import FramingChange, MemberKind, TypedWall, WallKind, WallLine
from setday.measure import Length

__all__ = ["Walls", "describe_kinds"]

_LINES = {"center": WallLine.CENTER, "left face": WallLine.LEFT, "right face": WallLine.RIGHT}
_SHORT = {"king": "king stud", "jack": "jack stud", "trimmer": "jack stud", "backer": "partition backer"}
_UPRIGHT = {"stud", "end stud", "corner backer", "partition backer", "king stud", "jack stud", "cripple"}


def describe_kinds(house: HousePart, noted: UnlessNoted, notebook: Notebook) -> tuple[WallKind, ...]:
    """Return the wall kinds of a file.

    Parameters
    ----------
    house : HousePart
    noted : UnlessNoted
    notebook : Notebook
    """
    return tuple(_kind(name, part, noted, notebook) for name, part in house.wall_kinds.items())


def _kind(name: str, part: KindPart, noted: UnlessNoted, notebook: Notebook) -> WallKind:
    return WallKind(
        name=name,
        depth=part.studs,
        outside=bool(part.outside),
        bearing=bool(part.bearing),
        spacing=part.stud_spacing or noted.stud_spacing,
        plates_below=part.bottom_plates or noted.bottom_plates,
        plates_above=part.top_plates or noted.top_plates,
        where=notebook.where(("wall kinds", name), at_key=True),
    )


class Walls:
    """The walls of one file: laid on the plan, then described.  `closed` when the walk round comes back.

    `names` are the walls as written, also those with findings of their own.
    """

    def __init__(
        self,
        house: HousePart,
        kinds: tuple[WallKind, ...],
        noted: UnlessNoted,
        notebook: Notebook,
        names: tuple[str, ...],
    ) -> None:
        self.house = house
        self.noted = noted
        self.notebook = notebook
        self.kinds = {kind.name: kind for kind in kinds}
        self.kind_names = Names(self.kinds)
        self.walked = house.outside_walls.walk if house.outside_walls else {}
        self.single = house.walls or {}
        self.names = Names(names, ending="wall")
        self.plan = Plan(notebook, self.names)
        self.plan.broken.update(set(names) - set(self.walked) - set(self.single))
        self.kind_of = {name: self._kind_of(name, path) for name, path in self.paths().items()}
        self.closed = True
        self._lay()
        self._look_at_built()

    def paths(self) -> dict[str, Path]:
        """Return where each wall is written, by its name."""
        walked: dict[str, Path] = {name: ("outside walls", "walk", name) for name in self.walked}
        return {name: ("walls", name) for name in self.single} | walked

    def part(self, name: str) -> FramedPart:
        """Return what is written of a wall."""
        return self.walked.get(name) or self.single[name]

    def described(self) -> tuple[TypedWall, ...]:
        """Return the walls that could be read, walked ones first."""
        order = [*self.walked, *(name for name in self.single if name not in self.walked)]
        return tuple(typed for name in order if (typed := self._typed(name)))

    def _kind_of(self, name: str, path: Path) -> WallKind | None:
        part = self.part(name)
        usual = self.house.outside_walls.kind if name in self.walked and self.house.outside_walls else None
        written = part.kind or usual or (self.noted.wall_kind if name not in self.walked else "")
        if not written and len(self.kinds) == 1:
            return next(iter(self.kinds.values()))
        if not written:
            holder = "outside walls: kind" if name in self.walked else "unless noted: wall kind"
            self.notebook.find(
                path,
                rule="file.missing",
                found="its kind is not written.",
                expected=f"kind: one of {', '.join(self.kinds)}.",
                do=f"Add kind to this wall, or to all at once with {holder}.",
                at_key=True,
            )
            return None
        kind = self.kind_names.find(written)
        if kind is None:
            found, expected, do = self.kind_names.unknown(written, "wall kind")
            at: Path = (
                (*path, "kind")
                if part.kind
                else ("outside walls", "kind")
                if usual
                else ("unless noted", "wall kind")
            )
            self.notebook.find(at, rule="house.wall-kind", found=found, expected=expected, do=do)
            return None
        return self.kinds[kind]

    def _lay(self) -> None:
        depths = {name: kind.depth for name, kind in self.kind_of.items() if kind}
        if self.house.outside_walls:
            self.closed = walk_round(self.house.outside_walls, depths, self.plan, self.notebook)
        for name, part in self.single.items():
            if name in self.walked:
                self._twice(name)
            elif name not in depths:
                self.plan.broken.add(name)
            elif by_points(part):
                continue
            elif taped := taped_wall(name, part, depths[name], self.notebook):
                self.plan.taped[name] = taped
            else:
                self.plan.broken.add(name)
        for name, part in self.single.items():
            if (
                name in depths
                and name not in self.plan.taped
                and name not in self.plan.broken | set(self.walked)
            ):
                self._by_points(name, part, depths[name])
        for name in self.plan.taped:
            self.plan.lay(name)

    def _twice(self, name: str) -> None:
        line = self.notebook.where(("outside walls", "walk", name), at_key=True).line
        self.notebook.find(
            ("walls", name),
            rule="house.name-twice",
            found=f"another wall on line {line} has the same name.",
            expected="a name of its own for each wall.",
            do="Rename one of them.",
            at_key=True,
        )

    def _by_points(self, name: str, part: WallPart, depth: Length) -> None:
        path: Path = ("walls", name)
        look_at_points(part, path, self.notebook)
        if not isinstance(part.start, Spot) or not isinstance(part.to, Spot):
            return
        start = spot_point(self.plan, part.start, (*path, "from"))
        end = spot_point(self.plan, part.to, (*path, "to"))
        if start is None or end is None:
            self.plan.broken.add(name)
            return
        line = _LINES[part.line or "center"]
        self.plan.laid[name] = Laid(start=start, end=end, line=line, depth=depth)

    def _typed(self, name: str) -> TypedWall | None:
        laid, kind, part, path = (
            self.plan.laid.get(name),
            self.kind_of[name],
            self.part(name),
            self.paths()[name],
        )
        height = part.height or self.noted.wall_height
        if height is None:
            self.notebook.find(
                path,
                rule="file.missing",
                found="its height is not written.",
                expected="the height of its top plate above the subfloor.",
                do="Write wall height once under 'unless noted', or height on this wall.",
                at_key=True,
            )
        if laid is None or kind is None or height is None:
            return None
        spacing = part.stud_spacing or kind.spacing
        return TypedWall(
            name=name,
            kind=kind.name,
            start=laid.start,
            end=laid.end,
            line=laid.line,
            height=height,
            gable=self._top(part, height, laid, path),
            spacing=part.stud_spacing,
            layout_from_end=self._layout_end(part, laid, path),
            layout_offset=part.first_stud - spacing if part.first_stud else Length(0),
            changes=self._changes(name),
            where=self.notebook.where(path, at_key=True),
        )

    def _top(
        self, part: FramedPart, height: Length, laid: Laid, path: Path
    ) -> tuple[tuple[Length, Length], ...]:
        run = _run(laid)
        if part.peak and part.top:
            self.notebook.find(
                (*path, "top"),
                rule="file.entry",
                found="both peak and top are written.",
                expected="one of them.",
                do="Take one out; peak is for a gable, top for any other slope.",
                at_key=True,
            )
        if part.peak:
            at = _along(part.peak, run)
            points = [(Length(0), height), (at, part.peak.height), (run, height)]
            key = "peak"
        elif part.top:
            points = [(_along(point, run), point.height) for point in part.top]
            key = "top"
        else:
            return ()
        if any(b <= a for (a, _), (b, _) in pairwise(points)) or points[-1][0] > run:
            self.notebook.find(
                (*path, key),
                rule="house.wall-top",
                found="the points of its top do not lie one after another along the wall.",
                expected=f"distances that grow from the start, at most {run}.",
                do="Check the distances; they are measured from the wall's start.",
            )
            return ()
        return tuple(points)

    def _layout_end(self, part: FramedPart, laid: Laid, path: Path) -> bool:
        if not part.layout_from:
            return False
        word = part.layout_from.lower().removesuffix(" end")
        ends = {"start": False, "end": True, "": True} | _compass_ends(laid)
        if word not in ends:
            self.notebook.find(
                (*path, "layout from"),
                rule="file.entry",
                found=f"'{part.layout_from}' is no end of this wall.",
                expected=f"one of: {', '.join(each for each in ends if each)}.",
                do="Write the end the stud layout starts from.",
            )
            return False
        return ends[word]

    def _look_at_built(self) -> None:
        for written in self.house.as_built or {}:
            if self.names.find(written) is None:
                found, expected, do = self.names.unknown(written, "wall")
                self.notebook.find(
                    ("as built", written),
                    rule="house.wall-unknown",
                    found=found,
                    expected=expected,
                    do=do,
                    at_key=True,
                )

    def _changes(self, name: str) -> tuple[FramingChange, ...]:
        written = self.house.as_built or {}
        meant = [key for key in written if self.names.find(key) == name]
        return tuple(
            change
            for key in meant
            for n, each in enumerate(written[key])
            if (change := self._change(each, ("as built", key, n)))
        )

    def _change(self, change: AsBuilt, path: Path) -> FramingChange | None:
        member = _SHORT.get(change.member, change.member)
        if member not in {kind.value for kind in MemberKind} & _UPRIGHT:
            self.notebook.find(
                path,
                rule="file.entry",
                found=f"'{change.member}' is not an upright member of a wall.",
                expected=f"one of: {', '.join(sorted(_UPRIGHT))}.",
                do="Write its name as the wall's elevation shows it.",
            )
            return None
        return FramingChange(
            do=change.do, member=member, at=change.at, to=change.to, where=self.notebook.where(path)
        )


def _run(laid: Laid) -> Length:
    """Return how long a wall is as written."""
    east, north = laid.end.x - laid.start.x, laid.end.y - laid.start.y
    return Length(round(hypot(east.sixtyfourths, north.sixtyfourths)))


def _along(point: TopPoint, run: Length) -> Length:
    if isinstance(point.at, Length):
        return point.at
    return {"start": Length(0), "middle": run // 2, "end": run}[point.at]


def _compass_ends(laid: Laid) -> dict[str, bool]:
    """Return the compass words for a wall's ends: False the start, True the end."""
    east, north = (laid.end.x - laid.start.x).sixtyfourths, (laid.end.y - laid.start.y).sixtyfourths
    ends: dict[str, bool] = {}
    if east:
        ends |= {"east": east > 0, "west": east < 0}
    if north:
        ends |= {"north": north > 0, "south": north < 0}
    return ends
