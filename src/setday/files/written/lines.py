"""Plain values as lines of YAML, in the manner of the worked example."""

import json
import re
from collections.abc import Iterator
from functools import cache

from setday.files.written.kind import ANY_YAML
from setday.files.written.tree import to_plain
from setday.files.written.yaml_text import read_tree

__all__ = ["Plain", "block_lines", "entry_lines", "flow_text", "scalar_text"]

Plain = str | dict[str, "Plain"] | list["Plain"]
_STEP = 2
_WIDEST = 110
_HARMLESS = re.compile(r"""[A-Za-z0-9](?:[A-Za-z0-9 '"/.\-]*[A-Za-z0-9'"/.\-])?""")
"""Text of such signs only means nothing to YAML wherever it stands."""


def block_lines(value: dict[str, Plain] | list[Plain], *, indent: int) -> list[str]:
    """Return the lines of a mapping or a list, one entry on each line.

    Parameters
    ----------
    value : dict or list
    indent : int
        Columns before each line.
    """
    pad = " " * indent
    if isinstance(value, dict):
        return [
            line for key, each in value.items() for line in _entry(f"{pad}{scalar_text(key)}:", each, indent)
        ]
    return [f"{pad}- {flow_text(each)}" for each in value]


def entry_lines(name: str, value: dict[str, Plain], *, indent: int) -> list[str]:
    """Return an entry in braces, broken between its keys where one line does not hold it.

    Parameters
    ----------
    name : str
    value : dict
    indent : int
        Columns before it.
    """
    head = f"{' ' * indent}{scalar_text(name)}: {{"
    pad = " " * (indent + _STEP)
    lines = [head]
    for token in _tokens(value):
        if lines[-1] == head:
            lines[-1] += token
        elif len(lines[-1]) + 1 + len(token) <= _WIDEST:
            lines[-1] += f" {token}"
        else:
            lines.append(f"{pad}{token}")
    return lines


def _tokens(value: dict[str, Plain]) -> Iterator[str]:
    """Yield the parts of an entry in braces between which a line may be broken."""
    for n, (key, each) in enumerate(value.items()):
        end = "}" if n + 1 == len(value) else ","
        head = f"{scalar_text(key, flow=True)}: "
        if isinstance(each, list) and len(each) > 1:
            texts = [flow_text(item) for item in each]
            yield f"{head}[{texts[0]},"
            yield from (f"{text}," for text in texts[1:-1])
            yield f"{texts[-1]}]{end}"
        else:
            yield f"{head}{flow_text(each)}{end}"


def _entry(head: str, value: Plain, indent: int) -> list[str]:
    if isinstance(value, str) or not value:
        return [f"{head} {flow_text(value) if not isinstance(value, str) else scalar_text(value)}"]
    return [head, *block_lines(value, indent=indent + _STEP)]


def flow_text(value: Plain) -> str:
    """Return a value on one line, in braces or brackets where it is not plain text.

    Parameters
    ----------
    value : str, dict or list
    """
    if isinstance(value, dict):
        inner = ", ".join(f"{scalar_text(key, flow=True)}: {flow_text(each)}" for key, each in value.items())
        return f"{{{inner}}}"
    if isinstance(value, list):
        return f"[{', '.join(flow_text(each) for each in value)}]"
    return scalar_text(value, flow=True)


@cache
def scalar_text(text: str, *, flow: bool = False) -> str:
    """Return text as YAML, with quotes only where it needs them.

    Parameters
    ----------
    text : str
    flow : bool
        True inside braces or brackets.
    """
    if _HARMLESS.fullmatch(text) or _reads_back(text, text, flow=flow):
        return text
    quoted = "'" + text.replace("'", "''") + "'"
    return quoted if _reads_back(quoted, text, flow=flow) else json.dumps(text)


def _reads_back(written: str, text: str, *, flow: bool) -> bool:
    if not written or written != written.strip() or "\n" in written or "\r" in written:
        return False
    read = read_tree(
        f"[{{{written}: x}}, {written}]" if flow else f"{written}: {written}\n", name="", kind=ANY_YAML
    )
    if read.findings or not read.whole or read.root is None:
        return False
    return to_plain(read.root) == ([{text: "x"}, text] if flow else {text: text})
