"""The site's words in other languages: from the .po files people edit to the .mo files Django reads.

``python -m setday.web.words`` compiles them; nothing but Python is needed.
"""

import ast
import struct
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from pathlib import Path

__all__ = ["Entry", "compile_all", "compiled", "read_entries"]

FOLDER = Path(__file__).parent / "locale"
_MAGIC = 0x950412DE
_HEAD = 7 * 4


@dataclass(slots=True, kw_only=True)
class Entry:
    """One message: its words, their plural, and what they become."""

    msgid: str = ""
    plural: str = ""
    becomes: dict[int, str] = field(default_factory=dict)
    fuzzy: bool = False


def read_entries(text: str) -> list[Entry]:
    """Return the messages of a .po file, its head (the empty message) first."""
    return [entry for block in text.split("\n\n") if (entry := _entry(block)) is not None]


def _entry(block: str) -> Entry | None:
    entry, target, seen = Entry(), "", False
    for line in block.splitlines():
        if line.startswith("#"):
            entry.fuzzy = entry.fuzzy or (line.startswith("#,") and "fuzzy" in line)
            continue
        text = line
        if not line.startswith('"'):
            target, _, text = line.partition(" ")
        if text:
            seen = True
            _add(entry, target, ast.literal_eval(text))
    return entry if seen else None


def _add(entry: Entry, target: str, text: str) -> None:
    if target == "msgid":
        entry.msgid += text
    elif target == "msgid_plural":
        entry.plural += text
    elif target.startswith("msgstr"):
        number = int(target[7:-1]) if "[" in target else 0
        entry.becomes[number] = entry.becomes.get(number, "") + text


def compiled(entries: list[Entry]) -> bytes:
    """Return the .mo file of messages; those without a translation are left out."""
    pairs = dict(sorted(_pairs(entries)))
    return _mo(pairs)


def _pairs(entries: list[Entry]) -> Iterator[tuple[bytes, bytes]]:
    for entry in entries:
        becomes = [entry.becomes[number] for number in sorted(entry.becomes)]
        if entry.fuzzy or not all(becomes):
            continue
        key = f"{entry.msgid}\0{entry.plural}" if entry.plural else entry.msgid
        yield key.encode(), "\0".join(becomes).encode()


def _mo(pairs: Mapping[bytes, bytes]) -> bytes:
    """Lay the file out: head, table of messages, table of translations, then the texts, each ended by 0."""
    texts = [*pairs.keys(), *pairs.values()]
    at = _HEAD + 8 * len(texts)
    tables = b""
    for text in texts:
        tables += struct.pack("<II", len(text), at)
        at += len(text) + 1
    head = struct.pack("<7I", _MAGIC, 0, len(pairs), _HEAD, _HEAD + 8 * len(pairs), 0, 0)
    return head + tables + b"".join(text + b"\0" for text in texts)


def compile_all(folder: Path = FOLDER) -> None:
    """Write the .mo file beside every .po file."""
    for path in sorted(folder.glob("*/LC_MESSAGES/*.po")):
        path.with_suffix(".mo").write_bytes(compiled(read_entries(path.read_text(encoding="utf-8"))))


if __name__ == "__main__":
    compile_all()
