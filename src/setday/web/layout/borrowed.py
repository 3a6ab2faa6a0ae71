"""Words that come from the drawings and are shown on pages: fixed ones, which can be translated here.

What the house file names, and what findings and workings say, stays as it came.
"""

from django.utils.translation import gettext, gettext_noop

__all__ = ["BORROWED", "in_the_readers_words"]

BORROWED = frozenset(
    (
        gettext_noop("Rooms, framing to framing"),
        gettext_noop("Doors and windows, rough openings"),
        gettext_noop("Cost and proven bound over time"),
        gettext_noop("Room"),
        gettext_noop("Inside size"),
        gettext_noop("Floor ft2"),
        gettext_noop("Surfaces"),
        gettext_noop("Mark"),
        gettext_noop("Name"),
        gettext_noop("Kind"),
        gettext_noop("Wall"),
        gettext_noop("From the start"),
        gettext_noop("Wide"),
        gettext_noop("High"),
        gettext_noop("Head above subfloor"),
        gettext_noop("From the left"),
        gettext_noop("Up from the floor"),
        gettext_noop("Member"),
        gettext_noop("Near edge"),
        gettext_noop("Center"),
        gettext_noop("Long"),
        gettext_noop("Piece"),
        gettext_noop("Cut from"),
        gettext_noop("Row"),
        gettext_noop("Size"),
        gettext_noop("Up"),
        gettext_noop("Seconds"),
        gettext_noop("Best layout"),
        gettext_noop("Proven bound"),
        gettext_noop("Stage"),
        gettext_noop("Devices"),
        gettext_noop("Circuits"),
        gettext_noop("Home runs"),
        gettext_noop("Device"),
        gettext_noop("What"),
        gettext_noop("On"),
        gettext_noop("Shares box"),
        gettext_noop("Switches"),
        gettext_noop("Circuit"),
        gettext_noop("No."),
        gettext_noop("For"),
        gettext_noop("Breaker"),
        gettext_noop("Volts"),
        gettext_noop("Cable"),
        gettext_noop("Protection"),
        gettext_noop("Which"),
        gettext_noop("In words"),
        gettext_noop("Run"),
        gettext_noop("First box"),
        gettext_noop("Cut"),
        gettext_noop("Coiled for the set"),
        gettext_noop("Task"),
        gettext_noop("Tasks"),
        gettext_noop("Place"),
        gettext_noop("Trade"),
        gettext_noop("Begins"),
        gettext_noop("Ends"),
        gettext_noop("Periods"),
        gettext_noop("State"),
        gettext_noop("Student"),
        gettext_noop("When all is done"),
        gettext_noop("Hours planned, by trade; * is short of the hours wanted"),
    )
)


def in_the_readers_words(words: str) -> str:
    """Return words of a drawing's table in the reader's language, where they are known."""
    return gettext(words) if words in BORROWED else words
