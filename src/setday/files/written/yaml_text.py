"""YAML text to a tree, with every fault that can be told apart in one reading.

Scalars are taken as text: what looks like a number, a date or a yes is read by the field it is for.
Anchors, aliases, tags and merge keys are refused, so nothing in a file can grow beyond what is seen.
"""

import re
from dataclasses import dataclass, field
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.error import MarkedYAMLError, YAMLError
from ruamel.yaml.events import (
    AliasEvent,
    DocumentStartEvent,
    MappingEndEvent,
    MappingStartEvent,
    ScalarEvent,
    SequenceEndEvent,
    SequenceStartEvent,
)

from setday.files.written.kind import FileKind
from setday.files.written.syntax import Fault, explain, unclosed
from setday.files.written.tree import Entry, Listing, Mapping, Node, Place, Scalar
from setday.findings import Finding, Where

__all__ = ["TreeRead", "read_tree"]

DEEPEST = 12
"""Entries inside entries; the forms of our files need seven."""
MOST_FAULTS = 8
"""Faults of spelling told at once; fewer in a file so long that reading it again takes its time."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TreeRead:
    """What could be read; `whole` is False when lines had to be passed over."""

    root: Node | None
    findings: tuple[Finding, ...]
    whole: bool


@dataclass(slots=True, kw_only=True)
class _Open:
    """A list or a mapping whose end has not come yet."""

    start: Place
    flow: bool
    mapping: bool
    entries: list[Entry] = field(default_factory=list)
    items: list[Node] = field(default_factory=list)
    key: Scalar | None = None
    lines: dict[str, int] = field(default_factory=dict)


class _GivenUp(Exception):
    """The text is past the limits."""


class _OpenQuote(Exception):
    """Text in quotes runs past the line it began on."""

    def __init__(self, line: int) -> None:
        super().__init__(line)
        self.line = line


def read_tree(text: str, *, name: str, kind: FileKind) -> TreeRead:
    """Read YAML text.

    Parameters
    ----------
    text : str
        Printable text.
    name : str
        File name for the findings.
    kind : FileKind
        What it should be.
    """
    findings: dict[Finding, None] = {}
    builder = _Builder(file=name, kind=kind)
    whole, read = True, 0
    for _ in range(MOST_FAULTS):
        read += builder.count
        if read > kind.most_entries:
            break
        builder = _Builder(file=name, kind=kind)
        try:
            root = builder.build(text)
        except _GivenUp:
            return TreeRead(root=None, findings=(*findings, *builder.findings), whole=False)
        except _OpenQuote as opened:
            fault = unclosed(opened.line, text, file=name)
        except MarkedYAMLError as error:
            fault = explain(error, text, file=name, kind=kind)
        except (YAMLError, ValueError, IndexError, TypeError, AttributeError, AssertionError) as error:
            fault = _unexplained(error, name, kind)
        else:
            return TreeRead(root=root, findings=(*findings, *builder.findings), whole=whole)
        whole = False
        findings[fault.finding] = None
        text = _without(text, fault)
        if fault.last_line == 0:
            break
    return TreeRead(root=None, findings=(*findings, *builder.findings), whole=False)


class _Builder:
    """Builds the tree from the events of one reading, without recursion."""

    def __init__(self, *, file: str, kind: FileKind) -> None:
        self.file, self.kind = file, kind
        self.count = 0
        self.findings: list[Finding] = []
        self.open: list[_Open] = []
        self.root: Node | None = None
        self.documents = 0

    def build(self, text: str) -> Node | None:
        yaml = YAML(typ="safe", pure=True)
        for event in yaml.parse(text):
            self.take(event)
            if self.documents > 1:
                break
        return self.root

    def take(self, event: Any) -> None:
        start, end = _place(event.start_mark), _place(event.end_mark)
        if isinstance(event, DocumentStartEvent):
            self.documents += 1
            if self.documents > 1:
                self._find("file.documents", start)
        elif isinstance(event, AliasEvent):
            self._find("file.alias", start, f"*{event.anchor}")
            self._place_node(Scalar(text="", start=start, end=end, quote="*"))
        elif isinstance(event, ScalarEvent):
            self._marked(event, start)
            self._limit(start)
            self._quoted(event, start, end)
            self._place_node(Scalar(text=event.value, start=start, end=end, quote=event.style or ""))
        elif isinstance(event, MappingStartEvent | SequenceStartEvent):
            self._marked(event, start)
            self._limit(start)
            mapping = isinstance(event, MappingStartEvent)
            self.open.append(_Open(start=start, flow=bool(event.flow_style), mapping=mapping))
        elif isinstance(event, MappingEndEvent | SequenceEndEvent):
            self._close(end)

    def _quoted(self, event: Any, start: Place, end: Place) -> None:
        """Stop where text in quotes runs past its line: another's quote mark closed it."""
        if event.style in ("'", '"') and end.line > start.line:
            raise _OpenQuote(start.line)

    def _limit(self, place: Place) -> None:
        self.count += 1
        if self.count > self.kind.most_entries:
            self._find("file.size", place)
            raise _GivenUp
        if len(self.open) > DEEPEST:
            self._find("file.depth", place)
            raise _GivenUp

    def _marked(self, event: Any, place: Place) -> None:
        if event.anchor:
            self._find("file.alias", place, f"&{event.anchor}")
        if event.tag and str(event.tag) != "!":
            self._find("file.tag", place, str(event.tag).replace("tag:yaml.org,2002:", "!!"))

    def _place_node(self, node: Node) -> None:
        if not self.open:
            self.root = node
            return
        holder = self.open[-1]
        if not holder.mapping:
            holder.items.append(node)
        elif holder.key is None:
            self._key(holder, node)
        else:
            self._entry(holder, holder.key, node)
            holder.key = None

    def _key(self, holder: _Open, node: Node) -> None:
        if not isinstance(node, Scalar):
            self._find("file.key", node.start)
            node = Scalar(text=f"(line {node.start.line})", start=node.start, end=node.end)
        holder.key = Scalar(
            text=" ".join(node.text.split()), start=node.start, end=node.end, quote=node.quote
        )

    def _entry(self, holder: _Open, key: Scalar, value: Node) -> None:
        if holder.flow and _is_second_half(holder, key, value):
            self._join(holder, key)
            return
        if key.text in holder.lines:
            self._find("file.twice", key.start, key.text[:60], first=holder.lines[key.text])
            return
        holder.lines[key.text] = key.start.line
        holder.entries.append(Entry(key=key, value=value))

    def _join(self, holder: _Open, key: Scalar) -> None:
        """Put a point back together that a comma in braces parted: at: 7' east, 5' north."""
        last = holder.entries[-1]
        assert isinstance(last.value, Scalar)
        point = Scalar(text=f"{last.value.text}, {key.text}", start=last.value.start, end=key.end)
        holder.entries[-1] = Entry(key=last.key, value=point)

    def _close(self, end: Place) -> None:
        done = self.open.pop()
        node: Node
        if done.mapping:
            node = Mapping(entries=tuple(done.entries), start=done.start, end=end, flow=done.flow)
        else:
            node = Listing(items=tuple(done.items), start=done.start, end=end, flow=done.flow)
        self._place_node(node)

    def _find(self, rule: str, place: Place, shown: str = "", *, first: int = 0) -> None:
        found, expected, do = _TOLD[rule]
        self.findings.append(
            Finding(
                rule=rule,
                about=f"'{shown}'" if first else f"line {place.line}",
                found=found.format(shown=shown, first=first, kind=self.kind.name),
                expected=expected.format(most=self.kind.most_entries, kind=self.kind.name),
                do=do.format(kind=self.kind.name),
                where=Where(file=self.file, line=place.line, column=place.column),
            )
        )


