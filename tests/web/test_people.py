"""The instructor's sheets about people: classes, rosters, sign-offs, cards, accounts."""

import io
import re
import zipfile
from datetime import date, timedelta

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import timezone

from setday.web.clock import on_site
from setday.web.keeping.members import keep_class, shown_name
from setday.web.keeping.models import Card, Member, MemberSignOff, SchoolClass
from setday.web.people import views_cards
from tests.sheets.printed import page_count, words_of
from tests.web.people import by_card, morning_of

CLASS = "/people/classes/morning/"
CAL = "/people/members/cal-o/"


@pytest.fixture
def morning(school):
    """Return a class of two."""
    return morning_of(school)


def said(answer):
    return re.sub(r"\s+", " ", answer.content.decode())


# ------------------------------------------------- classes
def test_a_class_begins_with_a_name(desk):
    answer = desk.post("/people/", {"name": " Morning   carpentry "})
    assert answer.headers["Location"] == "/people/classes/morning-carpentry/"
    assert SchoolClass.objects.get().name == "Morning carpentry"


def test_two_classes_of_one_name_are_not_begun(desk, morning):
    answer = desk.post("/people/", {"name": "MORNING"})
    assert (answer.status_code, "of this name already" in said(answer)) == (422, True)
    assert 'value="MORNING"' in said(answer)


def test_a_class_gets_another_name_and_is_put_away_and_back(desk, morning):
    desk.post(f"{CLASS}edit/", {"name": "First bell"})
    desk.post(f"{CLASS}edit/", {"do": "away"})
    kept = SchoolClass.objects.get()
    assert (kept.name, kept.key, kept.put_away) == ("First bell", "morning", True)
    desk.post(f"{CLASS}edit/", {"do": "back"})
    assert not SchoolClass.objects.get().put_away


@pytest.mark.parametrize(
    ("name", "shown"),
    [("Ana Ruiz", "Ana R."), ("Ana María Ruiz Gómez", "Ana G."), ("Pelé", "Pelé"), ("x" * 90, "x" * 60)],
)
def test_crews_read_a_first_name_and_a_letter(name, shown):
    assert shown_name(name) == shown


# ------------------------------------------------- one student
def test_a_student_is_typed_into_the_class(desk, morning):
    desk.post(CLASS, {"name": "Oz Lee", "born": "2009-05-12"})
    made = Member.objects.get(key="oz-l")
    assert (made.name, made.shown_as, made.born, made.role) == (
        "Oz Lee",
        "Oz L.",
        date(2009, 5, 12),
        "crew member",
    )


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ({"name": ""}, "required"),
        ({"name": "Oz Lee", "born": "soon"}, "valid date"),
        ({"name": "Oz Lee", "born": "2999-01-01"}, "no day somebody"),
        ({"name": "Oz Lee", "born": "1809-01-01"}, "no day somebody"),
        ({"name": "cal ortega"}, "in the class already"),
    ],
)
def test_a_wrong_student_is_said_and_what_was_typed_stays(desk, morning, typed, says):
    answer = desk.post(CLASS, {"shown_as": "half typed", **typed})
    assert answer.status_code == 422
    assert says in said(answer)
    assert 'value="half typed"' in said(answer)
    assert Member.objects.filter(school_class=morning).count() == 2


def test_two_of_one_name_are_told_apart_by_their_numbers(desk, morning):
    Member.objects.filter(key="cal-o").update(number="17")
    assert desk.post(CLASS, {"name": "Cal Ortega", "number": "17"}).status_code == 422
    assert desk.post(CLASS, {"name": "Cal Ortega", "number": "18"}).status_code == 302


def test_a_student_is_changed_and_taken_out_and_back(desk, morning):
    browser, _answer = by_card(Member.objects.get(key="cal-o"))
    desk.post(CAL, {"name": "Calvin Ortega", "student_learner": "on"})
    changed = Member.objects.get(key="cal-o")
    assert (changed.name, changed.shown_as, changed.student_learner) == ("Calvin Ortega", "Calvin O.", True)
    desk.post(CAL, {"do": "away"})
    assert browser.get("/mine/").status_code == 302
    assert "Put away" in said(desk.get(CAL))
    desk.post(CAL, {"do": "back"})
    assert Member.objects.get(key="cal-o").active


