"""A real fault searched on the site: observations in, suspects and the next test out."""

from dataclasses import replace

import pytest

from setday.actions.switching import faults
from setday.actions.switching.faults import search
from setday.actions.switching.hookups import example_text
from setday.actions.switching.hunts import asked, begun, hunt_ground, likelihoods
from setday.files import read_hookup, read_test
from setday.web.hunts import views_searches, worker
from setday.web.hunts.said import KINDS
from setday.web.keeping.models import FaultSearch, RunState

NAME = "three-way-light-between"
HALL = read_hookup(example_text(NAME), name="hall").sound()
UP = {"handle-0": "1", "handle-1": "1"}
DARK = {**UP, "add": "lamps", "look-0": "off"}
READ = {
    **UP,
    "add": "reading",
    "first": "near: S1 common",
    "second": "near: feed black",
    "result": "dead:open",
}


@pytest.fixture
def in_line(monkeypatch):
    """Return the searches handed to the worker, which does nothing here."""
    handed = []
    monkeypatch.setattr(views_searches, "begin_two", handed.append)
    return handed


@pytest.fixture
def found(school):
    """Return a search with nothing observed yet."""
    return FaultSearch.objects.create(
        school=school, name="Hall light", file_name=f"{NAME}.yaml", text=example_text(NAME)
    )


def page(number):
    return f"/faults/{number}/"


def words(answer):
    return " ".join(answer.content.decode().split())


def lines(found):
    found.refresh_from_db()
    return found.lines


def test_a_search_begins_with_what_the_file_says_was_observed(desk, school):
    from setday.web.keeping.hookups import keep_hookup

    text = example_text(NAME) + 'observed:\n  - "S1 up, S2 down: L1 off"\n'
    keep_hookup(school=school, name="Porch", file_name="porch.yaml", text=text)
    answer = desk.post("/faults/new/kept/porch/")
    search = FaultSearch.objects.get()
    assert answer.headers["Location"] == page(search.pk)
    assert search.lines == ["S1 up, S2 down: L1 off"]


@pytest.mark.parametrize(
    ("typed", "line"),
    [
        (DARK, "S1 up, S2 up: L1 off"),
        ({**UP, "add": "lamps", "handle-1": "0", "look-0": "dim"}, "S1 up, S2 down: L1 dim"),
        ({**UP, "add": "lamps", "breaker": "yes"}, "S1 up, S2 up: breaker opens"),
        (READ, "S1 up, S2 up: dead, S1 common to feed black in near: open"),
        ({**READ, "result": "live:part"}, "S1 up, S2 up: live, S1 common to feed black in near: part"),
    ],
)
def test_what_was_observed_is_typed_through_the_page(desk, found, typed, line):
    assert desk.post(page(found.pk), typed).status_code == 302
    assert lines(found) == [line]


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ({**UP, "add": "lamps"}, "Say what at least one lamp did"),
        ({"add": "lamps", "look-0": "off"}, "Say for every switch"),
        ({**READ, "first": ""}, "Choose the two points"),
        ({**READ, "second": "far: S2 common"}, "two different points of one box"),
        ({**READ, "second": READ["first"]}, "two different points of one box"),
        ({**READ, "result": "dead:full"}, "Choose what the meter showed."),
        ({**READ, "result": "smell:burnt"}, "Choose what the meter showed."),
        ({}, "Say for every switch"),
    ],
)
def test_what_cannot_be_read_is_said_beside_what_was_typed(desk, found, typed, said):
    answer = desk.post(page(found.pk), typed)
    assert answer.status_code == 422
    assert said in words(answer)
    assert lines(found) == []


def test_the_same_observation_stands_once_and_can_be_taken_out(desk, found):
    for _ in range(2):
        desk.post(page(found.pk), DARK)
    desk.post(page(found.pk), READ)
    assert len(lines(found)) == 2
    desk.post(page(found.pk), {"remove": "0"})
    assert lines(found) == ["S1 up, S2 up: dead, S1 common to feed black in near: open"]
    desk.post(page(found.pk), {"remove": "7"})
    assert len(lines(found)) == 1


