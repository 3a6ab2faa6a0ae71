"""The document of ``setday boards --json`` as an outsider reads it: with shapely and its own words only.

Nothing here imports the boards trade; what the document says must hold by itself.
"""

import json
import math
from collections import defaultdict
from itertools import combinations
from typing import Any

import pytest
from shapely import MultiPolygon, Polygon, box, unary_union

from setday.actions import demo_text
from setday.cli import main

Document = dict[str, Any]
_PLAY = 1 / 32


@pytest.fixture(scope="module", params=["shed", "house"])
def document(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Document:
    folder = tmp_path_factory.mktemp("outsider")
    path = folder / "house.yaml"
    path.write_text(demo_text(request.param), encoding="utf-8")
    manager = pytest.MonkeyPatch()
    said: list[str] = []
    manager.setattr("sys.stdout.write", said.append)
    try:
        status = main(["boards", str(path), "--time-limit", "4", "--json"])
    finally:
        manager.undo()
    assert status == 0
    return json.loads("".join(said))


def bare(surface: Document) -> Polygon:
    openings = [box(o["x"], o["y"], o["x"] + o["w"], o["y"] + o["h"]) for o in surface["openings"]]
    return Polygon(surface["outline_in"]).difference(unary_union(openings))


def shape(piece: Document, surface: Document) -> Polygon:
    whole = box(piece["x"], piece["y"], piece["x"] + piece["w"], piece["y"] + piece["h"])
    cut = Polygon(piece["outline_in"]) if "outline_in" in piece else whole
    return cut.intersection(bare(surface))


def by_surface(document: Document) -> dict[str, list[Document]]:
    pieces: dict[str, list[Document]] = defaultdict(list)
    for piece in document["pieces"]:
        pieces[piece["surface"]].append(piece)
    return pieces


def test_every_surface_is_covered_and_no_piece_lies_on_another(document: Document) -> None:
    pieces = by_surface(document)
    for surface in document["surfaces"]:
        shapes = [shape(piece, surface) for piece in pieces[surface["id"]]]
        target = bare(surface)
        assert target.difference(unary_union(shapes).buffer(_PLAY)).area < 0.5, surface["id"]
        assert sum(s.area for s in shapes) == pytest.approx(target.area, rel=1e-6, abs=0.5)


def test_a_box_is_the_box_of_its_outline(document: Document) -> None:
    for piece in document["pieces"]:
        if "outline_in" in piece:
            low_x, low_y, high_x, high_y = Polygon(piece["outline_in"]).bounds
            assert (low_x, low_y) == pytest.approx((piece["x"], piece["y"]), abs=_PLAY)
            assert (high_x - low_x, high_y - low_y) == pytest.approx((piece["w"], piece["h"]), abs=_PLAY)


def test_pieces_of_a_board_lie_on_it_side_by_side(document: Document) -> None:
    boards = {board["id"]: board for board in document["boards"]}
    along = {surface["id"]: surface["rows"] == "along" for surface in document["surfaces"]}
    placed: dict[Any, list[Polygon]] = defaultdict(list)
    for piece in document["pieces"]:
        board = boards[piece["board"]]
        long, wide = (piece["w"], piece["h"]) if along[piece["surface"]] else (piece["h"], piece["w"])
        spot = box(piece["board_x"], piece["board_y"], piece["board_x"] + long, piece["board_y"] + wide)
        sheet = box(0, 0, board["length_in"], board["width_in"])
        assert sheet.buffer(_PLAY).covers(spot), piece
        placed[piece["board"]].append(spot)
    assert set(placed) == set(boards)
    for spots in placed.values():
        for a, b in combinations(spots, 2):
            assert a.intersection(b).area < 0.1


def test_no_board_is_of_a_kind_that_its_surface_does_not_take(document: Document) -> None:
    boards = {board["id"]: board for board in document["boards"]}
    kinds: dict[str, set[str]] = defaultdict(set)
    for piece in document["pieces"]:
        kinds[piece["surface"]].add(boards[piece["board"]]["kind"])
    assert all(len(found) == 1 for found in kinds.values())


def butt_joints(surface: Document, pieces: list[Document]) -> list[tuple[float, float, float]]:
    """Return x and the low and high end of every line where two pieces of a row meet end to end."""
    if surface["rows"] != "along":
        return []
    joints = []
    for a in pieces:
        for b in pieces:
            if math.isclose(a["x"] + a["w"], b["x"], abs_tol=_PLAY):
                touch = shape(a, surface).buffer(_PLAY).intersection(shape(b, surface).buffer(_PLAY))
                low, high = max(a["y"], b["y"]), min(a["y"] + a["h"], b["y"] + b["h"])
                if high - low > _PLAY and not touch.is_empty:
                    parts = touch.geoms if isinstance(touch, MultiPolygon) else [touch]
                    joints += [
                        (b["x"], p.bounds[1], p.bounds[3]) for p in parts if p.bounds[3] - p.bounds[1] > 0.2
                    ]
    return joints


def test_butt_joints_stand_on_the_center_of_a_member(document: Document) -> None:
    relaxed = " ".join(document["relaxed"])
    pieces = by_surface(document)
    for surface in document["surfaces"]:
        assert surface["member_axis"] == "x"
        if surface["label"] in relaxed:
            continue
        for x, _, _ in butt_joints(surface, pieces[surface["id"]]):
            assert min(abs(x - m) for m in surface["members_in"]) < _PLAY, (surface["id"], x)


def test_no_joint_stands_at_a_corner_of_an_opening(document: Document) -> None:
    relaxed = " ".join(document["relaxed"])
    clear = document["settings"]["boards.opening_clear"]["value"]
    clear_in = float(clear) if isinstance(clear, int | float) else 6.0
    pieces = by_surface(document)
    for surface in document["surfaces"]:
        if surface["label"] in relaxed:
            continue
        for x, low, high in butt_joints(surface, pieces[surface["id"]]):
            for opening in surface["openings"]:
                meets = low < opening["y"] + opening["h"] + _PLAY and high > opening["y"] - _PLAY
                sides = (opening["x"], opening["x"] + opening["w"])
                if meets:
                    assert min(abs(x - side) for side in sides) > clear_in - _PLAY, (surface["id"], x)


def test_totals_are_what_the_lists_add_up_to(document: Document) -> None:
    totals = document["totals"]
    assert totals["boards"] == len(document["boards"])
    assert totals["pieces"] == len(document["pieces"])
    assert totals["cost"] == pytest.approx(sum(board["price"] for board in document["boards"]))
    area = sum(board["width_in"] * board["length_in"] for board in document["boards"]) / 144
    assert totals["board_area_sqft"] == pytest.approx(area)
    net = sum(bare(surface).area for surface in document["surfaces"]) / 144
    assert totals["net_area_sqft"] == pytest.approx(net, rel=1e-4)
    assert document["bound"]["cost"] <= totals["cost"] + 1e-9


def test_every_setting_names_its_source(document: Document) -> None:
    for key, setting in document["settings"].items():
        assert setting["source"], key