_TOLD = {
    "file.documents": (
        "a second document begins here.",
        "one {kind} at a time.",
        "Take out the line of three dashes and what belongs to another {kind}.",
    ),
    "file.alias": (
        "'{shown}' marks a place to be repeated, or points to one.",
        "every entry written out.",
        "Write what is meant. If the sign belongs to a name, put the name in quotes.",
    ),
    "file.tag": ("'{shown}' is an instruction to YAML.", "plain text.", "Take it out."),
    "file.size": (
        "there are far more entries than a {kind} has.",
        "at most {most:,}.",
        "Check that it is the right file.",
    ),
    "file.depth": (
        f"entries are nested more than {DEEPEST} deep.",
        "a {kind} needs fewer.",
        "Check the indentation and the brackets.",
    ),
    "file.key": (
        "a list or a bracket stands where a name should.",
        "a name and a colon.",
        "Write the name first, then a colon, then the rest.",
    ),
    "file.twice": (
        "'{shown}' is written a second time; the first is on line {first}.",
        "each name once.",
        "Give one of them another name, or take one out.",
    ),
}


_HALF_POINT = re.compile(r"(?:to )?-?[.\d].*['\"′″’”a-z ] ?(north|south|east|west)(?: of .+)?")
_ACROSS = {"north", "south"}
_LONGEST_POINT = 160


def _is_second_half(holder: _Open, key: Scalar, value: Node) -> bool:
    """Tell whether a name without a value is the second distance of the point before it."""
    if not isinstance(value, Scalar) or value.text or value.quote or key.quote or not holder.entries:
        return False
    before = holder.entries[-1].value
    if not isinstance(before, Scalar) or before.quote or len(before.text) + len(key.text) > _LONGEST_POINT:
        return False
    first, second = _HALF_POINT.fullmatch(before.text), _HALF_POINT.fullmatch(key.text)
    return bool(first and second and (first[1] in _ACROSS) != (second[1] in _ACROSS))


def _place(mark: Any) -> Place:
    return Place(line=mark.line + 1, column=mark.column + 1, index=mark.index)


def _without(text: str, fault: Fault) -> str:
    """Blank the lines a fault takes with it, so that what follows can be read."""
    lines = text.splitlines(keepends=True)
    for number in range(fault.first_line - 1, min(fault.last_line, len(lines))):
        ending = lines[number][len(lines[number].rstrip("\r\n")) :]
        lines[number] = ending
    return "".join(lines)


def _unexplained(error: Exception, name: str, kind: FileKind) -> Fault:
    finding = Finding(
        rule="file.yaml",
        about="the file",
        found=f"it cannot be read as YAML ({type(error).__name__}).",
        expected="names, colons, and what belongs to them indented below.",
        do=f"Compare it with the worked example in {kind.guide}.",
        where=Where(file=name, line=1, column=1),
    )
    return Fault(finding=finding, first_line=0, last_line=0)
