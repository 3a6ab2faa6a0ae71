"""What must hold of gates in every store: tried in memory, and on the database."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cache
from uuid import uuid4

import pytest

from setday.actions.gates.closing import close_surface, kept_record
from setday.actions.gates.gathering import GateHouse, gate_house
from setday.actions.gates.marks import (
    Said,
    add_to_gate,
    gate_at,
    make_marks,
    reopen_surface,
    strike_from_gate,
)
from setday.actions.houses import demo_text, open_house
from setday.closein import (
    Added,
    BlockingFor,
    GateRefusal,
    GateState,
    ItemKind,
    MarkKind,
    Role,
    Signer,
    Spot,
    gates_of,
)
from setday.measure import parse_length

__all__ = ["SHED_WALL", "TEACHER", "GateRules", "demo_gates", "said"]

ANA = Signer(key="member-1", name="Ana R.", role=Role.STUDENT)
TEACHER = Signer(key="member-2", name="Mr. Vale", role=Role.INSTRUCTOR)
MORNING = datetime(2026, 9, 14, 9, 0, tzinfo=UTC)
SHED_WALL = "workroom/north"


@cache
def demo_gates(name: str = "shed", version: int = 1) -> GateHouse:
    return gate_house(open_house(demo_text(name), name=f"{name}.yaml"), clock=lambda: 0.0, version=version)


def said(by=TEACHER, minute=0, *, words="", photo="", entry=""):
    at = MORNING + timedelta(minutes=minute)
    return Said(
        entry=entry or str(uuid4()), by=by, at=at, now=MORNING + timedelta(hours=8), words=words, photo=photo
    )


class GateRules:
    """Derive from it, and give a fixture `store` that is empty."""

    def keys(self, store, surface=SHED_WALL, place=None):
        gate = self.gate(store, surface, place)
        return [stand.item.key for stand in (*gate.items, *gate.behind)]

    def gate(self, store, surface=SHED_WALL, place=None):
        return gate_at(store, (place or demo_gates()).asked(store.added()), surface)

    def mark(self, store, kind, keys=None, *, surface=SHED_WALL, **facts):
        wanted = self.keys(store) if keys is None else keys
        return make_marks(store, demo_gates(), surface, wanted, kind=kind, said=said(**facts))

    def ready(self, store):
        assert self.mark(store, MarkKind.CONFIRMED).refused == ()

    def test_a_whole_wall_is_checked_off_confirmed_and_closed(self, store):
        wish = self.mark(store, MarkKind.DONE, by=ANA)
        assert len(wish.made) == len(self.keys(store)) - len(wish.refused)
        assert self.gate(store).state is GateState.WAITING
        self.mark(store, MarkKind.CONFIRMED, minute=1)
        assert self.gate(store).state is GateState.READY
        closed = close_surface(store, demo_gates(), SHED_WALL, said=said(minute=2), house_name="Shed")
        assert self.gate(store).state is GateState.CLOSED
        assert closed.mark == self.gate(store).closing

    def test_marks_come_back_as_they_were_written(self, store):
        wish = self.mark(store, MarkKind.DONE, by=ANA, words="both ends", minute=3)
        assert store.marks() == wish.made
        assert store.mark_of(wish.made[0].entry) == wish.made[0]

    def test_the_same_entry_sent_again_counts_once(self, store):
        what = said(ANA)
        keys = [key for key in self.keys(store) if not key.startswith("inspection/")]
        first = make_marks(store, demo_gates(), SHED_WALL, keys, kind=MarkKind.DONE, said=what)
        again = make_marks(store, demo_gates(), SHED_WALL, keys, kind=MarkKind.DONE, said=what)
        assert (again.made, again.refused, again.again) == ((), (), first.made)
        assert len(store.marks()) == len(first.made)

    def test_the_same_closing_sent_again_closes_once(self, store):
        self.ready(store)
        what = said(minute=5)
        first = close_surface(store, demo_gates(), SHED_WALL, said=what, house_name="Shed")
        again = close_surface(store, demo_gates(), SHED_WALL, said=what, house_name="Renamed")
        assert again == first

    def test_what_is_refused_of_one_thing_does_not_stop_the_others(self, store):
        keys = self.keys(store)
        self.mark(store, MarkKind.CONFIRMED, keys[:1])
        wish = self.mark(store, MarkKind.DONE, keys, minute=1)
        assert (len(wish.made), len(wish.refused)) == (len(keys) - 1, 1)

    def test_a_closed_wall_takes_no_mark(self, store):
        self.ready(store)
        close_surface(store, demo_gates(), SHED_WALL, said=said(minute=1), house_name="Shed")
        (refused,) = self.mark(store, MarkKind.DONE, self.keys(store)[:1], by=ANA, minute=2).refused
        assert "is closed" in refused.message

    def test_a_refused_closing_writes_nothing(self, store):
        with pytest.raises(GateRefusal, match="not ready"):
            close_surface(store, demo_gates(), SHED_WALL, said=said(entry="e"), house_name="Shed")
        assert (store.marks(), kept_record(store, "e")) == ((), None)

    def test_a_helper_confirms_only_when_let(self, store):
        helper = Signer(key="member-3", name="Ms. Ito", role=Role.HELPER)
        self.mark(store, MarkKind.DONE, by=ANA)
        wish = self.mark(store, MarkKind.CONFIRMED, by=helper, minute=1)
        assert bool(wish.made) == store.helper_confirms

    def test_blocking_is_asked_for_until_it_is_struck(self, store):
        spot = Spot(x=parse_length("1'"), y=parse_length("4'"), w=parse_length("2'"), h=parse_length('9"'))
        wanted = Added(
            key=str(uuid4()), surface=SHED_WALL, kind=ItemKind.BLOCKING, what=BlockingFor.SCREEN, spot=spot,
            by=TEACHER, at=MORNING, words="60 in screen",
        )  # fmt: skip
        before = len(self.keys(store))
        added = add_to_gate(store, demo_gates(), wanted)
        assert store.added() == (added,)
        assert len(self.keys(store)) == before + 1
        assert add_to_gate(store, demo_gates(), replace(wanted, words="another")) == added
        strike_from_gate(store, demo_gates(), SHED_WALL, added.key, by=TEACHER, words="on the east wall")
        assert len(self.keys(store)) == before
        assert store.added()[0].struck == "on the east wall"

    def test_an_inspection_of_the_whole_house_is_asked_for_on_every_surface(self, store):
        wanted = Added(
            key=str(uuid4()), surface=SHED_WALL, kind=ItemKind.INSPECTION, by=TEACHER, at=MORNING,
            words="fire marshal looked", notice_days=3,
        )  # fmt: skip
        add_to_gate(store, demo_gates(), wanted, everywhere=True)
        gates = gates_of(demo_gates().asked(store.added()), store.marks())
        with_it = [g for g in gates.by_surface.values() if g.stand(f"added/{wanted.key}")]
        assert len(with_it) == len(gates.by_surface)

    def test_a_record_stays_as_it_was_though_the_house_changes(self, store):
        self.ready(store)
        closed = close_surface(store, demo_gates(), SHED_WALL, said=said(minute=1), house_name="Shed")
        text = demo_text("shed").replace("center: 6'-0\"", "center: 5'-0\"")
        changed = gate_house(open_house(text, name="shed.yaml"), clock=lambda: 0.0, version=2)
        assert changed.digest != demo_gates().digest
        assert self.gate(store, place=changed).state is GateState.CLOSED
        kept = kept_record(store, closed.mark.entry)
        assert kept == closed.record
        assert (kept.version, kept.digest) == (1, demo_gates().digest)

    def test_an_opened_wall_keeps_its_first_record_and_gets_another(self, store):
        self.ready(store)
        first = close_surface(store, demo_gates(), SHED_WALL, said=said(minute=1), house_name="Shed")
        reopen_surface(store, demo_gates(), SHED_WALL, said=said(minute=2, words="a nicked cable"))
        assert self.gate(store).state is GateState.READY
        second = close_surface(store, demo_gates(), SHED_WALL, said=said(minute=3), house_name="Shed")
        records = [kept_record(store, each.mark.entry) for each in (first, second)]
        assert [record.closed_at for record in records] == [
            "2026-09-14T09:01+00:00",
            "2026-09-14T09:03+00:00",
        ]
