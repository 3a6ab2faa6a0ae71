"""Text files sent in: one form behind all of them, each with its own size and words."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.utils import translation

from setday.web.buying.forms import PricesForm, StockForm
from setday.web.file_form import TextFileForm
from setday.web.houses.forms import HouseFileForm

pytestmark = pytest.mark.usefixtures("in_english")
FORMS = (HouseFileForm, PricesForm, StockForm)


@pytest.fixture
def in_english():
    """Speak English, whatever language the page of an earlier test was in."""
    with translation.override("en"):
        yield


def filled(
    kind: type[TextFileForm], *, text: str = "", data: bytes | None = None, **more: str
) -> TextFileForm:
    files = {} if data is None else {"file": SimpleUploadedFile("picked.txt", data)}
    form = kind({"text": text, **more}, files)
    form.is_valid()
    return form


@pytest.mark.parametrize("kind", FORMS)
def test_a_picked_file_goes_before_typed_text(kind):
    assert filled(kind, text="typed", data=b"picked").sent == (b"picked", "picked.txt")


@pytest.mark.parametrize("kind", FORMS)
def test_typed_text_keeps_the_name_it_came_with(kind):
    assert filled(kind, text="typed", file_name="mine.txt").sent == ("typed", "mine.txt")


@pytest.mark.parametrize("kind", FORMS)
def test_typed_text_without_a_name_gets_the_usual_one(kind):
    assert filled(kind, text="typed").sent == ("typed", kind.usual_name)


@pytest.mark.parametrize("kind", FORMS)
def test_lines_end_as_on_this_machine_whatever_the_browser_sends(kind):
    assert filled(kind, text="a\r\nb\rc\n").sent[0] == "a\nb\nc\n"


@pytest.mark.parametrize("kind", FORMS)
def test_nothing_sent_is_said(kind):
    assert "Nothing came" in str(filled(kind, text=" \n").errors)


@pytest.mark.parametrize("kind", FORMS)
def test_a_file_over_the_limit_is_refused_with_both_sizes(kind, settings):
    setattr(settings, kind.largest, 1000)
    said = str(filled(kind, data=bytes(2000)).errors["file"])
    assert ("2 kB" in said, "1 kB" in said) == (True, True)


@pytest.mark.parametrize("kind", FORMS)
def test_text_over_the_limit_is_refused(kind, settings):
    setattr(settings, kind.largest, 1000)
    assert "longer than any" in str(filled(kind, text="x" * 1001).errors["text"])
