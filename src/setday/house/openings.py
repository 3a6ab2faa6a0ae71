"""Openings put in their walls."""

from itertools import pairwise

from setday.findings import Finding, Severity
from setday.house.description import HouseDescription, TypedOpening
from setday.house.lumber import THICK
from setday.house.model import Opening
from setday.house.placing import PlacedWall, from_inches
from setday.measure import Length

__all__ = ["end_of", "measure_along", "place_openings"]

_COMPASS = {"north": (0.0, 1.0), "south": (0.0, -1.0), "east": (1.0, 0.0), "west": (-1.0, 0.0)}
PLAY = 1 / 128

Placed = dict[str, tuple[Opening, ...]]


def place_openings(
    description: HouseDescription, walls: tuple[PlacedWall, ...]
) -> tuple[Placed, tuple[Finding, ...]]:
    """Put the openings in their walls.

    Returns
    -------
    openings : dict
        By wall name, in order along the framing; `along` counts from the start of the framing.
    findings : tuple of Finding
    """
    by_name = {wall.name: wall for wall in walls}
    placed: dict[str, list[Opening]] = {wall.name: [] for wall in walls}
    typed_by_name = {opening.name: opening for opening in description.openings}
    findings: list[Finding] = []
    for typed in description.openings:
        wall = by_name.get(typed.wall)
        if wall is None:
            findings += _no_wall(typed, description)
            continue
        left = measure_along(typed, wall, by_name)
        if isinstance(left, Finding):
            findings.append(left)
            continue
        opening = _opening(typed, left - wall.frame_start)
        findings += _fit(typed, opening, wall)
        placed[wall.name].append(opening)
    in_order = {name: tuple(sorted(row, key=lambda o: o.along)) for name, row in placed.items()}
    for row in in_order.values():
        findings += [f for a, b in pairwise(row) if (f := _overlap(a, b, typed_by_name))]
    for wall in walls:
        findings += _landed_on(wall, by_name, in_order, typed_by_name)
    return in_order, tuple(findings)


def end_of(wall: PlacedWall, word: str) -> bool | None:
    """Tell which end of a wall a word names: True the start, False the end, None neither."""
    if word in ("start", "end"):
        return word == "start"
    if word not in _COMPASS:
        return None
    toward = _COMPASS[word][0] * wall.ux + _COMPASS[word][1] * wall.uy
    return None if abs(toward) < PLAY else toward < 0


def measure_along(typed: TypedOpening, wall: PlacedWall, walls: dict[str, PlacedWall]) -> float | Finding:
    """Return where the left side of an opening stands on its wall's centre line [in], or why it cannot."""
    width = typed.width.inches
    out = typed.distance.inches - (width / 2 if typed.to_center else 0.0)
    at_start = end_of(wall, typed.measured_from)
    if at_start is not None:
        return wall.face_start + out if at_start else wall.face_end - out - width
    faces = _faces(wall, walls.get(typed.measured_from))
    if faces is None:
        return _no_end(typed, wall)
    low, high = faces
    forward = _going(typed, wall, low, high)
    if forward is None:
        return _which_way(typed, wall)
    return high + out if forward else low - out - width


def _faces(wall: PlacedWall, other: PlacedWall | None) -> tuple[float, float] | None:
    """Return where the two faces of a meeting wall cross this wall's centre line, low and high."""
    if other is None:
        return None
    for joint in wall.joints:
        if joint.meets == other.name:
            return min(joint.near, joint.far), max(joint.near, joint.far)
    for joint in other.joints:
        if joint.meets == wall.name:
            half = other.half / abs(other.ux * wall.uy - other.uy * wall.ux)
            return joint.along_other - half, joint.along_other + half
    return None


def _going(typed: TypedOpening, wall: PlacedWall, low: float, high: float) -> bool | None:
    if typed.going:
        back = end_of(wall, typed.going)
        return None if back is None else not back
    room_after = wall.face_end - high >= typed.width.inches
    room_before = low - wall.face_start >= typed.width.inches
    return room_after if room_after != room_before else None


def _opening(typed: TypedOpening, along: float) -> Opening:
    return Opening(
        name=typed.name,
        kind=typed.kind,
        along=from_inches(along),
        width=typed.width,
        height=typed.height,
        sill=typed.sill,
    )


