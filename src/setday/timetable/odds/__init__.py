"""The odds of a timetable: simulated with uncertain work, absences, wet days and late material."""

from setday.timetable.odds.carriers import Carrier, carriers
from setday.timetable.odds.chances import Chances, Delivery, Spread, ThreePoint, wet_chances
from setday.timetable.odds.pace import Logged, Pace, learn
from setday.timetable.odds.plan import Plan, plan_of
from setday.timetable.odds.rest import ends_of, rest_of
from setday.timetable.odds.simulation import Odds, Simulations, odds

__all__ = [
    "Carrier",
    "Chances",
    "Delivery",
    "Logged",
    "Odds",
    "Pace",
    "Plan",
    "Simulations",
    "Spread",
    "ThreePoint",
    "carriers",
    "ends_of",
    "learn",
    "odds",
    "plan_of",
    "rest_of",
    "wet_chances",
]
