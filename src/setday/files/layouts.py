"""A board layout kept in a file: the outcome of a search, and what it was asked of."""

import hashlib
import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, field
from typing import Any

from setday.boards import BoughtBoard, Bound, Layout, Outcome, Piece, Rows, Status, SurfaceRows
from setday.errors import FileProblem

__all__ = ["KeptLayout", "from_record", "layout_from_record", "read_layout", "to_record", "write_layout"]

_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptLayout:
    """A layout as kept.

    Parameters
    ----------
    house_text : str
        Digest of the house file it was found for.
    prices : str
        Name of the price list it was found with.
    asked : mapping
        What the run was asked for over the house file: off-cuts, longest board, rules.
    outcome : Outcome
    """

    house_text: str
    prices: str
    outcome: Outcome
    asked: Mapping[str, Any] = field(default_factory=dict)


def write_layout(outcome: Outcome, *, house_text: str, prices: str, asked: Mapping[str, Any]) -> str:
    """Return the text of a layout file.

    Parameters
    ----------
    outcome : Outcome
    house_text : str
        The house file, of which only a digest is kept.
    prices : str
    asked : mapping
        Plain words and numbers.
    """
    record = {
        "setday layout": _FORMAT,
        "house": _digest(house_text),
        "prices": prices,
        "asked": dict(asked),
        "outcome": to_record(outcome),
    }
    return json.dumps({**record, "seal": _seal(record)}, indent=1) + "\n"


def read_layout(data: bytes | str, *, name: str, house_text: str) -> KeptLayout:
    """Read a layout file made for a house file.

    Raises
    ------
    FileProblem
        When it is no layout file, was changed by hand, or belongs to another version of the house.
    """
    try:
        record = json.loads(data)
        seal = record.pop("seal")
        known = record["setday layout"] == _FORMAT
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise _no_layout(name) from error
    if not known or seal != _seal(record):
        raise _no_layout(name)
    if record["house"] != _digest(house_text):
        raise FileProblem(
            "This layout was found for another version of the house file.",
            do="Lay the boards out anew, and keep the layout again.",
            where=name,
        )
    return KeptLayout(
        house_text=record["house"],
        prices=record["prices"],
        asked=record["asked"],
        outcome=from_record(record["outcome"]),
    )


def to_record(outcome: Outcome) -> dict[str, Any]:
    """Return an outcome as plain words and numbers."""
    return asdict(outcome)


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


def _digest(text: str) -> str:
    return hashlib.sha256(text.encode("utf-8", errors="replace")).hexdigest()


def _seal(record: Mapping[str, Any]) -> str:
    return _digest(json.dumps(record, sort_keys=True))


def _no_layout(name: str) -> FileProblem:
    return FileProblem(
        "This is not a layout that Setday kept, or it was changed since.",
        do="Name a file that boards --keep wrote.",
        where=name,
    )