def test_the_roster_shows_who_is_in_it_and_nothing_is_sealed_from_it(desk, morning):
    page = said(desk.get(CLASS))
    for words in ("Cal Ortega", "Cal O.", "Ivy Lind"):
        assert words in page


# ------------------------------------------------- sign-offs
def today():
    return on_site(timezone.now()).date()


def test_a_safety_test_is_signed_off_with_date_and_by_whom(desk, morning):
    desk.post(f"{CAL}sign-off/", {"what": " Miter  saw ", "on": "2026-09-01"})
    signed = MemberSignOff.objects.get()
    assert (signed.what, signed.on, signed.by) == ("Miter saw", date(2026, 9, 1), "Ana Ruiz")
    assert "Miter saw" in said(desk.get(CAL))


@pytest.mark.parametrize(
    ("typed", "says"),
    [({"what": ""}, "required"), ({"on": ""}, "required"), ({"on": "later"}, "valid date")],
)
def test_a_wrong_sign_off_is_said_and_keeps_its_values(desk, morning, typed, says):
    answer = desk.post(f"{CAL}sign-off/", {"what": "drill", "on": "2026-09-01", **typed})
    assert (answer.status_code, MemberSignOff.objects.count()) == (422, 0)
    assert says in said(answer)


def test_nothing_is_signed_off_for_a_day_to_come(desk, morning):
    tomorrow = today() + timedelta(days=1)
    answer = desk.post(f"{CAL}sign-off/", {"what": "drill", "on": tomorrow.isoformat()})
    assert (answer.status_code, "has not come yet" in said(answer)) == (422, True)


def test_several_are_signed_off_at_once(desk, morning):
    desk.post(f"{CLASS}sign-offs/", {"what": "ladder", "on": "2026-09-01", "member": ["cal-o", "ivy-l"]})
    assert MemberSignOff.objects.filter(what="ladder").count() == 2
    answer = desk.post(f"{CLASS}sign-offs/", {"what": "ladder", "on": "2026-09-01"})
    assert (answer.status_code, "Tick who passed" in said(answer)) == (422, True)


def test_signing_the_same_twice_writes_it_once(desk, morning):
    for _ in range(2):
        desk.post(f"{CAL}sign-off/", {"what": "ladder", "on": "2026-09-01"})
    assert MemberSignOff.objects.count() == 1


def test_a_sign_off_is_taken_back(desk, morning):
    desk.post(f"{CAL}sign-off/", {"what": "ladder", "on": "2026-09-01"})
    desk.post(f"{CAL}sign-off/{MemberSignOff.objects.get().pk}/away/")
    assert not MemberSignOff.objects.exists()


def test_what_kinds_of_work_ask_for_is_offered(desk, morning):
    page = said(desk.get(f"{CLASS}sign-offs/"))
    assert '<option value="electrical">' in page
    assert '<option value="lift">' in page


def test_a_student_reads_their_own_sign_offs_and_nobody_elses(desk, morning):
    desk.post(f"{CAL}sign-off/", {"what": "ladder", "on": "2026-09-01"})
    desk.post("/people/members/ivy-l/sign-off/", {"what": "miter saw", "on": "2026-09-01"})
    browser, _answer = by_card(Member.objects.get(key="cal-o"))
    page = said(browser.get("/mine/"))
    assert "ladder" in page
    assert "miter saw" not in page


# ------------------------------------------------- rosters
def looked_at(desk, text="", **more):
    return desk.post(f"{CLASS}roster/", {"text": text, **more})


def keep(desk, page, **more):
    signed = re.search(r'name="signed" value="([^"]+)"', page.content.decode())[1]
    return desk.post(f"{CLASS}roster/", {"do": "keep", "signed": signed, **more})


def test_a_typed_roster_is_looked_at_first_and_then_kept(desk, morning):
    page = looked_at(desk, "Oz Lee, 2009-05-12\nBea Stone\n")
    assert (page.status_code, Member.objects.filter(school_class=morning).count()) == (200, 2)
    keep(desk, page, row=["0", "1"])
    assert Member.objects.get(name="Oz Lee").born == date(2009, 5, 12)
    assert Member.objects.get(name="Bea Stone").born is None


