"""House files for the tests, and their slips."""

from importlib.resources import files

from setday.files import HouseFile, read_house

SHED = (files("setday") / "demo" / "shed.yaml").read_text(encoding="utf-8")
HOUSE = (files("setday") / "demo" / "house.yaml").read_text(encoding="utf-8")

PLAIN = """\
setday house: 1
name: Practice house
unless noted:
  wall height: 8'
  ceiling framing: north-south
  wall kind: partition
wall kinds:
  outside wall: {studs: 2x6, outside: yes}
  partition: {studs: 2x4}
outside walls:
  kind: outside wall
  walk:
    south: east 24'
    east: north 16'
    north: west 24'
    west: south 16'
walls:
  middle wall: {runs: north, from: south, to: north, west face: 12' east of west}
openings:
  front door: {wall: south, door: 3'-0" x 6'-8", center: 5' from west end}
  middle door: {wall: middle wall, door: 2'-8" x 6'-8", center: 4' from south end}
  window: {wall: north, window: 4'-0" x 3'-6", center: 5' from middle wall going west}
rooms:
  west room: {at: [6', 6'], use: bedroom}
  east room: {at: [20', 6'], use: living}
"""
"""A house of two rooms; no spaces to spare, so that a line can be named in a test."""


def read(text: str | bytes) -> HouseFile:
    """Read a house file called house.yaml."""
    return read_house(text, name="house.yaml")


def changed(old: str, new: str, *, text: str = PLAIN) -> str:
    """Return a text with one slip in it."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
    return text.replace(old, new)


def line_of(text: str, part: str) -> int:
    """Return the line of the only place where something stands."""
    assert text.count(part) == 1, f"{part!r} stands {text.count(part)} times"
    return text[: text.index(part)].count("\n") + 1
