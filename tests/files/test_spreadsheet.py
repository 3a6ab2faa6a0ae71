"""The buying list as CSV, as a workbook and as a record: read back, they say what the list says."""

import csv
import io
import json
from datetime import UTC, datetime
from fractions import Fraction

import openpyxl
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.files.spreadsheet import BUYING_COLUMNS, buying_csv, buying_record, buying_xlsx
from setday.materials import StockItem, buying_list
from tests.materials.cases import PRICES, need, needs

MADE = datetime(2026, 3, 2, 8, 30, tzinfo=UTC)
WANTED = [
    need("screw", 6200, "screws"),
    need("tape", 2660, "ft", phase="finish"),
    need("board-48x96", 4, "pieces", waste_included=True, place="bath"),
    need("glue", 2, "tubes"),
    need("lantern", 1, "pieces"),
]
BUYING = buying_list(WANTED, PRICES, stock=[StockItem(item="tape", quantity=Fraction(60), unit="ft")])


def sheet_rows(data, title):
    sheet = openpyxl.load_workbook(io.BytesIO(data))[title]
    return [list(row) for row in sheet.iter_rows(values_only=True)]


def test_the_csv_has_a_line_for_every_sold_unit_and_the_total():
    rows = list(csv.DictReader(io.StringIO(buying_csv(BUYING))))
    bought = [(row["Key"], row["Count"], row["Cost"]) for row in rows if row["Key"]]
    assert bought == [
        ("glue", "2", ""),
        ("board-48x96", "4", "56.96"),
        ("screw-5000", "1", "39.00"),
        ("screw-1000", "2", "18.00"),
        ("tape-500", "6", "45.60"),
    ]
    assert [row["Sold as"] for row in rows if row["Item"] == "lantern"] == ["not on the price list"]
    assert (rows[-1]["Item"], rows[-1]["Cost"]) == ("Total", "159.56")


def test_needed_waste_and_stock_stand_in_columns_of_their_own():
    row = next(r for r in csv.DictReader(io.StringIO(buying_csv(BUYING))) if r["Item"] == "tape")
    assert [row[c] for c in ("Needed", "Waste", "On hand", "To buy", "Left over")] == [
        "2660", "266", "60", "2866", "134"
    ]  # fmt: skip


@given(wanted=needs())
@settings(max_examples=30)
def test_the_costs_of_the_csv_sum_to_its_total(wanted):
    rows = list(csv.DictReader(io.StringIO(buying_csv(buying_list(wanted, PRICES)))))
    costs = [round(float(row["Cost"]) * 100) for row in rows if row["Cost"]]
    assert sum(costs[:-1]) == costs[-1]


@pytest.mark.parametrize("label", ["=1+1", "+1", "-1", "@sum", "\tx"])
def test_text_that_looks_like_a_formula_stays_text(label):
    buying = buying_list([need("screw", 1, "screws", label=label)], PRICES)
    assert f"'{label}" in next(csv.reader(io.StringIO(buying_csv(buying).split("\r\n", 1)[1])))
    book = openpyxl.load_workbook(io.BytesIO(buying_xlsx(buying, made=MADE)))
    cell = book["Buying list"]["B2"]
    assert (cell.value, cell.data_type) == (label, "s")


@given(label=st.text(max_size=20))
@settings(max_examples=60)
def test_any_label_can_be_written(label):
    buying = buying_list([need("screw", 1, "screws", label=label, place=label)], PRICES)
    assert buying_csv(buying)
    assert openpyxl.load_workbook(io.BytesIO(buying_xlsx(buying, made=MADE)))


def test_the_workbook_says_what_the_csv_says():
    rows = sheet_rows(buying_xlsx(BUYING, made=MADE), "Buying list")
    written = list(csv.reader(io.StringIO(buying_csv(BUYING))))
    assert rows[0] == list(BUYING_COLUMNS) == written[0]
    costs = [(row[0], None if row[10] is None else round(row[10] * 100)) for row in rows[1:]]
    assert costs == [(row[0], round(float(row[10]) * 100) if row[10] else None) for row in written[1:]]


def test_the_workbook_has_deliveries_places_and_findings():
    data = buying_xlsx(BUYING, made=MADE)
    assert openpyxl.load_workbook(io.BytesIO(data)).sheetnames == [
        "Buying list", "Deliveries", "Places", "Findings"
    ]  # fmt: skip
    deliveries = [row[0] for row in sheet_rows(data, "Deliveries")[1:]]
    assert deliveries[-1] == "Total of finish: $45.60"
    assert ["tape", "tape", "bedroom", "finish", "boards", 2660, 266, "ft"] in sheet_rows(data, "Places")


def test_the_workbook_prints_on_letter_paper_with_its_header_on_every_page():
    sheet = openpyxl.load_workbook(io.BytesIO(buying_xlsx(BUYING, made=MADE)))["Buying list"]
    assert (int(sheet.page_setup.paperSize), sheet.page_setup.orientation) == (1, "landscape")
    assert (sheet.freeze_panes, sheet.print_title_rows) == ("A2", "$1:$1")


def test_the_same_list_and_moment_give_the_same_bytes():
    assert buying_xlsx(BUYING, made=MADE) == buying_xlsx(BUYING, made=MADE)
    properties = openpyxl.load_workbook(io.BytesIO(buying_xlsx(BUYING, made=MADE))).properties
    assert (properties.created, properties.modified) == (MADE.replace(tzinfo=None),) * 2


def test_the_record_is_json_and_sums_up():
    record = json.loads(json.dumps(buying_record(BUYING)))
    assert record["total_cents"] == BUYING.total_cents == 15956
    assert sum(line["cost_cents"] or 0 for line in record["lines"]) == record["total_cents"]
    assert sum(entry["cost_cents"] for entry in record["by_place"]) == record["total_cents"]
    assert sorted(record["without_price"]) == ["glue", "lantern"]
