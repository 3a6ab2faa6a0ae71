"""Photos that come in: what is kept of them, what is refused in words, who sees them."""

import struct
import zlib
from hashlib import sha256
from io import BytesIO
from uuid import uuid4

import pytest
from PIL import Image

from setday.web.keeping.members import keep_member
from setday.web.keeping.models import MemberRole, Photo, School
from setday.web.photos.keeping import keep_photo, photo_key
from setday.web.photos.reading import PhotoProblem, read_photo
from tests.web.people import browser_of, morning_of, one_of
from tests.web.photos import jpeg, sent, taken_somewhere


def kept(data, name="wall.jpg"):
    read = read_photo(sent(data, name))
    return read, Image.open(BytesIO(read.data))


def test_nothing_sent_is_nothing():
    assert read_photo(None) is None


def test_where_and_with_what_it_was_taken_is_gone():
    data = taken_somewhere()
    assert Image.open(BytesIO(data)).getexif().get_ifd(0x8825)
    read, image = kept(data)
    assert dict(image.getexif()) == {}
    assert b"Invented camera" not in read.data
    assert "exif" not in image.info


def test_a_photo_is_turned_upright():
    _, image = kept(taken_somewhere(turned=6))
    assert image.size == (48, 64)


def test_a_large_photo_is_made_smaller_and_keeps_its_shape():
    read, image = kept(jpeg(4000, 3000))
    assert image.size == (read.width, read.height) == (1600, 1200)


def test_a_small_photo_keeps_its_size():
    assert kept(jpeg(320, 240))[1].size == (320, 240)


@pytest.mark.parametrize("kind", ["PNG", "WEBP"])
def test_other_photos_become_jpeg(kind):
    assert kept(jpeg(kind=kind))[1].format == "JPEG"


def test_words_written_into_a_png_are_gone():
    from PIL.PngImagePlugin import PngInfo

    told = PngInfo()
    told.add_text("Location", "44.5 N 92.2 W")
    assert b"44.5" not in kept(jpeg(kind="PNG", pnginfo=told))[0].data


def test_what_can_be_seen_through_becomes_white():
    written = BytesIO()
    Image.new("RGBA", (8, 8), (0, 0, 0, 0)).save(written, "PNG")
    assert kept(written.getvalue())[1].getpixel((4, 4)) == (255, 255, 255)


def claims(width, height):
    """Return a PNG of a few bytes that claims to be of any size."""

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n"
        + chunk(b"IHDR", head)
        + chunk(b"IDAT", zlib.compress(b"\0" * 99))
        + chunk(b"IEND", b"")
    )


BAD = {
    "empty": (b"", "is empty"),
    "words": (b"this is not a photo at all", "is not a photo"),
    "a page": (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is not a photo"),
    "a program": (b"MZ" + b"\0" * 400, "is not a photo"),
    "cut off": (jpeg(900, 900, color="red")[:700], "is damaged"),
    "claims to be huge": (claims(30_000, 30_000), "far larger"),
    "claims to be beyond all": (claims(2_000_000, 2_000_000), "larger"),
    "a kind that cannot be opened": (b"\0\0\0\x18ftypheic\0\0\0\0mif1heic" + b"\0" * 60, "HEIC"),
}


@pytest.mark.parametrize(("data", "words"), BAD.values(), ids=BAD)
def test_what_is_no_photo_is_refused_in_words(data, words):
    with pytest.raises(PhotoProblem, match=words) as refused:
        read_photo(sent(data, "IMG 1.jpg"))
    assert "IMG 1.jpg" in refused.value.message
    assert refused.value.do


def test_a_huge_file_is_refused_by_its_size(settings):
    settings.LARGEST_PHOTO = 500
    with pytest.raises(PhotoProblem, match="at most"):
        read_photo(sent(jpeg(400, 400, quality=100)))


@pytest.fixture
def photo(shed, settings, tmp_path):
    settings.DATA_FOLDER = tmp_path
    read = read_photo(sent(jpeg()))
    return keep_photo(shed, read, key=photo_key(shed, "entry"), by="Ana R.")


def test_the_file_lies_in_the_folder_of_its_house(photo, tmp_path):
    assert photo.path.parent == tmp_path / "houses" / str(photo.house.pk) / "photos"
    assert sha256(photo.path.read_bytes()).hexdigest() == photo.digest


def test_the_same_entry_keeps_one_photo(photo, shed):
    again = keep_photo(shed, read_photo(sent(jpeg(8, 8))), key=photo_key(shed, "entry"), by="Ben T.")
    assert again == photo
    assert Photo.objects.count() == 1


def test_people_of_the_school_see_it(photo, school, desk):
    for browser in (desk, browser_of(one_of(school, "helper", name="Dee Park"))):
        answer = browser.get(f"/photos/{photo.key}.jpg")
        assert answer.status_code == 200
        assert b"".join(answer.streaming_content) == photo.path.read_bytes()


def test_a_student_sees_photos_of_their_own_class_and_of_gates_only(photo, school, shed):
    from django.utils import timezone

    from setday.web.keeping.members import keep_class
    from setday.web.keeping.models import ClassPeriod, GateMark, PeriodNote

    morning = morning_of(school)
    afternoon = keep_class(school, name="Afternoon")
    dee = keep_member(school, name="Dee Park", shown_as="Dee P.", school_class=afternoon)
    cal, dee = browser_of(morning.members.get(key="cal-o")), browser_of(dee)
    now, address = timezone.now(), f"/photos/{photo.key}.jpg"

    def told(browser):
        answer = browser.get(address)
        if answer.streaming:
            assert b"".join(answer.streaming_content) == photo.path.read_bytes()
        return answer.status_code

    seen = [[told(each) for each in (cal, dee)]]
    facts = {"school": school, "school_class": morning, "house": shed, "begins": now, "minutes": 90}
    period = ClassPeriod.objects.create(**facts)
    PeriodNote.objects.create(period=period, entry=uuid4(), by="Cal", at=now, text="", photo=photo)
    seen.append([told(each) for each in (cal, dee)])
    GateMark.objects.create(
        house=shed, entry="1", by_key="x", by_name="Cal", by_role="student", at=now, label="a thing",
        kind="done", version=1, photo=str(photo.key),
    )  # fmt: skip
    seen.append([told(each) for each in (cal, dee)])
    assert seen == [[404, 404], [200, 404], [200, 200]]


def test_a_reader_sees_it_once_it_is_released(photo, school):
    reader = browser_of(one_of(school, "reader", name="Mx. Orr"))
    assert reader.get(f"/photos/{photo.key}.jpg").status_code == 404
    Photo.objects.update(released=True)
    answer = reader.get(f"/photos/{photo.key}.jpg")
    assert b"".join(answer.streaming_content) == photo.path.read_bytes()


def test_another_school_does_not_see_it(photo, db):
    other = School.objects.create(key="other", name="Other")
    stranger = keep_member(other, name="Sam Roe", role=MemberRole.INSTRUCTOR)
    assert browser_of(stranger).get(f"/photos/{photo.key}.jpg").status_code == 404


def test_an_outsider_is_led_to_the_door(photo, outsider, instructor):
    assert outsider.get(f"/photos/{photo.key}.jpg").status_code == 302


def test_a_photo_that_is_not_there_has_no_page(desk):
    assert desk.get(f"/photos/{uuid4()}.jpg").status_code == 404