def test_the_page_says_what_the_core_finds_and_why_it_proposes_the_next_test(desk, found):
    desk.post(page(found.pk), DARK)
    told = search(HALL, ["S1 up, S2 up: L1 off"], faults=1)
    said = words(desk.get(page(found.pk)))
    assert f"{told.suspects} single faults explain it." in said
    assert told.groups[0].faults[0].replace("'", "&#x27;") in said
    assert f"Why: {told.next.groups_now} groups of suspects can be told apart now" in said
    assert "the instructor" in said.lower()


def test_what_is_proposed_is_filled_in_beforehand(desk, found):
    for first, second in ("00", "01", "10", "11"):
        desk.post(page(found.pk), {**DARK, "handle-0": first, "handle-1": second})
    told = search(HALL, lines(found), faults=1)
    assert ": dead, " in told.next.test
    first = told.next.test.split(": dead, ")[1].split(" to ")[0]
    box = told.next.test.rsplit(" in ", 1)[1]
    assert f'value="{box}: {first}" selected' in words(desk.get(page(found.pk)))


def test_the_end_is_said_when_the_rest_cannot_be_told_apart(desk, found):
    ground = hunt_ground(HALL)
    planted = ground.planted("The lamp in L1 is burnt out, or not screwed in.")
    log = replace(begun(HALL), opened=("near", "light", "far"))
    while (told := search(HALL, log.lines(HALL), faults=1)).next:
        log = asked(log, read_test(told.next.test, HALL), ground=ground, planted=planted)
    found.lines = list(log.lines(HALL))
    found.save()
    assert "what is left cannot be told apart by any flip or reading" in words(desk.get(page(found.pk)))


def test_two_faults_are_looked_for_in_line_and_shown(desk, found, in_line):
    desk.post(page(found.pk), DARK)
    desk.post(f"{page(found.pk)}two/")
    assert [each.pk for each in in_line] == [found.pk]
    assert "Waiting its turn." in words(desk.get(page(found.pk)))
    worker.work_on_two(found.pk, stopped=lambda: False)
    found.refresh_from_db()
    assert (found.state, found.share) == (RunState.DONE, 1.0)
    said = words(desk.get(page(found.pk)))
    assert "And also:" in said
    assert desk.get(f"{page(found.pk)}progress/").headers["HX-Redirect"] == page(found.pk)


def test_when_no_two_faults_explain_it_that_is_said_and_not_offered_again(desk, found, in_line):
    found.lines = ["S1 up, S2 up: L1 dim"]  # one lamp alone has nothing to share the supply with
    found.save()
    desk.post(f"{page(found.pk)}two/")
    worker.work_on_two(found.pk, stopped=lambda: False)
    said = words(desk.get(page(found.pk)))
    assert "No two faults at once explain it either." in said
    assert "Look for two faults at once" not in said


def test_how_far_the_search_is_is_written_down_as_it_goes(desk, found, in_line, monkeypatch):
    monkeypatch.setattr(worker, "_SAVE_EVERY", 0.0)
    desk.post(page(found.pk), DARK)
    desk.post(f"{page(found.pk)}two/")
    shares = []

    def watched():
        found.refresh_from_db()
        shares.append(found.share)
        return len(shares) == 2

    worker.work_on_two(found.pk, stopped=watched)
    found.refresh_from_db()
    assert found.state == RunState.STOPPED
    assert 0 < shares[0] < 1
    assert shares == sorted(shares)
    assert "The search was stopped: there may be more." in words(desk.get(page(found.pk)))


def test_the_progress_is_sent_alone_while_at_work(desk, found):
    FaultSearch.objects.update(state=RunState.RUNNING, share=0.25)
    said = words(desk.get(f"{page(found.pk)}progress/"))
    assert "25.0 % of all pairs of faults compared." in said
    assert "<html" not in said


def test_two_faults_are_not_looked_for_before_anything_was_observed(desk, found, in_line):
    assert "Look for two faults" not in words(desk.get(page(found.pk)))
    assert "Type first what was observed" in words(desk.post(f"{page(found.pk)}two/", follow=True))
    assert in_line == []


