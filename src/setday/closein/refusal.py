"""Why something at a gate is refused."""

from setday.errors import SetdayError

__all__ = ["GateRefusal"]


class GateRefusal(SetdayError):
    """A check-off, a confirmation or a closing that cannot stand; the message says why."""
