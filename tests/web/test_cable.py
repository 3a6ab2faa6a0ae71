"""Cable of a house: plan, check, walls, panel, and runs as they are pulled."""

import re

import pytest

from setday.web.keeping.models import PulledRun

PLAN = "/houses/practice-shed/cable/"
FORM = {"measured": ""}


def page(answer):
    return answer.content.decode()


def test_proposed_devices_are_shown_and_said_to_be_proposed(desk, shed):
    text = page(desk.get(PLAN))
    assert "The house file names no devices." in text
    assert 'data-kind="device"' in text


@pytest.mark.parametrize(
    "part", ["", "check/", "panel/", "pulls/", "circuits/1/", "walls/south wall/", "devices/workroom light/"]
)
def test_every_sheet_of_cable_carries_the_cautions(desk, shed, part):
    text = page(desk.get(f"{PLAN}{part}"))
    assert "Only the instructor energizes." in text
    assert "the licensed electrician decide" in text
    assert not [word for word in ("approved", "compliant", "is safe") if word in text.lower()]


def test_a_device_leads_to_its_circuit_and_its_workings(desk, shed):
    text = page(desk.get(f"{PLAN}devices/workroom light/"))
    assert "/cable/circuits/1/" in text
    assert "workroom switch" in text
    assert 'class="steps"' in text


def test_a_circuit_shows_how_its_switched_lights_are_joined(desk, shed):
    text = page(desk.get(f"{PLAN}circuits/1/"))
    assert "workroom switches at shed door" in text
    ids = re.findall(r' id="([^"]+)"', text)
    assert any(each.startswith("hookup-0") for each in ids)
    assert len(ids) == len(set(ids))


def test_a_wall_shows_what_runs_inside_it(desk, shed):
    text = page(desk.get(f"{PLAN}walls/south wall/"))
    assert "Inside south wall" in text
    assert 'data-kind="run"' in text


@pytest.mark.parametrize("part", ["walls/no wall/", "devices/no device/", "circuits/99/", "circuits/0/"])
def test_what_is_not_there_is_not_found(desk, shed, part):
    assert desk.get(f"{PLAN}{part}").status_code == 404


def test_the_proposal_is_written_as_a_version_that_keeps_every_line(desk, shed):
    before = shed.newest.text
    answer = desk.post(f"{PLAN}write/", follow=True)
    after = shed.newest
    assert after.number == 2
    assert after.text.startswith(before)
    assert "devices:" in after.text
    assert "circuits:" in after.text
    text = page(answer)
    assert "The house file names no devices." not in text


def test_what_was_written_gives_the_same_circuits_again(desk, shed):
    proposed = page(desk.get(PLAN)).count('data-kind="device"')
    desk.post(f"{PLAN}write/")
    assert page(desk.get(PLAN)).count('data-kind="device"') == proposed


def run_in(desk, measured="", run="1-1", **more):
    return desk.post(f"{PLAN}pulls/{run}/", {"measured": measured, **more}, follow=True)


def test_a_run_that_is_ticked_counts_as_planned(desk, shed):
    text = page(run_in(desk))
    assert "Run 1-1 is in." in text
    assert "Not measured; counted as planned." in text
    assert "1 / " in page(desk.get(f"{PLAN}pulls/"))


def test_a_measured_run_says_how_much_more_it_took(desk, shed):
    text = page(run_in(desk, "99' 6\""))
    assert "Measured 99&#x27;-6&quot;" in text
    assert "more than planned" in text
    assert PulledRun.objects.get().by == "Ana Ruiz"


@pytest.mark.parametrize("typed", ["long", "12", "-3'", "0'", "2000'"])
def test_a_length_that_is_none_is_said_and_nothing_is_kept(desk, shed, typed):
    text = page(run_in(desk, typed))
    assert "Run 1-1:" in text
    assert not PulledRun.objects.exists()


def test_every_run_has_its_coil_and_the_coil_what_it_has_left(desk, shed):
    text = page(desk.get(f"{PLAN}pulls/"))
    assert "Left on it now" in text
    assert "no plan buys fewer" in text
    assert "coil 1" in page(desk.get(f"{PLAN}circuits/1/"))


def test_a_run_cut_from_a_coil_that_is_none_is_kept_on_the_planned_one(desk, shed):
    run_in(desk, coil="77")
    assert PulledRun.objects.get().coil == 0


def test_what_was_measured_comes_off_the_coil(desk, shed):
    whole = page(desk.get(f"{PLAN}pulls/"))
    run_in(desk, "40'")
    after = page(desk.get(f"{PLAN}pulls/"))
    length = re.search(r"14/2 · (\d+)&#x27;-0", whole)
    assert length
    assert f">{int(length[1]) - 40}&#x27;-0&quot;<" in after


def test_a_tick_can_be_taken_back(desk, shed):
    run_in(desk)
    assert "Run 1-1 is taken back." in page(run_in(desk, undo="yes"))
    assert not PulledRun.objects.exists()


def test_a_run_that_is_not_in_the_plan_cannot_be_ticked(desk, shed):
    assert desk.post(f"{PLAN}pulls/99-1/", FORM).status_code == 404


def test_after_a_tick_nobody_is_led_off_the_site(desk, shed):
    answer = desk.post(f"{PLAN}pulls/1-1/", {**FORM, "next": "https://elsewhere.example/"})
    assert answer.headers["Location"].startswith("/houses/practice-shed/")


def test_a_note_for_a_run_that_is_no_longer_there_is_told(desk, shed):
    PulledRun.objects.create(house=shed, number="1-1", ends="another run of old")
    assert "another run of old" in page(desk.get(f"{PLAN}pulls/"))


def test_the_sheets_come_as_pdf(desk, shed):
    answer = desk.get(f"{PLAN}sheets.pdf")
    assert answer.headers["Content-Type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


def test_a_house_without_a_place_for_the_panel_says_what_to_write(desk, shed):
    from setday.web.keeping.houses import add_version

    text = shed.newest.text.replace("  panel corner: northwest\n", "")
    add_version(shed, name="Practice shed", file_name="shed.yaml", text=text)
    answer = desk.get(PLAN)
    assert answer.status_code < 500
    assert "panel corner" in page(answer)
