"""Labor figures of trained crews: what a published rate comes to, and how long a crew takes.

Rates are for planning, never for hurrying people.

References
----------
B1, B4: NAVEDTRA 14045, chapter 2, quoting NAVFAC P-405.  B2: NAVFAC P-405, the formula from memory.
B3: NAVEDTRA 14233.
"""

__all__ = ["capability", "delay_factor", "duration_days", "man_days"]

_AVERAGE_PE = 67.0
_HOURS_PER_DAY = 8.0


def man_days(quantity: float, *, hours_per_1000: float, delay: float = 1.0) -> float:
    """Return man-days of eight hours for a quantity.

    Parameters
    ----------
    quantity : float
        Units of work ("ft2").
    hours_per_1000 : float
        Man-hours for 1,000 units [h].
    delay : float
        Delay factor.

    Examples
    --------
    >>> man_days(16_000, hours_per_1000=33)
    66.0
    """
    return quantity * hours_per_1000 / 1000 / _HOURS_PER_DAY * delay


def delay_factor(efficiency_percent: float) -> float:
    """Return the delay factor of a production efficiency: the average, 67, over it.

    Parameters
    ----------
    efficiency_percent : float
        Mean of the elements of production, 25 to 100 [%].

    Raises
    ------
    ValueError
        Outside 25 to 100, where nobody gave figures.

    Examples
    --------
    >>> delay_factor(50)
    1.34
    """
    if not 25 <= efficiency_percent <= 100:
        raise ValueError(f"a production efficiency of {efficiency_percent:g} % (25 to 100)")
    return _AVERAGE_PE / efficiency_percent


def capability(people: float, *, days: float, hours_per_day: float, available: float) -> float:
    """Return the man-days of eight hours that people can give.

    Parameters
    ----------
    people : float
        Direct labor.
    days : float
        Work days.
    hours_per_day : float
        Length of a work day [h].
    available : float
        Share of the time they are at the work.

    Examples
    --------
    >>> capability(10, days=20, hours_per_day=9, available=0.75)
    168.75
    """
    return people * days * hours_per_day / _HOURS_PER_DAY * available


def duration_days(work_man_days: float, *, crew: float, available: float, hours_per_day: float) -> float:
    """Return the work days a crew takes.

    Parameters
    ----------
    work_man_days : float
        Of eight hours.
    crew : float
        People.
    available : float
        Share of the time they are at the work.
    hours_per_day : float
        Length of a work day [h].

    Examples
    --------
    >>> round(duration_days(66, crew=6, available=0.75, hours_per_day=9), 2)
    13.04
    """
    return work_man_days / (crew * available * hours_per_day / _HOURS_PER_DAY)
