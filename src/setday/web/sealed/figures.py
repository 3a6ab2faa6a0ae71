"""The figures of a kept house, worked out once while its file is the same, and who finds slips in them."""

from collections import Counter
from functools import lru_cache
from threading import Lock
from typing import TYPE_CHECKING

from setday.web.cable.figured import cable_of_version
from setday.web.houses.opening import opened_text
from setday.web.keeping.models import HouseVersion, SchoolClass, SealedOffer, SlipMark

if TYPE_CHECKING:
    from setday.learning import Diagnoser, Figure, Odds

__all__ = ["diagnoser_of", "figure_in", "figures_of_version", "odds_of"]

_KEPT, _KEPT_DIAGNOSERS = 6, 40
_one_at_a_time = Lock()


def figures_of_version(version: HouseVersion) -> "tuple[Figure, ...]":
    """Return every figure of a version of a house that can be sealed.

    Raises
    ------
    FileProblem
        Where the house cannot be built.
    """
    with _one_at_a_time:
        return _figures(version.pk, version.text, version.file_name)


@lru_cache(maxsize=_KEPT)
def _figures(pk: int, text: str, name: str) -> "tuple[Figure, ...]":
    from setday.actions.cable.handing import names_wiring
    from setday.boards import board_rules
    from setday.cable import cable_rules
    from setday.learning import figures_of

    house = opened_text(text, name)
    built, board = house.built(), board_rules(house.local)
    if not names_wiring(house):
        return figures_of(built, board_rules=board)
    cable = cable_of_version(HouseVersion.objects.get(pk=pk)).figure
    return figures_of(built, board_rules=board, cable=cable, cable_rules=cable_rules(house.local))


def figure_in(offer: SealedOffer) -> "Figure":
    """Return the figure that was offered.

    Raises
    ------
    NoAnswer
        Where the version has no such figure, after an update of the program.
    """
    from setday.learning import figure_of

    return figure_of(figures_of_version(offer.version), offer.figure)


def odds_of(school_class: SchoolClass) -> "Odds":
    """Return how often each kind of slip happens in a class, by what was marked."""
    from setday.learning import Odds

    marks = SlipMark.objects.filter(school_class=school_class).order_by("pk").values_list("kind", flat=True)
    return Odds(marked=dict(Counter(marks)))


def diagnoser_of(offer: SealedOffer) -> "Diagnoser":
    """Return who finds slips in the entries of an offer, with the odds of its class."""
    marked = tuple(sorted(odds_of(offer.school_class).marked.items()))
    return _diagnoser(offer.version_id, offer.figure, marked)


@lru_cache(maxsize=_KEPT_DIAGNOSERS)
def _diagnoser(version: int, key: str, marked: tuple[tuple[str, int], ...]) -> "Diagnoser":
    from setday.learning import Diagnoser, Odds, figure_of

    figures = figures_of_version(HouseVersion.objects.get(pk=version))
    return Diagnoser(figure=figure_of(figures, key), odds=Odds(marked=dict(marked)))
