"""Sealed figures: offered, tried line by line or by the answer, handed in once, opened, marked."""

from uuid import uuid4

import pytest

from setday.web.keeping.models import Member, SealedEntry, SealedOffer, SlipMark
from setday.web.sealed.figures import diagnoser_of, odds_of
from tests.web.people import browser_of, morning_of

FIGURE = "room/workroom/boards"
FLOOR = "room/workroom/floor"


@pytest.fixture
def morning(school):
    return morning_of(school)


@pytest.fixture
def cal(morning):
    return Member.objects.get(shown_as="Cal O.")


def offered(shed, morning, *, figure=FIGURE, tries=1, hints=False):
    return SealedOffer.objects.create(
        school=shed.school, school_class=morning, version=shed.newest, figure=figure, tries=tries, hints=hints
    )


def right_answer(offer):
    diagnoser = diagnoser_of(offer)
    return diagnoser.right[diagnoser.figure.last.key]


def form(answer, *lines, **more):
    typed = {"entry": str(uuid4()), "answer": answer, **more}
    for n, (label, worked, result) in enumerate(lines, start=1):
        typed |= {f"label-{n}": label, f"worked-{n}": worked, f"result-{n}": result}
    return typed


def test_the_instructor_offers_a_figure_of_the_house_to_a_class(desk, shed, morning):
    asked = {"figure": FIGURE, "class": morning.key, "tries": "2", "hints": "yes"}
    answer = desk.post("/houses/practice-shed/sealed/", asked)
    offer = SealedOffer.objects.get()
    assert answer.url == f"/houses/practice-shed/sealed/{offer.pk}/"
    assert (offer.figure, offer.tries, offer.hints, offer.version) == (FIGURE, 2, True, shed.newest)


def test_what_cannot_be_offered_is_refused_with_what_was_chosen_kept(desk, shed, morning):
    answer = desk.post("/houses/practice-shed/sealed/", {"figure": "nothing", "class": "", "tries": "9"})
    assert answer.status_code == 422
    assert answer.content.count(b"Choose") == 3


def test_a_figure_for_some_of_a_class_is_offered_to_nobody_else(shed, morning, cal):
    offer = offered(shed, morning)
    offer.members.set([cal])
    ivy = Member.objects.get(shown_as__startswith="Ivy")
    assert b"Boards of the workroom" in browser_of(cal).get("/sealed/").content
    assert b"Boards of the workroom" not in browser_of(ivy).get("/sealed/").content
    assert browser_of(ivy).get(f"/sealed/{offer.pk}/").status_code == 404


def test_a_student_hands_in_lines_and_answer_once(shed, morning, cal):
    offer, browser = offered(shed, morning), browser_of(cal)
    typed = form("14 sheets", ("N wall area", "12' x 8'", "96 ft2"), ("", "", ""))
    for _ in range(3):
        browser.post(f"/sealed/{offer.pk}/", typed)
    entry = SealedEntry.objects.get()
    assert (entry.member, entry.answer) == (cal, "14 sheets")
    assert entry.lines == [{"label": "N wall area", "worked": "12' x 8'", "result": "96 ft2"}]


def test_a_queue_that_sends_again_is_told_it_is_kept(shed, morning, cal):
    offer, browser = offered(shed, morning), browser_of(cal)
    typed = form("14")
    told = [
        browser.post(f"/sealed/{offer.pk}/", typed, headers={"X-Setday-Entry": "1"}).json() for _ in range(2)
    ]
    assert told == [{"to": f"/sealed/{offer.pk}/"}] * 2
    assert SealedEntry.objects.count() == 1


def test_what_somebody_else_kept_on_the_tablet_is_not_handed_in_as_ones_own(shed, morning, cal):
    offer, ivy = offered(shed, morning), Member.objects.get(key="ivy-l")
    kept = {**form(right_answer(offer)), "who": f"member-{ivy.pk}"}
    headers = {"X-Setday-Entry": "1"}
    assert browser_of(cal).post(f"/sealed/{offer.pk}/", kept, headers=headers).status_code == 409
    assert not SealedEntry.objects.exists()
    assert browser_of(ivy).post(f"/sealed/{offer.pk}/", kept, headers=headers).status_code == 200
    assert SealedEntry.objects.get().member == ivy


def test_no_more_is_taken_than_the_tries_allowed(shed, morning, cal):
    offer, browser = offered(shed, morning, tries=2), browser_of(cal)
    codes = [browser.post(f"/sealed/{offer.pk}/", form(str(n))).status_code for n in (11, 12, 13)]
    assert codes == [302, 302, 422]
    assert SealedEntry.objects.count() == 2


BAD = [
    ({"answer": "twelve-ish"}, "Write it in digits: 12."),
    ({"answer": "384 ft2"}, "write 384 sheets"),
    ({"answer": ""}, "Nothing is written"),
    ({"answer": "9", "label-1": "door", "result-1": "about two"}, "Line 1"),
    ({"answer": "9", "label-1": "door"}, "nothing comes out"),
    ({"answer": "9", "entry": "broken"}, "damaged"),
]