def test_a_search_still_waiting_stops_at_once(desk, found, in_line):
    desk.post(page(found.pk), DARK)
    desk.post(f"{page(found.pk)}two/")
    desk.post(f"{page(found.pk)}stop/")
    found.refresh_from_db()
    assert found.state == RunState.STOPPED
    worker.work_on_two(found.pk, stopped=lambda: False)
    found.refresh_from_db()
    assert found.pairs is None


def test_while_two_are_looked_for_nothing_is_added(desk, found):
    FaultSearch.objects.update(state=RunState.RUNNING)
    answer = desk.post(page(found.pk), DARK, follow=True)
    assert "Stop the search for two faults first." in words(answer)
    assert lines(found) == []


def test_what_two_faults_said_is_dropped_when_more_is_observed(desk, found, in_line):
    desk.post(page(found.pk), DARK)
    desk.post(f"{page(found.pk)}two/")
    worker.work_on_two(found.pk, stopped=lambda: False)
    desk.post(page(found.pk), READ)
    found.refresh_from_db()
    assert (found.pairs, found.state) == (None, "")


def test_a_search_that_fails_says_so_and_keeps_the_worker_going(desk, found, in_line, monkeypatch):
    def broken(*_args, **_named):
        raise RuntimeError("a wire came loose")

    desk.post(page(found.pk), DARK)
    desk.post(f"{page(found.pk)}two/")
    monkeypatch.setattr(faults, "search", broken)
    with pytest.raises(RuntimeError):
        worker.work_on_two(found.pk, stopped=lambda: False)
    found.refresh_from_db()
    assert found.state == RunState.FAILED
    assert "wire came loose" not in found.message


def test_a_search_left_behind_by_a_stopped_site_says_so(found, monkeypatch):
    monkeypatch.setattr(worker, "begin_best", lambda hunt: None)
    FaultSearch.objects.update(state=RunState.RUNNING)
    worker.mark_interrupted()
    found.refresh_from_db()
    assert found.state == RunState.INTERRUPTED
    assert not found.at_work


def usual():
    rules = likelihoods(HALL)
    return {kind: f"{rules.number(f'switching.likely_{kind}'):g}" for kind in KINDS}


def test_likelihoods_are_shown_with_who_said_them_and_can_be_set(desk, found):
    said = words(desk.get(page(found.pk)))
    assert "Order in which mistakes are met in first-year wiring" in said
    desk.post(f"{page(found.pk)}likelihoods/", {**usual(), "burnt_lamp": "0"})
    found.refresh_from_db()
    assert found.likely == {"burnt_lamp": 0.0}
    said = words(desk.get(page(found.pk)))
    assert "set for this search" in said
    assert "burnt out" not in said


def test_likelihoods_as_they_usually_are_are_not_kept_as_set(desk, found):
    desk.post(f"{page(found.pk)}likelihoods/", usual())
    found.refresh_from_db()
    assert found.likely == {}


@pytest.mark.parametrize(
    "typed", [{"moved": "often"}, {"moved": "-1"}, {"with_ground": "2"}, {"missing": "nan"}, "none"]
)
def test_likelihoods_that_are_none_are_refused(desk, found, typed):
    more = dict.fromkeys(usual(), "0") if typed == "none" else typed
    assert desk.post(f"{page(found.pk)}likelihoods/", {**usual(), **more}).status_code == 422
    found.refresh_from_db()
    assert found.likely == {}


def test_a_new_search_begins_with_the_likelihoods_of_the_last(desk, found):
    FaultSearch.objects.update(likely={"burnt_lamp": 0.0})
    desk.post(f"/faults/new/standard/{NAME}/")
    assert FaultSearch.objects.first().likely == {"burnt_lamp": 0.0}


@pytest.mark.parametrize(
    "address", ["/faults/99/", "/faults/99/progress/", "/faults/99/likelihoods/", "/hunts/99/"]
)
def test_what_is_not_there_is_not_found(desk, address):
    assert desk.get(address).status_code == 404
