"""Closing a surface: the mark, and the record of what is inside it, drawn and written down at that moment."""

from dataclasses import dataclass
from datetime import tzinfo
from typing import Any

from setday.actions.gates.gathering import GateHouse
from setday.actions.gates.marks import Said, gate_at
from setday.actions.gates.store import GateStore
from setday.closein import (
    BehindRecord,
    Gate,
    Mark,
    behind_record,
    close,
    record_document,
    record_from,
)
from setday.drawing import LANDSCAPE, Paper, Table, behind_surface, behind_table

__all__ = ["Closed", "behind_drawing", "behind_rows", "close_surface", "kept_record"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Closed:
    """A surface that was closed: the mark and the record that goes with it."""

    mark: Mark
    record: BehindRecord


def behind_drawing(place: GateHouse, gate: Gate, *, paper: Paper = LANDSCAPE, key: str = "behind") -> str:
    """Draw what is behind a surface as the house file says it now.

    Parameters
    ----------
    place : GateHouse
    gate : Gate
    paper : Paper
    key : str
        Prefix of the ids.

    Returns
    -------
    str
        An SVG.
    """
    circuits = () if place.wired is None else tuple(c.name for c in place.wired.figure.plan.circuits)
    surface = place.house.surface(gate.surface)
    return behind_surface(
        place.house, surface, circuits=circuits, paper=paper, key=key, **_inside(place, gate)
    )


def behind_rows(place: GateHouse, gate: Gate) -> Table:
    """Return what is behind a surface with its measures.

    Parameters
    ----------
    place : GateHouse
    gate : Gate
    """
    return behind_table(place.house, place.house.surface(gate.surface), **_inside(place, gate))


def _inside(place: GateHouse, gate: Gate) -> dict[str, Any]:
    routing = None if place.wired is None else place.wired.figure.routing
    return {
        "runs": () if routing is None else routing.runs,
        "holes": () if routing is None else routing.holes,
        "plates": () if routing is None else routing.plates,
        "items": tuple(stand.item for stand in (*gate.items, *gate.behind)),
    }


def close_surface(
    store: GateStore,
    place: GateHouse,
    surface: str,
    *,
    said: Said,
    house_name: str,
    zone: tzinfo | None = None,
) -> Closed:
    """Close a surface whose gate lets boards on, and write down what is inside it.

    Parameters
    ----------
    store : GateStore
    place : GateHouse
    surface : str
    said : Said
    house_name : str
        As the house is called at the moment.
    zone : tzinfo or None
        In whose time of day the record is written.

    Raises
    ------
    GateRefusal
        With what stands in the way.
    """
    with store.together():
        store.hold()
        before, kept = store.mark_of(said.entry), store.record(said.entry)
        if before is not None and kept is not None:
            return Closed(mark=before, record=record_from(kept))
        gate = gate_at(store, place.asked(store.added()), surface)
        mark = close(gate, entry=said.entry, by=said.by, at=said.at, now=said.now, words=said.words)
        table = behind_rows(place, gate)
        record = behind_record(
            gate,
            mark,
            house=house_name,
            version=place.version,
            digest=place.digest,
            drawing=behind_drawing(place, gate),
            head=table.head,
            rows=table.rows,
            zone=zone,
        )
        store.write(mark, version=place.version)
        store.write_record(said.entry, surface, record_document(record))
        return Closed(mark=mark, record=record)


def kept_record(store: GateStore, entry: str) -> BehindRecord | None:
    """Return the record of a closing as it was written; None where there is none.

    Parameters
    ----------
    store : GateStore
    entry : str
        Of the mark that closed the surface.
    """
    found = store.record(entry)
    return None if found is None else record_from(found)
