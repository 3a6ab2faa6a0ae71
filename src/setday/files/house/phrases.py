"""The short phrases of a house file, read into values.

Each reader takes the text as typed and returns a value, or raises `Misread` with what was found, what
was expected and what to do.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from setday.errors import MeasureError
from setday.files.written.fields import Misread
from setday.house import Side
from setday.measure import Length, parse_length
from setday.rules import Table, load_table

__all__ = [
    "AsBuilt",
    "FromEnd",
    "Leg",
    "Size",
    "Spot",
    "Stretch",
    "Tape",
    "TopPoint",
    "lumber_depths",
    "read_as_built",
    "read_depth",
    "read_from_end",
    "read_leg",
    "read_rise",
    "read_size",
    "read_spot",
    "read_stretch",
    "read_tape",
    "read_top",
    "read_wall_end",
    "typed_length",
]

_WAYS = "north|south|east|west"
_LONGEST = 160


@dataclass(frozen=True, slots=True, kw_only=True)
class Tape:
    """A place across the plan: a distance from zero, or from a wall going one way.

    `face` is "near", "far" or "center" of the wall; `going` is empty for "at WALL".
    """

    distance: Length
    wall: str = ""
    going: Side | None = None
    face: str = "near"


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A point of the plan, by its place going east and its place going north."""

    x: Tape
    y: Tape


@dataclass(frozen=True, slots=True, kw_only=True)
class Leg:
    """One leg of a walk: so far one way, to a point, or back to where the walk began."""

    east: int = 0
    north: int = 0
    distance: Length = Length(0)
    to: Spot | None = None
    back: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Width and height; `rough` when they are the rough opening's."""

    width: Length
    height: Length
    rough: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class FromEnd:
    """A distance along a wall, from an end of it or from a wall that meets it."""

    distance: Length
    end: str
    going: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a wall: how wide, and where it begins."""

    width: Length
    start: FromEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class TopPoint:
    """A height of a sloping wall top; `at` a distance from the wall's start, or "start", "middle", "end"."""

    height: Length
    at: Length | str


@dataclass(frozen=True, slots=True, kw_only=True)
class AsBuilt:
    """A stud or another member that was added, removed or moved."""

    member: str
    do: str
    at: Length
    to: Length | None = None


def typed_length(text: str) -> Length:
    """Read a length.

    Parameters
    ----------
    text : str
        As typed.

    Raises
    ------
    Misread
    """
    try:
        return parse_length(text)
    except MeasureError as error:
        raise Misread(error.message, "a length with its unit, like 12'-6 1/2\".", error.do) from error


def read_tape(text: str) -> Tape:
    """Read a distance from zero, "12' north of south wall", "... of the far face of ...", "at hall wall"."""
    text = _short(text)
    if match := re.fullmatch(r"at (?:the )?(.+)", text):
        return Tape(distance=Length(0), wall=match[1])
    if match := re.fullmatch(rf"(.+?) (?:to the )?({_WAYS}) of (?:the )?(.+)", text, re.IGNORECASE):
        distance = typed_length(match[1])
        face, wall = "near", match[3]
        if faced := re.fullmatch(
            r"(far|near|center|centre)(?: face| line)? of (?:the )?(.+)", wall, re.IGNORECASE
        ):
            face, wall = faced[1].lower().replace("centre", "center"), faced[2]
        return Tape(distance=distance, wall=wall, going=Side(match[2].lower()), face=face)
    if re.search(r"\bfrom\b|\boff\b", text):
        raise Misread(
            f"'{text}' does not say which way the tape runs.",
            "a length, a direction and a wall, like 12'-4\" north of south wall.",
            "Write north of, south of, east of or west of in place of from.",
        )
    return Tape(distance=typed_length(text))


def read_spot(text: str) -> Spot:
    """Read "6' east, 4' north" or "3' east of west wall, 4' north of south wall"."""
    parts = [part.strip() for part in _short(text).split(",")]
    if len(parts) != 2:
        raise _not_a_spot(text)
    by_axis: dict[str, Tape] = {}
    for part in parts:
        tape = _spot_part(part, text)
        axis = "x" if tape.going in (Side.EAST, Side.WEST) else "y"
        by_axis[axis] = tape if tape.wall else Tape(distance=tape.distance)
    if len(by_axis) != 2:
        raise _not_a_spot(text)
    return Spot(x=by_axis["x"], y=by_axis["y"])


