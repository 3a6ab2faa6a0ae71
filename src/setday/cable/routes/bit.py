"""The bit for the holes of cables, held against what the framing and the electrical rules allow."""

from functools import cache

from setday.measure import Length
from setday.rules import RuleBook, load_table

__all__ = ["edge_wood", "joist_refusal", "needs_plate", "needs_tie", "plate_beside", "refusal"]


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


def needs_tie(diameter: int, depth: int, *, book: RuleBook) -> bool:
    """Tell whether a bored top plate of an outside or bearing wall takes a metal tie, IRC R602.6.1."""
    return diameter * 100 > book.number("cable.plate_cut_percent") * depth


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


def joist_refusal(diameter: int, depth: int, *, book: RuleBook) -> str | None:
    """Say why a sawn joist may not be bored in the middle of its depth, IRC R502.8.1; None where it may.

    Parameters
    ----------
    diameter, depth : int
        Of the hole and of the joist [1/64 in].
    book : RuleBook
        The rules of cable.
    """
    divisor, least = book.number("cable.joist_bore_divisor"), book.length("cable.joist_edge")
    if diameter * divisor > depth:
        return f"a {Length(diameter)} hole is wider than 1/{divisor:g} of a joist {Length(depth)} deep"
    if edge_wood(diameter, depth) < least.sixtyfourths:
        left = Length(edge_wood(diameter, depth))
        return f"a {Length(diameter)} hole leaves {left} to the joist's edge, and {least} is the least"
    return None


@cache
def _widths() -> dict[str, float]:
    return {row["kind"]: float(row["width_in"]) for row in load_table("setday.cable", "sizes").rows}


def plate_beside(kind: str, depth: Length, *, book: RuleBook) -> Length | None:
    """Return how near a face a cable along the middle of a stud comes, where that asks for a plate.

    Parameters
    ----------
    kind : str
        Of cable.
    depth : Length
        Of the stud, across the wall.
    book : RuleBook

    Returns
    -------
    Length or None
        None where 1-1/4 in or more is left, NEC 300.4(D).
    """
    width = Length.of(inches=_widths()[kind])
    left = (depth - width) // 2
    return left if left < book.length("cable.plate_edge") else None
