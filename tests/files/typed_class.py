"""A small class file as a newcomer types it; the worked example of docs/class-file.md."""

from setday.files import read_class

__all__ = ["WORKSHOP", "changed", "read", "rules"]

WORKSHOP = """\
setday class: 1
school: Elm Creek School

classes:
  morning:
    meets: [Mon to Thu at 8:05 for 100 minutes]

calendar:
  first day: 2026-09-08
  set day: 2026-10-22

students:
  Ana Ruiz: {born: 2010-03-09, student learner: yes, knows: [roof]}
  Ben Ott: {born: 2009-11-30, away: [2026-10-05 to 2026-10-07 (state contest)]}
  Cy Vang: {born: 2008-06-02, apart from: [Ben Ott]}     # moved in last year
  Dee Lund: {born: 2010-01-17, student learner: yes}

signoffs:
  - {what: ladder, on: 2026-09-10, by: R. Hale, students: everyone}
  - {what: heights, on: 2026-09-11, by: R. Hale, students: [Ana Ruiz, Cy Vang, Dee Lund]}

places: {roof: 4}

rates:
  roof:
    shingles: 0.08 hours per ft2 (last year's log)

tasks:
  roof felt:
    trade: roof
    place: roof
    hours: 6
    crew: 2 to 3
    signoffs: heights
    exposures: roofing
    needs dry weather: yes
  shingles:
    trade: roof
    place: roof
    quantity: 240 ft2
    work: shingles
    crew: 2 to 3
    after: roof felt + 1 day
    signoffs: heights
    exposures: roofing
    material due: 2026-09-21
  practice bench: {trade: bench, place: shop, on site: no, filler: yes}
"""


def changed(meant, typed):
    """The small class file with one thing typed otherwise."""
    assert WORKSHOP.count(meant) >= 1, meant
    return WORKSHOP.replace(meant, typed, 1)


def read(text=WORKSHOP, **more):
    """Read a class file under one name."""
    return read_class(text, name="class.yaml", **more)


def rules(text, **more):
    """The rules and lines found."""
    return [(each.rule, each.where.line) for each in read(text, **more).findings]
