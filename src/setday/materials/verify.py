"""Checking a cutting plan and its bound, without the solver and without its arithmetic."""

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction

from setday.materials.lengths import Certificate, CutStick, CuttingPlan, LengthProblem, StockLength

__all__ = ["check_bound", "verify"]


def verify(problem: LengthProblem, plan: CuttingPlan) -> tuple[str, ...]:
    """Return what is wrong with a plan, in sentences; empty when it keeps every rule.

    Checked: every piece asked for is cut, no other; nothing is cut from a stick that is not on the list
    or not there often enough; pieces and kerfs fit on their stick; remnants are what is truly left.

    Parameters
    ----------
    problem : LengthProblem
        Lengths in 1/64 in.
    plan : CuttingPlan
    """
    stocks = {stock.key: stock for stock in problem.stocks}
    wrong = [sentence for stick in plan.sticks for sentence in _wrong_on(stick, stocks, problem.kerf)]
    numbers = [stick.number for stick in plan.sticks]
    if numbers != list(range(1, len(numbers) + 1)):
        wrong.append("The sticks are not numbered from 1 in order.")
    for key, used in plan.counts.items():
        available = stocks[key].available if key in stocks else None
        if available is not None and used > available:
            wrong.append(f"{used} sticks of {key} are cut, and there are {available}.")
    return (*wrong, *_miscounted(problem, plan))


def _wrong_on(stick: CutStick, stocks: Mapping[str, StockLength], kerf: int) -> list[str]:
    stock = stocks.get(stick.stock)
    if stock is None:
        return [f"Stick {stick.number} is of {stick.stock!r}, which is not on the list."]
    if not stick.pieces:
        return [f"Stick {stick.number} is bought and not cut."]
    position = 0
    for piece in stick.pieces:
        if position + piece.length > stock.length:
            return [f"Stick {stick.number}: a piece of {piece.length} ends beyond the stick."]
        position += piece.length + kerf
    left = max(stock.length - position, 0)
    if left != stick.remnant:
        return [f"Stick {stick.number} leaves {left}, and {stick.remnant} is written."]
    return []


def _miscounted(problem: LengthProblem, plan: CuttingPlan) -> list[str]:
    asked: Counter[tuple[int, str]] = Counter()
    for demand in problem.demands:
        asked[demand.length, demand.label] += demand.count
    cut = Counter((piece.length, piece.label) for stick in plan.sticks for piece in stick.pieces)
    return [
        f"{asked[key]} pieces of {key[0]} for {key[1]!r} are asked for, and {cut[key]} are cut."
        for key in sorted(set(asked) | set(cut))
        if asked[key] != cut[key]
    ]


def check_bound(problem: LengthProblem, certificate: Certificate) -> Fraction:
    """Work out anew what a certificate proves, with another way of filling sticks.

    Parameters
    ----------
    problem : LengthProblem
        Lengths in 1/64 in.
    certificate : Certificate

    Returns
    -------
    Fraction
        A bound on the objective, in cents or sticks; 0 when the certificate proves nothing.

    Notes
    -----
    Fillings are kept as pairs of length used and worth, a pair that uses no less and is worth no more
    than another being dropped; the solver fills a table by capacity instead.
    """
    worth = dict(certificate.worth)
    asked = problem.asked
    if any(value < 0 for value in worth.values()) or certificate.scale <= 0:
        return Fraction(0)
    longest = max(stock.length for stock in problem.stocks) + problem.kerf
    fillings = _fillings(
        [(size + problem.kerf, worth.get(size, 0), count) for size, count in asked.items()], longest
    )
    total = sum(worth.get(size, 0) * count for size, count in asked.items())
    for stock in problem.stocks:
        most = max(value for used, value in fillings if used <= stock.length + problem.kerf)
        over = most - problem.weight(stock) * certificate.scale
        if over > 0 and stock.available is None:
            return Fraction(0)
        total -= max(over, 0) * (stock.available or 0)
    return max(Fraction(total, certificate.scale), Fraction(0))


def _fillings(pieces: list[tuple[int, int, int]], longest: int) -> list[tuple[int, int]]:
    best = [(0, 0)]
    for size, value, count in pieces:
        grown = [
            (used + times * size, worth + times * value)
            for used, worth in best
            for times in range(min(count, (longest - used) // size) + 1)
        ]
        grown.sort(key=lambda filling: (filling[0], -filling[1]))
        best = []
        for used, worth in grown:
            if not best or worth > best[-1][1]:
                best.append((used, worth))
    return best
