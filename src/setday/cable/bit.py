"""The bit for the holes of cables, held against what the framing and the electrical rules allow."""

from setday.measure import Length
from setday.rules import RuleBook

__all__ = ["edge_wood", "needs_plate", "refusal"]


def edge_wood(diameter: int, depth: int) -> int:
    """Return the wood between a hole in the middle of a member and its nearer face [1/64 in].

    Examples
    --------
    >>> edge_wood(64, 224), edge_wood(72, 224)
    (80, 76)
    """
    return (depth - diameter) // 2


def needs_plate(diameter: int, depth: int, *, book: RuleBook) -> bool:
    """Tell whether so little wood is left that a steel plate must cover the cable, NEC 300.4."""
    return edge_wood(diameter, depth) < book.length("cable.plate_edge").sixtyfourths


def refusal(diameter: int, depth: int, *, bearing: bool, book: RuleBook) -> str | None:
    """Say why a stud may not be bored, IRC R602.6; None where it may.

    Parameters
    ----------
    diameter, depth : int
        Of the hole and of the stud, across the wall [1/64 in].
    bearing : bool
        Whether the wall carries anything.
    book : RuleBook
        The rules of cable.
    """
    key = "cable.stud_bore_bearing_percent" if bearing else "cable.stud_bore_percent"
    most = book.number(key)
    if diameter * 100 > most * depth:
        kind = "bearing" if bearing else "nonbearing"
        return (
            f"a {Length(diameter)} hole takes {100 * diameter / depth:.0f} % of a stud {Length(depth)} deep, "
            f"and {most:g} % is the most in a {kind} wall"
        )
    least = book.length("cable.stud_edge")
    if edge_wood(diameter, depth) < least.sixtyfourths:
        left = Length(edge_wood(diameter, depth))
        return f"a {Length(diameter)} hole leaves {left} to the stud's face, and {least} is the least"
    return None
