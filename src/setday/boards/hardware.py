"""Everything besides boards that hanging and finishing take, with its workings."""

from collections.abc import Iterable
from dataclasses import dataclass

from setday.boards.drying import Coats, coats_for_level
from setday.boards.fasten import SurfaceFasteners, fasteners_of
from setday.boards.finish import FinishLengths, RuleOfThumb, finish_lengths, tape_by_area
from setday.boards.laidout import LaidOut
from setday.boards.surfaces import Prepared
from setday.boards.verify import net_area
from setday.boards.weight import RoomStack, stacks
from setday.house import House
from setday.rules import RuleBook
from setday.working import Step, Working

__all__ = ["Hardware", "compound_working", "fastener_working", "figure_hardware", "tape_working"]

_SQFT = (12 * 64) ** 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Hardware:
    """Fasteners, tape, bead, compound and weights of one layout.

    Parameters
    ----------
    area_sqft : float
        Board hung, openings taken off, all layers [ft2].
    face_sqft : float
        The outermost layer only, which is taped and finished [ft2].
    fasteners : tuple of SurfaceFasteners
    finish : FinishLengths
    tape_rule : RuleOfThumb
        The rule of thumb beside the real joints.
    coats : Coats or None
        None at level 0.
    stacks : tuple of RoomStack
    workings : tuple of Working
        Fasteners, tape, compound.
    """

    area_sqft: float
    face_sqft: float
    fasteners: tuple[SurfaceFasteners, ...]
    finish: FinishLengths
    tape_rule: RuleOfThumb
    coats: Coats | None
    stacks: tuple[RoomStack, ...]
    workings: tuple[Working, ...]

    @property
    def fastener_count(self) -> int:
        """All fasteners, nothing added."""
        return sum(line.count for line in self.fasteners)


def figure_hardware(laid: LaidOut, prepared: Prepared, house: House, rules: RuleBook) -> Hardware:
    """Figure everything besides boards on a layout that was verified."""
    area = sum(net_area(surface) for surface in laid.problem.surfaces) / _SQFT
    below = {surface.over for surface in laid.problem.surfaces}
    face = sum(net_area(s) for s in laid.problem.surfaces if s.id not in below) / _SQFT
    fasteners = fasteners_of(laid, prepared, rules)
    finish = finish_lengths(laid, prepared, house, rules)
    rule = tape_by_area(face, rules)
    level = round(rules.number("boards.finish_level"))
    return Hardware(
        area_sqft=area,
        face_sqft=face,
        fasteners=fasteners,
        finish=finish,
        tape_rule=rule,
        coats=coats_for_level(level, rules) if level else None,
        stacks=stacks(laid, rules),
        workings=(
            fastener_working(fasteners, area, rules),
            tape_working(finish, rule, face, rules),
            compound_working(face, rules),
        ),
    )


def fastener_working(fasteners: tuple[SurfaceFasteners, ...], area_sqft: float, rules: RuleBook) -> Working:
    """Show the count of fasteners surface by surface, beside the rule of thumb."""
    count = sum(line.count for line in fasteners)
    extra = rules.number("boards.fastener_extra")
    bought = count * (1 + extra / 100)
    thumb = area_sqft * rules.number("boards.screws_per_1000") / 1000
    return Working(
        key="boards/fasteners",
        title="Screws or nails, on the layout",
        steps=(
            *(_fastener_step(line) for line in fasteners),
            _step("all", f"{count:,} + {extra:g} %", bought, "screws", rules, "fastener_extra"),
            _step(
                "beside it, the rule of thumb",
                f"{area_sqft:,.0f} ft2 x {rules.number('boards.screws_per_1000'):g} / 1,000",
                thumb,
                "screws",
                rules,
                "screws_per_1000",
            ),
        ),
        result=f"{bought:,.0f} screws",
        value=bought,
        unit="screws",
        assumptions=("Fasteners stand as far apart as the rule allows; double nailing takes more.",),
    )


def _fastener_step(line: SurfaceFasteners) -> Step:
    return Step(
        label=line.surface,
        expression=f"{line.lines} lines of {line.fastener.label}, at most {line.spacing.value} apart",
        result=f"{line.count} screws",
        value=float(line.count),
        unit="screws",
        source=line.spacing.source,
    )


def _step(label: str, expression: str, value: float, unit: str, rules: RuleBook, key: str) -> Step:
    return Step(
        label=label,
        expression=expression,
        result=f"{value:,.0f} {unit}" if value >= 100 else f"{value:,.1f} {unit}",
        value=value,
        unit=unit,
        source=rules[f"boards.{key}"].source,
    )


def tape_working(finish: FinishLengths, thumb: RuleOfThumb, face_sqft: float, rules: RuleBook) -> Working:
    """Show the tape joint by joint, beside the rule of thumb."""
    extra = rules.number("boards.tape_extra")
    bought = finish.tape_ft * (1 + extra / 100)
    return Working(
        key="boards/tape",
        title="Joint tape, on the layout",
        steps=(
            *_tape_steps(finish),
            _step("all", f"{finish.tape_ft:,.1f} ft + {extra:g} %", bought, "ft", rules, "tape_extra"),
            _step(
                "beside it, the rule of thumb",
                f"{face_sqft:,.0f} ft2 x {rules.number('boards.tape_per_1000'):g} ft / 1,000 + {extra:g} %",
                thumb.with_extra,
                "ft",
                rules,
                "tape_per_1000",
            ),
        ),
        result=f"{bought:,.0f} ft",
        value=bought,
        unit="ft",
    )


def _tape_steps(finish: FinishLengths) -> Iterable[Step]:
    parts = (
        ("butt joints", finish.butt_ft),
        ("joints between rows", finish.tapered_ft),
        ("upright inner corners", finish.corner_ft),
        ("walls against ceilings", finish.ceiling_ft),
        ("ridges of vaults", finish.ridge_ft),
    )
    for label, feet in parts:
        said = f"{feet:,.1f} ft"
        yield Step(label=label, expression="measured on the layout", result=said, value=feet, unit="ft")


def compound_working(face_sqft: float, rules: RuleBook) -> Working:
    """Show the compound by the rate in force, between the lowest and the highest source read."""
    keys = ("compound_per_1000", "compound_per_1000_low", "compound_per_1000_high")
    labels = ("by the rate in force", "by the lowest source read", "by the highest source read")
    steps = tuple(
        _step(
            label,
            f"{face_sqft:,.0f} ft2 x {rules.number(f'boards.{key}'):g} gal / 1,000 ft2",
            face_sqft * rules.number(f"boards.{key}") / 1000,
            "gal",
            rules,
            key,
        )
        for key, label in zip(keys, labels, strict=True)
    )
    value = face_sqft * rules.number("boards.compound_per_1000") / 1000
    return Working(
        key="boards/compound",
        title="Ready-mixed compound",
        steps=steps,
        result=f"{value:,.1f} gal",
        value=value,
        unit="gal",
        assumptions=("The label on the pail governs; sources differ by more than two to one.",),
    )
