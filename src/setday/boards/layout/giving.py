"""Which rule gives way, on which surface, when all rules together leave no way to hang it.

The order is fixed: first the distance of joints in neighbouring rows (any distance above nothing
will do), then the least piece, then the distance from openings, then the member behind the joint,
then the edges between rows.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from setday.boards.layout.network import Network, Way
from setday.boards.layout.rows import Avoid, Ease, Face, face
from setday.boards.problem import Board, BoardRules, Surface
from setday.measure import Length, write_inches

__all__ = ["Hung", "ease_until_hung"]

MOST_TRIES = 20_000


@dataclass(frozen=True, slots=True)
class Hung:
    """A surface that can be hung: its rows, one way to cut them, and what had to give way."""

    face: Face
    way: Way
    relaxed: str


def ease_until_hung(
    surface: Surface, *, boards: tuple[Board, ...], rules: BoardRules, avoid: tuple[Avoid, ...] = ()
) -> Hung | str:
    """Return the surface under as many of the rules as allow it to be hung, or why nothing does.

    Parameters
    ----------
    surface : Surface
    boards : tuple of Board
        The boards of its kind.
    rules : BoardRules
    avoid : tuple of Avoid
        Joints of the layer below to keep apart from.
    """
    if not boards:
        return f"{surface.label}: the price list has no board of the kind {surface.board_kind}."
    if surface.longest <= 0:
        return f"{surface.label}: no board can be carried to it (the longest is given as nothing)."
    strict = Ease.strict(surface, rules)
    changes = _order(strict, below=bool(avoid))
    for count in range(len(changes) + 1):
        made = _try(surface, boards, strict, changes[:count], avoid)
        if made is not None:
            return _tightened(surface, boards, strict, changes[:count], avoid) or made
    widest = max(b.width for b in boards)
    longest = min(surface.longest, max(b.length for b in boards))
    return (
        f"{surface.label}: no division into rows of boards up to {_inches(widest)} wide and pieces up to "
        f"{_inches(longest)} long covers it; offer a wider or longer board, or another direction of the rows."
    )


def _inches(value: int) -> str:
    return write_inches(Length(value))


@dataclass(frozen=True, slots=True)
class _Change:
    """One rule giving way: what becomes of the rules, and the words for it."""

    apply: Callable[[Ease], Ease]
    words: str
    layers: bool = False


def _order(ease: Ease, *, below: bool) -> list[_Change]:
    """Return what may give way, in order; only rules that ask for something."""
    out: list[_Change] = []
    if below:
        said = "the stagger from the joints of the layer below is not kept"
        out.append(_Change(lambda e: e, said, layers=True))
    if ease.stagger > 1:
        said = (
            f"the stagger of the joints is less than {_inches(ease.stagger)}, though they are never in line"
        )
        out.append(_Change(lambda e: replace(e, stagger=1), said))
    if ease.least_piece > 1:
        said = f"pieces shorter than {_inches(ease.least_piece)} are hung"
        out.append(_Change(lambda e: replace(e, least_piece=1), said))
    if ease.clear > 0:
        said = f"joints stand closer than {_inches(ease.clear)} to the side of an opening"
        out.append(_Change(lambda e: replace(e, clear=0), said))
    if ease.backed:
        said = "joints stand where no member backs them: put blocking or a backer behind them"
        out.append(_Change(lambda e: replace(e, backed=False), said))
    if ease.stagger > 0:
        out.append(_Change(lambda e: replace(e, stagger=0), "joints are not staggered and may stand in line"))
    if ease.factory or ease.least_row > 1:
        said = "cut edges meet where a factory edge is asked for, or a row is narrower than asked"
        out.append(_Change(lambda e: replace(e, factory=False, least_row=1), said))
    return out


def _try(
    surface: Surface,
    boards: tuple[Board, ...],
    strict: Ease,
    changes: list[_Change],
    avoid: tuple[Avoid, ...],
) -> Hung | None:
    ease = strict
    for c in changes:
        ease = c.apply(ease)
    kept_off = () if any(c.layers for c in changes) else avoid
    made = face(surface, boards=boards, ease=ease, avoid=kept_off)
    way = _first_way(made) if made is not None else None
    if made is None or way is None:
        return None
    words = "; ".join(c.words for c in changes)
    return Hung(made, way, f"{surface.label}: {words}." if words else "")


def _tightened(
    surface: Surface,
    boards: tuple[Board, ...],
    strict: Ease,
    changes: list[_Change],
    avoid: tuple[Avoid, ...],
) -> Hung | None:
    """Return the surface with every earlier change taken back that was not needed after all."""
    kept, best = changes, None
    for c in changes[:-1]:
        fewer = [k for k in kept if k is not c]
        made = _try(surface, boards, strict, fewer, avoid)
        if made is not None:
            kept, best = fewer, made
    return best


def _first_way(face: Face) -> Way | None:
    """Return some way to cut the surface whose joints keep apart, or None when a long search finds none."""
    search = _Search(Network([face]))
    return search.run()


class _Search:
    """Depth-first search for a way, fewest pieces first."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self.tries = 0
        self.clash: dict[int, set[int]] = {}
        for lower, upper in network.neighbours():
            for a, b in network.clash_pairs(lower, upper):
                self.clash.setdefault(a, set()).add(b)
                self.clash.setdefault(b, set()).add(a)
        self.out: dict[int, list[int]] = {}
        for a in sorted(
            range(len(network.arcs)), key=lambda a: -(network.arcs[a].end - network.arcs[a].start)
        ):
            self.out.setdefault(int(network.tail[a]), []).append(a)

    def run(self) -> Way | None:
        """Return the first way found."""
        net = self.network
        for r in net.face_rows(0):
            if net.rows[r].low == 0:
                found = self._row(r, (r,), [])
                if found is not None:
                    return found
        return None

    def _row(self, row: int, rows: tuple[int, ...], arcs: list[int]) -> Way | None:
        net = self.network
        used = {int(net.head[a]) for a in arcs}
        for path in self._paths(int(net.first[row]), int(net.first[row + 1]) - 1, used):
            self.tries += 1
            if self.tries > MOST_TRIES:
                return None
            taken = [*arcs, *path]
            if net.rows[row].high == net.faces[0].top(net.rows[row].rows):
                return Way(rows, tuple(taken))
            for above in net.face_rows(0):
                if (net.rows[above].rows, net.rows[above].low) == (net.rows[row].rows, net.rows[row].high):
                    found = self._row(above, (*rows, above), taken)
                    if found is not None:
                        return found
        return None

    def _paths(self, at: int, last: int, used: set[int]) -> Iterator[list[int]]:
        """Yield the paths from one node to the last that avoid joints clashing with those used."""
        if at == last:
            yield []
            return
        self.tries += 1
        if self.tries > MOST_TRIES:
            return
        for a in self.out.get(at, ()):
            head = int(self.network.head[a])
            if self.clash.get(head, set()) & used:
                continue
            for rest in self._paths(head, last, used):
                yield [a, *rest]
