"""Why YAML stopped reading, in words of a person who types such files."""

import re
from dataclasses import dataclass

from ruamel.yaml.error import MarkedYAMLError

from setday.files.written.kind import FileKind
from setday.findings import Finding, Where

__all__ = ["Fault", "explain", "unclosed"]

_LOOK_BACK = 40
_NO_SPACE = re.compile(r"^\s*(?:- )?[^\s#:{}\[\]][^#:{}\[\]]*:[^\s:]")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """A fault and the lines to pass over to read on."""

    finding: Finding
    first_line: int
    last_line: int


def explain(error: MarkedYAMLError, text: str, *, file: str, kind: FileKind) -> Fault:
    """Say what is wrong where YAML stopped.

    Parameters
    ----------
    error : MarkedYAMLError
    text : str
        The text that was read.
    file : str
        Its name.
    kind : FileKind
        What it should be.
    """
    lines = text.splitlines() or [""]
    at = _line(error.problem_mark, lines)
    since = _line(error.context_mark, lines)
    problem = f"{error.problem or ''}"
    first, found, expected, do = _told(problem, f"{error.context or ''}", (since, at), lines, kind)
    column = error.problem_mark.column + 1 if error.problem_mark and first == at else 1
    finding = Finding(
        rule="file.yaml",
        about=f"line {first}",
        found=found,
        expected=expected,
        do=do,
        where=Where(file=file, line=first, column=column),
    )
    last = at if "flow" in f"{error.context}" else _block_end(first, lines)
    if "is never closed" in found:
        last = first
    return Fault(finding=finding, first_line=first, last_line=max(first, last))


def unclosed(number: int, text: str, *, file: str) -> Fault:
    """Say that a quote mark opens on a line and is not closed there.

    Parameters
    ----------
    number : int
        The line.
    text : str
        The text that was read.
    file : str
        Its name.
    """
    found, expected, do = _open_quote(number, text.splitlines()[number - 1])
    finding = Finding(
        rule="file.yaml",
        about=f"line {number}",
        found=found,
        expected=expected,
        do=do,
        where=Where(file=file, line=number, column=1),
    )
    return Fault(finding=finding, first_line=number, last_line=number)


def _line(mark: object, lines: list[str]) -> int:
    number = getattr(mark, "line", 0) + 1
    return max(1, min(number, len(lines)))


def _told(
    problem: str, context: str, at: tuple[int, int], lines: list[str], kind: FileKind
) -> tuple[int, str, str, str]:
    """Return the line at fault, what was found, what was expected and what to do."""
    since, stopped = at
    if opened := _unclosed(stopped, lines) or (since if "quoted scalar" in context else 0):
        return opened, *_open_quote(opened, lines[opened - 1])
    if "flow" in context:
        return _bracket(since, stopped, lines)
    if quoted := _quoted_line(stopped, lines) if "found '<scalar>'" in problem else 0:
        return quoted, *_early_quote(lines[quoted - 1])
    if bare := _no_space(stopped, lines):
        return bare, *_unspaced(lines[bare - 1])
    if "mapping values are not allowed" in problem or "could not find expected ':'" in problem:
        return _colon(stopped, lines)
    if "cannot start any token" in problem:
        return stopped, *_odd_start(problem)
    if "block collection" in context or "found '-'" in problem or "sequence entries" in problem:
        return stopped, *_dashes(problem, lines[stopped - 1])
    return _uneven(stopped, problem, lines, kind)


def _quoted_line(stopped: int, lines: list[str]) -> int:
    """Return the nearest line, going up, whose value begins with a quote mark; 0 where none does."""
    for number in range(stopped, max(0, stopped - _LOOK_BACK), -1):
        if re.search(r"""[:\-,{\[]\s+["']|^\s*["']""", lines[number - 1]):
            return number
    return 0


def _no_space(stopped: int, lines: list[str]) -> int:
    """Return the line, here or just above, whose colon lacks its space; 0 where none does."""
    for number in (_before(stopped, lines), stopped):
        if _NO_SPACE.match(lines[number - 1]) and ": " not in lines[number - 1]:
            return number
    return 0


def _before(stopped: int, lines: list[str]) -> int:
    return next((n for n in range(stopped - 1, 0, -1) if lines[n - 1].strip()), stopped)


def _unspaced(line: str) -> tuple[str, str, str]:
    return (
        f"there is no space after the colon: {_cut(line)}",
        "a name, a colon, a space, and then what it says.",
        "Add a space after the colon.",
    )


def _unclosed(stopped: int, lines: list[str]) -> int:
    """Return the first line whose value begins with a quote mark that the line does not close; 0 for none.

    YAML lets quoted text run over many lines; here it never does, so what YAML stumbles over further down
    is only where the next quote mark happened to stand.
    """
    for number, line in enumerate(lines[:stopped], start=1):
        opened = _QUOTED_VALUE.match(line)
        if opened and not _CLOSED[opened[1]].match(line, opened.end()):
            return number
    return 0


