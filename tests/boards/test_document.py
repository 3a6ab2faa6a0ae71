"""The document other programs read stays as it was written down."""

import json
from dataclasses import replace

import pytest

from setday.boards import boards_document
from setday.house import TypedWet
from tests.boards.solving import figured
from tests.house.sketches import ft, shed, two_rooms


@pytest.fixture(scope="module")
def document():
    return boards_document(figured(two_rooms()))


def test_the_document_is_plain_json(document):
    assert json.loads(json.dumps(document)) == document


KEYS = {
    "surfaces": {"id", "room", "kind", "outline_in", "openings", "members_in", "member_axis", "rows"},
    "boards": {"id", "kind", "width_in", "length_in", "price"},
    "pieces": {"surface", "board", "x", "y", "w", "h", "board_x", "board_y"},
}


@pytest.mark.parametrize("part", KEYS)
def test_every_entry_has_the_keys_fixed_for_it(document, part):
    assert document[part]
    assert all(set(entry) >= KEYS[part] for entry in document[part])


@pytest.mark.parametrize(
    ("part", "keys"),
    [
        ("totals", {"boards", "cost", "board_area_sqft", "net_area_sqft", "butt_joint_ft", "pieces"}),
        ("bound", {"cost", "area_sqft", "method"}),
        ("by_area", {"net_area_sqft", "sheets", "waste_factor"}),
    ],
)
def test_every_sum_has_the_keys_fixed_for_it(document, part, keys):
    assert set(document[part]) >= keys


def test_the_gap_is_cost_over_bound_less_one(document):
    assert document["gap"] == pytest.approx(
        document["totals"]["cost"] / document["bound"]["cost"] - 1, abs=1e-5
    )


def test_the_status_is_one_of_the_words_fixed_for_it(document):
    assert document["status"] in {"optimal", "stopped", "feasible"}


def test_an_outsider_can_recount_the_totals(document):
    prices = [board["price"] for board in document["boards"]]
    area = sum(board["width_in"] * board["length_in"] for board in document["boards"]) / 144
    assert sum(prices) == pytest.approx(document["totals"]["cost"])
    assert area == pytest.approx(document["totals"]["board_area_sqft"])
    assert len(document["boards"]) == document["totals"]["boards"]
    assert len(document["pieces"]) == document["totals"]["pieces"]


def test_an_outsider_can_recount_the_net_area(document):
    net = sum(shoelace(surface["outline_in"]) for surface in document["surfaces"])
    net -= sum(o["w"] * o["h"] for surface in document["surfaces"] for o in surface["openings"])
    assert net / 144 == pytest.approx(document["totals"]["net_area_sqft"])


def test_openings_that_overlap_share_no_area_in_the_document():
    tub = TypedWet(
        name="tub", wall="north", room="shop", measured_from="west", distance=ft("0'"), width=ft("7'"),
        bottom=ft("0'"), top=ft("6'"), board="none",
    )  # fmt: skip
    of = figured(replace(shed(), wets=(tub,)))
    found = boards_document(of)
    north = next(s for s in found["surfaces"] if s["id"] == "shop/north")
    assert len(north["openings"]) > 2
    net = sum(shoelace(surface["outline_in"]) for surface in found["surfaces"])
    net -= sum(o["w"] * o["h"] for surface in found["surfaces"] for o in surface["openings"])
    assert net / 144 == pytest.approx(found["totals"]["net_area_sqft"])


def test_an_outsider_finds_every_piece_inside_its_surface_and_its_board(document):
    surfaces = {surface["id"]: surface for surface in document["surfaces"]}
    boards = {board["id"]: board for board in document["boards"]}
    for piece in document["pieces"]:
        surface, board = surfaces[piece["surface"]], boards[piece["board"]]
        assert piece["x"] >= 0 <= piece["y"]
        assert piece["x"] + piece["w"] <= max(x for x, _ in surface["outline_in"])
        assert piece["y"] + piece["h"] <= max(y for _, y in surface["outline_in"])
        along, across = ("w", "h") if surface["rows"] == "along" else ("h", "w")
        assert piece["board_x"] + piece[along] <= board["length_in"]
        assert piece["board_y"] + piece[across] <= board["width_in"]


def test_an_outsider_finds_the_pieces_covering_the_net_area(document):
    covered = 0.0
    openings = {surface["id"]: surface["openings"] for surface in document["surfaces"]}
    for piece in document["pieces"]:
        covered += shoelace(piece["outline_in"]) if "outline_in" in piece else piece["w"] * piece["h"]
        inside = [
            o for o in openings[piece["surface"]]
            if piece["x"] < o["x"] and o["x"] + o["w"] < piece["x"] + piece["w"]
            and piece["y"] < o["y"] and o["y"] + o["h"] < piece["y"] + piece["h"]
        ]  # fmt: skip
        covered -= sum(o["w"] * o["h"] for o in inside)
    assert covered / 144 == pytest.approx(document["totals"]["net_area_sqft"])


def test_settings_give_every_rule_with_its_source(document):
    setting = document["settings"]["boards.opening_clear"]
    assert setting["value"] == 6.0
    assert "city" in setting["source"]


def test_without_a_layout_the_document_says_why():
    document = boards_document(figured(shed(), boards=()))
    assert document["pieces"] == []
    assert document["totals"]["boards"] == 0
    assert any(finding["severity"] == "problem" for finding in document["findings"])
    assert json.dumps(document)


def shoelace(ring) -> float:
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2
