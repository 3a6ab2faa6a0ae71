"""The sentences of the core on slips and laid boards, named here so that they are translated.

That they are those of the core is tested.
"""

from django.utils.translation import gettext_noop

__all__ = ["HINT_WORDS", "LAYING_WORDS", "SLIP_WORDS"]

SLIP_WORDS = (
    gettext_noop("%(about)s is missing from %(line)s."),
    gettext_noop("%(about)s is counted twice in %(line)s."),
    gettext_noop("%(about)s was not taken off in %(line)s."),
    gettext_noop("%(about)s was added instead of taken off in %(line)s."),
    gettext_noop("The ceiling is missing from %(line)s."),
    gettext_noop("%(line)s counts one side of the wall only; a partition has two."),
    gettext_noop("%(line)s counts both sides of the wall twice."),
    gettext_noop("In %(line)s, %(about)s was read as a decimal: the inches are twelfths of a foot."),
    gettext_noop("In %(line)s, the inches of %(about)s were used as feet."),
    gettext_noop("%(line)s was read a foot off on the tape."),
    gettext_noop("In %(line)s, square inches were divided by 12; a square foot has 144."),
    gettext_noop("The number may be right, but %(line)s is given in another unit than was asked."),
    gettext_noop("In %(line)s, another measure was taken in place of %(about)s."),
    gettext_noop("In %(line)s, a corner is counted with both of its walls."),
    gettext_noop("%(line)s was rounded down; a part of a piece still takes a whole one."),
    gettext_noop("%(line)s was not rounded up; pieces come whole."),
    gettext_noop("Waste was not added in %(line)s."),
    gettext_noop("Waste was added twice in %(line)s."),
    gettext_noop("%(about)s was not added in %(line)s."),
    gettext_noop("%(about)s was added twice in %(line)s."),
    gettext_noop("The one more at the end was not added in %(line)s: spaces were counted."),
    gettext_noop("One too many was added at the end in %(line)s."),
    gettext_noop("In %(line)s, the triangle was not halved."),
    gettext_noop("In %(line)s, two digits changed places."),
    gettext_noop("The arithmetic of %(line)s is wrong; what was to be worked out is right."),
)
"""What a teacher would say to a slip."""

HINT_WORDS = (
    gettext_noop("Something that belongs to it may be missing."),
    gettext_noop("Something may be counted twice."),
    gettext_noop("Look at the openings."),
    gettext_noop("Look at what is added and what is taken off."),
    gettext_noop("Look at which surfaces belong to it."),
    gettext_noop("Think of how many sides a wall has."),
    gettext_noop("Look at how inches become feet."),
    gettext_noop("Look at the units of the measures."),
    gettext_noop("Measure once more."),
    gettext_noop("Look at how square inches become square feet."),
    gettext_noop("Look at the unit that was asked for."),
    gettext_noop("Look at which measure goes where."),
    gettext_noop("Look at the corners."),
    gettext_noop("Look at the rounding."),
    gettext_noop("Think of waste."),
    gettext_noop("Think of what is added beyond the way itself."),
    gettext_noop("Pieces or spaces: which were counted?"),
    gettext_noop("Look at the shape."),
    gettext_noop("Read the numbers over once more."),
    gettext_noop("Do the arithmetic once more."),
    gettext_noop("Go through your lines once more, from the first one on."),
)
"""What names the kind of a slip only."""

LAYING_WORDS = (
    gettext_noop("There is no such place on this wall."),
    gettext_noop("Choose a row and a member."),
    gettext_noop("This row is covered so far already."),
    gettext_noop("Choose a member further on."),
    gettext_noop("The board is not that long."),
    gettext_noop("End it at a member that it reaches."),
    gettext_noop("No off-cut is long enough."),
    gettext_noop("Take a new board."),
)
"""Why a board cannot lie somewhere, and what to do."""
