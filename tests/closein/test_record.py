"""The record of what is behind a surface stays as it was written."""

import json
from datetime import timedelta, timezone

from setday.closein import (
    behind_record,
    check_off,
    close,
    confirm,
    overrule,
    record_document,
    record_from,
)
from tests.closein.sketches import ANA, TEACHER, built, entry, gate, item, later, partition_faces, point

HOUSE = built()
HERE, THERE = partition_faces(HOUSE)
ITEMS = [
    item(HERE, "box", thing="box", spot=point("2'")),
    item(HERE, "plate"),
    item(THERE, "outlet", thing="outlet", spot=point("3'")),
]


def record():
    marks = []

    def make(what, key, by, at, **more):
        now = gate(HOUSE, ITEMS, marks, HERE)
        marks.append(what(now, key, entry=entry(), by=by, at=later(at), now=later(60), **more))

    make(check_off, "box", ANA, 1, photo="photo-1")
    make(confirm, "box", TEACHER, 2)
    make(overrule, "plate", TEACHER, 3, words="comes with the trim")
    make(confirm, "outlet", TEACHER, 4)
    before = gate(HOUSE, ITEMS, marks, HERE)
    mark = close(before, entry=entry(), by=TEACHER, at=later(5), now=later(60))
    return behind_record(
        before,
        mark,
        house="Sketch",
        version=3,
        digest="abc",
        drawing="<svg/>",
        head=("What",),
        rows=(("box",),),
    )


def test_it_says_who_did_and_saw_each_thing_and_when():
    box = next(each for each in record().items if each.label == "box is in")
    assert (box.done_by, box.seen_by, box.photos) == ("Ana R.", "Mr. Vale", ("photo-1",))
    assert (box.done_at, box.seen_at) == ("2026-09-14T09:01+00:00", "2026-09-14T09:02+00:00")
    assert box.where == "2'-0\" from the left, 1'-0\" up"


def test_the_reason_of_an_overruling_stays():
    plate = next(each for each in record().items if each.label == "plate is in")
    assert (plate.state, plate.words, plate.seen_by) == ("overruled", "comes with the trim", "")


def test_what_belongs_to_the_other_side_is_told_apart():
    assert [each.label for each in record().items if each.other_side] == ["outlet is in"]


def test_what_was_said_of_a_thing_stays():
    marks = []
    for what, by, words in ((check_off, ANA, "both ends stapled"), (confirm, TEACHER, "")):
        now = gate(HOUSE, ITEMS[1:2], marks, HERE)
        marks.append(what(now, "plate", entry=entry(), by=by, at=later(1), now=later(9), words=words))
    before = gate(HOUSE, ITEMS[1:2], marks, HERE)
    mark = close(before, entry=entry(), by=TEACHER, at=later(5), now=later(60))
    facts = {"house": "S", "version": 1, "digest": "", "drawing": "", "head": (), "rows": ()}
    made = behind_record(before, mark, **facts, zone=timezone(timedelta(hours=-5)))
    assert made.items[0].words == "both ends stapled"
    assert made.closed_at == "2026-09-14T04:05-05:00"


def test_it_is_the_same_after_it_was_kept():
    made = record()
    assert record_from(json.loads(json.dumps(record_document(made)))) == made
