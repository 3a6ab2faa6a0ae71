"""What may be marked at a gate, by whom and when; what is refused."""

import pytest

from setday.closein import (
    GateRefusal,
    GateState,
    ItemState,
    MarkKind,
    check_off,
    close,
    confirm,
    overrule,
    refuse,
    reopen,
    take_back,
    withdraw,
)
from tests.closein.sketches import (
    ANA,
    BEN,
    HELPER,
    READER,
    TEACHER,
    built,
    entry,
    gate,
    inspection,
    item,
    later,
    partition_faces,
)

HOUSE = built()
WALL = HOUSE.surfaces[0].id
BOX, PLATE = item(WALL, "box"), item(WALL, "plate")


class Site:
    """One surface, and the marks made on it so far."""

    def __init__(self, *items, surface=WALL):
        self.items, self.marks, self.surface = list(items) or [BOX], [], surface

    @property
    def gate(self):
        return gate(HOUSE, self.items, self.marks, self.surface)

    def make(self, what, *names, by=TEACHER, at=0, now=600, **more):
        mark = what(self.gate, *names, entry=entry(), by=by, at=later(at), now=later(now), **more)
        self.marks.append(mark)
        return mark

    def state(self, key="box"):
        return self.gate.stand(key).state


def test_a_thing_goes_from_open_to_done_to_confirmed():
    site = Site()
    states = [site.state()]
    for what, by, at in ((check_off, ANA, 1), (confirm, TEACHER, 2)):
        site.make(what, "box", by=by, at=at)
        states.append(site.state())
    assert states == [ItemState.OPEN, ItemState.DONE, ItemState.CONFIRMED]


def test_a_surface_goes_from_not_ready_to_closed():
    site = Site()
    states = [site.gate.state]
    for what, names, by, at in ((check_off, ("box",), ANA, 1), (confirm, ("box",), TEACHER, 2)):
        site.make(what, *names, by=by, at=at)
        states.append(site.gate.state)
    site.make(close, at=3)
    states.append(site.gate.state)
    assert states == [GateState.NOT_READY, GateState.WAITING, GateState.READY, GateState.CLOSED]


def test_one_thing_that_waits_keeps_the_surface_waiting():
    site = Site(BOX, PLATE)
    site.make(confirm, "box")
    site.make(check_off, "plate", by=ANA)
    assert site.gate.state is GateState.WAITING


def test_what_is_refused_must_be_done_again_and_keeps_the_reason():
    site = Site()
    site.make(check_off, "box", by=ANA, at=1)
    site.make(refuse, "box", at=2, words="no ground in it")
    assert (site.state(), site.gate.stand("box").last.words) == (ItemState.REFUSED, "no ground in it")
    site.make(check_off, "box", by=BEN, at=3)
    assert site.gate.stand("box").done.by is BEN


def test_what_was_confirmed_may_still_be_refused():
    site = Site()
    site.make(confirm, "box", at=1)
    site.make(refuse, "box", at=2, words="the cable is nicked")
    assert site.gate.state is GateState.NOT_READY


def test_an_overruled_surface_may_be_closed_and_keeps_the_reason():
    site = Site()
    site.make(overrule, "box", words="comes with the trim")
    assert site.gate.state is GateState.OVERRULED
    assert [mark.words for mark in site.gate.overrulings] == ["comes with the trim"]
    site.make(close, at=1)
    assert site.gate.overrulings[0].words == "comes with the trim"


def test_what_is_confirmed_after_all_is_overruled_no_more():
    site = Site()
    site.make(overrule, "box", words="comes later")
    site.make(confirm, "box", at=2)
    assert (site.state(), site.gate.state, site.gate.overrulings) == (
        ItemState.CONFIRMED,
        GateState.READY,
        (),
    )


def test_an_overruling_taken_back_leaves_what_was_before():
    site = Site()
    site.make(check_off, "box", by=ANA)
    site.make(overrule, "box", at=1, words="comes later")
    site.make(withdraw, "box", at=2)
    assert site.state() is ItemState.DONE


def test_who_checked_it_off_takes_it_back():
    site = Site()
    site.make(check_off, "box", by=ANA)
    site.make(take_back, "box", by=ANA, at=1)
    assert (site.state(), site.gate.stand("box").done) == (ItemState.OPEN, None)


def test_a_surface_opened_again_can_be_closed_again():
    site = Site()
    site.make(confirm, "box")
    site.make(close, at=1)
    site.make(reopen, at=2, words="a screw in a cable")
    assert site.gate.state is GateState.READY
    assert site.make(close, at=3).kind is MarkKind.CLOSED


def test_a_helper_confirms_when_the_instructor_lets_helpers():
    site = Site()
    site.make(check_off, "box", by=ANA)
    site.make(confirm, "box", by=HELPER, at=1, helper_confirms=True)
    assert site.gate.stand("box").seen.by is HELPER


