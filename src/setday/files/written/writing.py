"""Writing a file back: only what changes is touched, every other character stays as typed."""

import re
from collections.abc import Iterable
from dataclasses import dataclass

from setday.errors import FileProblem
from setday.files.written.arriving import arrive
from setday.files.written.kind import ANY_YAML
from setday.files.written.lines import Plain, block_lines, entry_lines, flow_text, scalar_text
from setday.files.written.tree import Entry, Listing, Mapping, Node, Path, Scalar, node_at, to_plain
from setday.files.written.yaml_text import read_tree

__all__ = ["Change", "add_entries", "write_changes"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change to a file.

    Parameters
    ----------
    path : tuple of str or int
        Where: ("openings", "front door", "door"); a number counts the entries of a list from 0, and
        one past the last adds an entry.
    value : str, dict, list or None
        What stands there from now on; None takes the entry out.
    """

    path: Path
    value: Plain | None


def write_changes(text: str, changes: Iterable[Change] = ()) -> str:
    r"""Return the text of a file with changes made; comments, order and layout stay.

    Parameters
    ----------
    text : str
        The file as it is.
    changes : iterable of Change
        Made one after another.

    Returns
    -------
    str
        The same text, character for character, where there are no changes.

    Raises
    ------
    FileProblem
        When the file cannot be read as YAML, or a path leads nowhere.

    Examples
    --------
    >>> write_changes("name: Shed  # ours\n", [Change(path=("name",), value="Barn")])
    'name: Barn  # ours\n'
    """
    for change in changes:
        text = _changed(text, change)
    return text


def _changed(text: str, change: Change) -> str:
    root = _root(text)
    wanted = _apply(to_plain(root), change)
    splice = _Splice(text)
    if change.value is None:
        splice.remove(root, change.path)
    else:
        splice.put(root, change.path, change.value)
    try:
        came_out = to_plain(_root(splice.text))
    except FileProblem as error:
        raise _by_hand(change) from error
    if came_out != wanted:
        raise _by_hand(change)
    return splice.text


def add_entries(text: str, section: str, entries: dict[str, dict[str, Plain]]) -> str:
    """Return the text with entries added to a section, each in braces on as few lines as hold it.

    An entry that is there already is written anew in its place.

    Parameters
    ----------
    text : str
    section : str
        Key of the section; added at the end of the file where there is none.
    entries : dict
        By name.

    Raises
    ------
    FileProblem
        When the file cannot be read as YAML, or does not take them.
    """
    root = _root(text)
    entry = root.entry(section)
    holder = entry.value if entry else None
    there = {each.key.text for each in holder.entries} if isinstance(holder, Mapping) else set()
    text = write_changes(
        text, [Change(path=(section, name), value=entries[name]) for name in entries if name in there]
    )
    new = {name: value for name, value in entries.items() if name not in there}
    if not new:
        return text
    if (entry and not isinstance(holder, Mapping)) or (isinstance(holder, Mapping) and holder.flow):
        return write_changes(text, [Change(path=(section, name), value=value) for name, value in new.items()])
    return _with_lines(text, section, new)


def _with_lines(text: str, section: str, new: dict[str, dict[str, Plain]]) -> str:
    root = _root(text)
    wanted = to_plain(root)
    assert isinstance(wanted, dict)
    wanted[section] = {**(wanted.get(section) or {}), **new}
    splice = _Splice(text)
    entry = root.entry(section)
    if entry is not None and isinstance(entry.value, Mapping):
        holder = entry.value
        indent = holder.entries[0].key.start.column - 1
        lines = [line for name, each in new.items() for line in entry_lines(name, each, indent=indent)]
        splice._after(splice._end(holder), lines, gap=False)
    else:
        lines = [line for name, each in new.items() for line in entry_lines(name, each, indent=2)]
        splice._after(splice._end(root), [f"{section}:", *lines], gap=True)
    if to_plain(_root(splice.text)) != wanted:
        raise _by_hand(Change(path=(section,), value=None))
    return splice.text


def _root(text: str) -> Mapping:
    arrived = arrive(text, name="", kind=ANY_YAML)
    read = read_tree(arrived.readable, name="", kind=ANY_YAML) if arrived.readable is not None else None
    if arrived.findings or read is None or read.findings or not isinstance(read.root, Mapping):
        raise FileProblem(
            "The file has faults of spelling, so nothing can be changed in it.",
            do="Check it, put the findings right, and try again.",
        )
    return read.root


def _by_hand(change: Change) -> FileProblem:
    return FileProblem(
        f"The change to {_said(change.path)} cannot be written without disturbing what stands around it.",
        do="Type it into the file by hand.",
    )


def _nowhere(path: Path) -> FileProblem:
    return FileProblem(f"There is no {_said(path)} in the file.", do="Check the names that lead to it.")


def _said(path: Path) -> str:
    return " / ".join(str(step) for step in path) or "place"


def _apply(plain: object, change: Change) -> object:
    """Return the plain value of the whole file after a change."""
    if not change.path:
        raise _nowhere(change.path)
    at = plain
    for n, step in enumerate(change.path[:-1]):
        if isinstance(at, dict) and isinstance(step, str):
            if at.get(step) is None and change.value is not None:
                at[step] = {}
            at = at.get(step)
        elif isinstance(at, list) and isinstance(step, int) and -1 < step < len(at):
            at = at[step]
        else:
            raise _nowhere(change.path[: n + 1])
    last = change.path[-1]
    if isinstance(at, dict) and isinstance(last, str) and (change.value is not None or last in at):
        at.pop(last) if change.value is None else at.__setitem__(last, change.value)
    elif isinstance(at, list) and isinstance(last, int) and -1 < last < len(at) + (change.value is not None):
        at[last : last + 1] = [] if change.value is None else [change.value]
    else:
        raise _nowhere(change.path)
    return plain


class _Splice:
    """A text in which one stretch is replaced."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.newline = "\r\n" if "\r\n" in text else "\n"

    def cut(self, start: int, end: int, instead: str) -> None:
        self.text = self.text[:start] + instead + self.text[end:]

    def lines(self, lines: list[str]) -> str:
        return self.newline.join(lines)

    def put(self, root: Mapping, path: Path, value: Plain) -> None:
        node = node_at(root, path)
        if node is not None:
            parent = node_at(root, path[:-1])
            assert parent is not None
            self._replace(parent, path[-1], node, value)
            return
        depth = max(n for n in range(len(path)) if _holds(node_at(root, path[:n])))
        for step in reversed(path[depth + 1 :]):
            value = {str(step): value}
        holder = node_at(root, path[:depth])
        assert holder is not None
        if isinstance(holder, Mapping) and (entry := holder.entry(str(path[depth]))):
            below = value
            self._replace(holder, path[depth], entry.value, below)
        elif isinstance(holder, Mapping):
            self._add_entry(holder, str(path[depth]), value)
        elif isinstance(holder, Listing):
            self._add_item(holder, value)

    def _replace(self, parent: Node, step: str | int, node: Node, value: Plain) -> None:
        flow = _flow(parent)
        if isinstance(value, str) or flow or not value:
            new = flow_text(value) if flow or not isinstance(value, str) else scalar_text(value)
        elif isinstance(node, Mapping | Listing) and node.flow:
            new = flow_text(value)
        elif isinstance(parent, Mapping):
            indent = parent.entries[0].key.start.column - 1 + 2
            new = self.newline + self.lines(block_lines(value, indent=indent))
        else:
            new = flow_text(value)
        one_line = not new.startswith(self.newline)
        if one_line and node.start.index < self._end(node) and not self._below(parent, step, node):
            self.cut(node.start.index, self._end(node), new)
        else:
            start, end = self._after_colon(parent, step, node)
            self.cut(start, end, f" {new}" if one_line else new)

    def _below(self, parent: Node, step: str | int, node: Node) -> bool:
        """Tell whether a value begins on a line below its key."""
        return isinstance(parent, Mapping) and self._key(parent, step).start.line != node.start.line

    def _key(self, parent: Mapping, step: str | int) -> Scalar:
        entry = parent.entry(str(step))
        assert entry is not None
        return entry.key

    def _after_colon(self, parent: Node, step: str | int, node: Node) -> tuple[int, int]:
        """Return from after the colon or dash of a value to its end."""
        if not isinstance(parent, Mapping):
            return node.start.index, self._end(node)
        start = self.text.index(":", self._key(parent, step).end.index) + 1
        return start, max(start, self._end(node))

    def _end(self, node: Node) -> int:
        """Return where a value really ends; a block's own end mark stands past the comments after it."""
        if isinstance(node, Scalar):
            ended = node.end.index
            return len(self.text[:ended].rstrip()) if node.quote in ("|", ">") else ended
        if node.flow:
            return node.end.index
        if isinstance(node, Mapping):
            last = node.entries[-1]
            empty = isinstance(last.value, Scalar) and not last.value.text and not last.value.quote
            return self.text.index(":", last.key.end.index) + 1 if empty else self._end(last.value)
        return self._end(node.items[-1])

    def _line_end(self, index: int) -> int:
        found = re.compile(r"\r\n|\r|\n").search(self.text, index)
        return found.end() if found else len(self.text)

    def _add_entry(self, holder: Mapping, key: str, value: Plain) -> None:
        if holder.flow:
            at = holder.end.index - 1
            comma = ", " if holder.entries else ""
            at = self._end(holder.entries[-1].value) if holder.entries else at
            self.cut(at, at, f"{comma}{scalar_text(key, flow=True)}: {flow_text(value)}")
            return
        indent = holder.entries[0].key.start.column - 1
        lines = block_lines({key: value}, indent=indent)
        self._after(self._end(holder), lines, gap=indent == 0 and not isinstance(value, str))

    def _add_item(self, holder: Listing, value: Plain) -> None:
        if holder.flow:
            at = self._end(holder.items[-1]) if holder.items else holder.end.index - 1
            self.cut(at, at, f"{', ' if holder.items else ''}{flow_text(value)}")
            return
        self._after(self._end(holder), [f"{' ' * (holder.start.column - 1)}- {flow_text(value)}"], gap=False)

    def _after(self, index: int, lines: list[str], *, gap: bool) -> None:
        at = self._line_end(index)
        before = "" if self.text[:at].endswith(("\n", "\r")) else self.newline
        self.cut(at, at, before + (self.newline if gap else "") + self.lines(lines) + self.newline)

    def remove(self, root: Mapping, path: Path) -> None:
        parent, node = node_at(root, path[:-1]), node_at(root, path)
        if parent is None or node is None:
            raise _nowhere(path)
        members: tuple[Entry | Node, ...] = parent.entries if isinstance(parent, Mapping) else _items(parent)
        starts = [each.key.start.index if isinstance(each, Entry) else each.start.index for each in members]
        ends = [self._end(each.value if isinstance(each, Entry) else each) for each in members]
        which = (
            next(n for n, each in enumerate(members) if isinstance(each, Entry) and each.key.text == path[-1])
            if isinstance(parent, Mapping)
            else int(path[-1])
        )
        if _flow(parent):
            self._remove_flow(starts, ends, which)
        elif len(members) == 1 and len(path) > 1:
            self._replace_by_nothing(root, path[:-1], parent)
        else:
            self._remove_lines(starts[which], max(ends[which], starts[which]))

    def _remove_flow(self, starts: list[int], ends: list[int], which: int) -> None:
        if which + 1 < len(starts):
            self.cut(starts[which], starts[which + 1], "")
        elif which:
            self.cut(ends[which - 1], ends[which], "")
        else:
            self.cut(starts[which], ends[which], "")

    def _replace_by_nothing(self, root: Mapping, path: Path, node: Node) -> None:
        """Take the last entry out of a block: an empty bracket is left."""
        parent = node_at(root, path[:-1])
        assert parent is not None
        start, end = self._after_colon(parent, path[-1], node)
        self.cut(start, end, " {}" if isinstance(node, Mapping) else " []")

    def _remove_lines(self, start: int, end: int) -> None:
        first = max(self.text.rfind("\n", 0, start), self.text.rfind("\r", 0, start)) + 1
        self.cut(first, self._line_end(end), "")


def _holds(node: Node | None) -> bool:
    return isinstance(node, Mapping | Listing)


def _items(node: Node) -> tuple[Node, ...]:
    return node.items if isinstance(node, Listing) else ()


def _flow(node: Node) -> bool:
    return isinstance(node, Mapping | Listing) and node.flow
