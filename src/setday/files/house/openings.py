"""The openings of a house file, as the core takes them."""

from setday.files.house.phrases import FromEnd, Size
from setday.files.house.shape_walls import OpeningPart
from setday.files.house.unless_noted import UnlessNoted
from setday.files.house.walls import Walls
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Path
from setday.house import OpeningKind, TypedOpening
from setday.measure import Length

__all__ = ["describe_openings"]

_KINDS = {"door": OpeningKind.DOOR, "window": OpeningKind.WINDOW, "cased": OpeningKind.CASED}
_WORDS = {"north", "south", "east", "west", "start", "end"}


def describe_openings(
    parts: dict[str, OpeningPart], walls: Walls, noted: UnlessNoted, notebook: Notebook
) -> tuple[TypedOpening, ...]:
    """Return the openings that could be read.

    Parameters
    ----------
    parts : dict
    walls : Walls
    noted : UnlessNoted
    notebook : Notebook
    """
    described = (_opening(name, part, walls, noted, notebook) for name, part in parts.items())
    return tuple(opening for opening in described if opening)


def _opening(
    name: str, part: OpeningPart, walls: Walls, noted: UnlessNoted, notebook: Notebook
) -> TypedOpening | None:
    path: Path = ("openings", name)
    wall = wall_named(part.wall, walls, (*path, "wall"), notebook)
    sized = _sized(part, noted, path, notebook)
    placed = _placed(part, walls, path, notebook)
    if sized is None or placed is None or wall is None:
        return None
    word, size = sized
    sill = _sill(part, word, size, noted, path, notebook)
    if sill is None:
        return None
    held, to_center = placed
    return TypedOpening(
        name=name,
        wall=wall,
        kind=_KINDS[word],
        width=size.width,
        height=size.height,
        sill=sill,
        measured_from=held.end,
        distance=held.distance,
        to_center=to_center,
        going=held.going,
        jacks=noted.jacks if part.jacks is None else part.jacks,
        header_depth=part.header or noted.header,
        where=notebook.where(path, at_key=True),
    )


def wall_named(written: str, walls: Walls, path: Path, notebook: Notebook) -> str | None:
    """Return the wall meant, or None with a finding.

    Parameters
    ----------
    written : str
    walls : Walls
    path : tuple of str or int
        Where it is written.
    notebook : Notebook
    """
    name = walls.names.find(written)
    if name is None:
        found, expected, do = walls.names.unknown(written, "wall")
        notebook.find(path, rule="house.opening-wall", found=found, expected=expected, do=do)
    return name


def held_to(held: FromEnd, walls: Walls, path: Path, notebook: Notebook) -> FromEnd | None:
    """Return a distance with the wall's name as declared, or None with a finding.

    Parameters
    ----------
    held : FromEnd
    walls : Walls
    path : tuple of str or int
        Where it is written.
    notebook : Notebook
    """
    if held.end in _WORDS:
        return held
    name = walls.names.find(held.end)
    if name is None:
        found, expected, do = walls.names.unknown(held.end, "wall")
        expected = f"an end of the wall (north, south, east, west), or {expected}"
        notebook.find(path, rule="house.opening-from", found=found, expected=expected, do=do)
        return None
    return FromEnd(distance=held.distance, end=name, going=held.going)


def _sized(part: OpeningPart, noted: UnlessNoted, path: Path, notebook: Notebook) -> tuple[str, Size] | None:
    given = [
        (word, size)
        for word, size in (("door", part.door), ("window", part.window), ("cased", part.cased))
        if size
    ]
    if len(given) != 1:
        notebook.find(
            path,
            rule="file.missing",
            found="its size is not written." if not given else "it is written as more than one thing.",
            expected="one of door, window or cased, with its size.",
            do="Write one line like: door: 3'-0\" x 6'-8\".",
            at_key=True,
        )
        return None
    word, size = given[0]
    if size.width.sixtyfourths <= 0 or size.height.sixtyfourths <= 0:
        notebook.find(
            (*path, word),
            rule="file.entry",
            found="its width or height is nothing or less.",
            expected="a width and a height above 0.",
            do="Check both.",
        )
        return None
    if size.rough:
        return word, size
    more = noted.allowances[word]
    return word, Size(width=size.width + more.width, height=size.height + more.height, rough=True)


def _placed(part: OpeningPart, walls: Walls, path: Path, notebook: Notebook) -> tuple[FromEnd, bool] | None:
    if (part.center is None) == (part.near_side is None):
        notebook.find(
            path,
            rule="file.missing",
            found="its place is not written." if part.center is None else "its place is written twice.",
            expected="center or near side, one of them.",
            do="Write one line like: center: 5'-3\" from west end.",
            at_key=True,
        )
        return None
    written = part.center or part.near_side
    key = "center" if part.center else "near side"
    held = held_to(written, walls, (*path, key), notebook) if written else None
    return (held, part.center is not None) if held else None


def _sill(
    part: OpeningPart, word: str, size: Size, noted: UnlessNoted, path: Path, notebook: Notebook
) -> Length | None:
    """Return the bottom of the rough opening."""
    if part.sill is not None and part.head is not None:
        notebook.find(
            (*path, "head"),
            rule="file.entry",
            found="both sill and head are written.",
            expected="one of them; the height of the opening gives the other.",
            do="Take one out.",
            at_key=True,
        )
        return None
    if word != "window" and part.sill is None and part.head is None:
        return Length(0)
    head = part.head or noted.window_head
    sill = part.sill if part.sill is not None else head - size.height
    if sill.sixtyfourths < 0:
        notebook.find(
            (*path, "head" if part.head else "sill" if part.sill else word),
            rule="file.entry",
            found=f"its bottom comes to {sill}, below the subfloor.",
            expected="an opening above the subfloor.",
            do="Check its height and its head; write sill or head for this opening.",
        )
        return None
    return sill
