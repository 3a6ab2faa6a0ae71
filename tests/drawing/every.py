"""One of every drawing, for claims that hold for all of them."""

from collections.abc import Callable

from setday.boards import Progress
from setday.drawing import (
    LANDSCAPE,
    PHONE,
    Bar,
    bare_wall,
    board_layout,
    comparison_bars,
    cutting_diagram,
    home_run_map,
    house_boards_overview,
    plan,
    progress_picture,
    surface_elevation,
    wall_elevation,
    wall_wiring,
    wiring_key,
    wiring_plan,
)
from setday.measure import parse_length
from tests.drawing.houses import tiny_house
from tests.drawing.laid import one_layout, one_surface, price_list
from tests.drawing.wired import circuits, routing, wired_house

HOSTILE = '</title><script>alert(1)</script> & "Bob\'s" \x07 <b>'


def link(kind: str, name: str) -> str:
    return f"/{kind}/{name}?a=1&b=2"


def reports() -> tuple[Progress, ...]:
    points = ((0.2, None, 0.0), (1.0, 171200, 150000.0), (2.5, 165400, 158000.0), (9.0, 161200, 159500.0))
    return tuple(
        Progress(seconds=at, cost_cents=cost, bound_cents=bound, stage="search") for at, cost, bound in points
    )


def bars() -> tuple[Bar, ...]:
    return (
        Bar(label="By area, as taught", value=62, written="62 boards"),
        Bar(label="By layout", value=51, written="51 boards"),
    )


BARE = [(((5.5, 5.5), (5.5, 80.0), (60.0, 138.5)), parse_length("6'-3\""))]

EVERY: dict[str, Callable[[], str]] = {
    "plan": lambda: plan(tiny_house()),
    "plan-links": lambda: plan(tiny_house(), link=link),
    "plan-studs": lambda: plan(tiny_house(), studs=True, paper=LANDSCAPE),
    "plan-phone": lambda: plan(tiny_house(), paper=PHONE),
    "wall-left": lambda: wall_elevation(tiny_house().wall("south"), side="left"),
    "wall-right": lambda: wall_elevation(tiny_house().wall("south"), side="right", paper=LANDSCAPE),
    "wall-phone": lambda: wall_elevation(tiny_house().wall("middle"), paper=PHONE),
    "wall-links": lambda: wall_elevation(
        tiny_house().wall("south"), side="left", surfaces=tiny_house().surfaces, link=link
    ),
    "surface": lambda: surface_elevation(tiny_house().surfaces[0]),
    "surface-links": lambda: surface_elevation(tiny_house().surfaces[0], link=link),
    "surface-phone": lambda: surface_elevation(tiny_house().surfaces[0], paper=PHONE),
    "boards": lambda: board_layout(one_surface(), one_layout(), boards=price_list()),
    "boards-phone": lambda: board_layout(one_surface(), one_layout(), boards=price_list(), paper=PHONE),
    "cutting": lambda: cutting_diagram(one_layout(), number=2, boards=price_list(), surfaces=[one_surface()]),
    "overview": lambda: house_boards_overview([one_surface()] * 4, one_layout(), boards=price_list()),
    "wiring": lambda: wiring_plan(wired_house(), circuits=circuits(), runs=routing().runs),
    "wiring-key": lambda: wiring_key(wired_house(), circuits()),
    "wiring-bare": lambda: wiring_plan(wired_house(), paper=LANDSCAPE, with_key=False),
    "wiring-lit": lambda: wiring_plan(
        wired_house(), circuits=circuits(), runs=routing().runs, lit="general", link=link
    ),
    "wiring-phone": lambda: wiring_plan(wired_house(), circuits=circuits(), paper=PHONE),
    "wall-wiring": lambda: wall_wiring(
        wired_house(),
        wired_house().wall("across"),
        runs=routing().runs,
        holes=routing().holes,
        plates=routing().plates,
        circuits=["general", "stove"],
        link=link,
    ),
    "wall-wiring-left": lambda: wall_wiring(wired_house(), wired_house().wall("north"), side="left"),
    "home-runs": lambda: home_run_map(wired_house(), routing().runs, circuits=["general", "stove"]),
    "bare-wall": lambda: bare_wall(wired_house(), "big", BARE),
    "progress": lambda: progress_picture(reports()),
    "bars": lambda: comparison_bars(bars(), title="Boards, side by side"),
}
