"""The cautions of bell sheets in the reader's language: fixed words of the table of instructions."""

from django.utils.translation import gettext, gettext_noop

__all__ = ["CAUTIONS", "cautions_said"]

CAUTIONS = frozenset(
    (
        gettext_noop("Eye protection on"),
        gettext_noop("Ladder on level ground, three points held"),
        gettext_noop("Drill with both hands: it can wring your wrist"),
        gettext_noop("Eye protection on; hair and sleeves tied back"),
        gettext_noop("Know what is behind the wood before you bore"),
        gettext_noop("Dead work only: nothing is connected to power"),
        gettext_noop("Eye protection on; ladder on level ground"),
        gettext_noop("Dead, locked out and tested by the instructor"),
        gettext_noop("Eye protection on when you cut"),
        gettext_noop("Only the instructor energizes"),
        gettext_noop("Stand clear until the instructor says so"),
        gettext_noop("Nothing is covered before it is signed"),
        gettext_noop("Nothing is covered that nobody has seen"),
        gettext_noop("Nobody under a board that is not fastened"),
        gettext_noop("Two carry a board"),
        gettext_noop("Power off and tested before you cut into a surface"),
        gettext_noop("Mask and eye protection on"),
        gettext_noop("Room at least as warm as the compound wants, until it is dry"),
        gettext_noop("Wash hands; no compound down a drain"),
        gettext_noop("Room warm until it is dry"),
        gettext_noop("Dust of compound can hold quartz: respirator on, vacuum on"),
        gettext_noop("Nobody paints or finishes in the room meanwhile"),
        gettext_noop("Gloves, mask, eye protection, long sleeves"),
        gettext_noop("Keep clear of flues and of lights not made for it"),
        gettext_noop("Air through the room"),
        gettext_noop("No sanding in the same room"),
        gettext_noop("Fall protection on from the first step"),
        gettext_noop("Not in wind, rain or frost"),
        gettext_noop("The law keeps most minors off a roof: the list says who"),
        gettext_noop("Ladder or scaffold checked by the instructor"),
        gettext_noop("Eye and ear protection"),
        gettext_noop("Air through the room; no flame; gloves on"),
        gettext_noop("Plates where the wood is thin"),
        gettext_noop("Saw only with the sign-off; hands marked off from the blade"),
        gettext_noop("Two lift; nobody under a cabinet that is not fixed"),
        gettext_noop("Knee pads; eye and ear protection at the saw"),
        gettext_noop("Keep clear of jacks and rigging: that is the carrier's"),
        gettext_noop("The rules of the shop hold at the bench too"),
        gettext_noop("Eye protection on; ask before you use a machine"),
    )
)


def cautions_said(cautions: tuple[str, ...]) -> str:
    """Return the cautions of a kind of work as sentences; one that is not in the list stays as it is."""
    return " ".join(f"{gettext(each) if each in CAUTIONS else each}." for each in cautions)