@pytest.mark.parametrize(("typed", "said"), BAD)
def test_what_cannot_be_read_is_refused_with_a_sentence_and_stays_typed(shed, morning, cal, typed, said):
    offer, browser = offered(shed, morning), browser_of(cal)
    whole = {"entry": str(uuid4()), "label-2": "my own words", "result-2": "4 ft", **typed}
    answer = browser.post(f"/sealed/{offer.pk}/", whole)
    assert answer.status_code == 422
    assert said in answer.content.decode().replace("&#x27;", "'")
    assert b"my own words" in answer.content
    assert not SealedEntry.objects.exists()


def test_who_stands_beside_is_written_down(shed, morning, cal):
    offer, browser = offered(shed, morning), browser_of(cal)
    ivy = Member.objects.get(shown_as__startswith="Ivy")
    browser.post("/mine/with/", {"with": ivy.key})
    session = browser.session
    session["members_present"] = [ivy.pk]
    session.save()
    browser.post(f"/sealed/{offer.pk}/", form("14"))
    assert SealedEntry.objects.get().beside == [ivy.shown_as]


def test_a_hint_names_the_kind_only_and_only_where_it_is_allowed(shed, morning, cal):
    for hints in (False, True):
        offer, browser = offered(shed, morning, figure=FLOOR, tries=3, hints=hints), browser_of(cal)
        wrong = right_answer(offer) * 144
        browser.post(f"/sealed/{offer.pk}/", form(f"{wrong:.0f}"))
        page = browser.get(f"/sealed/{offer.pk}/").content.decode()
        assert ("Look at the unit that was asked for." in page) is hints
        assert f"{right_answer(offer):.1f}" not in page


def test_opened_the_student_sees_the_working_and_where_it_went_wrong(desk, shed, morning, cal):
    offer, browser = offered(shed, morning, figure=FLOOR), browser_of(cal)
    browser.post(f"/sealed/{offer.pk}/", form(f"{right_answer(offer) * 144:.0f}"))
    desk.post(f"/houses/practice-shed/sealed/{offer.pk}/open/")
    page = browser.get(f"/sealed/{offer.pk}/").content.decode()
    assert f"{right_answer(offer):.1f} ft2" in page
    assert "another unit than was asked" in page
    assert browser.post(f"/sealed/{offer.pk}/", form("12")).status_code == 422


def test_the_instructor_sees_everybodys_lines_the_spread_and_the_slips(desk, shed, morning, cal):
    offer = offered(shed, morning, figure=FLOOR)
    browser_of(cal).post(f"/sealed/{offer.pk}/", form(f"{right_answer(offer) * 144:.0f}"))
    page = desk.get(f"/houses/practice-shed/sealed/{offer.pk}/").content.decode()
    assert "Cal O." in page
    assert "The answers of the class" in page
    assert "another unit than was asked" in page


def test_what_is_marked_moves_the_odds_of_that_class_only_and_can_be_forgotten(
    desk, shed, school, morning, cal
):
    from setday.web.keeping.members import keep_class

    other = keep_class(school, name="Afternoon")
    offer = offered(shed, morning, figure=FLOOR)
    browser_of(cal).post(f"/sealed/{offer.pk}/", form("999"))
    before = odds_of(morning).share("arithmetic")
    entry = SealedEntry.objects.get()
    marked = {"of": entry.pk, "kind": "arithmetic"}
    for _ in range(2):
        desk.post(f"/houses/practice-shed/sealed/{offer.pk}/mark/", marked)
    assert SlipMark.objects.count() == 1
    assert odds_of(morning).share("arithmetic") > before == odds_of(other).share("arithmetic")
    desk.post("/classes/morning/slips/")
    assert odds_of(morning).share("arithmetic") == before


def test_a_kind_that_the_figure_does_not_have_is_not_marked(desk, shed, morning, cal):
    offer = offered(shed, morning, figure=FLOOR)
    browser_of(cal).post(f"/sealed/{offer.pk}/", form("999"))
    marked = {"of": SealedEntry.objects.get().pk, "kind": "waste-twice"}
    desk.post(f"/houses/practice-shed/sealed/{offer.pk}/mark/", marked)
    assert not SlipMark.objects.exists()


def test_a_later_house_file_does_not_change_a_figure_that_was_offered(shed, morning):
    from setday.actions.houses import demo_text
    from setday.web.keeping.houses import add_version

    offer = offered(shed, morning, figure=FLOOR)
    before = right_answer(offer)
    text = demo_text("shed").replace("16'", "18'").replace("12'", "14'")
    add_version(shed, name=shed.name, file_name="shed.yaml", text=text)
    assert right_answer(SealedOffer.objects.get()) == before


WALL = "surface/workroom/north/run"


