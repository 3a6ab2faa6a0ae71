"""Tape to plan: walls measured from other walls, put on the plan's coordinates."""

from dataclasses import dataclass

from setday.files.house.phrases import Spot, Tape
from setday.files.written.notebook import Names, Notebook
from setday.files.written.tree import Path
from setday.house import Point, Side, WallLine
from setday.measure import Length

__all__ = ["FACES", "Laid", "Plan", "TapedWall", "spot_point"]

_SIGN = {Side.EAST: 1, Side.NORTH: 1, Side.WEST: -1, Side.SOUTH: -1}
_AXIS = {Side.EAST: "x", Side.WEST: "x", Side.NORTH: "y", Side.SOUTH: "y"}
_LEFT = {Side.EAST: Side.NORTH, Side.NORTH: Side.WEST, Side.WEST: Side.SOUTH, Side.SOUTH: Side.EAST}
FACES = {"x": (Side.WEST, Side.EAST), "y": (Side.SOUTH, Side.NORTH)}
_LONGEST_CHAIN = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class Laid:
    """A wall on the plan: the line given, and which line of the framing it is."""

    start: Point
    end: Point
    line: WallLine
    depth: Length


@dataclass(frozen=True, slots=True, kw_only=True)
class TapedWall:
    """A wall as taped: which way it runs, where one line of it stands, and its two ends.

    `face` is a side, or None for the centre line; `end` a place or a length.
    """

    runs: Side
    face: Side | None
    stands: Tape
    stands_key: str
    start: Tape
    end: Tape | Length
    depth: Length