def test_only_those_ticked_are_kept(desk, morning):
    keep(desk, looked_at(desk, "Oz Lee\nBea Stone\n"), row=["1"])
    assert not Member.objects.filter(name="Oz Lee").exists()
    assert Member.objects.filter(name="Bea Stone").exists()


def test_who_is_in_the_class_already_is_not_taken_in_twice(desk, morning):
    page = looked_at(desk, "Cal Ortega, 2009-05-12\nIvy Lind\n")
    assert "in the class; changes: born 2009-05-12" in said(page)
    assert "in the class: nothing changes" in said(page)
    keep(desk, page, row=["0", "1"])
    assert Member.objects.filter(school_class=morning).count() == 2
    assert Member.objects.get(key="cal-o").born == date(2009, 5, 12)


def test_doubles_are_told_with_their_lines_and_what_was_typed_stays(desk, morning):
    page = looked_at(desk, "Oz Lee\nBea Stone\nOz Lee\n")
    assert "stands on line 1 already" in said(page)
    assert "Oz Lee\nBea Stone\nOz Lee" in page.content.decode()
    keep(desk, page, row=["0", "1"])
    assert Member.objects.filter(name="Oz Lee").count() == 1


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "cp1252", "utf-16"])
def test_a_csv_file_in_an_odd_encoding_keeps_its_letters(desk, morning, encoding):
    data = "Last name,First name,Student ID,DOB\nGómez,José,17,2009-05-12\n".encode(encoding)
    page = desk.post(f"{CLASS}roster/", {"text": "", "file": SimpleUploadedFile("roster.csv", data)})
    assert "José Gómez" in page.content.decode()
    keep(desk, page, row=["0"])
    assert Member.objects.get(number="17").name == "José Gómez"


def test_what_is_no_roster_is_said(desk, morning):
    answer = desk.post(
        f"{CLASS}roster/", {"text": "", "file": SimpleUploadedFile("a.png", b"\x89PNG\r\n\0\0")}
    )
    assert answer.status_code == 422
    assert "finding" in answer.content.decode()
    assert "Nothing came" in said(desk.post(f"{CLASS}roster/", {"text": " "}))


ONEROSTER = {
    "manifest.csv": ["propertyName,value", "manifest.version,1.0", "oneroster.version,1.1",
                     "file.classes,bulk", "file.users,bulk", "file.enrollments,bulk"],
    "classes.csv": ["sourcedId,status,title,classType,courseSourcedId,schoolSourcedId,termSourcedIds",
                    "c1,active,Morning carpentry,scheduled,k,s,t",
                    "c2,active,Afternoon carpentry,scheduled,k,s,t"],
    "users.csv": ["sourcedId,status,enabledUser,orgSourcedIds,role,username,givenName,familyName",
                  "u1,active,true,s,student,oz,Oz,Lee", "u2,active,true,s,student,bea,Bea,Stone",
                  "u3,active,true,s,teacher,ana,Ana,Ruiz"],
    "enrollments.csv": ["sourcedId,status,classSourcedId,schoolSourcedId,userSourcedId,role",
                        "e1,active,c1,s,u1,student", "e2,active,c2,s,u2,student",
                        "e3,active,c1,s,u3,teacher"],
}  # fmt: skip
"""Written by hand after the field lists of OneRoster 1.1 CSV Tables (1EdTech), people invented."""


def archive():
    held = io.BytesIO()
    with zipfile.ZipFile(held, "w") as made:
        for name, lines in ONEROSTER.items():
            made.writestr(name, "\n".join(lines))
    return SimpleUploadedFile("oneroster.zip", held.getvalue())


def test_of_a_oneroster_export_one_class_is_taken(desk, morning):
    page = desk.post(f"{CLASS}roster/", {"text": "", "file": archive()})
    assert "Morning carpentry (1)" in said(page)
    assert "no student in the file" in said(page)
    keep(desk, page, row=["0", "1", "2"], of_class="c1")
    assert Member.objects.filter(name="Oz Lee", school_class=morning).exists()
    assert not Member.objects.filter(name="Bea Stone").exists()


