"""Prices, stock and the buying list."""

import csv
import io

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from setday.web.buying.in_force import prices_of
from setday.web.buying.ordering import buying_for
from setday.web.keeping.models import PriceList, StockCount

LIST = "/houses/practice-shed/buying/"
GOOD = (
    "key,item,label,category,sold_as,content,unit,price\nnails-box,nails,nails,fastener,box,100,nails,3.50\n"
)
WRONG = GOOD.replace("3.50", "three")


def page(answer):
    return answer.content.decode()


def test_before_any_list_the_demo_prices_are_shown_as_invented(desk):
    assert "they are invented" in page(desk.get("/prices/"))


def test_a_price_list_that_is_sent_is_in_force(desk):
    answer = desk.post("/prices/", {"file": SimpleUploadedFile("yard.csv", GOOD.encode())}, follow=True)
    assert "yard.csv is in force" in page(answer)
    assert "they are invented" not in page(answer)
    assert prices_of(PriceList.objects.get()).items[0].price_cents == 350


def test_a_price_list_can_be_typed(desk):
    desk.post("/prices/", {"text": GOOD, "file_name": "typed.csv"})
    assert PriceList.objects.get().text == GOOD


@pytest.mark.parametrize("sent", [{"text": WRONG}, {"file": SimpleUploadedFile("yard.csv", WRONG.encode())}])
def test_a_price_list_with_a_problem_is_not_kept_and_comes_back(desk, sent):
    answer = desk.post("/prices/", sent)
    assert answer.status_code == 422
    assert "finding problem" in page(answer).split('id="line-2"')[1]
    assert "three" in page(answer).split("<textarea")[1]
    assert not PriceList.objects.exists()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"PK\x03\x04" + bytes(99), "spreadsheet"),
        (b"", "nothing"),
        (b"a,b\n1,2\n", "key"),
        (b"%PDF-1.7", "PDF"),
    ],
)
def test_what_is_no_price_list_is_refused_in_words(desk, data, says):
    answer = desk.post("/prices/", {"file": SimpleUploadedFile("x.csv", data)})
    assert answer.status_code == 422
    assert says in page(answer)


def test_nothing_sent_is_said(desk):
    assert "Nothing came" in page(desk.post("/prices/", {"text": ""}))


def test_a_list_that_is_too_large_is_refused_with_its_size(desk, settings):
    settings.LARGEST_PRICE_LIST = 100
    answer = desk.post("/prices/", {"file": SimpleUploadedFile("big.csv", GOOD.encode() * 10)})
    assert (answer.status_code, "is not read" in page(answer)) == (422, True)


def test_the_list_in_force_is_handed_out_to_the_letter(desk):
    desk.post("/prices/", {"text": GOOD})
    assert desk.get("/prices/download/").content.decode() == GOOD


def test_the_same_list_again_adds_none(desk):
    for _ in range(2):
        desk.post("/prices/", {"text": GOOD})
    assert PriceList.objects.count() == 1


def test_earlier_lists_are_kept(desk):
    for price in ("3.50", "3.75"):
        desk.post("/prices/", {"text": GOOD.replace("3.50", price)})
    assert [kept.number for kept in PriceList.objects.all()] == [2, 1]


def test_names_from_a_price_list_cannot_become_markup(desk):
    answer = desk.post("/prices/", {"text": GOOD.replace(",nails,f", ",<script>x</script>,f")}, follow=True)
    assert "<script>x" not in page(answer)


def test_stock_is_written_down_and_shown(desk):
    desk.post("/stock/", {"text": "item,quantity,unit\ntape-paper,100,ft\n"})
    assert "tape-paper" in page(desk.get("/stock/"))
    assert desk.get("/stock/download/").content.decode().startswith("item,quantity")


def test_stock_with_a_problem_is_not_kept(desk):
    answer = desk.post("/stock/", {"text": "item,quantity\ntape-paper,lots\n"})
    assert (answer.status_code, StockCount.objects.count()) == (422, 0)
    assert "finding problem" in page(answer)


def test_before_a_layout_the_list_says_what_to_do(desk, shed):
    answer = desk.get(LIST)
    assert (answer.status_code, "no layout yet" in page(answer)) == (200, True)


def test_the_list_shows_its_total_and_every_line(desk, laid_out):
    text, bought = page(desk.get(LIST)), buying_for(laid_out).buying
    assert f"${bought.total_cents / 100:,.2f}" in text
    assert all(line.label in text for line in bought.lines)


def test_stock_is_taken_off_the_list(desk, laid_out):
    before = buying_for(laid_out).buying.total_cents
    desk.post("/stock/", {"text": "item,quantity,unit\ntape-paper,100000,ft\n"})
    after = buying_for(laid_out).buying
    assert after.total_cents < before
    tape = next(line for line in after.lines if line.item == "tape-paper")
    assert tape.packages == ()


def test_the_list_as_csv_adds_up_to_the_total(desk, laid_out):
    answer = desk.get(f"{LIST}list.csv")
    rows = list(csv.DictReader(io.StringIO(answer.content.decode("utf-8-sig"))))
    costs = [round(100 * float(row["Cost"])) for row in rows[:-1] if row["Cost"]]
    assert sum(costs) == buying_for(laid_out).buying.total_cents
    assert answer.headers["Content-Disposition"] == 'attachment; filename="practice-shed-buying-list.csv"'


@pytest.mark.parametrize(("kind", "begins"), [("xlsx", b"PK\x03\x04"), ("pdf", b"%PDF")])
def test_the_list_as_a_file(desk, laid_out, kind, begins):
    assert desk.get(f"{LIST}list.{kind}").content.startswith(begins)


@pytest.mark.parametrize("what", ["list.exe", "lines/no-such/", "list.csv?run=9", "lines/tape-paper/?run=9"])
def test_what_the_list_has_not_is_said(desk, laid_out, what):
    assert desk.get(f"{LIST}{what}").status_code == 404


def test_a_line_opens_to_its_working(desk, laid_out):
    text = page(desk.get(f"{LIST}lines/tape-paper/"))
    line = next(each for each in buying_for(laid_out).buying.lines if each.item == "tape-paper")
    assert line.working.result in text
    assert "Where it is needed" in text


@pytest.mark.parametrize(
    ("verb", "address"),
    [("put", "/prices/"), ("post", "/prices/download/"), ("post", LIST), ("delete", "/stock/")],
)
def test_the_wrong_verb_is_refused(desk, laid_out, verb, address):
    assert getattr(desk, verb)(address).status_code == 405


def test_the_findings_of_a_list_are_headed_by_the_list(desk):
    said = desk.post("/prices/", {"text": "key,price\na,many\n"}).content.decode()
    assert "The list, line by line" in said
    assert "The house file, line by line" not in said


@pytest.fixture
def wired_run(desk, laid_out):
    """Return the shed's run moved to a version whose file names its devices; they are no part of boards."""
    desk.post("/houses/practice-shed/cable/write/")
    laid_out.version = laid_out.version.house.newest
    laid_out.save()
    return laid_out


def test_wiring_is_on_the_list_where_the_file_names_devices(desk, wired_run):
    bought = buying_for(wired_run)
    cables = {plan.item for plan in bought.plans if plan.item.startswith("cable-")}
    assert cables
    assert {"staple-cable", "switch-single-pole"} <= {line.item for line in bought.buying.lines}
    assert "The wiring is on it." in page(desk.get(LIST))


def test_wiring_that_is_only_proposed_is_not_on_the_list(desk, laid_out):
    assert "staple-cable" not in {line.item for line in buying_for(laid_out).buying.lines}
    assert "names no devices" in page(desk.get(LIST))
