"""A small class for the practice shed: four students, three typed tasks, planned in a moment."""

FEW = """\
# An invented class and a shed.
setday class: 1
school: Alder Flat High School
house: Practice shed

classes:
  morning:
    name: Morning class
    meets: [Mon to Fri at 8:05 for 100 minutes]

students:
  Cal Ortega: {class: morning, born: 2007-03-14, knows: [siding]}
  Ivy Lind: {class: morning, born: 2007-11-02}
  Ned Sorensen: {class: morning, born: 2007-06-21}
  Ola Vance: {class: morning, born: 2007-01-30}

signoffs:
  - {what: ladder, on: 2026-09-18, by: R. Halvorsen, students: [Cal Ortega, Ivy Lind, Ned Sorensen]}
  - {what: drill, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: saw, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: lift, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: electrical, on: 2026-09-11, by: R. Halvorsen, students: everyone}
  - {what: respirator, on: 2026-09-11, by: R. Halvorsen, students: everyone}

calendar:
  first day: 2027-01-11
  set day: 2027-06-10
  time zone: America/Chicago
  days off:
    2027-01-18: holiday

rates:
  finishing:
    tape and bed joints: 0.025 hours per ft2 (invented)
    second coat: 0.016 hours per ft2 (invented)
    third coat: 0.016 hours per ft2 (invented)
  sanding:
    sand: 0.012 hours per ft2 (invented)

places: {yard: 8, shop: 8, house: 8}

tasks:
  house wrap:
    trade: siding
    place: yard
    hours: 10
    crew: 2 to 3
    signoffs: ladder
  lap siding:
    trade: siding
    place: yard
    hours: 30
    crew: 2 to 4
    after: house wrap
  insulate:
    trade: insulation
    place: house
    hours: 6
    crew: 2 to 2
    opens gates: close-in
"""
"""A class file that fits the shed."""