def test_oneroster_files_may_be_picked_one_by_one(desk, morning):
    files = [SimpleUploadedFile(name, "\n".join(lines).encode()) for name, lines in ONEROSTER.items()]
    page = desk.post(f"{CLASS}roster/", {"text": "", "file": files})
    assert "Morning carpentry (1)" in said(page)


def test_a_list_looked_at_for_one_class_is_not_kept_in_another(desk, school, morning):
    page = looked_at(desk, "Oz Lee\n")
    signed = re.search(r'name="signed" value="([^"]+)"', page.content.decode())[1]
    keep_class(school, name="Afternoon")
    desk.post("/people/classes/afternoon/roster/", {"do": "keep", "signed": signed, "row": ["0"]})
    desk.post("/people/classes/afternoon/roster/", {"do": "keep", "signed": signed + "x", "row": ["0"]})
    assert not Member.objects.filter(name="Oz Lee").exists()


# ------------------------------------------------- cards
def made(desk, **more):
    page = desk.get(f"{CLASS}cards/").content.decode()
    asked = re.search(r'name="asked" value="(\w+)"', page)[1]
    return desk.post(f"{CLASS}cards/", {"asked": asked, "do": "missing", **more})


def codes_on(answer):
    return re.findall(r'class="digits">(\d{4}-\d{5})<', answer.content.decode())


def test_cards_are_made_for_who_has_none(desk, morning):
    codes = codes_on(made(desk))
    assert (len(codes), len(set(codes)), Card.objects.count()) == (2, 2, 2)
    assert made(desk).status_code == 302, "everybody has one"


def test_the_page_of_cards_loaded_again_voids_none(desk, morning):
    page = desk.get(f"{CLASS}cards/").content.decode()
    sent = {"asked": re.search(r'name="asked" value="(\w+)"', page)[1], "do": "all"}
    first = codes_on(desk.post(f"{CLASS}cards/", sent))
    assert desk.post(f"{CLASS}cards/", sent).status_code == 302
    assert desk.post("/card/", {"code": first[0]}).status_code == 302


def test_codes_are_never_shown_again_and_never_stored_by_the_browser(desk, morning):
    answer = made(desk)
    assert "no-store" in answer.headers["Cache-Control"]
    for address in (CLASS, CAL, f"{CLASS}cards/"):
        assert not re.search(r"\d{4}-\d{5}", desk.get(address).content.decode())


def pdf_of(desk, answer):
    signed = re.search(r'name="made" value="([^"]+)"', answer.content.decode())[1]
    return desk.post(f"{CLASS}cards.pdf", {"made": signed})


def test_the_cards_are_printed_with_names_codes_and_the_address(desk, morning, settings):
    settings.ALLOWED_HOSTS = ["testserver", "192.168.4.20"]
    answer = made(desk)
    pdf = pdf_of(desk, answer)
    assert pdf.headers["Content-Type"] == "application/pdf"
    words = words_of(pdf.content)
    for word in ("Cal Ortega", "Ivy Lind", *codes_on(answer), "Morning", "testserver"):
        assert word in words
    assert page_count(pdf.content) == 1


def test_cards_are_printed_for_half_an_hour_only(desk, morning, monkeypatch):
    answer = made(desk)
    monkeypatch.setattr(views_cards, "_SHOWN_FOR", -1)
    assert (pdf_of(desk, answer).status_code, "half an hour only" in said(pdf_of(desk, answer))) == (
        422,
        True,
    )


def test_what_this_site_did_not_write_is_not_printed(desk, morning):
    assert desk.post(f"{CLASS}cards.pdf", {"made": "Cal:4821-73905"}).status_code == 422


# ------------------------------------------------- schools, accounts
def test_a_wrong_account_is_said_and_keeps_its_values(desk):
    answer = desk.post("/people/accounts/", {"name": "Dee Park", "role": "king"})
    assert answer.status_code == 422
    assert 'value="Dee Park"' in said(answer)


def test_the_keeper_names_their_own_school(desk, school):
    desk.post("/people/schools/", {"do": "rename", "own": "Elm Street High"})
    assert "Elm Street High" in said(desk.get("/people/"))
    answer = desk.post("/people/schools/", {"do": "new", "name": "elm street high", "instructor": "Lou"})
    assert (answer.status_code, "school of this name already" in said(answer)) == (422, True)
