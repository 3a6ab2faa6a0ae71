"""What boards hand on: material, work, and what must be inside a surface before it is covered."""

from collections.abc import Iterable
from math import ceil

from setday.boards.fasten import Fastener
from setday.boards.figure import BoardFigure
from setday.boards.hardware import Hardware
from setday.boards.laidout import LaidOut
from setday.boards.marks import board_words
from setday.house import House
from setday.measure import Length
from setday.needs import GateItem, Need, WorkItem

__all__ = ["gate_items", "needs", "work_items"]


def needs(figured: BoardFigure) -> tuple[Need, ...]:
    """Return the material of a figured house; nothing where no layout was found.

    Boards come by the room of their first piece and carry their own waste; so do screws, tape and
    compound.  Bead is stated net, to be cut from lengths by a cutting plan.
    """
    laid = figured.laid_out
    if laid is None or figured.hardware is None:
        return ()
    return (*_boards(laid), *_fasteners(figured.hardware), *_finishing(figured.hardware))


def _boards(laid: LaidOut) -> Iterable[Need]:
    counts: dict[tuple[str, str], int] = {}
    for board in laid.layout.boards:
        room = laid.surfaces[laid.pieces_from[board.number][0].surface].room
        counts[room, board.key] = counts.get((room, board.key), 0) + 1
    for (room, key), count in counts.items():
        board_type = laid.price_list[key]
        size = board_words(Length(board_type.width), Length(board_type.length))
        yield Need(
            trade="boards",
            item=key,
            label=f"board, {board_type.kind}, {size}",
            quantity=float(count),
            unit="pieces",
            place=room,
            phase="hang",
            waste_included=True,
        )


def _fasteners(hardware: Hardware) -> Iterable[Need]:
    working = hardware.workings[0]
    share = working.value / hardware.fastener_count if hardware.fastener_count else 0.0
    counts: dict[Fastener, int] = {}
    for line in hardware.fasteners:
        counts[line.fastener] = counts.get(line.fastener, 0) + line.count
    for fastener, count in counts.items():
        yield Need(
            trade="boards",
            item=fastener.item,
            label=fastener.label,
            quantity=float(ceil(count * share)),
            unit=fastener.unit,
            place="house",
            phase="hang",
            waste_included=True,
            working=working,
        )


def _finishing(hardware: Hardware) -> Iterable[Need]:
    _, tape, compound = hardware.workings
    for item, label, unit, working in (
        ("tape-paper", "paper joint tape", "ft", tape),
        ("compound-ready-mix", "ready-mixed joint compound", "gal", compound),
    ):
        yield Need(
            trade="boards",
            item=item,
            label=label,
            quantity=working.value,
            unit=unit,
            place="house",
            phase="finish",
            waste_included=True,
            working=working,
        )
    for piece in hardware.finish.bead:
        yield Need(
            trade="boards",
            item="bead-corner",
            label=f"corner bead, {piece.label}",
            quantity=piece.length.feet,
            unit="ft",
            place=piece.place,
            phase="finish",
            waste_included=False,
        )


def work_items(figured: BoardFigure) -> tuple[WorkItem, ...]:
    """Return the hanging of a figured house, room by room."""
    return figured.work


def gate_items(house: House) -> tuple[GateItem, ...]:
    """Return what boards themselves require to be inside each surface before it is covered."""
    items = []
    for surface in house.surfaces:
        items.append(
            GateItem(
                surface=surface.id,
                trade="boards",
                key=f"boards/{surface.id}/edge-backing",
                label="backing at every corner and at every edge of board that runs with the framing",
            )
        )
        items += [
            GateItem(
                surface=surface.id,
                trade="boards",
                key=f"boards/{surface.id}/wet-backing/{patch.name}",
                label=f"backing around {patch.name}: a member behind each of its edges",
            )
            for patch in surface.wet
        ]
    return tuple(items)
