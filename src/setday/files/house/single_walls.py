"""A wall typed by itself: taped along the compass, or given by two points."""

from setday.files.house.phrases import Spot, Tape
from setday.files.house.shape_walls import WallPart
from setday.files.house.taping import FACES, TapedWall
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.house import Side
from setday.measure import Length

__all__ = ["by_points", "look_at_points", "taped_wall"]


def by_points(part: WallPart) -> bool:
    """Tell whether a wall is given by two points.

    Parameters
    ----------
    part : WallPart
    """
    return isinstance(part.start, Spot) and isinstance(part.to, Spot) and not part.runs


def look_at_points(part: WallPart, path: Path, notebook: Notebook) -> None:
    """Note what a wall by two points has no use for.

    Parameters
    ----------
    part : WallPart
    path : tuple of str or int
    notebook : Notebook
    """
    given = {key: tape for key, tape in _faces(part).items() if tape} | ({"length": 1} if part.length else {})
    for key in given:
        notebook.find(
            (*path, key),
            rule="file.entry",
            found=f"a wall by two points has no '{key}'.",
            expected="from and to, and line.",
            do="Take it out, or write runs and the walls it meets.",
            at_key=True,
        )


def _faces(part: WallPart) -> dict[str, Tape | None]:
    return {
        "north face": part.north_face,
        "south face": part.south_face,
        "east face": part.east_face,
        "west face": part.west_face,
        "center": part.center,
    }


def _look_for_misfits(part: WallPart, path: Path, notebook: Notebook) -> None:
    if part.line:
        notebook.find(
            (*path, "line"),
            rule="file.entry",
            found="'line' is for a wall by two points.",
            expected="a face or the centre, with where it stands.",
            do="Take it out; north face, south face, east face, west face or center says it.",
            at_key=True,
        )
    if part.to is not None and part.length is not None:
        notebook.find(
            (*path, "length"),
            rule="file.entry",
            found="both 'to' and 'length' are written.",
            expected="one of them.",
            do="Take one out.",
            at_key=True,
        )


def taped_wall(name: str, part: WallPart, depth: Length, notebook: Notebook) -> TapedWall | None:
    """Return a wall taped along the compass, or None with findings.

    Parameters
    ----------
    name : str
    part : WallPart
    depth : Length
        Of its framing.
    notebook : Notebook
    """
    path: Path = ("walls", name)
    _look_for_misfits(part, path, notebook)
    if not part.runs:
        _missing(
            path,
            notebook,
            key="runs",
            expected="which way it runs: north, south, east or west",
            example="runs: east",
        )
        return None
    runs = Side(part.runs)
    stands = _stands(part, runs, path, notebook)
    end = part.length if part.to is None else part.to
    for key, written in (("from", part.start), ("to", end)):
        if written is None:
            _missing(
                path,
                notebook,
                key=key,
                expected="the wall it meets there, or a place",
                example=f"{key}: hall wall",
            )
        elif isinstance(written, Spot):
            notebook.find(
                (*path, key),
                rule="file.entry",
                found="a point is given for a wall that runs along the compass.",
                expected="the wall it meets there, or one distance.",
                do="Write one place, or leave out 'runs' and give two points.",
            )
    if stands is None or not isinstance(part.start, Tape) or not isinstance(end, Tape | Length):
        return None
    key, face, tape = stands
    return TapedWall(
        runs=runs, face=face, stands=tape, stands_key=key, start=part.start, end=end, depth=depth
    )


def _stands(
    part: WallPart, runs: Side, path: Path, notebook: Notebook
) -> tuple[str, Side | None, Tape] | None:
    across = FACES["y" if runs in FACES["x"] else "x"]
    given = _faces_given(part)
    wanted = f"{across[1]} face, {across[0]} face or center"
    for key, side, _ in given:
        if side not in across:
            notebook.find(
                (*path, key),
                rule="file.entry",
                found=f"a wall that runs {runs} has no {key}.",
                expected=f"{wanted}.",
                do="Check the way it runs and the face.",
            )
            return None
    placed = [*given, *([("center", None, part.center)] if part.center else [])]
    if len(placed) == 1:
        return placed[0]
    times = f"it is written {len(placed)} times where it stands."
    notebook.find(
        path,
        rule="file.missing",
        found=times if placed else "it is not written where it stands.",
        expected=f"one of: {wanted}.",
        do=f"Write one line like: {across[0]} face: 12'-4\" {across[1]} of a wall.",
        at_key=True,
    )
    return None


def _faces_given(part: WallPart) -> list[tuple[str, Side | None, Tape]]:
    """Return the faces a wall is placed by, as written."""
    written = (
        (Side.NORTH, part.north_face),
        (Side.SOUTH, part.south_face),
        (Side.EAST, part.east_face),
        (Side.WEST, part.west_face),
    )
    return [(f"{side} face", side, tape) for side, tape in written if tape]


def _missing(path: Path, notebook: Notebook, *, key: str, expected: str, example: str) -> None:
    notebook.find(
        path,
        rule="file.missing",
        found=f"'{key}' is not written.",
        expected=f"{expected}.",
        do=f"Add a line like: {example}; or give two points with from and to.",
        at_key=True,
    )
