"""What the reading of one file has found so far, and names as people write them."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from setday.files.written.kind import FileKind
from setday.files.written.tree import Node, Path, locate
from setday.findings import Finding, Severity, Where

__all__ = ["Names", "Notebook", "nearest"]


@dataclass(slots=True, kw_only=True)
class Notebook:
    """Findings in the making; knows where every entry stands and what kind of file it is."""

    file: str
    root: Node
    kind: FileKind
    findings: list[Finding] = field(default_factory=list)

    def where(self, path: Path, *, at_key: bool = False) -> Where:
        """Return where a path leads in the file.

        Parameters
        ----------
        path : tuple of str or int
        at_key : bool
            Point at the key instead of the value.
        """
        return locate(self.root, path, file=self.file, at_key=at_key)

    def find(
        self,
        path: Path,
        *,
        rule: str,
        found: str,
        expected: str = "",
        do: str = "",
        severity: Severity = Severity.PROBLEM,
        at_key: bool = False,
    ) -> None:
        """Note a finding about the entry at `path`."""
        self.findings.append(
            Finding(
                rule=rule,
                about=self.kind.spoken(path),
                found=found,
                expected=expected,
                do=do,
                where=self.where(path, at_key=at_key),
                severity=severity,
            )
        )


def nearest(word: str, known: Iterable[str]) -> str:
    """Return the known word most like a misspelled one, or an empty text."""
    by_lower = {name.lower(): name for name in known}
    close = get_close_matches(word[:60].lower(), list(by_lower)[:500], n=1, cutoff=0.6)
    return by_lower[close[0]] if close else ""


class Names:
    """The names of one kind of thing, found as people write them.

    Capitals do not matter, and a wall called "south" is also found as "south wall".
    """

    def __init__(self, names: Iterable[str], *, ending: str = "") -> None:
        self.names = tuple(names)
        self._ending = f" {ending}" if ending else ""
        self._by_form = {self._form(name): name for name in reversed(self.names)}
        self._by_form |= {name.lower(): name for name in reversed(self.names)}

    def find(self, written: str) -> str | None:
        """Return the name meant, or None."""
        low = " ".join(written.split()).lower()
        return self._by_form.get(low) or self._by_form.get(self._form(low))

    def unknown(self, written: str, what: str) -> tuple[str, str, str]:
        """Return found, expected and do for a name that is not there."""
        like = nearest(written, self.names)
        shown = ", ".join(self.names[:12]) + (" ..." if len(self.names) > 12 else "")
        return (
            f"there is no {what} '{written[:60]}'.",
            f"one of: {shown}." if self.names else f"a {what} of this file; none is written yet.",
            f"Did you mean '{like}'?" if like else f"Correct the name, or write the {what}.",
        )

    def _form(self, name: str) -> str:
        return name.lower().removesuffix(self._ending) if self._ending else name.lower()
