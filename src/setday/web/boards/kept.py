"""Outcomes of board runs as JSON, for the records, and back."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

from setday.boards import BoughtBoard, Bound, Layout, Outcome, Piece, Rows, Status, SurfaceRows

__all__ = ["from_record", "layout_from_record", "so_far", "to_record"]


def to_record(outcome: Outcome) -> dict[str, Any]:
    """Return an outcome as plain words and numbers."""
    return asdict(outcome)


def so_far(layout: Layout, *, bound_cents: float) -> dict[str, Any]:
    """Return the best layout of a search that has not ended, as plain words and numbers."""
    return {"so_far": True, "layout": asdict(layout), "bound_cents": bound_cents}


def from_record(record: Mapping[str, Any]) -> Outcome:
    """Return the outcome that was recorded."""
    layout = record["layout"]
    plain = {name: record[name] for name in ("cost_cents", "butt_joint", "pieces", "seconds")}
    return Outcome(
        status=Status(record["status"]),
        layout=layout_from_record(layout) if layout else None,
        bound=Bound(**record["bound"]),
        why_none=tuple(record["why_none"]),
        **plain,
    )


def layout_from_record(record: Mapping[str, Any]) -> Layout:
    """Return the layout that was recorded."""
    return Layout(
        surfaces=tuple(_rows(each) for each in record["surfaces"]),
        boards=tuple(BoughtBoard(**each) for each in record["boards"]),
        pieces=tuple(_piece(each) for each in record["pieces"]),
        relaxed=tuple(record["relaxed"]),
    )


def _rows(record: Mapping[str, Any]) -> SurfaceRows:
    edges = tuple(record["edges"])
    return SurfaceRows(surface=record["surface"], rows=Rows(record["rows"]), edges=edges)


def _piece(record: Mapping[str, Any]) -> Piece:
    outline = tuple((x, y) for x, y in record["outline"])
    return Piece(**{**record, "outline": outline})
