"""Hours and skills: who was at which trade for how long, what is signed for, what nobody did yet."""

from setday.learning.hours.summing import Hours, StudentHours, hours_of, hours_table

__all__ = ["Hours", "StudentHours", "hours_of", "hours_table"]
