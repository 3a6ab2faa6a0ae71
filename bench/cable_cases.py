"""An invented house of 2,400 ft2 as a house file, for measuring the cable of a large house."""

__all__ = ["LARGE"]

LARGE = """\
setday house: 1
name: Long Acre house
unless noted:
  wall height: 8'-1 1/8"
  wall kind: partition
  stud spacing: 16"
  ceiling framing: north-south
  ceiling spacing: 24"
  window head: 6'-10 1/2"
wall kinds:
  outside wall: {studs: 2x6, outside: yes, bearing: yes}
  partition: {studs: 2x4}
  wet wall: {studs: 2x6}
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
  living wall: {runs: north, from: south wall, to: north wall, west face: 18'-0" east of west wall}
  hall south wall: {runs: east, from: living wall, to: east wall, north face: 18'-0" north of south wall}
  hall north wall: {runs: east, from: living wall, to: east wall, south face: 4'-0" north of hall south wall}
  s1: {runs: north, from: south wall, to: hall south wall, west face: 12'-0" east of living wall}
  s2: {runs: north, from: south wall, to: hall south wall, west face: 7'-0" east of s1}
  s3: {kind: wet wall, runs: north, from: south wall, to: hall south wall, west face: 8'-0" east of s2}
  n1:
    kind: wet wall
    runs: north
    from: hall north wall
    to: north wall
    west face: 13'-0" east of living wall
  n2: {runs: north, from: hall north wall, to: north wall, west face: 8'-0" east of n1}
openings:
  front door: {wall: south wall, door: 3'-0" x 6'-8", center: 5'-0" from west end}
  living south window: {wall: south wall, window: 6'-0" x 4'-0", center: 12'-0" from west end}
  living west window: {wall: west wall, window: 8'-0" x 4'-0", center: 20'-0" from south end}
  living north window: {wall: north wall, window: 6'-0" x 4'-0", center: 10'-0" from west end}
  kitchen window: {wall: north wall, window: 3'-0" x 3'-0", center: 25'-0" from west end}
  back door: {wall: south wall, door: 2'-8" x 6'-8", center: 34'-6" from west end}
  bedroom 1 window: {wall: south wall, window: 4'-0" x 4'-0", center: 24'-6" from west end}
  bedroom 2 window: {wall: south wall, window: 4'-0" x 4'-0", center: 53'-0" from west end}
  bedroom 2 side window: {wall: east wall, window: 4'-0" x 4'-0", center: 8'-0" from south end}
  bedroom 3 window: {wall: north wall, window: 4'-0" x 4'-0", center: 51'-0" from west end}
  bedroom 3 side window: {wall: east wall, window: 4'-0" x 4'-0", center: 8'-0" from north end}
  bath 2 window: {wall: north wall, window: 2'-0" x 3'-0", center: 36'-0" from west end}
  hall opening: {wall: living wall, cased: 3'-6" x 6'-9", center: 20'-2" from south end}
  kitchen wide opening: {wall: living wall, cased: 6'-0" x 6'-9", center: 30'-0" from south end}
  bedroom 1 door: {wall: hall south wall, door: 2'-8" x 6'-8", center: 3'-0" from living wall going east}
  utility door: {wall: hall south wall, door: 2'-8" x 6'-8", center: 3'-0" from s1 going east}
  bath 1 door: {wall: hall south wall, door: 2'-6" x 6'-8", center: 3'-0" from s2 going east}
  bedroom 2 door: {wall: hall south wall, door: 2'-8" x 6'-8", center: 3'-0" from s3 going east}
  kitchen opening: {wall: hall north wall, cased: 3'-0" x 6'-9", center: 6'-0" from living wall going east}
  bath 2 door: {wall: hall north wall, door: 2'-6" x 6'-8", center: 3'-0" from n1 going east}
  bedroom 3 door: {wall: hall north wall, door: 2'-8" x 6'-8", center: 3'-0" from n2 going east}
rooms:
  living: {at: [8', 20'], use: living}
  kitchen: {at: [25', 30'], use: kitchen}
  hall: {at: [40', 20'], use: hall}
  bedroom 1: {at: [24', 8'], use: bedroom}
  utility: {at: [34', 8'], use: utility}
  bath 1: {at: [42', 8'], use: bath}
  bedroom 2: {at: [52', 8'], use: bedroom}
  bath 2: {at: [36', 30'], use: bath}
  bedroom 3: {at: [50', 30'], use: bedroom}
foundation: {kind: basement, panel corner: northeast}
"""