def _spot_part(part: str, text: str) -> Tape:
    match = re.fullmatch(rf"(.+?) ({_WAYS})", part, re.IGNORECASE)
    if match and not match[1].lower().endswith(" of"):
        distance, way = typed_length(match[1]), Side(match[2].lower())
        return Tape(distance=distance if way in (Side.EAST, Side.NORTH) else -distance, going=way)
    tape = read_tape(part)
    if tape.going is None:
        raise _not_a_spot(text)
    return tape


def _not_a_spot(text: str) -> Misread:
    return Misread(
        f"'{text}' is not a point of the plan.",
        "how far east and how far north, like 6' east, 4' north.",
        "Write both distances with their directions, a comma between them.",
    )


_COMPASS = {
    "north": (0, 1),
    "south": (0, -1),
    "east": (1, 0),
    "west": (-1, 0),
    "northeast": (1, 1),
    "northwest": (-1, 1),
    "southeast": (1, -1),
    "southwest": (-1, -1),
}


def read_wall_end(text: str) -> Tape | Spot:
    """Read "hall wall", "3' east of west wall", a distance from zero, or "4' east, 0' north"."""
    text = _short(text)
    if re.match(r"-?[.\d\u00bc-\u00be\u2150-\u215e]", text):
        return read_spot(text) if "," in text else read_tape(text)
    return Tape(distance=Length(0), wall=re.sub(r"^(?:at )?(?:the )?", "", text))


def read_leg(text: str) -> Leg:
    """Read "east 24'", "northeast 5'", "to 24' east, 0' north" or "back to start"."""
    text = _short(text)
    if re.fullmatch(r"(back )?to (the )?start", text, re.IGNORECASE):
        return Leg(back=True)
    if match := re.fullmatch(r"to (.+)", text, re.IGNORECASE):
        return Leg(to=read_spot(match[1]))
    way, _, distance = text.partition(" ")
    step = _COMPASS.get(way.lower().replace("-", ""))
    if step is None or not distance:
        raise Misread(
            f"'{text}' is not a leg of a walk.",
            "a direction and a length, like east 14'-6\"; or to 24' east, 0' north; or back to start.",
            f"Begin with one of: {', '.join(_COMPASS)}.",
        )
    return Leg(east=step[0], north=step[1], distance=_more_than_nothing(typed_length(distance), text))


def read_size(text: str) -> Size:
    """Read "3' x 7'", "rough 3' x 7'" or the four figures of a door, "3068"."""
    text = _short(text)
    if match := re.fullmatch(r"(\d)(\d)(\d)(\d)", text):
        width, height = (Length.of(feet=int(match[n]), inches=int(match[n + 1])) for n in (1, 3))
        return Size(width=_more_than_nothing(width, text), height=_more_than_nothing(height, text))
    rough = re.match(r"rough (?:opening )?", text, re.IGNORECASE)
    parts = re.split(r"\s*(?:\bx\b|×|\bby\b|(?<=['\"])x(?=\d))\s*", text[rough.end() :] if rough else text)
    if len(parts) != 2:
        raise Misread(
            f"'{text}' is not a width and a height.",
            "width x height, like 3'-0\" x 6'-8\".",
            "Write the width first, then x, then the height.",
        )
    width, height = typed_length(parts[0]), typed_length(parts[1])
    return Size(width=width, height=height, rough=bool(rough))


def read_from_end(text: str) -> FromEnd:
    """Read "4' from west end", "5' from bath wall going east" or "5' east of bath wall"."""
    match = re.fullmatch(
        rf"(.+?) (?:from|({_WAYS}) of) (?:the )?(.+?)(?: going ({_WAYS}))?", _short(text), re.IGNORECASE
    )
    if not match:
        raise Misread(
            f"'{text}' does not say where the tape was held.",
            "a length and an end, like 4'-2\" from west end, or a wall that meets it: 5' from bath wall.",
            "Add from and the end the tape was held to.",
        )
    end = re.sub(rf"^({_WAYS}|start)(?: end| corner)$", r"\1", match[3], flags=re.IGNORECASE)
    end = end.lower() if re.fullmatch(rf"{_WAYS}|start|end", end, re.IGNORECASE) else end
    ways = {way.lower() for way in (match[2], match[4]) if way}
    if len(ways) > 1 or end in ways:
        raise Misread(
            f"'{text}' sends the tape two ways at once."
            if end not in ways
            else f"'{text}' runs off the wall.",
            "one way along the wall, like 5'-3\" from bath wall going east.",
            "Write the way the tape ran.",
        )
    return FromEnd(distance=typed_length(match[1]), end=end, going="".join(ways))


