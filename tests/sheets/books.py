"""A small book with one of everything, from the tiny house."""

from datetime import date
from fractions import Fraction

from setday.boards import BoardProblem, BoardRules, Bound, Outcome, Status
from setday.drawing import Table
from setday.materials import Bought, BuyingLine, BuyingList, Delivery, Drop, PriceItem, Share
from setday.needs import Need
from setday.rules import Source
from setday.sheets import Book, Heading, Note, Sheet, TableBlock, Way, WorkingBlock, boards_book
from setday.working import Step, Working
from tests.drawing.laid import one_layout, one_surface, price_list

DATED = date(2026, 3, 4)

SOURCE = Source(
    key="areas",
    title="A handbook of areas",
    edition="2020",
    section="p. 4",
    certainty="from memory",
    note="Prints differ.",
)

WORKING = Working(
    key="boards/by-area/bedroom",
    title="Boards for the bedroom, by area",
    steps=(
        Step(label="north wall", expression="12'-6\" x 8'-0\"", result="100.0 ft2"),
        Step(label="with waste", expression="100.0 ft2 x 1.10", result="110.0 ft2", source=SOURCE),
        Step(label="sheets", expression="110.0 ft2 / 32 ft2", result="4 sheets", source=SOURCE),
    ),
    result="4 sheets",
    value=4,
    unit="sheets",
    assumptions=("Openings are not taken off.",),
)


def problem() -> BoardProblem:
    return BoardProblem(surfaces=(one_surface(),), boards=price_list(), rules=BoardRules())


def outcome() -> Outcome:
    return Outcome(
        status=Status.FEASIBLE,
        layout=one_layout(),
        cost_cents=4200,
        butt_joint=96 * 64,
        pieces=4,
        bound=Bound(cost_cents=4000.0, area_cost_cents=3500.0, method="by hand"),
        seconds=2.5,
    )


def no_outcome() -> Outcome:
    return Outcome(
        status=Status.NONE,
        layout=None,
        cost_cents=0,
        butt_joint=0,
        pieces=0,
        bound=Bound(cost_cents=0.0, area_cost_cents=0.0, method="none"),
        seconds=0.1,
        why_none=("No board on the price list is long enough.",),
    )


def ways() -> tuple[Way, ...]:
    return (
        Way(
            label="By area, as taught",
            boards=4,
            area_sqft=128.0,
            cost_cents=4800,
            why="It counts waste on every sheet.",
        ),
        Way(label="By layout", boards=3, area_sqft=112.0, cost_cents=4200, butt_joint_ft=8.0, pieces=4),
    )


def screws() -> Need:
    return Need(
        trade="boards",
        item="screw",
        label="screws, 1-1/4 in",
        quantity=96,
        unit="screws",
        place="bedroom/north",
        phase="hang",
        waste_included=False,
    )


def whole_book(house_name: str = "Practice cottage") -> Book:
    return boards_book(
        house_name,
        problem=problem(),
        outcome=outcome(),
        dated=DATED,
        needs=(screws(),),
        ways=ways(),
        workings=(WORKING,),
        notes=("Hanging takes 3.2 hours.",),
    )


def small_book(house_name: str = "Practice cottage") -> Book:
    table = Table(caption="Rooms", head=("Room", "ft2"), rows=(("bedroom", "101.0"),), figures=(False, True))
    blocks = (
        Heading(text="A heading"),
        Note(text="A note."),
        TableBlock(table=table),
        WorkingBlock(working=WORKING),
    )
    return Book(
        house=house_name, dated=DATED, sheets=(Sheet(title="Small", blocks=blocks, person_decides=True),)
    )


def buying() -> BuyingList:
    item = PriceItem(
        key="compound-5",
        item="compound",
        label="joint compound",
        category="finish",
        sold_as="pail",
        content=Fraction(9, 2),
        unit="gal",
        price_cents=1999,
    )
    unpriced = PriceItem(
        key="tape", item="tape", label="paper tape", category="finish", sold_as="roll", content=Fraction(500),
        unit="ft", price_cents=None,
    )  # fmt: skip
    lines = tuple(
        BuyingLine(
            item=package.item,
            label=package.label,
            category=package.category,
            unit=package.unit,
            shares=(
                Share(trade="boards", place="bedroom", phase="finish", quantity=need, waste=Fraction(0)),
            ),
            needed=need,
            waste=Fraction(1, 2),
            on_hand=Fraction(1),
            packages=(Bought(package=package, count=2),),
            sold_units=(package,),
            needs=(),
            working=WORKING,
        )
        for package, need in ((item, Fraction(8)), (unpriced, Fraction(600)))
    )
    drops = (Drop(item="compound", package=item, count=2), Drop(item="tape", package=unpriced, count=2))
    return BuyingList(
        price_list="demo prices",
        lines=lines,
        deliveries=(Delivery(name="first truck", phases=("finish",), drops=drops),),
        findings=(),
    )
