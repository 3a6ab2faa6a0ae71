"""Who may open which screen: one table, tried in full."""

import pytest
from django.urls import reverse

from setday.web.access import TABLE, Role, may
from setday.web.checks import every_screen_is_in_the_table, screens
from tests.web.screens import ADDRESSES

DOOR = (
    "desk:begin",
    "desk:sign-in",
    "desk:sign-out",
    "desk:language",
    "desk:help",
    "people:card",
    "people:choose",
    "people:device",
    "hunts:enter",
    "switching:enter",
)


def test_the_table_names_every_screen_and_nothing_else():
    assert every_screen_is_in_the_table(None) == []


def test_every_screen_is_tried_here():
    assert sorted(ADDRESSES) == sorted(set(screens()))


def test_a_screen_that_is_not_in_the_table_is_refused_to_everybody():
    assert [role for role in Role if may(role, "houses:forgotten")] == []


@pytest.mark.parametrize("screen", sorted(TABLE))
def test_who_keeps_the_installation_may_open_everything(screen):
    assert may(Role.KEEPER, screen)


@pytest.mark.parametrize("screen", sorted(TABLE))
def test_an_outsider_may_open_the_door_only(screen):
    assert may(Role.OUTSIDER, screen) == (screen in DOOR)


@pytest.mark.parametrize("screen", sorted(set(ADDRESSES) - set(DOOR)))
@pytest.mark.parametrize("verb", ["get", "post"])
def test_an_outsider_is_led_to_the_door_whatever_they_ask_for(outsider, instructor, screen, verb):
    answer = getattr(outsider, verb)(reverse(screen, kwargs=ADDRESSES[screen]))
    assert answer.status_code == 302
    assert answer.headers["Location"].startswith("/sign-in/")


@pytest.mark.parametrize("screen", sorted(set(ADDRESSES) - set(DOOR)))
def test_the_instructor_is_never_led_to_the_door(desk, screen):
    answer = desk.get(reverse(screen, kwargs=ADDRESSES[screen]))
    assert answer.status_code in {200, 302, 404, 405}
    assert not answer.headers.get("Location", "").startswith("/sign-in/")


def test_a_part_of_a_page_sends_the_whole_page_to_the_door(outsider, instructor):
    answer = outsider.post("/houses/check/", headers={"HX-Request": "true"})
    assert (answer.status_code, answer.headers["HX-Redirect"]) == (401, "/sign-in/")


def test_a_crew_may_open_the_door_and_its_own_hunt_only():
    own = {"hunts:room", "hunts:name", "hunts:leave"}
    assert {screen for screen in TABLE if may(Role.CREW, screen)} == {*DOOR, *own}


def test_a_crew_at_a_bench_may_open_the_door_and_its_bench_only():
    own = {"bench", "bench-try", "bench-judge", "bench-plan", "leave"}
    assert {screen for screen in TABLE if may(Role.BENCH, screen)} == {
        *DOOR,
        *(f"switching:{name}" for name in own),
    }


def test_somebody_known_without_a_role_is_refused(db, outsider):
    from django.contrib.auth import get_user_model

    outsider.force_login(get_user_model().objects.create_user("Sam", password="x"))
    answer = outsider.get("/")
    assert answer.headers["Location"].startswith("/sign-in/")


@pytest.mark.parametrize("screen", sorted(ADDRESSES))
@pytest.mark.parametrize("verb", ["put", "patch", "delete"])
def test_no_screen_answers_to_a_verb_it_does_not_know(desk, screen, verb):
    assert getattr(desk, verb)(reverse(screen, kwargs=ADDRESSES[screen])).status_code == 405


TAKING = {
    *("desk:begin", "desk:sign-in", "desk:sign-out", "desk:language"),
    *("houses:new", "houses:check", "houses:edit", "houses:put-away"),
    *("boards:runs", "boards:stop", "boards:what-if", "buying:prices", "buying:stock"),
    *("hunts:enter", "hunts:room", "hunts:name", "hunts:leave", "hunts:plant", "hunts:change"),
    *("hunts:begin-search", "hunts:search", "hunts:likelihoods", "hunts:two", "hunts:stop"),
    *("switching:new", "switching:check", "switching:build", "switching:stage", "switching:edit"),
    *("switching:draw", "switching:plan", "switching:versions", "switching:put-away", "switching:crews"),
    *("switching:enter", "switching:bench", "switching:leave", "switching:take"),
    *("cable:write", "cable:pulled"),
    *("people:card", "people:choose", "people:device", "people:present", "people:classes", "people:class"),
    "people:roster",
    *("people:class-edit", "people:sign-offs", "people:cards", "people:cards-pdf", "people:member"),
    *("people:sign-off", "people:sign-off-away", "people:accounts", "people:account", "people:devices"),
    *("people:device-away", "people:schools"),
    *(f"timetable:{name}" for name in ("edit", "check", "undo", "begin", "stop", "hand", "change", "school")),
    *(f"timetable:{name}" for name in ("repair", "begin-odds", "begin-reasons")),
    *(f"sealed:{name}" for name in ("try", "lay", "offers", "open", "mark", "odds")),
    *(f"period:{name}" for name in ("mark", "fix", "note", "new", "attendance", "crews", "take-back")),
    *("period:close", "period:take", "period:new-task", "period:release"),
    *(f"gates:{name}" for name in ("mark", "judge", "overrule", "add", "strike", "close", "open", "helpers")),
}
LOOKED_AT = sorted(set(ADDRESSES) - TAKING)
"""The screens that only show: nothing can be sent to them."""


@pytest.mark.parametrize("screen", LOOKED_AT)
def test_a_screen_that_only_shows_takes_nothing(desk, screen):
    assert desk.post(reverse(screen, kwargs=ADDRESSES[screen])).status_code == 405