def read_stretch(text: str) -> Stretch:
    """Read "3' from north end" or "5' starting 1' from hall wall"."""
    if match := re.fullmatch(r"(.+?)(?: wide)?,? starting (.+)", _short(text), re.IGNORECASE):
        width, start = typed_length(match[1]), read_from_end(match[2])
    else:
        read = read_from_end(text)
        width, start = read.distance, FromEnd(distance=Length(0), end=read.end, going=read.going)
    return Stretch(width=_more_than_nothing(width, text), start=start)


def read_top(text: str) -> TopPoint:
    """Read "12' at 14'", "8' at end" or "12' in the middle"."""
    match = re.fullmatch(r"(.+?) (?:at|in) (?:the )?(.+)", _short(text), re.IGNORECASE)
    if not match:
        raise Misread(
            f"'{text}' is not a height and its place.",
            "a height and how far from the wall's start, like 12'-1\" at 14'-3\".",
            "Add at and the distance, or at start, in the middle, at end.",
        )
    word = match[2].lower()
    at: Length | str = word if word in ("start", "middle", "end") else typed_length(match[2])
    return TopPoint(height=_more_than_nothing(typed_length(match[1]), text), at=at)


def read_rise(text: str) -> Length:
    """Read "4 in per foot" or "4/12": the rise for each foot of run."""
    text = _short(text)
    if match := re.fullmatch(r"(\d+(?:\.\d+)?)\s*(?:/|:|in|on)\s*12", text):
        return Length.of(inches=Fraction(match[1]))
    if match := re.fullmatch(r"(.+?) (?:per|a|for each|each) (?:foot|ft)", text, re.IGNORECASE):
        return typed_length(match[1])
    raise Misread(
        f"'{text}' is not a rise.",
        'inches for each foot of run, like 4" per foot.',
        'Write it like 4" per foot.',
    )


def read_as_built(text: str) -> AsBuilt:
    """Read "stud added at 4'", "backer removed at 9'" or "stud moved from 6' to 7'"."""
    text = _short(text)
    if match := re.fullmatch(r"(.+?) moved from (.+?) to (.+)", text, re.IGNORECASE):
        return AsBuilt(
            member=match[1].lower(), do="move", at=typed_length(match[2]), to=typed_length(match[3])
        )
    if match := re.fullmatch(r"(.+?) (added|removed) at (.+)", text, re.IGNORECASE):
        do = {"added": "add", "removed": "remove"}[match[2].lower()]
        return AsBuilt(member=match[1].lower(), do=do, at=typed_length(match[3]))
    raise Misread(
        f"'{text}' is not a change of framing.",
        "like: stud added at 4'-2\"; stud removed at 9'-4\"; stud moved from 6'-8\" to 6'-9 1/4\".",
        "Measure to the centre of the member, from the wall's start.",
    )


def read_depth(text: str) -> Length:
    """Read the depth of studs: a nominal name like 2x6, or a length."""
    plain = re.sub(r"\s+", "", _short(text)).lower().replace("×", "x")
    if re.fullmatch(r"\d+x\d+", plain):
        depths = lumber_depths()
        if plain not in depths:
            raise Misread(
                f"no lumber is called {text}.",
                f"one of: {', '.join(depths)}.",
                "Write the depth as a length instead.",
            )
        return depths[plain]
    return _more_than_nothing(typed_length(text), text)


@cache
def lumber_depths() -> dict[str, Length]:
    """Return the actual depth of lumber by its nominal name."""
    table: Table = load_table("setday.files.house", "lumber")
    return {row["nominal"]: Length.of(inches=Fraction(row["depth_in"])) for row in table.rows}


def _more_than_nothing(length: Length, text: str) -> Length:
    if length.sixtyfourths <= 0:
        raise Misread(f"'{text}' has a length of nothing or less.", "a length above 0.", "Check the number.")
    return length


def _short(text: str) -> str:
    if len(text) > _LONGEST:
        raise Misread(
            f"'{text[:30]}...' is too long.", f"at most {_LONGEST} characters.", "Write it shorter."
        )
    return " ".join(text.split())
