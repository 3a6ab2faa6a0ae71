"""Changing the language keeps what was typed into the form of the page, but no password."""

import re
from urllib.parse import urlencode

import pytest
from django import forms
from django.apps import apps
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils.module_loading import import_module

from setday.web.half_filled import NEVER_KEPT
from setday.web.keeping.models import PriceList

HALF = "house: Half a house\nwalls:\n"


def change_language(browser, page: str, typed: dict):
    """Press the language button on a page whose form holds what was typed."""
    shown = browser.get(page).content.decode()
    button = re.search(r'<button class="quiet" name="language" form="typed" formaction="([^"]+)"', shown)
    assert button, f"the language button of {page} does not send its form along"
    assert 'id="typed"' in shown
    return browser.post(button[1].replace("&amp;", "&"), {**typed, "language": "es"}, follow=True)


@pytest.mark.parametrize(
    ("page", "typed", "kept"),
    [
        ("/houses/new/", {"text": HALF, "note": ""}, "Half a house"),
        ("/houses/new/?start=shed", {"text": HALF}, "Half a house"),
        ("/houses/practice-shed/file/edit/", {"text": HALF, "note": "moved the window"}, "moved the window"),
        ("/houses/practice-shed/file/edit/", {"text": HALF, "note": "moved the window"}, "Half a house"),
        ("/prices/", {"text": "key,item\nhalf,a line", "file_name": "mine.csv"}, "half,a line"),
        ("/stock/", {"text": "item,quantity\nhalf,a line"}, "half,a line"),
        ("/houses/practice-shed/boards/", {"label": "the second try"}, 'value="the second try"'),
        ("/houses/practice-shed/boards/what-if/", {"value": "24 in"}, 'value="24 in"'),
    ],
)
def test_what_was_typed_is_there_in_the_other_language(desk, shed, page, typed, kept):
    answer = change_language(desk, page, typed)
    said = answer.content.decode()
    assert '<html lang="es">' in said
    assert kept in said


def test_it_is_there_once(desk, shed):
    change_language(desk, "/houses/new/", {"text": HALF})
    assert "Half a house" not in desk.get("/houses/new/").content.decode()


def test_it_does_not_turn_up_on_another_page(desk, shed):
    desk.post(f"/language/?{urlencode({'back': '/houses/new/'})}", {"text": HALF, "language": "es"})
    assert "Half a house" not in desk.get("/prices/").content.decode()
    assert "Half a house" not in desk.get("/houses/new/").content.decode()


def test_boxes_that_were_cleared_stay_clear(desk, shed):
    page = "/houses/practice-shed/boards/what-if/"
    said = change_language(desk, page, {"ways": ["room"], "seconds": "60"}).content.decode()
    ticked = re.findall(r'name="ways" value="([^"]+)"[^>]*checked', said)
    assert ticked == ["room"]
    assert 'value="60" selected' in said


def test_a_picked_file_comes_back_as_text(desk):
    picked = SimpleUploadedFile("yard.csv", "key,item\nñ,nails".encode())
    said = change_language(desk, "/prices/", {"text": "", "file": picked}).content.decode()
    assert "ñ,nails" in said
    assert 'value="yard.csv"' in said


def test_a_picked_file_that_is_no_text_is_let_go(desk):
    picked = SimpleUploadedFile("yard.xlsx", b"PK\x03\x04\xff\xfe")
    assert change_language(desk, "/prices/", {"text": "typed", "file": picked}).status_code == 200


def test_findings_beside_half_a_house_are_of_what_was_typed(desk, shed):
    answer = change_language(desk, "/houses/practice-shed/file/edit/", {"text": HALF, "note": ""})
    assert "finding problem" in answer.content.decode()


def test_a_form_that_came_back_with_faults_is_kept_too(desk, shed):
    said = desk.post("/houses/new/", {"text": HALF}).content.decode()
    assert 'formaction="/language/?back=%2Fhouses%2Fnew%2F"' in said


def test_nothing_is_kept_by_it(desk, shed):
    change_language(desk, "/prices/", {"text": "key,item\n"})
    assert not PriceList.objects.exists()


def test_somebody_at_the_door_is_kept_little(outsider, instructor):
    many = {f"field{n}": "x" * 5000 for n in range(100)}
    outsider.post("/language/?back=/sign-in/", {**many, "language": "es"})
    assert len(str(dict(outsider.session))) < 3000


def test_no_field_for_a_password_is_ever_kept():
    """Every form of the site is looked through."""
    found = set()
    for app in apps.get_app_configs():
        if app.name.startswith("setday.web."):
            try:
                module = import_module(f"{app.name}.forms")
            except ModuleNotFoundError:
                continue
            for kind in vars(module).values():
                if isinstance(kind, type) and issubclass(kind, forms.Form):
                    fields = kind.base_fields.items()
                    found |= {name for name, field in fields if isinstance(field.widget, forms.PasswordInput)}
    assert found
    assert found <= NEVER_KEPT
