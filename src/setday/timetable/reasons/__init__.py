"""Why set day cannot be made, in the trade's words, and what would help most."""

from setday.timetable.reasons.clash import Clash, clash_of
from setday.timetable.reasons.demands import Demand, DemandKind, demands_of, words_of
from setday.timetable.reasons.help import Help, helps

__all__ = ["Clash", "Demand", "DemandKind", "Help", "clash_of", "demands_of", "helps", "words_of"]
