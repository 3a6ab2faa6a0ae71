"""The rules of the timetable in force for one house."""

from setday.rules import LocalRules, RuleBook, trade_rules

__all__ = ["PACKAGE", "timetable_rules"]

PACKAGE = "setday.timetable.tasks"
_TABLES = ("planning",)


def timetable_rules(local: LocalRules | None = None) -> RuleBook:
    """Return the rules of the timetable: people in a room, notice, drying climate, trust in a log.

    Parameters
    ----------
    local : LocalRules or None
        What the instructor set instead; None leaves the usual values.

    Raises
    ------
    RuleError
        For a key that is no rule of the timetable, or a value out of its rule's range.

    Examples
    --------
    >>> timetable_rules().number("timetable.floor_per_person_sqft")
    25.0
    """
    return trade_rules(_TABLES, local, package=PACKAGE, prefix="timetable", trade="the timetable")
