"""Walking the tree of a hookup file, noting what cannot be read."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from setday.files.hookup.phrases import Misread
from setday.files.written.tree import Entry, Listing, Mapping, Node, Scalar
from setday.findings import Finding, Where

__all__ = ["TreeReader"]

_T = TypeVar("_T")


@dataclass(slots=True, kw_only=True)
class TreeReader:
    """Reads the tree of one file, noting what it cannot read."""

    file: str
    findings: list[Finding] = field(default_factory=list)

    def where(self, node: Node | None) -> Where:
        """Return where a node begins."""
        if node is None:
            return Where(file=self.file, line=1, column=1)
        return Where(file=self.file, line=node.start.line, column=node.start.column)

    def find(self, node: Node | None, about: str, found: str, expected: str, do: str) -> None:
        """Note a finding at a node."""
        self.findings.append(
            Finding(
                rule="switching.file",
                about=about,
                found=found,
                expected=expected,
                do=do,
                where=self.where(node),
            )
        )

    def value(self, node: Node, about: str, read: Callable[[str], _T], otherwise: _T) -> _T:
        """Read one line of text, or note what is wrong with it."""
        if not isinstance(node, Scalar):
            self.find(
                node,
                about,
                "a list or further names stand here.",
                "one line of text.",
                "Write it after the colon or the dash.",
            )
            return otherwise
        try:
            return read(node.text.strip())
        except Misread as error:
            self.find(node, about, error.found, error.expected, error.do)
            return otherwise

    def entries(self, node: Node | None, about: str, known: tuple[str, ...] = ()) -> Iterator[Entry]:
        """Yield the entries of a mapping; note what is none, and unknown names where names are fixed."""
        if node is None or (isinstance(node, Scalar) and not node.text):
            return
        if not isinstance(node, Mapping):
            self.find(
                node,
                about,
                "it is not written as names with colons.",
                "a name and a colon on each line.",
                "Write each name with a colon, and what belongs to it after it or indented below.",
            )
            return
        for entry in node.entries:
            if known and entry.key.text not in known:
                self.find(
                    entry.key,
                    about,
                    f"'{entry.key.text}' is no name used here.",
                    f"one of {', '.join(known)}.",
                    "Check its spelling, or take the line out.",
                )
            else:
                yield entry

    def items(self, node: Node | None, about: str) -> Iterator[Node]:
        """Yield the lines of a list."""
        if node is None or (isinstance(node, Scalar) and not node.text):
            return
        if not isinstance(node, Listing):
            self.find(
                node,
                about,
                "it is not written as a list.",
                "a line with a dash for each.",
                "Begin each line with a dash, indented under the name.",
            )
            return
        yield from node.items
