"""A large invented house for the bench: 60 by 40 ft, rooms on both sides of a hall."""

__all__ = ["large_house"]

_NORTH = (
    ("kitchen", "kitchen", 14),
    ("bath", "bath", 8),
    ("north bedroom", "bedroom", 13),
    ("second bath", "bath", 8),
    ("east bedroom", "bedroom", 0),
)
_SOUTH = (
    ("living", "living", 22),
    ("south bedroom", "bedroom", 13),
    ("utility", "utility", 8),
    ("corner bedroom", "bedroom", 0),
)
_BAND = "17'-6\""


def _partitions(row: tuple[tuple[str, str, int], ...], start: str, end: str) -> list[str]:
    lines, at = [], 0
    for name, _, wide in row:
        if not wide:
            break
        at += wide
        lines += [
            f"  {name} wall:",
            "    runs: north",
            f"    from: {start}",
            f"    to: {end}",
            f"    west face: {at}' east of west wall",
        ]
    return lines


def _openings(row: tuple[tuple[str, str, int], ...], inner: str, outer: str) -> list[str]:
    lines, at = [], 0
    for n, (name, use, wide) in enumerate(row):
        middle = at + (wide or 60 - at) / 2
        lines.append(
            f'  {name} door: {{wall: {inner}, door: 2\'-8" x 6\'-8", center: {middle * 12:g}" from west end}}'
        )
        if use not in ("bath", "utility"):
            lines.append(
                f"  {name} window: {{wall: {outer}, window: 4'-0\" x 4'-0\", "
                f'center: {(middle + 1) * 12:g}" from west end}}'
            )
        at += wide + (4 / 12 if n else 0)
    return lines


def _rooms(row: tuple[tuple[str, str, int], ...], y: int) -> list[str]:
    lines, at = [], 0
    for name, use, wide in row:
        lines.append(f"  {name}: {{at: [{at + 4}', {y}'], use: {use}}}")
        at += wide
    return lines


_HEAD = """\
setday house: 1
name: large house of the bench
unless noted:
  wall height: 8'-1 1/8"
  wall kind: partition
  stud spacing: 16"
  ceiling framing: north-south
  ceiling spacing: 24"
  window head: 6'-10 1/2"
  door allowance: 2" x 2 1/2"
  window allowance: 1/2" x 1/2"
wall kinds:
  outside wall: {studs: 2x6, outside: yes, bearing: yes}
  partition: {studs: 2x4}
outside walls:
  kind: outside wall
  line: outside face
  start: 0' east, 0' north
  walk:
    south wall: east 60'
    east wall: north 40'
    north wall: west 60'
    west wall: south 40'
walls:
  hall south wall: {runs: east, from: west wall, to: east wall, north face: 18' north of south wall}
  hall north wall: {runs: east, from: west wall, to: east wall, south face: 3'-6" north of hall south wall}"""


def large_house() -> str:
    """Return the house file of a house of 2,400 square feet with nine rooms and a hall."""
    lines = [
        _HEAD,
        *_partitions(_NORTH, "hall north wall", "north wall"),
        *_partitions(_SOUTH, "south wall", "hall south wall"),
        "openings:",
        "  front door: {wall: south wall, door: 3'-0\" x 6'-8\", center: 4'-0\" from west end}",
        "  back door: {wall: north wall, door: 2'-8\" x 6'-8\", center: 3'-0\" from west end}",
        *_openings(_NORTH, "hall north wall", "north wall"),
        *_openings(_SOUTH, "hall south wall", "south wall"),
        "rooms:",
        *_rooms(_NORTH, 30),
        *_rooms(_SOUTH, 9),
        "  hall: {at: [30', 20'], use: hall}",
        "ceilings:",
        *(f"  {name}: {{height: 8'-1 1/8\"}}" for name, _, _ in (*_NORTH, *_SOUTH, ("hall", "", 0))),
        "foundation: {kind: basement, panel corner: northeast}",
    ]
    return "\n".join(lines) + "\n"
