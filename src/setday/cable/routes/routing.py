"""All runs of a house routed: their ways, their lengths, their holes, their plates, and what could not be."""

from collections.abc import Sequence
from dataclasses import dataclass

from setday.cable.circuit import RunLength
from setday.cable.routes.bit import joist_refusal, needs_tie
from setday.cable.routes.blocked import no_way
from setday.cable.routes.holes import bores, drilled, plates_for
from setday.cable.routes.passages import Passages
from setday.cable.routes.run_length import cut_working, staples_on
from setday.cable.routes.words import passes
from setday.cable.run import Cable, Hole, PlateNeed, RoutePoint, Run
from setday.findings import Finding, Severity, in_order
from setday.house import MemberKind
from setday.measure import ZERO, Length

__all__ = ["Routing", "route_cables"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Routing:
    """Every run that was wanted and has a way.

    Parameters
    ----------
    runs : tuple of Run
        In the order they were wanted.
    holes : tuple of Hole
        By wall, height and place.
    plates : tuple of PlateNeed
    findings : tuple of Finding
        A wanted run without a way is a problem; bored joists that are too shallow are asked about.
    """

    runs: tuple[Run, ...]
    holes: tuple[Hole, ...]
    plates: tuple[PlateNeed, ...]
    findings: tuple[Finding, ...]

    def run(self, number: str) -> Run:
        """Return the run of that number."""
        return next(run for run in self.runs if run.number == number)

    def in_wall(self, wall: str) -> tuple[Run, ...]:
        """Return the runs that pass inside a wall."""
        return tuple(run for run in self.runs if wall in run.walls)

    @property
    def cut(self) -> Length:
        """All cable that is cut."""
        return sum((run.cut for run in self.runs), ZERO)

    @property
    def lengths(self) -> tuple[RunLength, ...]:
        """The runs as box fill and voltage drop want them, slack for the set in them."""
        return tuple(
            RunLength(start=run.cable.start, end=run.cable.end, cable=run.cable.kind, length_ft=run.cut.feet)
            for run in self.runs
        )


def route_cables(passages: Passages, cables: Sequence[Cable]) -> Routing:
    """Route every wanted run by the shortest way through the framing.

    Parameters
    ----------
    passages : Passages
        The ways of the house.
    cables : sequence of Cable
        Their `start` and `end` are names of its stops.
    """
    ways: dict[str, tuple[RoutePoint, ...]] = {}
    findings: list[Finding] = []
    for cable in cables:
        way = passages.way(cable.start, cable.end) if _known(cable, passages) else None
        if way is None:
            findings.append(no_way(cable, passages))
        else:
            ways[cable.number] = way
    routed = [cable for cable in cables if cable.number in ways]
    through = {cable.number: bores(ways[cable.number], passages) for cable in routed}
    holes = drilled([(cable, through[cable.number]) for cable in routed], passages)
    plates = plates_for(holes, ways, {cable.number: cable for cable in routed}, passages)
    runs = tuple(_run(cable, ways[cable.number], len(through[cable.number]), passages) for cable in routed)
    findings += [*_shallow_joists(holes, passages), *_cut_plates(holes, passages)]
    return Routing(runs=runs, holes=holes, plates=plates, findings=in_order(findings))


def _known(cable: Cable, passages: Passages) -> bool:
    return cable.start in passages.by_name and cable.end in passages.by_name


def _run(cable: Cable, way: tuple[RoutePoint, ...], bored: int, passages: Passages) -> Run:
    path = passages.length(cable.start, cable.end) or ZERO
    cut, slack, working = cut_working(cable, path, passages)
    return Run(
        cable=cable,
        points=way,
        path=path,
        cut=cut,
        slack=slack,
        passes=passes(way, passages),
        staples=staples_on(cable, way, passages),
        bored=bored,
        working=working,
    )


def _shallow_joists(holes: Sequence[Hole], passages: Passages) -> list[Finding]:
    rules = passages.rules
    why = joist_refusal(rules.hole_diameter, rules.joist_depth, book=rules.book)
    rooms = sorted({hole.room for hole in holes if not hole.wall})
    return [
        Finding(
            rule="cable.joist-hole",
            about=f"ceiling joists of '{room}'",
            found=f"runs cross them, and {why}.",
            expected="joists deep enough for the bit.",
            do="Cross on top of the joists, with guard strips where the code asks for them, or write the "
            "joists' true depth under the local rules.",
            severity=Severity.ASK,
            source=rules.book["cable.joist_bore_divisor"].source,
        )
        for room in rooms
        if why
    ]


def _cut_plates(holes: Sequence[Hole], passages: Passages) -> list[Finding]:
    """Note the walls whose top plates are bored so wide that they must be tied together again."""
    rules = passages.rules
    bored = sorted({hole.wall for hole in holes if hole.member is MemberKind.TOP_PLATE})
    walls = [passages.ways_of(name).wall for name in bored]
    return [
        Finding(
            rule="cable.top-plate",
            about=f"top plate of wall '{wall.name}'",
            found=f"a {Length(rules.hole_diameter)} hole takes more than "
            f"{rules.book.number('cable.plate_cut_percent'):g} % of its {wall.kind.depth}.",
            expected="a plate that still ties the wall together.",
            do="Nail a galvanized tie over every such hole, 0.054 in thick and 1-1/2 in wide at least, or "
            "take a smaller bit.",
            severity=Severity.ASK,
            source=rules.book["cable.plate_cut_percent"].source,
        )
        for wall in walls
        if (wall.kind.outside or wall.kind.bearing)
        and needs_tie(rules.hole_diameter, wall.kind.depth.sixtyfourths, book=rules.book)
    ]