REFUSED = {
    "a reader checks nothing off": ((), check_off, ("box",), {"by": READER}, "reader"),
    "a student does not confirm": (("done",), confirm, ("box",), {"by": BEN}, "Only the instructor"),
    "a helper does not confirm unless let": (
        ("done",), confirm, ("box",), {"by": HELPER}, "Only the instructor"),
    "a helper does not confirm what nobody did": (
        (), confirm, ("box",), {"by": HELPER, "helper_confirms": True}, "not checked off"),
    "a helper does not confirm what they did": (
        ("helped",), confirm, ("box",), {"by": HELPER, "helper_confirms": True}, "yourself"),
    "nothing is done twice": (("done",), check_off, ("box",), {"by": BEN}, "checked off already."),
    "what is confirmed is not done again": (("seen",), check_off, ("box",), {"by": BEN}, "confirmed already"),
    "nothing is confirmed twice": (("seen",), confirm, ("box",), {}, "confirmed already"),
    "what is open is not refused": ((), refuse, ("box",), {"words": "bad work"}, "nothing to refuse"),
    "a refusal says why": (("done",), refuse, ("box",), {"words": "  "}, "reason is missing"),
    "an overruling says why": ((), overrule, ("box",), {"words": "x"}, "reason is missing"),
    "a helper does not overrule": (
        (), overrule, ("box",), {"by": HELPER, "words": "because"}, "Only the instructor"),
    "what is confirmed is not overruled": (
        ("seen",), overrule, ("box",), {"words": "because"}, "does not stand"),
    "nothing is taken back that nobody overruled": ((), withdraw, ("box",), {}, "not overruled"),
    "another student's is not taken back": (
        ("done",), take_back, ("box",), {"by": BEN}, "Somebody else checked"),
    "what is confirmed is not taken back": (("seen",), take_back, ("box",), {"by": ANA}, "only a check-off"),
    "an unready surface is not closed": ((), close, (), {}, "not ready: 'box is in' (open)"),
    "a waiting surface is not closed": (("done",), close, (), {}, "waiting for confirmation"),
    "a student does not close": (("seen",), close, (), {"by": ANA}, "Only the instructor"),
    "an open surface is not opened": (("seen",), reopen, (), {"words": "because"}, "not closed"),
    "nothing is marked on a closed surface": (
        ("seen", "closed"), check_off, ("box",), {"by": ANA}, "is closed"),
    "nothing is refused on a closed surface": (
        ("seen", "closed"), refuse, ("box",), {"words": "bad work"}, "is closed"),
    "nothing is closed twice": (("seen", "closed"), close, (), {}, "is closed"),
    "opening again says why": (("seen", "closed"), reopen, (), {"words": ""}, "reason is missing"),
    "a thing that is not asked for": ((), check_off, ("pipe",), {"by": ANA}, "house file was changed"),
    "a check-off that is still to come": ((), check_off, ("box",), {"by": ANA, "at": 601}, "still to come"),
    "a confirmation before it was done": (("done",), confirm, ("box",), {"at": 4}, "later than the time"),
    "a closing before it was confirmed": (("seen",), close, (), {"at": 4}, "cannot have been closed before"),
    "a closing that is still to come": (("seen",), close, (), {"at": 601}, "still to come"),
    "an opening before the closing": (
        ("seen", "closed"), reopen, (), {"at": 4, "words": "because"}, "before it was closed"),
}  # fmt: skip
BEFORE = {
    "done": (check_off, ("box",), {"by": ANA, "at": 5}),
    "helped": (check_off, ("box",), {"by": HELPER, "at": 5}),
    "seen": (confirm, ("box",), {"at": 5}),
    "closed": (close, (), {"at": 6}),
}


@pytest.mark.parametrize(("before", "what", "names", "facts", "words"), REFUSED.values(), ids=REFUSED)
def test_refused_in_words(before, what, names, facts, words):
    site = Site()
    for each in before:
        made, made_names, made_facts = BEFORE[each]
        site.make(made, *made_names, **made_facts)
    with pytest.raises(GateRefusal) as refused:
        site.make(what, *names, **({"at": 10} | facts))
    assert words in refused.value.message
    assert refused.value.do


def test_an_inspection_comes_after_those_it_waits_for():
    site = Site(inspection(WALL, "electrical"), inspection(WALL, "framing", "inspection/electrical"))
    with pytest.raises(GateRefusal, match="comes before"):
        site.make(confirm, "inspection/framing")
    site.make(confirm, "inspection/electrical")
    site.make(confirm, "inspection/framing", at=1)
    assert site.gate.state is GateState.READY


def test_an_inspection_is_waited_for_and_is_no_students_to_check_off():
    site = Site(inspection(WALL, "electrical"))
    assert site.gate.state is GateState.WAITING
    assert site.gate.missing == ()
    with pytest.raises(GateRefusal, match="not a student's"):
        site.make(check_off, "inspection/electrical", by=ANA)
    site.make(check_off, "inspection/electrical")
    assert site.gate.state is GateState.WAITING


def test_an_inspection_may_pass_everywhere_at_once():
    here, there = partition_faces(HOUSE)
    items = [inspection(here, "electrical"), inspection(there, "electrical")]
    site = Site(*items, surface=here)
    site.make(confirm, "inspection/electrical", whole_house=True)
    assert gate(HOUSE, items, site.marks, there).state is GateState.READY


def test_an_inspection_refused_on_one_surface_stands_on_the_others():
    here, there = partition_faces(HOUSE)
    items = [inspection(here, "electrical"), inspection(there, "electrical")]
    site = Site(*items, surface=here)
    site.make(confirm, "inspection/electrical", whole_house=True)
    site.make(refuse, "inspection/electrical", at=1, words="a staple is missing")
    states = [gate(HOUSE, items, site.marks, each).state for each in (here, there)]
    assert states == [GateState.NOT_READY, GateState.READY]
