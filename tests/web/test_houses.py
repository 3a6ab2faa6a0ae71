"""Houses: brought in, refused, kept in versions, looked at, compared."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile

from setday.actions.houses import demo_text
from setday.web.keeping.models import House, HouseVersion

SHED = demo_text("shed")
BROKEN = SHED.replace(
    """wall: east wall\n    window: 3'-0" x 3'-0\"""", """wall: east wall\n    window: 3'-0" x 3.6"""
)
LINE = 1 + BROKEN[: BROKEN.index("3.6")].count("\n")


def page(answer):
    return answer.content.decode()


def test_the_broken_file_is_broken_in_one_place():
    assert BROKEN != SHED


def test_a_good_file_becomes_a_house_and_its_plan_is_shown(desk):
    answer = desk.post("/houses/new/", {"text": SHED}, follow=True)
    assert answer.redirect_chain == [("/houses/practice-shed/", 302)]
    assert "Floor plan of Practice shed" in page(answer)


def test_a_picked_file_is_read_like_a_typed_one(desk):
    picked = SimpleUploadedFile("my shed.yaml", SHED.encode())
    desk.post("/houses/new/", {"file": picked})
    assert HouseVersion.objects.get().file_name == "my shed.yaml"


def test_line_ends_of_another_system_are_read_alike(desk):
    desk.post("/houses/new/", {"text": SHED.replace("\n", "\r\n")})
    assert HouseVersion.objects.get().text == SHED


def test_a_file_with_a_problem_is_refused_and_nothing_is_kept(desk):
    answer = desk.post("/houses/new/", {"text": BROKEN})
    assert answer.status_code == 422
    assert not House.objects.exists()


def test_what_was_typed_comes_back_to_the_letter(desk):
    from html import unescape

    text = BROKEN + "\n# <b>kept</b> & all\n"
    answer = desk.post("/houses/new/", {"text": text})
    typed = page(answer).split("<textarea", 1)[1].split(">", 1)[1].split("</textarea>")[0]
    assert unescape(typed).strip("\n") == text.strip("\n")


def test_a_finding_stands_beside_its_line(desk):
    answer = desk.post("/houses/new/", {"text": BROKEN})
    row, below = page(answer).split(f'id="line-{LINE}"')[1].split("</tr>")[:2]
    assert "3.6" in row
    assert "finding problem" in below


def test_a_refused_picked_file_is_laid_open_to_be_mended(desk):
    answer = desk.post("/houses/new/", {"file": SimpleUploadedFile("s.yaml", BROKEN.encode())})
    assert "x 3.6" in page(answer).split("<textarea")[1]
    assert 'value="s.yaml"' in page(answer)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "nothing is written in it"),
        (b"PK\x03\x04" + bytes(3000), "zip"),
        (b"\x7fELF" + bytes(300), "program"),
        (b"\xff\xfe" + "name: x".encode("utf-16-le"), "UTF-8"),
        (b"name: \xe9\xe8\n", "UTF-8"),
        (b"walls:\n\t- a\n", "tab"),
        (b"- : - {[", "line"),
        (b"x: &a [*a]\n" + b"y: *a\n" * 10, "finding"),
    ],
)
def test_what_is_no_house_file_is_refused_in_words(desk, data, says):
    answer = desk.post("/houses/new/", {"file": SimpleUploadedFile("x.yaml", data)})
    assert answer.status_code == 422
    assert says in page(answer)
    assert not House.objects.exists()


def test_nothing_sent_is_said(desk):
    answer = desk.post("/houses/new/", {"text": "  "})
    assert (answer.status_code, "Nothing came" in page(answer)) == (422, True)


def test_a_file_that_is_too_large_is_refused_with_its_size(desk, settings):
    settings.LARGEST_HOUSE_FILE = 1000
    answer = desk.post("/houses/new/", {"file": SimpleUploadedFile("big.yaml", b"#" * 5000)})
    assert (answer.status_code, "big.yaml is 5 kB" in page(answer)) == (422, True)


def test_a_request_that_is_far_too_large_is_refused_before_it_is_read(desk, settings):
    settings.LARGEST_REQUEST = 1000
    answer = desk.post("/houses/new/", {"text": "#" * 5000})
    assert answer.status_code == 413
    assert "too much at once" in page(answer)


def test_checking_says_what_is_wrong_and_keeps_nothing(desk):
    answer = desk.post("/houses/check/", {"text": BROKEN})
    assert (answer.status_code, "1 problem" in page(answer)) == (200, True)
    assert not House.objects.exists()


def test_checking_a_good_file_says_so(desk):
    assert "can be kept" in page(desk.post("/houses/check/", {"text": SHED}))


def test_a_question_must_be_answered_before_the_file_is_kept(desk):
    text = SHED.replace("center: 6'-0\"", "center: 6.6 ft")
    first = desk.post("/houses/new/", {"text": text})
    assert "1 question" in page(first)
    assert not House.objects.exists()
    desk.post("/houses/new/", {"text": text, "as_meant": "yes"})
    assert House.objects.count() == 1


