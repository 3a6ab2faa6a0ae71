"""What each surface takes: kind of board, thickness, layers, and the framing it needs behind it."""

from dataclasses import dataclass, replace
from fractions import Fraction

from setday.boards.choices import BoardChoice, BoardChoices
from setday.boards.problem import Rows
from setday.findings import Finding, Severity, Where
from setday.house import House, Surface, SurfaceKind
from setday.measure import Length, write_inches
from setday.rules import RuleBook

__all__ = ["Cover", "covers", "nominal", "spacing_findings"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cover:
    """What one surface of the house takes.

    Parameters
    ----------
    surface : str
        Id of the house's surface.
    kind : str
        Kind without thickness: "regular".
    thickness : Length
        Of one layer.
    layers : int
        0 leaves the surface bare.
    rows : Rows or None
        The direction the instructor chose; None lets the rules decide.
    where : Where
        The choice in the file that decided last, if any.
    """

    surface: str
    kind: str
    thickness: Length
    layers: int = 1
    rows: Rows | None = None
    where: Where = Where()

    @property
    def board_kind(self) -> str:
        """The kind of board with its thickness: "regular-1/2"."""
        return f"{self.kind}-{nominal(self.thickness)}"

    @property
    def total(self) -> Length:
        """Thickness of all layers together."""
        return self.thickness * self.layers


def nominal(thickness: Length) -> str:
    """Write a thickness the way price lists do.

    Examples
    --------
    >>> nominal(Length(40))
    '5/8'
    """
    return str(Fraction(thickness.sixtyfourths, 64))


def covers(
    house: House, *, choices: BoardChoices, rules: RuleBook
) -> tuple[dict[str, Cover], tuple[Finding, ...]]:
    """Decide what each surface takes: the rules first, then the choices in the order written.

    Returns
    -------
    covers : dict
        By surface id, every surface of the house.
    findings : tuple of Finding
        Choices that fit no surface.
    """
    decided = {surface.id: _by_rule(surface, rules) for surface in house.surfaces}
    findings: list[Finding] = []
    for choice in choices.choices:
        chosen = [surface for surface in house.surfaces if _concerns(choice, surface)]
        if not chosen:
            findings.append(_idle(choice, house))
        for surface in chosen:
            decided[surface.id] = _with(decided[surface.id], choice)
    return decided, tuple(findings)


def _by_rule(surface: Surface, rules: RuleBook) -> Cover:
    part = "ceiling" if surface.kind is SurfaceKind.CEILING else "wall"
    return Cover(
        surface=surface.id,
        kind=rules.choice(f"boards.{part}_kind"),
        thickness=rules.length(f"boards.{part}_thickness"),
    )


def _concerns(choice: BoardChoice, surface: Surface) -> bool:
    if choice.room and choice.room != surface.room:
        return False
    ceiling = surface.kind is SurfaceKind.CEILING
    named = {"": True, "walls": not ceiling, "ceilings": ceiling}
    return named.get(choice.on, choice.on == surface.id)


def _with(cover: Cover, choice: BoardChoice) -> Cover:
    return replace(
        cover,
        kind=choice.kind or cover.kind,
        thickness=choice.thickness if choice.thickness is not None else cover.thickness,
        layers=choice.layers if choice.layers is not None else cover.layers,
        rows=choice.rows or cover.rows,
        where=choice.where if choice.where.line else cover.where,
    )


def _idle(choice: BoardChoice, house: House) -> Finding:
    rooms = ", ".join(room.name for room in house.rooms)
    return Finding(
        rule="boards.choice-fits-nothing",
        about=f"choice of boards for {choice.on or 'everything'} in {choice.room or 'the house'}",
        found="no surface of the house is meant by it.",
        expected=f'"walls", "ceilings" or the id of a surface, in one of the rooms: {rooms}.',
        do="Correct the room or the surface.",
        where=choice.where,
    )


def spacing_findings(surface: Surface, cover: Cover, rows: Rows, rules: RuleBook) -> tuple[Finding, ...]:
    """Compare the spacing of the framing with what the board's thickness and direction allow.

    Examples of the limits: table R702.3.5 of the IRC, as rows of ``tables/framing.csv``.
    """
    if not cover.layers:
        return ()
    key = _limit_key(surface, cover, rows, rules)
    if key not in rules.rules:
        return (_no_row(surface, cover, rows, key),)
    most, spacing = rules.length(key), surface.member_spacing
    if spacing <= most:
        return ()
    return (
        Finding(
            rule="boards.framing-spacing",
            about=surface.label,
            found=f"the framing stands {write_inches(spacing)} on centre behind "
            f'{nominal(cover.thickness)}" {cover.kind} board, boards {_direction(surface, rows)}.',
            expected=f"{write_inches(most)} at most.",
            do="Take thicker board, add framing, or turn the boards; the local authority decides.",
            where=cover.where,
            severity=Severity.ASK,
            source=rules[key].source,
        ),
    )


def _limit_key(surface: Surface, cover: Cover, rows: Rows, rules: RuleBook) -> str:
    size = nominal(cover.thickness)
    if surface.kind is not SurfaceKind.CEILING:
        return f"boards.spacing_wall_{size}"
    wet_key = f"boards.spacing_wet_texture_{size}"
    if rules.flag("boards.wet_texture") and cover.kind != "sag-resistant" and wet_key in rules.rules:
        return wet_key
    way = "across" if rows is Rows.ALONG else "with"
    return f"boards.spacing_ceiling_{way}_{size}"


def _direction(surface: Surface, rows: Rows) -> str:
    framing = "joists" if surface.kind is SurfaceKind.CEILING else "studs"
    return f"across the {framing}" if rows is Rows.ALONG else f"with the {framing}"


def _no_row(surface: Surface, cover: Cover, rows: Rows, key: str) -> Finding:
    return Finding(
        rule="boards.framing-spacing-unknown",
        about=surface.label,
        found=f'no widest spacing of the framing is known for {nominal(cover.thickness)}" board, '
        f"boards {_direction(surface, rows)}.",
        expected=f"a thickness and direction that the spacing table lists ({key} is not in it).",
        do="Ask the local authority, or choose another thickness or direction.",
        where=cover.where,
        severity=Severity.ASK,
    )
