"""Small price lists, needs and length problems, by hand and by hypothesis."""

import time
from fractions import Fraction

from hypothesis import strategies as st

from setday.boards import Limits
from setday.materials import LengthDemand, LengthProblem, Objective, PriceItem, PriceList, StockLength
from setday.needs import Need

SECONDS = 5.0


def limits(seconds: float = SECONDS) -> Limits:
    """Return limits no small case comes near, on one worker."""
    return Limits(seconds=seconds, clock=time.perf_counter, workers=1)


def package(key: str, *, item: str, content: str | int, unit: str, cents: int | None, **more) -> PriceItem:
    """Return one line of a price list."""
    fields = {"label": key, "category": "fastener", "sold_as": f"box of {content}", **more}
    return PriceItem(key=key, item=item, content=Fraction(content), unit=unit, price_cents=cents, **fields)


SCREWS = (
    package("screw-1000", item="screw", content=1000, unit="screws", cents=900),
    package("screw-5000", item="screw", content=5000, unit="screws", cents=3900),
)
TAPE = package("tape-500", item="tape", content=500, unit="ft", cents=760, category="tape")
BOARD = package("board-48x96", item="board-48x96", content=1, unit="pieces", cents=1424, category="board")
UNPRICED = package("glue", item="glue", content=1, unit="tubes", cents=None, category="adhesive")
PRICES = PriceList(name="prices.csv", items=(*SCREWS, TAPE, BOARD, UNPRICED))


def need(item: str, quantity: float, unit: str, **more) -> Need:
    """Return a need, in the bedroom while boards are hung unless told otherwise."""
    fields = {
        "trade": "boards", "label": item, "place": "bedroom", "phase": "hang", "waste_included": False, **more
    }  # fmt: skip
    return Need(item=item, quantity=quantity, unit=unit, **fields)


@st.composite
def needs(draw) -> list[Need]:
    """Draw needs of listed items at a few places in a few phases."""
    kinds = {"screw": "screws", "tape": "ft", "board-48x96": "pieces", "glue": "tubes", "unlisted": "ft"}
    result = []
    for _ in range(draw(st.integers(0, 12))):
        item = draw(st.sampled_from(sorted(kinds)))
        quantity = draw(st.integers(0, 40_000)) / draw(st.sampled_from([1, 2, 3, 10, 64]))
        result.append(
            need(
                item,
                quantity,
                kinds[item],
                place=draw(st.sampled_from(["bedroom", "bath", "hall"])),
                phase=draw(st.sampled_from(["hang", "finish", "rough"])),
                waste_included=draw(st.booleans()),
            )
        )
    return result


@st.composite
def length_problems(draw, *, most: int = 12, limited: bool = False) -> LengthProblem:
    """Draw a length problem whose every piece fits on a stock that can be bought."""
    stocks = [
        StockLength(
            key=f"s{i}",
            length=draw(st.integers(20, 60)),
            cost_cents=draw(st.integers(1, 60)),
        )
        for i in range(draw(st.integers(1, 3)))
    ]
    longest = max(stock.length for stock in stocks)
    if limited:
        stocks += [
            StockLength(
                key=f"r{i}", length=draw(st.integers(5, 70)), cost_cents=0, available=draw(st.integers(0, 2))
            )
            for i in range(draw(st.integers(1, 2)))
        ]
    lengths = draw(st.lists(st.integers(3, longest), min_size=1, max_size=most))
    return LengthProblem(
        demands=tuple(
            LengthDemand(length=length, count=1, label=f"piece {i}") for i, length in enumerate(lengths)
        ),
        stocks=tuple(stocks),
        kerf=draw(st.integers(0, 3)),
        objective=draw(st.sampled_from(Objective)),
    )