def test_a_change_becomes_another_version(desk, shed):
    changed = SHED.replace("center: 6'-0\"", "center: 5'-0\"")
    answer = desk.post("/houses/practice-shed/file/edit/", {"text": changed, "note": "window moved"})
    assert answer.headers["Location"] == "/houses/practice-shed/"
    assert [(each.number, each.note) for each in shed.versions.all()] == [(2, "window moved"), (1, "")]
    assert shed.versions.get(number=1).text == SHED


def test_the_same_text_adds_no_version(desk, shed):
    desk.post("/houses/practice-shed/file/edit/", {"text": SHED})
    assert shed.versions.count() == 1


def test_a_refused_change_leaves_the_version_in_force(desk, shed):
    answer = desk.post("/houses/practice-shed/file/edit/", {"text": BROKEN, "note": "oops"})
    assert answer.status_code == 422
    assert 'value="oops"' in page(answer)
    assert shed.versions.count() == 1


def test_a_house_of_a_name_that_is_there_is_asked_about(desk, shed):
    answer = desk.post("/houses/new/", {"text": SHED})
    assert answer.status_code == 422
    assert "What is this?" in page(answer)
    assert HouseVersion.objects.count() == 1


def test_two_houses_of_one_name_have_addresses_of_their_own(desk, shed):
    answer = desk.post("/houses/new/", {"text": SHED, "twin": "another"})
    assert answer.headers["Location"] == "/houses/practice-shed-2/"


def test_a_house_of_the_same_name_can_become_another_version(desk, shed):
    answer = desk.post("/houses/new/", {"text": SHED + "\n# mended\n", "twin": "version"})
    assert answer.headers["Location"] == "/houses/practice-shed/"
    assert (House.objects.count(), shed.newest.number) == (1, 2)


def test_a_refused_file_that_is_no_text_is_not_said_to_be_below(desk):
    answer = desk.post("/houses/new/", {"file": SimpleUploadedFile("a.yaml", b"%PDF-1.4\0\1\2")})
    assert "cannot be shown here" in page(answer)
    assert "still below" not in page(answer)


def test_the_sizes_on_pages_and_in_the_docs_are_those_of_the_readers(desk, settings):
    from pathlib import Path

    from setday.files import LARGEST_BYTES as HOUSE_BYTES
    from setday.files.delimited import LARGEST_BYTES as LIST_BYTES
    from setday.web.uploads import megabytes

    kept = (settings.LARGEST_HOUSE_FILE, settings.LARGEST_PRICE_LIST)
    assert kept == (HOUSE_BYTES, LIST_BYTES)
    docs = (Path(__file__).parents[2] / "docs" / "site.md").read_text(encoding="utf-8")
    house, lists = megabytes(HOUSE_BYTES), megabytes(LIST_BYTES)
    assert f"{house} for a house file, {lists} for a price list" in docs
    settings.LARGEST_REQUEST = 10
    answer = page(desk.post("/houses/new/", {"text": SHED}))
    assert f"{house} at most" in answer


@pytest.mark.parametrize(
    ("sheet", "shows"),
    [
        ("", "Floor plan of Practice shed"),
        ("?studs=yes", "Plan without studs"),
        ("rooms/", "workroom"),
        ("walls/south wall/", "shed door"),
        ("surfaces/workroom/north/", "north"),
        ("surfaces/workroom/ceiling/", "ceiling"),
        ("file/", "Read it aloud"),
        ("file/edit/", "Read it aloud"),
        ("versions/", "Every file that was kept"),
    ],
)
def test_a_sheet_of_a_house_shows_what_it_is_for(desk, shed, sheet, shows):
    answer = desk.get(f"/houses/practice-shed/{sheet}")
    assert answer.status_code == 200
    assert shows in page(answer)


@pytest.mark.parametrize(
    "sheet",
    [
        "walls/no such/",
        "surfaces/no/such/",
        "?version=9",
        "?version=x",
        "compare/?from=7&to=1",
        "compare/?to=-1",
    ],
)
def test_what_is_not_there_is_said(desk, shed, sheet):
    answer = desk.get(f"/houses/practice-shed/{sheet}")
    assert answer.status_code == 404
    assert "There is no such sheet" in page(answer)


def test_the_plan_leads_to_every_wall_and_surface(desk, shed):
    plan = page(desk.get("/houses/practice-shed/"))
    for name in ("south%20wall", "east%20wall", "north%20wall", "west%20wall"):
        assert f"/houses/practice-shed/walls/{name}/" in plan
    for side in ("north", "east", "south", "west"):
        assert f"/houses/practice-shed/surfaces/workroom/{side}/" in plan


