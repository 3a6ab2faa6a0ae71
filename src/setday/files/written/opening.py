"""A file that people write, opened: its tree, and what is wrong with its text whatever it means."""

from collections.abc import Iterable
from dataclasses import dataclass

from setday.files.written.arriving import arrive, nothing_written
from setday.files.written.kind import FileKind
from setday.files.written.notebook import Notebook
from setday.files.written.tree import Mapping
from setday.files.written.yaml_text import read_tree
from setday.findings import Finding, Severity, Where, in_order

__all__ = ["Opened", "few_enough", "is_of", "open_written"]

_MOST_FINDINGS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A file as opened.

    Parameters
    ----------
    text : str
        As it arrived.
    root : Mapping or None
        None where it does not hold names with values; the findings say why.
    whole : bool
        Whether no line had to be passed over.
    findings : tuple of Finding
    """

    text: str
    root: Mapping | None
    whole: bool
    findings: tuple[Finding, ...]


def open_written(data: bytes | str, *, name: str, kind: FileKind) -> Opened:
    """Open a file; whatever arrives, nothing is raised.

    Parameters
    ----------
    data : bytes or str
        The file as it arrived.
    name : str
        Its name, for the findings.
    kind : FileKind
        What it should be.
    """
    arrived = arrive(data, name=name, kind=kind)
    if arrived.readable is None:
        return Opened(text=arrived.text, root=None, whole=False, findings=arrived.findings)
    read = read_tree(arrived.readable, name=name, kind=kind)
    found = (*arrived.findings, *read.findings)
    if isinstance(read.root, Mapping):
        return Opened(text=arrived.text, root=read.root, whole=read.whole, findings=found)
    if read.root is not None:
        at = Where(file=name, line=read.root.start.line, column=read.root.start.column)
        found = (*found, _no_names(at, kind))
    return Opened(text=arrived.text, root=None, whole=False, findings=found or (nothing_written(name, kind),))


def _no_names(where: Where, kind: FileKind) -> Finding:
    return Finding(
        rule="file.kind",
        about="the file",
        found="it holds no names with values.",
        expected=kind.as_expected,
        do=kind.how_to_begin,
        where=where,
    )


def is_of(kind: FileKind, plain: dict[str, object], notebook: Notebook) -> bool:
    """Tell whether a file says that it is of a kind and form; note it where it does not.

    Parameters
    ----------
    kind : FileKind
    plain : dict
        What is written, by key.
    notebook : Notebook
    """
    form = plain.get(kind.mark)
    if form == kind.form:
        return True
    if kind.mark not in plain:
        found, do = f"the line '{kind.first_line}' is missing.", (
            f"If this is a {kind.name}, make it the first line."
        )  # fmt: skip
    else:
        found, do = f"its form is {form!r}.", (
            f"Write {kind.first_line}, or use a newer Setday for a newer form."
        )  # fmt: skip
    notebook.find((kind.mark,), rule="file.form", found=found, expected=kind.first_line, do=do)
    return False


def few_enough(findings: Iterable[Finding], *, name: str, kind: FileKind) -> tuple[Finding, ...]:
    """Return the findings in the order of the file, no more of them than a person can take in.

    A file with more of them is most likely another file.

    Parameters
    ----------
    findings : iterable of Finding
    name : str
        The file's name.
    kind : FileKind
    """
    listed = in_order(findings)
    if len(listed) <= _MOST_FINDINGS:
        return listed
    more = Finding(
        rule="file.many",
        about="the file",
        found=f"{len(listed) - _MOST_FINDINGS:,} more findings are not listed.",
        expected=f"a {kind.name} with a few slips.",
        do="Put the first ones right and check again.",
        where=Where(file=name, line=listed[_MOST_FINDINGS].where.line, column=1),
    )
    worst = sorted(listed, key=lambda each: each.severity is not Severity.PROBLEM)[:_MOST_FINDINGS]
    return (*in_order(worst), more)