class Plan:
    """All walls of a file on their way to the plan.  `broken` are walls with findings of their own."""

    def __init__(self, notebook: Notebook, names: Names) -> None:
        self.notebook = notebook
        self.names = names
        self.laid: dict[str, Laid] = {}
        self.taped: dict[str, TapedWall] = {}
        self.broken: set[str] = set()
        self._faces: dict[str, tuple[str, Length, Length] | None] = {}
        self._asking: list[str] = []

    def lay(self, name: str) -> Laid | None:
        """Return a wall on the plan, or None where findings stand in the way.

        Parameters
        ----------
        name : str
            As declared.
        """
        if name in self.laid or name not in self.taped:
            return self.laid.get(name)
        taped, path = self.taped[name], ("walls", name)
        faces = self.faces(name)
        axis = _AXIS[taped.runs]
        start = self._end(taped.start, taped, (*path, "from"), leaving=True)
        end = self._end(taped.end, taped, (*path, "to"), leaving=False, start=start)
        if faces is None or start is None or end is None:
            return None
        if ((end - start).sixtyfourths > 0) != (_SIGN[taped.runs] > 0) or not end - start:
            self.notebook.find(
                (*path, "runs"),
                rule="house.wall-run",
                found=f"it runs {taped.runs} from {start} to {end}, which is the other way.",
                expected=f"a wall that runs {taped.runs} ends farther {taped.runs} than it starts.",
                do="Turn it round, or check both ends.",
            )
            return None
        line, at = self._line(taped, faces)
        ends = [Point(x=along, y=at) if axis == "x" else Point(x=at, y=along) for along in (start, end)]
        self.laid[name] = Laid(start=ends[0], end=ends[1], line=line, depth=taped.depth)
        return self.laid[name]

    def _line(self, taped: TapedWall, faces: tuple[str, Length, Length]) -> tuple[WallLine, Length]:
        _, low, high = faces
        if taped.face is None:
            return WallLine.CENTER, low + taped.depth // 2
        line = WallLine.LEFT if taped.face is _LEFT[taped.runs] else WallLine.RIGHT
        return line, high if taped.face in (Side.NORTH, Side.EAST) else low

    def faces(self, name: str) -> tuple[str, Length, Length] | None:
        """Return the axis a wall lies across, and the plan places of its two faces, low and high."""
        if name not in self._faces:
            self._faces[name] = self._find_faces(name)
        return self._faces[name]

    def _find_faces(self, name: str) -> tuple[str, Length, Length] | None:
        taped = self.taped.get(name)
        if taped is None:
            return _faces_of(self.laid[name]) if name in self.laid else None
        path = ("walls", name, taped.stands_key)
        if name in self._asking or len(self._asking) > _LONGEST_CHAIN:
            self._circle(name, path)
            return None
        self._asking.append(name)
        across = "y" if _AXIS[taped.runs] == "x" else "x"
        at = self.coordinate(taped.stands, across, path)
        self._asking.pop()
        if at is None:
            return None
        if taped.face is None:
            low = at - taped.depth // 2
        else:
            low = at if taped.face in (Side.SOUTH, Side.WEST) else at - taped.depth
        return across, low, low + taped.depth

    def _circle(self, name: str, path: Path) -> None:
        chain = self._asking[self._asking.index(name) :] if name in self._asking else self._asking[-3:]
        self.notebook.find(
            path,
            rule="house.wall-circle",
            found=f"these walls are measured from one another in a circle: {', '.join([*chain, name])}.",
            expected="walls measured from walls that are known already.",
            do="Measure one of them from an outside wall, or give its distance from zero.",
        )

    def coordinate(self, tape: Tape, axis: str, path: Path, *, inside: Side | None = None) -> Length | None:
        """Return the plan coordinate a tape leads to, or None with a finding.

        Parameters
        ----------
        tape : Tape
        axis : str
            "x" or "y".
        path : tuple of str or int
            Where it is written.
        inside : Side or None
            For "at WALL": the side of the wall that what is measured lies on.
        """
        if not tape.wall:
            return tape.distance
        name = self.names.find(tape.wall)
        if name is None:
            found, expected, do = self.names.unknown(tape.wall, "wall")
            self.notebook.find(path, rule="house.wall-unknown", found=found, expected=expected, do=do)
            return None
        going = tape.going or inside
        if going is None or _AXIS[going] != axis:
            self._wrong_way(tape, axis, path)
            return None
        faces = self.faces(name)
        if faces is None or faces[0] != axis:
            self._not_across(name, axis, path, known=faces is not None)
            return None
        _, low, high = faces
        forward = _SIGN[going] > 0
        face = {"near": high if forward else low, "far": low if forward else high}
        held = face.get(tape.face, low + (high - low) // 2)
        return held + tape.distance if forward else held - tape.distance

    def _wrong_way(self, tape: Tape, axis: str, path: Path) -> None:
        ways = " or ".join(FACES[axis])
        found = (
            f"the tape runs {tape.going}." if tape.going else f"it does not say which side of '{tape.wall}'."
        )
        self.notebook.find(
            path,
            rule="house.tape-way",
            found=found,
            expected=f"a distance {ways} of a wall.",
            do=f"Write {ways} of.",
        )

    def _not_across(self, name: str, axis: str, path: Path, *, known: bool) -> None:
        if not known and (name in self.taped or name in self.broken):
            return  # That wall has a finding of its own.
        ways = "east or west" if axis == "x" else "north or south"
        self.notebook.find(
            path,
            rule="house.tape-wall",
            found=f"wall '{name}' has no face that looks {ways}.",
            expected=f"a wall that stands across the tape; '{name}' lies along it or at an angle.",
            do="Measure from another wall, or give the distance from zero.",
        )

    def _end(
        self, end: Tape | Length, taped: TapedWall, path: Path, *, leaving: bool, start: Length | None = None
    ) -> Length | None:
        forward = _SIGN[taped.runs] > 0
        if isinstance(end, Length):
            return None if start is None else (start + end if forward else start - end)
        if end.wall and end.going is None:
            name = self.names.find(end.wall)
            angled = self.laid.get(name) if name else None
            if angled is not None and _faces_of(angled) is None:
                return self._meeting(taped, angled)
        opposite = {
            Side.EAST: Side.WEST,
            Side.WEST: Side.EAST,
            Side.NORTH: Side.SOUTH,
            Side.SOUTH: Side.NORTH,
        }
        inside = taped.runs if leaving else opposite[taped.runs]
        return self.coordinate(end, _AXIS[taped.runs], path, inside=inside)

    def _meeting(self, taped: TapedWall, angled: Laid) -> Length | None:
        """Return where a wall's line crosses the line of a wall at an angle."""
        faces = self.faces(next(name for name, each in self.taped.items() if each is taped))
        if faces is None:
            return None
        at = (faces[1].inches + faces[2].inches) / 2
        ends = [(p.x.inches, p.y.inches) for p in (angled.start, angled.end)]
        (u0, v0), (u1, v1) = ends if _AXIS[taped.runs] == "x" else [(y, x) for x, y in ends]
        return Length(round((u0 + (u1 - u0) * (at - v0) / (v1 - v0)) * 64))


def _faces_of(laid: Laid) -> tuple[str, Length, Length] | None:
    """Return the axis and the faces of a wall that runs along the compass; None for one at an angle."""
    east = (laid.end.x - laid.start.x).sixtyfourths
    north = (laid.end.y - laid.start.y).sixtyfourths
    if bool(east) == bool(north):
        return None
    axis, at = ("y", laid.start.y) if east else ("x", laid.start.x)
    left_is_high = east > 0 if axis == "y" else north < 0
    if laid.line is WallLine.CENTER:
        low = at - laid.depth // 2
    else:
        at_high = (laid.line is WallLine.LEFT) == left_is_high
        low = at - laid.depth if at_high else at
    return axis, low, low + laid.depth


def spot_point(plan: Plan, spot: Spot, path: Path) -> Point | None:
    """Return the plan point of a spot, or None with findings.

    Parameters
    ----------
    plan : Plan
    spot : Spot
    path : tuple of str or int
        Where it is written.
    """
    x, y = plan.coordinate(spot.x, "x", path), plan.coordinate(spot.y, "y", path)
    return None if x is None or y is None else Point(x=x, y=y)
