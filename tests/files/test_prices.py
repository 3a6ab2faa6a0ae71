"""The price list as a file: what is read, and that every fault is a finding with its line."""

from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

import setday.demo
from setday.errors import MeasureError
from setday.files.delimited import LARGEST_BYTES
from setday.files.money import parse_number, parse_price
from setday.files.prices import PRICE_COLUMNS, read_prices
from setday.findings import Severity
from setday.materials import boards_offered
from setday.measure import Length

HEADER = "key,item,label,category,sold_as,content,unit,price,supplier,board_kind,width,length,waste\n"
BOARD = 'b1,,regular board,board,board,,,"$1,014.24",Quillback,regular-1/2,"48""",8\',\n'
SCREWS = 's5,screw,coarse screws,fastener,pail of 5,"5,000",screws,39,Quillback,,,,5%\n'
ROOT = Path(__file__).parents[2]


def rules(data, name="p.csv"):
    return [(f.rule.removeprefix("prices."), f.where.line) for f in read_prices(data, name=name).findings]


def test_a_board_and_a_box_are_read_whole():
    read = read_prices(HEADER + BOARD + SCREWS, name="p.csv")
    board, screws = read.prices.items
    assert read.findings == ()
    assert (board.key, board.item, board.unit, board.content) == ("b1", "b1", "pieces", 1)
    assert (board.price_cents, board.board_kind) == (101_424, "regular-1/2")
    assert (board.width, board.length) == (Length.of(inches=48), Length.of(feet=8))
    assert (screws.item, screws.content, screws.unit, screws.waste) == (
        "screw",
        5000,
        "screws",
        Fraction(1, 20),
    )
    assert (board.line, screws.line) == (2, 3)


@pytest.mark.parametrize(
    "encode",
    [
        lambda text: text.encode("utf-8"),
        lambda text: text.encode("utf-8-sig"),
        lambda text: text.encode("utf-16"),
        lambda text: text.encode("utf-16-le"),
        lambda text: text.encode("utf-16-be"),
        lambda text: b"\xfe\xff" + text.encode("utf-16-be"),
        lambda text: text.encode("utf-32"),
        lambda text: text.encode("cp1252"),
        lambda text: text.replace("\n", "\r\n").encode("utf-8"),
        lambda text: text.replace("\n", "\r").encode("utf-8"),
    ],
    ids=["utf-8", "marked", "utf-16", "le", "be", "be-marked", "utf-32", "windows", "crlf", "cr"],
)
def test_the_encodings_that_spreadsheets_write_are_read(encode):
    read = read_prices(encode("key,price,label\na,1.50,Señal ½\n"), name="p.csv")
    assert [(item.key, item.price_cents, item.label) for item in read.prices.items] == [("a", 150, "Señal ½")]
    assert all(f.severity is Severity.NOTE for f in read.findings)


def test_reading_windows_1252_is_noted_with_its_line():
    assert rules("key,price\na,1\nñ,2\n".encode("cp1252")) == [("encoding", 3)]


@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_other_separators_are_read(separator):
    text = (
        separator.join(("key", "price", "length"))
        + "\n"
        + separator.join(("a", "1,50" if separator == ";" else "1.50", "8'"))
    )
    item = read_prices(text, name="p.csv").prices.items[0]
    assert (item.price_cents, item.length) == (150, Length.of(feet=8))