def laid_on(offer):
    """Lay the wall row by row as far as a board reaches, and return it as it is written down."""
    from setday.web.sealed.walls import wall_of

    wall = wall_of(offer.version, WALL)
    laid = []
    for row in range(wall.rows):
        at = 0
        while at < wall.surface.width:
            at = max(x for x in wall.snaps if x <= at + wall.board.length)
            laid.append([row, at, 0])
    return laid


def test_boards_are_laid_one_after_the_other_and_counted(shed, morning, cal):
    offer, browser = offered(shed, morning, figure=WALL), browser_of(cal)
    SealedOffer.objects.update(by_layout=True)
    laid = laid_on(offer)
    first = {"do": "lay", "laid": "[]", "row": "0", "end": str(laid[0][1])}
    page = browser.post(f"/sealed/{offer.pk}/lay/", first).content.decode()
    assert "<dt>Boards</dt><dd>1</dd>" in page
    assert f"[[0, {laid[0][1]}, 0]]" in page


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({"do": "lay", "row": "0", "end": "7"}, "no such place"),
        ({"do": "lay", "row": "9", "end": "0"}, "no such place"),
        ({"do": "lay", "row": "x", "end": ""}, "Choose a row"),
        ({"do": "hand-in"}, "not covered yet"),
        ({"do": "lay", "row": "0", "end": "1", "laid": "not a list"}, "no such place"),
    ],
)
def test_a_board_that_cannot_lie_there_is_refused(shed, morning, cal, typed, said):
    offer, browser = offered(shed, morning, figure=WALL), browser_of(cal)
    SealedOffer.objects.update(by_layout=True)
    answer = browser.post(f"/sealed/{offer.pk}/lay/", {"laid": "[]", **typed})
    assert answer.status_code == 422
    assert said in answer.content.decode()


def test_a_layout_is_handed_in_once_and_checked_when_it_is_opened(desk, shed, morning, cal):
    import json

    offer, browser = offered(shed, morning, figure=WALL), browser_of(cal)
    SealedOffer.objects.update(by_layout=True)
    laid = laid_on(offer)
    typed = {"do": "hand-in", "laid": json.dumps(laid), "entry": str(uuid4())}
    for _ in range(2):
        browser.post(f"/sealed/{offer.pk}/lay/", typed)
    entry = SealedEntry.objects.get()
    assert (entry.boards, entry.answer) == (laid, str(len(laid)))
    assert b"Best layout known" not in browser.get(f"/sealed/{offer.pk}/lay/").content
    assert b"Best layout known" in desk.get(f"/houses/practice-shed/sealed/{offer.pk}/").content
    desk.post(f"/houses/practice-shed/sealed/{offer.pk}/open/")
    assert b"Best layout known" in browser.get(f"/sealed/{offer.pk}/lay/").content


def test_a_layout_that_waited_on_the_tablet_is_taken_once_and_only_from_who_laid_it(shed, morning, cal):
    import json

    offer, ivy = offered(shed, morning, figure=WALL), Member.objects.get(key="ivy-l")
    SealedOffer.objects.update(by_layout=True)
    to, headers = f"/sealed/{offer.pk}/lay/", {"X-Setday-Entry": "1"}
    typed = {
        "do": "hand-in",
        "laid": json.dumps(laid_on(offer)),
        "entry": str(uuid4()),
        "who": f"member-{cal.pk}",
    }
    assert browser_of(ivy).post(to, typed, headers=headers).status_code == 409
    told = [browser_of(cal).post(to, typed, headers=headers).json() for _ in range(2)]
    assert told == [{"to": to}] * 2
    assert SealedEntry.objects.get().member == cal
    again = browser_of(cal).post(to, {**typed, "entry": str(uuid4())}, headers=headers)
    assert (again.status_code, set(again.json())) == (422, {"said"})


def test_only_a_straight_wall_is_offered_for_laying(desk, shed, morning):
    asked = {"figure": FLOOR, "class": morning.key, "tries": "1", "by_layout": "yes"}
    assert desk.post("/houses/practice-shed/sealed/", asked).status_code == 422


def test_every_sentence_of_the_core_is_among_the_words_that_are_translated():
    from setday.learning import HINTS, SENTENCES
    from setday.learning.laying import CannotLay  # its sentences are tried above, one by one
    from setday.web.sealed.sentences import HINT_WORDS, LAYING_WORDS, SLIP_WORDS

    assert set(SENTENCES.values()) == set(SLIP_WORDS)
    assert set(HINTS.values()) < set(HINT_WORDS)
    assert issubclass(CannotLay, Exception)
    assert len(LAYING_WORDS) == 8


def test_the_count_by_area_stands_beside_the_count_by_layout(desk, shed, morning, laid_out):
    offer = offered(shed, morning)
    page = desk.get(f"/houses/practice-shed/sealed/{offer.pk}/").content.decode()
    boards = {piece["board"] for piece in laid_out.outcome["layout"]["pieces"]}
    assert f"<dt>Sheets by area</dt><dd>{right_answer(offer):.0f}</dd>" in page
    assert f"<dt>Boards by layout</dt><dd>{len(boards)}</dd>" in page
