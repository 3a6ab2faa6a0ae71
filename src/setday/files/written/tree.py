"""A file as a tree of text, every entry with its place in the file."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from setday.findings import Where

__all__ = ["Entry", "Listing", "Mapping", "Node", "Place", "Scalar", "locate", "node_at", "to_plain"]

Path = tuple[str | int, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A place in the text: line and column from 1, and characters from the beginning."""

    line: int
    column: int
    index: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Scalar:
    """A piece of text; `quote` is the quote mark or block sign it was written with, if any."""

    text: str
    start: Place
    end: Place
    quote: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listing:
    """A list; `flow` when it is written in square brackets."""

    items: "tuple[Node, ...]"
    start: Place
    end: Place
    flow: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of a mapping: a key and what it says."""

    key: Scalar
    value: "Node"


@dataclass(frozen=True, slots=True, kw_only=True)
class Mapping:
    """Keys with their values; `flow` when it is written in braces."""

    entries: tuple[Entry, ...]
    start: Place
    end: Place
    flow: bool = False
    _by_key: dict[str, Entry] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_by_key", {entry.key.text: entry for entry in self.entries})

    def entry(self, key: str) -> Entry | None:
        """Return the entry of that key."""
        return self._by_key.get(key)


Node = Scalar | Listing | Mapping


def to_plain(node: Node) -> object:
    """Return the tree as dicts, lists and text; None where nothing is written."""
    if isinstance(node, Mapping):
        return {entry.key.text: to_plain(entry.value) for entry in node.entries}
    if isinstance(node, Listing):
        return [to_plain(item) for item in node.items]
    return None if not node.text and not node.quote else node.text.strip()


def walk(node: Node, path: Path) -> Iterator[tuple[Entry | None, Node]]:
    """Yield what a path passes, outermost first; steps that the tree does not have are passed over."""
    for step in path:
        if isinstance(node, Mapping) and isinstance(step, str):
            entry = node.entry(step)
            if entry is None:
                continue
            node = entry.value
            yield entry, node
        elif isinstance(node, Listing) and isinstance(step, int) and -1 < step < len(node.items):
            node = node.items[step]
            yield None, node


def node_at(root: Node, path: Path) -> Node | None:
    """Return the node a path leads to, or None where the path breaks off."""
    passed = list(walk(root, path))
    if len(passed) != len(path):
        return None
    return passed[-1][1] if passed else root


def locate(root: Node, path: Path, *, file: str, at_key: bool = False) -> Where:
    """Return where a path leads, or the nearest entry above it.

    Parameters
    ----------
    root : Node
    path : tuple of str or int
    file : str
        Name of the file.
    at_key : bool
        Point at the key instead of the value.
    """
    passed = list(walk(root, path))
    if not passed:
        return Where(file=file, line=1, column=1)
    entry, node = passed[-1]
    key_wanted = at_key or not isinstance(node, Scalar) or not node.text
    spot = entry.key.start if entry and key_wanted else node.start
    return Where(file=file, line=spot.line, column=spot.column)
