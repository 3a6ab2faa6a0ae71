"""What every page and sheet of switching says."""

__all__ = ["CAUTIONS"]

CAUTIONS = (
    "A lamp that is OFF does not mean dead wires: loops and travelers stay live.",
    "Hookups are made and opened dead: breaker off, locked, tested dead. Only the instructor energizes.",
    "Nothing is covered before it is inspected. Local code and the licensed electrician decide.",
)