def test_an_older_version_is_shown_as_such(desk, two_versions):
    old = page(desk.get("/houses/practice-shed/?version=1"))
    assert "Version 2 is in force" in old
    assert "/walls/south%20wall/?version=1" in old


def test_the_file_is_handed_out_to_the_letter(desk, shed):
    answer = desk.get("/houses/practice-shed/file/download/")
    assert answer.content.decode() == SHED
    assert answer.headers["Content-Disposition"] == 'attachment; filename="practice-shed.yaml"'


def test_comparing_says_what_changed_in_the_house_and_in_the_file(desk, two_versions):
    text = page(desk.get("/houses/practice-shed/compare/"))
    house, file = text.split("In the file")
    assert "Opening work window" in house
    assert "center: 5&#x27;-0" in file
    assert "center: 6&#x27;-0" in file


def test_comparing_a_version_with_itself_finds_nothing(desk, shed):
    text = page(desk.get("/houses/practice-shed/compare/?from=1&to=1"))
    assert "both build the same house" in text
    assert "the same, to the letter" in text


def test_a_kept_version_that_a_later_setday_finds_wrong_is_shown_not_hidden(desk, shed):
    HouseVersion.objects.create(house=shed, number=2, file_name="x.yaml", text=BROKEN)
    answer = desk.get("/houses/practice-shed/", follow=True)
    assert answer.redirect_chain == [("/houses/practice-shed/file/", 302)]
    assert "has problems" in page(answer)
    assert "finding problem" in page(answer)


def test_a_house_can_be_put_away_and_comes_back(desk, shed):
    desk.post("/houses/practice-shed/put-away/")
    assert "Practice shed</a>" not in page(desk.get("/"))
    assert "Practice shed" in page(desk.get("/houses/put-away/"))
    desk.post("/houses/practice-shed/put-away/", {"back": "yes"})
    assert "Practice shed</a>" in page(desk.get("/"))


@pytest.mark.parametrize(
    ("verb", "address"),
    [
        ("post", "/"),
        ("post", "/houses/practice-shed/"),
        ("get", "/houses/practice-shed/put-away/"),
        ("get", "/houses/check/"),
        ("put", "/houses/new/"),
        ("delete", "/houses/practice-shed/file/edit/"),
        ("post", "/houses/practice-shed/versions/"),
    ],
)
def test_the_wrong_verb_is_refused(desk, shed, verb, address):
    assert getattr(desk, verb)(address).status_code == 405


def test_a_form_without_its_protection_mark_changes_nothing(instructor):
    from django.test import Client

    careful = Client(enforce_csrf_checks=True)
    careful.force_login(instructor)
    answer = careful.post("/houses/new/", {"text": SHED})
    assert answer.status_code == 403
    assert "too old" in page(answer)
    assert not House.objects.exists()


def test_names_from_the_file_cannot_become_markup(desk):
    wicked = SHED.replace("name: Practice shed", "name: <script>alert(1)</script> shed").replace(
        "workroom:", "<img src=x>:"
    )
    answer = desk.post("/houses/new/", {"text": wicked}, follow=True)
    assert "<script>alert" not in page(answer)
    assert "<img src=x>" not in page(answer)


def test_the_list_shows_each_house_at_a_glance(desk, shed):
    assert 'class="thumbnail"' in page(desk.get("/"))


def test_the_list_shows_a_house_whose_file_has_problems_without_a_picture(desk, shed):
    HouseVersion.objects.create(house=shed, number=2, file_name="x.yaml", text=BROKEN)
    text = page(desk.get("/"))
    assert "Practice shed" in text
    assert 'class="thumbnail"' not in text


def test_a_picture_of_a_house_holds_no_words():
    from setday.actions.houses import open_house
    from setday.web.houses.thumbnail import thumbnail

    svg = thumbnail(open_house(SHED, name="shed.yaml").built())
    assert "<text" not in svg
    assert svg.count("<path") == 2


def test_a_new_house_can_start_from_the_practice_shed(desk):
    from html import unescape

    assert "?start=shed" in page(desk.get("/houses/keys/"))
    assert 'value="shed"' in page(desk.get("/houses/new/"))
    filled = page(desk.get("/houses/new/?start=shed"))
    typed = filled.split("<textarea", 1)[1].split(">", 1)[1].split("</textarea>")[0]
    assert unescape(typed).strip() == SHED.strip()
    assert not House.objects.exists()


def test_the_sheet_of_keys_names_every_key_of_the_schema(desk):
    from html import unescape

    from setday.files import house_schema

    schema, said = house_schema(), unescape(page(desk.get("/houses/keys/")))
    inner = {key for part in schema["$defs"].values() for key in part.get("properties", ())}
    assert [key for key in schema["properties"] if f"<code>{key}:</code>" not in said] == []
    assert [
        key for key in inner if f"<code>{key}</code>" not in said and f" › {key}</code>" not in said
    ] == []