def _fit(typed: TypedOpening, opening: Opening, wall: PlacedWall) -> list[Finding]:
    run = wall.frame_end - wall.frame_start
    left, right = opening.along.inches, (opening.along + opening.width).inches
    findings = []
    if opening.width.inches > run:
        findings.append(
            _finding(
                typed,
                "house.opening-wider-than-wall",
                f"it is {opening.width} wide, and wall '{wall.name}' is {from_inches(run)} long.",
                do="Check the width and the wall's length.",
            )
        )
    elif left < -PLAY or right > run + PLAY:
        end = "start" if left < 0 else "end"
        past = from_inches(-left if left < 0 else right - run)
        findings.append(
            _finding(
                typed,
                "house.opening-off-wall",
                f"it reaches {past} past the {end} of wall '{wall.name}'.",
                do="Check the distance and the end it was measured from.",
            )
        )
    elif min(left, run - right) < (typed.jacks + 1) * THICK - PLAY:
        findings.append(_tight(typed, from_inches(min(left, run - right)), wall))
    highest = max((h for _, h in wall.typed.gable), default=wall.typed.height)
    if opening.head > highest:
        findings.append(
            _finding(
                typed,
                "house.opening-above-wall",
                f"its head is at {opening.head}, and wall '{wall.name}' is {highest} high.",
                do="Check the height and the sill.",
            )
        )
    return findings


def _tight(typed: TypedOpening, left_over: object, wall: PlacedWall) -> Finding:
    return Finding(
        rule="house.opening-near-end",
        about=f"opening '{typed.name}'",
        found=f"only {left_over} of wall '{wall.name}' is left beside it.",
        expected=f"room for {typed.jacks} jack and a king stud, {(typed.jacks + 1) * THICK:g} in.",
        do="Check the distance, or write fewer jacks if the corner carries it.",
        severity=Severity.ASK,
        where=typed.where,
    )


def _overlap(a: Opening, b: Opening, typed: dict[str, TypedOpening]) -> Finding | None:
    gap = b.along - (a.along + a.width)
    if gap.sixtyfourths >= 0:
        return _crowded(a, b, gap, typed)
    return _finding(
        typed[b.name],
        "house.openings-overlap",
        f"it and opening '{a.name}' overlap by {-gap}.",
        expected="openings stand side by side.",
        do=f"Check both distances; '{a.name}' is on line {typed[a.name].where.line}.",
    )


def _crowded(a: Opening, b: Opening, gap: Length, typed: dict[str, TypedOpening]) -> Finding | None:
    """Ask about two openings without room between them for their jacks and a king they share."""
    needed = (typed[a.name].jacks + typed[b.name].jacks + 1) * THICK
    if gap.inches >= needed - PLAY:
        return None
    return Finding(
        rule="house.openings-near",
        about=f"opening '{b.name}'",
        found=f"only {gap} is left between it and opening '{a.name}' (line {typed[a.name].where.line}).",
        expected=f"room for their jacks and a king stud between them, {needed:g} in.",
        do="Check both distances, or write fewer jacks if one header carries over both.",
        severity=Severity.ASK,
        where=typed[b.name].where,
    )


def _landed_on(
    wall: PlacedWall, walls: dict[str, PlacedWall], openings: Placed, typed: dict[str, TypedOpening]
) -> list[Finding]:
    findings = []
    for joint in wall.joints:
        if joint.corner:
            continue
        half = wall.half
        crossing = joint.along_other - walls[joint.meets].frame_start
        for opening in openings.get(joint.meets, ()):
            left, right = opening.along.inches, (opening.along + opening.width).inches
            if left < crossing + half - PLAY and right > crossing - half + PLAY:
                findings.append(
                    _finding(
                        typed[opening.name],
                        "house.wall-in-opening",
                        f"wall '{wall.name}' ends in it.",
                        expected="a wall ends against framing.",
                        do="Move the opening or the wall.",
                    )
                )
    return findings


def _no_wall(typed: TypedOpening, description: HouseDescription) -> list[Finding]:
    if any(wall.name == typed.wall for wall in description.walls):
        return []  # The wall is written, but has a finding of its own.
    return [
        _finding(
            typed,
            "house.opening-wall",
            f"there is no wall '{typed.wall}'.",
            expected=f"one of: {', '.join(w.name for w in description.walls)}.",
            do="Correct the name of the wall.",
        )
    ]


def _no_end(typed: TypedOpening, wall: PlacedWall) -> Finding:
    ends = [word for word in _COMPASS if end_of(wall, word) is not None]
    return _finding(
        typed,
        "house.opening-from",
        f"'{typed.measured_from}' is neither an end of wall '{wall.name}' nor a wall that meets it.",
        expected=f"{' or '.join(ends)}, or the name of a wall that meets it.",
        do="Write the end the tape was held to.",
    )


def _which_way(typed: TypedOpening, wall: PlacedWall) -> Finding:
    ways = [word for word in _COMPASS if end_of(wall, word) is not None]
    return _finding(
        typed,
        "house.opening-way",
        f"from wall '{typed.measured_from}' the tape can run two ways along wall '{wall.name}'.",
        expected=f"the way it ran: going {' or going '.join(ways)}.",
        do="Write it like "
        + " or ".join(f"{typed.distance} from {typed.measured_from} going {way}" for way in ways)
        + ".",
    )


def _finding(typed: TypedOpening, rule: str, found: str, *, do: str, expected: str = "") -> Finding:
    return Finding(
        rule=rule, about=f"opening '{typed.name}'", found=found, expected=expected, do=do, where=typed.where
    )