# What is wrong, and the rules and lines that say so.
FAULTS = {
    "no price": (HEADER + "a,,,,,,,,,,,,\nb,,,,,,,5,,,,,\n", [("no-price", 2)]),
    "no price anywhere": ("key,price\na,\n", [("no-prices", 0), ("no-price", 2)]),
    "negative": ("key,price\na,-3\nb,4\n", [("price", 2)]),
    "in brackets": ("key,price\na,($3.00)\nb,4\n", [("price", 2)]),
    "text for a price": ("key,price\na,call us\nb,4\n", [("price", 2)]),
    "parts of a cent": ("key,price\na,0.125\nb,4\n", [("price", 2)]),
    "past belief": ("key,price\na,9999999\nb,4\n", [("price", 2)]),
    "for nothing": ("key,price\na,0\nb,4\n", [("free", 2)]),
    "text for a content": ("key,price,content\na,3,many\n", [("content", 2)]),
    "no content": ("key,price,content\na,3,0\nb,4,1\n", [("content", 2)]),
    "no key": ("key,price\n,3\nb,4\n", [("no-key", 2)]),
    "a key twice": ("key,price\na,3\nb,4\na,5\n", [("key-twice", 4)]),
    "a width without a unit": ("key,price,width\na,3,48\n", [("width", 2)]),
    "a length below nothing": ("key,price,length\na,3,-8'\n", [("length", 2)]),
    "a board without sizes": ("key,price,category\na,3,board\n", [("board", 2)]),
    "a board turned": (HEADER + 'a,,,board,,,,3,,regular-1/2,8\',"48""",\n', [("board", 2)]),
    "waste in parts": ("key,price,waste\na,3,0.1\n", [("waste", 2)]),
    "waste past work": ("key,price,waste\na,3,150\n", [("waste", 2)]),
    "one item in two units": (
        "key,item,price,unit\na,x,3,ft\nb,x,4,rolls\n",
        [("two-units", 3)],
    ),
    "a cell too many": ("key,price\na,3,oops\n", [("cells", 2)]),
    "an unknown column": ("key,price,colour\na,3,red\n", [("unknown-column", 1)]),
    "a column twice": ("key,price,price\na,3,4\n", [("header", 1)]),
    "no header": ("a,3\nb,4\n", [("header", 1)]),
    "a header and no rows": ("key,price\n\n\n", [("no-rows", 0)]),
    "nothing": ("", [("empty", 1)]),
    "blanks": ("  \n \n", [("empty", 1)]),
    "quotes that do not pair": ('key,price\n"1/2" board,3\nb,4\n', [("quotes", 2)]),
    "a quote never closed": ('key,price\n"a,3\nb,4\nc,5\n', [("quotes", 2)]),
    "characters of code 0": ("key,price\na,3\nb\0,4\n", [("kind", 3)]),
    "a binary": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)), [("kind", 0)]),
    "a workbook": (b"PK\x03\x04" + bytes(100), [("kind", 0)]),
    "too large": (b"key,price\n" + b"a,1\n" * (LARGEST_BYTES // 4), [("size", 0)]),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_is_said_with_its_line(fault):
    data, expected = FAULTS[fault]
    assert rules(data) == expected


def test_everything_wrong_is_said_at_once():
    data = "key,price,width\na,-3,4\n,1,\nb,abc,7\nb,2,\n"
    found = rules(data)
    assert {("price", 2), ("width", 2), ("no-key", 3), ("price", 4), ("width", 4), ("key-twice", 5)} <= set(
        found
    )
    assert [line for _, line in found] == sorted(line for _, line in found)


def test_lines_around_a_broken_one_are_read():
    read = read_prices('key,price\na,1\n"x" y,2\nb,3\n"z,4\nc,5\n', name="p.csv")
    assert [item.key for item in read.prices.items] == ["a", "b", "c"]


def test_an_unknown_board_kind_is_taken_as_it_is():
    read = read_prices(HEADER + 'a,,,board,,,,3,,moon-dust,"48""",8\',\n', name="p.csv")
    assert (read.findings, read.prices.items[0].board_kind) == ((), "moon-dust")


def test_a_list_that_is_wrong_throughout_stays_short():
    read = read_prices("key,price\n" + "a,-1\n" * 5000, name="p.csv")
    assert len(read.findings) <= 202
    assert any(f.rule == "prices.more" for f in read.findings)


def test_every_finding_of_a_problem_says_what_to_do_or_what_was_expected():
    for data, _ in FAULTS.values():
        for finding in read_prices(data, name="p.csv").problems:
            assert finding.do or finding.expected, finding


@given(data=st.binary(max_size=400))
@example(data=b'key,price\n"')
@settings(max_examples=300)
def test_any_bytes_give_findings_and_never_an_error(data):
    read = read_prices(data, name="p.csv")
    assert read.prices is not None or read.findings


CELLS = st.text(alphabet="abk19.,$'\"%-/ \t\x0b½″€\u2028(", max_size=8)


@given(rows=st.lists(st.lists(CELLS, min_size=1, max_size=14), max_size=6))
@settings(max_examples=300)
def test_any_cells_give_findings_and_never_an_error(rows):
    body = "\n".join(",".join(row) for row in rows)
    read = read_prices(HEADER + body, name="p.csv")
    assert all(f.where.line >= 0 for f in read.findings)


@pytest.mark.parametrize(
    ("text", "cents"),
    [
        ("$1,234.50", 123450), ("1234.5", 123450), ("12", 1200), ("USD 9.95", 995), (" 9.95 $", 995),
        ("US$ 3", 300), (".50", 50), ("12.", 1200), ("1.234,50", 123450), ("12,5", 1250), ("1,234", 123400),
        ("0", 0), ("7.10000", 710),
    ],
)  # fmt: skip
def test_prices_as_people_write_them(text, cents):
    assert parse_price(text) == cents


@pytest.mark.parametrize(
    "text",
    [
        "",
        "$",
        "free",
        "-3",
        "−3",
        "3-",
        "(3)",
        "1,23,4",
        "1.2.3",
        "0.001",
        "1e3",
        "NaN",
        "inf",
        "٣",
        "9" * 50,
        "100001",
    ],
)
def test_what_is_no_price_is_refused(text):
    with pytest.raises(MeasureError):
        parse_price(text)


@given(cents=st.integers(0, 10_000_000))
def test_a_written_price_reads_back(cents):
    from setday.materials import write_money

    assert parse_price(write_money(cents)) == cents


@given(value=st.fractions(0, 10**6, max_denominator=1))
def test_a_number_with_thousands_reads_back(value):
    assert parse_number(f"{int(value):,}") == value


def test_the_demo_list_is_without_a_fault():
    data = (Path(setday.demo.__path__[0]) / "prices.csv").read_bytes()
    read = read_prices(data, name="prices.csv")
    assert read.findings == ()
    assert {item.category for item in read.prices.items} >= {
        "board",
        "fastener",
        "compound",
        "tape",
        "length",
    }


def test_every_column_is_described_in_the_docs():
    text = (ROOT / "docs" / "materials.md").read_text(encoding="utf-8")
    assert [column for column in PRICE_COLUMNS if f"| `{column}` |" not in text] == []


@pytest.mark.parametrize("written", ["regular 1/2", "regular-1/2", "regular - 1/2", "regular  1/2"])
def test_a_board_kind_may_be_written_with_spaces(written):
    text = f"key,price,board_kind,width,length\nb,14,{written},48\",8'\n"
    read = read_prices(text, name="p.csv")
    assert (read.findings, [b.kind for b in boards_offered(read.prices)]) == ((), ["regular-1/2"])


def test_a_board_without_a_price_is_said_to_be_left_out_of_the_layout():
    text = "key,price,board_kind,width,length\na,14,regular-1/2,48\",8'\nb,,regular-1/2,48\",12'\n"
    read = read_prices(text, name="p.csv")
    (found,) = read.findings
    assert (found.where.line, found.severity.value) == (3, "ask")
    assert "No board of this line is laid out" in found.do
    assert [b.key for b in boards_offered(read.prices)] == ["a"]
