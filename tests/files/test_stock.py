"""The stock list as a file."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import setday.demo
from setday.files.prices import read_prices
from setday.files.stock import STOCK_COLUMNS, read_stock
from setday.materials import buying_list
from setday.needs import Need

PRICES = read_prices(
    "key,item,sold_as,content,unit,price\n"
    'screw-1000,screw,"box of 1,000",1000,screws,9\ntape,tape,roll,500,ft,4\nboard,board,board,1,pieces,14\n'
    "compound-1,compound,1-gal tub,1,gal,9\ncompound-5,compound,5-gal pail,5,gal,20\n",
    name="prices.csv",
).prices
ROOT = Path(__file__).parents[2]


# One line of the list, and the item, quantity and unit it means.
@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("screw,1800,screws", ("screw", 1800, "screws")),
        ("screw,1800,", ("screw", 1800, "screws")),
        ("screw-1000,2,", ("screw-1000", 2, "pieces")),
        ('screw-1000,2,"box of 1,000"', ("screw-1000", 2, "pieces")),
        ("tape,120,ft", ("tape", 120, "ft")),
        ("tape,2,roll", ("tape", 1000, "ft")),
        ("compound,2,5-gal pail", ("compound-5", 2, "pieces")),
        ("compound,2,5 Gal Pail", ("compound-5", 2, "pieces")),
        ("compound,2,gal", ("compound", 2, "gal")),
        ("board,3,", ("board", 3, "pieces")),
        ("unheard-of,4,", ("unheard-of", 4, "pieces")),
    ],
)
def test_a_line_counts_in_the_unit_needs_are_stated_in(line, meant):
    read = read_stock(f"item,quantity,unit\n{line}\n", name="s.csv", prices=PRICES)
    assert [(s.item, s.quantity, s.unit) for s in read.stock] == [meant]
    assert read.findings == ()


def test_a_unit_the_price_list_does_not_know_is_asked_about():
    read = read_stock("item,quantity,unit\ncompound,2,buckets\n", name="s.csv", prices=PRICES)
    (found,) = read.findings
    assert (found.rule, found.severity.value, found.where.line) == ("stock.unit", "ask", 2)
    assert "5-gal pail" in found.expected


# By hand: 12 gal needed, two 5-gal pails lie there, 2 gal are left to buy; 620 ft of tape less a 250-ft roll.
@pytest.mark.parametrize(
    ("line", "item", "needed", "unit", "taken"),
    [
        ("compound-ready-mix,2,5-gal pail", "compound-ready-mix", 12, "gal", 10),
        ("tape-paper,1,250-ft roll", "tape-paper", 620, "ft", 250),
        ("bead-corner,3,8-ft length", "bead-corner-8", 5, "pieces", 3),
    ],
)
def test_stock_in_the_words_of_sold_as_is_taken_off_the_buying_list(line, item, needed, unit, taken):
    folder = Path(setday.demo.__path__[0])
    prices = read_prices((folder / "prices.csv").read_bytes(), name="prices.csv").prices
    read = read_stock(f"item,quantity,unit\n{line}\n", name="s.csv", prices=prices)
    wanted = Need(
        trade="boards", item=item, label=item, quantity=needed, unit=unit, place="house", phase="finish",
        waste_included=True,
    )  # fmt: skip
    bought = buying_list([wanted], prices, stock=read.stock)
    assert (read.findings, bought.findings) == ((), ())
    assert bought.lines[0].on_hand == taken


def test_a_line_with_a_length_is_stock_for_a_cutting_plan():
    read = read_stock('item,quantity,unit,length,note\nbead,2,,"5\'-3""",cut-offs\n', name="s.csv")
    (found,) = read.lengths
    assert (found.item, found.stock.length, found.stock.available) == ("bead", 63 * 64, 2)
    assert (found.stock.cost_cents, found.stock.label, read.stock) == (0, "cut-offs", ())


@pytest.mark.parametrize(
    ("line", "rule"),
    [
        ("screw,-1,,", "quantity"),
        ("screw,some,,", "quantity"),
        ("screw,,,", "quantity"),
        (",3,,", "no-item"),
        ("bead,1.5,,8'", "quantity"),
        ("bead,1,,8", "length"),
        ("bead,1,,0'", "length"),
        ("screw,99999999999,,", "quantity"),
    ],
)
def test_a_fault_is_said_with_its_line_and_nothing_is_counted(line, rule):
    read = read_stock(f"item,quantity,unit,length\n{line}\n", name="s.csv", prices=PRICES)
    assert [(f.rule, f.where.line) for f in read.findings] == [(f"stock.{rule}", 2)]
    assert (read.stock, read.lengths) == ((), ())


@given(data=st.binary(max_size=300))
@settings(max_examples=200)
def test_any_bytes_give_findings_and_never_an_error(data):
    read = read_stock(data, name="s.csv", prices=PRICES)
    assert read.stock or read.lengths or read.findings


def test_the_demo_stock_is_without_a_fault():
    folder = Path(setday.demo.__path__[0])
    prices = read_prices((folder / "prices.csv").read_bytes(), name="prices.csv").prices
    read = read_stock((folder / "stock.csv").read_bytes(), name="stock.csv", prices=prices)
    assert read.findings == ()
    assert all(prices.packages(s.item, unit=s.unit) for s in read.stock)
    assert read.lengths


def test_every_column_is_described_in_the_docs():
    text = (ROOT / "docs" / "materials.md").read_text(encoding="utf-8")
    assert [column for column in STOCK_COLUMNS if f"| `{column}` |" not in text] == []
