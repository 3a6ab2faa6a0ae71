"""All trees of paths that connect the feed with every box that holds a device, short ones first."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import combinations

from setday.switching.hookup import Hookup, Path

__all__ = ["Tree", "rooted", "trees"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tree:
    """A tree of paths, rooted at the feed's box.

    Parameters
    ----------
    order : tuple of str
        The boxes from the feed outward, each after its parent.
    parent : mapping of box to (parent, path)
    length_ft : float
    """

    order: tuple[str, ...]
    parent: dict[str, tuple[str, Path]]
    length_ft: float

    def children(self, box: str) -> list[str]:
        """Return the boxes right behind a box."""
        return [child for child, (above, _) in self.parent.items() if above == box]


def trees(hookup: Hookup, *, enough: Callable[[float], bool]) -> Iterator[Tree]:
    """Yield every tree of paths that reaches all boxes with devices and ends only at such boxes.

    Parameters
    ----------
    hookup : Hookup
    enough : function
        Given a length below which no further tree can be [ft], says whether to go without it; it may
        answer otherwise as better plans are found.
    """
    needed = {hookup.feed.box} | {device.box for device in hookup.devices}
    optional = [box.name for box in hookup.boxes if box.name not in needed]
    for count in range(len(optional) + 1):
        for extra in combinations(optional, count):
            yield from _spanning(hookup, needed | set(extra), needed, enough)


def _spanning(
    hookup: Hookup, boxes: set[str], needed: set[str], enough: Callable[[float], bool]
) -> Iterator[Tree]:
    paths = sorted(
        (path for path in hookup.paths if path.a in boxes and path.b in boxes),
        key=lambda path: (path.length_ft, path.a, path.b),
    )
    stack: list[tuple[tuple[int, ...], int]] = [((), 0)]
    while stack:
        chosen, start = stack.pop()
        least = _least_length(paths, chosen, start, boxes)
        if least is None or enough(least):
            continue
        if len(chosen) == len(boxes) - 1:
            tree = rooted([paths[n] for n in chosen], hookup.feed.box)
            if all(box in needed or tree.children(box) for box in boxes):
                yield tree
            continue
        stack.append((chosen, start + 1))
        if not _closes(paths, chosen, start):
            stack.append(((*chosen, start), start + 1))


def _groups(paths: list[Path], chosen: tuple[int, ...]) -> dict[str, str]:
    """Return for each box touched the name of the part of the forest it is in."""
    top: dict[str, str] = {}
    for n in chosen:
        _tie(top, paths[n])
    return top


def _top(top: dict[str, str], box: str) -> str:
    while top.get(box, box) != box:
        box = top[box]
    return box


def _tie(top: dict[str, str], path: Path) -> bool:
    a, b = _top(top, path.a), _top(top, path.b)
    top[a] = b
    return a != b


def _closes(paths: list[Path], chosen: tuple[int, ...], n: int) -> bool:
    top = _groups(paths, chosen)
    return _top(top, paths[n].a) == _top(top, paths[n].b)


def _least_length(paths: list[Path], chosen: tuple[int, ...], start: int, boxes: set[str]) -> float | None:
    """Return the length of the shortest tree with these paths and further ones from `start` on."""
    top = _groups(paths, chosen)
    length, count = sum(paths[n].length_ft for n in chosen), len(chosen)
    for path in paths[start:]:
        if count == len(boxes) - 1:
            break
        if _tie(top, path):
            length += path.length_ft
            count += 1
    return length if count == len(boxes) - 1 else None


def rooted(paths: list[Path], root: str) -> Tree:
    """Return a set of paths without loops as a tree from its root."""
    order, parent = [root], {}
    for box in order:
        for path in paths:
            other = path.b if path.a == box else path.a if path.b == box else None
            if other is not None and other not in parent and other != root:
                parent[other] = (box, path)
                order.append(other)
    return Tree(order=tuple(order), parent=parent, length_ft=sum(path.length_ft for path in paths))