_QUOTED_VALUE = re.compile(r"""(?:[^#"'\n]*?[:,{\[]\s*|\s*(?:- +)*)(["'])""")
_CLOSED = {'"': re.compile(r'(?:[^"\\]|\\.)*"'), "'": re.compile(r"(?:[^']|'')*'")}


def _open_quote(number: int, line: str) -> tuple[str, str, str]:
    return (
        f"a quote opens on line {number} and is never closed: {_cut(line)}",
        "a quote mark at the end of the text too, on the same line, or none at all.",
        f"Close it on line {number}, or take it out: names and lengths need no quotes around them.",
    )


_QUOTE_ADVICE = (
    "Write it without quotes around it: 3'-0\" x 6'-8\". Where quotes are needed, use single ones around "
    "the whole and write each foot mark inside twice: '3''-0\" x 6''-8\"'."
)


def _early_quote(line: str) -> tuple[str, str, str]:
    return (
        f"the quoted text ends at its second quote mark, and more follows: {_cut(line)}",
        "a length that starts with its number needs no quotes around it.",
        _QUOTE_ADVICE,
    )


def _bracket(since: int, stopped: int, lines: list[str]) -> tuple[int, str, str, str]:
    line = lines[since - 1]
    if re.search(r"""[\[{,:]\s*["']""", line) and since == stopped:
        return since, *_early_quote(line)
    kind, close = ("brace {", "}") if "{" in line and "}" not in line else ("bracket [", "]")
    found = f"a {kind} opens here and is not closed, or a comma is missing: {_cut(line)}"
    return (
        since,
        found,
        f"entries parted by commas, closed by {close}.",
        f"Close it with {close}, or add the comma.",
    )


def _colon(stopped: int, lines: list[str]) -> tuple[int, str, str, str]:
    before = _before(stopped, lines)
    line = lines[stopped - 1]
    if line.count(": ") + line.rstrip().endswith(":") > 1:
        return (
            stopped,
            f"the line has two colons: {_cut(line)}",
            "one name and one value on a line.",
            "Put the second name on a line of its own, indented under the first, or use braces: {one: ...}.",
        )
    if _indent(line) > _indent(lines[before - 1]):
        return (
            stopped,
            f"the line is indented under '{lines[before - 1].strip()[:40]}', which already has its value.",
            "only a name with nothing after its colon has lines indented below it.",
            "Indent it like the line above, or move the value of the line above to a line of its own.",
        )
    return (
        before,
        f"no colon is found after the name: {_cut(lines[before - 1])}",
        "a name and a colon.",
        "Add the colon.",
    )


def _dashes(problem: str, line: str) -> tuple[str, str, str]:
    if "sequence entries are not allowed" in problem:
        return (
            "a dash begins a list on the line of its name.",
            "a list below its name.",
            "Put each dash on a line of its own, indented under the name.",
        )
    return (
        f"names with colons and entries with dashes are mixed here: {_cut(line)}",
        "either names or dashes at one depth.",
        "Write it like its neighbours.",
    )


def _odd_start(problem: str) -> tuple[str, str, str]:
    sign = re.search(r"character '(.+?)'", problem)
    shown = sign[1] if sign else "a sign"
    return (
        f"{shown} cannot begin a value.",
        "a value that begins with a letter or a number.",
        "Put quotes around the whole value, or take the sign out.",
    )


def _uneven(stopped: int, problem: str, lines: list[str], kind: FileKind) -> tuple[int, str, str, str]:
    line = lines[stopped - 1]
    before = _before(stopped, lines)
    if problem.startswith("expected <block end>") or "expected the node content" in problem:
        return (
            stopped,
            f"the line does not stand under any line above it: {_cut(line)}",
            "lines that belong together begin at the same column.",
            (
                f"Indent it like its neighbours; the line before it (line {before}) begins at column"
                f" {_indent(lines[before - 1]) + 1}, this one at column {_indent(line) + 1}."
            ),
        )
    return (
        stopped,
        f"this cannot be read as YAML: {_cut(line)}",
        "a name, a colon, and what belongs to it.",
        f"Compare it with the worked example in {kind.guide}.",
    )


def _indent(line: str) -> int:
    return len(line) - len(line.lstrip(" "))


def _block_end(first: int, lines: list[str]) -> int:
    """Return the last line of what is indented under a line."""
    last = first
    for number in range(first + 1, len(lines) + 1):
        line = lines[number - 1]
        if line.strip() and _indent(line) <= _indent(lines[first - 1]):
            break
        last = number
    return last


def _cut(line: str) -> str:
    shown = line.strip()
    return shown if len(shown) <= 60 else f"{shown[:57]}..."
