"""From the bytes that arrive to text, or the reason why they are no file that people write."""

import re
from dataclasses import dataclass

from setday.files.written.kind import FileKind
from setday.findings import Finding, Where

__all__ = ["LARGEST_BYTES", "Arrived", "arrive", "nothing_written"]

LARGEST_BYTES = 200_000
"""No file of ours comes near: a large house takes a fifth of it, and it must be read within two seconds."""

_MAGIC = (
    (b"PK\x03\x04", "a zip archive (spreadsheets and word-processor files are zip archives too)"),
    (b"PK\x05\x06", "an empty zip archive"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"BZh", "a bzip2 archive"),
    (b"\xfd7zXZ", "an xz archive"),
    (b"7z\xbc\xaf", "a 7z archive"),
    (b"Rar!", "a rar archive"),
    (b"%PDF", "a PDF"),
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"\xd0\xcf\x11\xe0", "an old word-processor or spreadsheet file"),
    (b"SQLite format 3", "a database"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
    (b"{\\rtf", "a rich-text document"),
)
_WIDE = (
    (b"\xff\xfe\x00\x00", "UTF-32"),
    (b"\x00\x00\xfe\xff", "UTF-32"),
    (b"\xff\xfe", "UTF-16"),
    (b"\xfe\xff", "UTF-16"),
)
_ODD = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff\ud800-\udfff]")
_FEW = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrived:
    """Text as it arrived, without a byte-order mark; None where there is nothing to read on with.

    `readable` is the same text with what YAML would choke on made harmless, so that the rest can be
    checked too; where nothing is found, it is the same character for character.
    """

    text: str
    readable: str | None
    findings: tuple[Finding, ...]


def arrive(data: bytes | str, *, name: str, kind: FileKind) -> Arrived:
    """Turn what arrived into text.

    Parameters
    ----------
    data : bytes or str
        Anything at all.
    name : str
        File name for the findings.
    kind : FileKind
        What it should be.
    """
    if isinstance(data, str):
        if len(data) > LARGEST_BYTES:
            return _too_large(data, name, kind)
        return _text(data.removeprefix("\ufeff"), name, kind)
    what = _not_text(data)
    if what:
        return _refused(name, "file.kind", f"this is {what}, not a {kind.name}.", _itself(kind))
    if len(data) > LARGEST_BYTES:
        return _too_large(data, name, kind)
    wide = next((kind for magic, kind in _WIDE if data.startswith(magic)), "")
    if wide or _looks_wide(data):
        found = f"the file is written as {wide or 'UTF-16'}."
        return _refused(name, "file.encoding", found, "Save it again with the encoding UTF-8.")
    try:
        return _text(data.removeprefix(b"\xef\xbb\xbf").decode("utf-8"), name, kind)
    except UnicodeDecodeError as error:
        return _not_utf8(data, error, name, kind)


def _itself(kind: FileKind) -> str:
    return f"Give the {kind.name} itself: plain text, usually ending in .yaml."


def _not_text(data: bytes) -> str:
    for magic, kind in _MAGIC:
        if data.startswith(magic):
            return kind
    start = data[:4096]
    odd = sum(byte < 9 or 13 < byte < 32 for byte in start)
    if odd * 10 > len(start) and not _looks_wide(data) and not start.startswith((b"\xff\xfe", b"\xfe\xff")):
        return "a binary file"
    return ""


def _looks_wide(data: bytes) -> bool:
    """Tell whether every other byte of the beginning is nothing, as in UTF-16 without its mark."""
    start = data[:200]
    return len(start) > 3 and (not any(start[1::2]) or not any(start[::2]))


def _too_large(data: bytes | str, name: str, kind: FileKind) -> Arrived:
    found = f"the file has {len(data):,} {'bytes' if isinstance(data, bytes) else 'characters'}."
    return _refused(
        name,
        "file.size",
        found,
        "Check that it is the right file.",
        f"at most {LARGEST_BYTES:,}; a {kind.name} takes far fewer.",
    )


def _refused(name: str, rule: str, found: str, do: str, expected: str = "a text file in UTF-8.") -> Arrived:
    finding = Finding(
        rule=rule,
        about="the file",
        found=found,
        expected=expected,
        do=do,
        where=Where(file=name, line=1, column=1),
    )
    return Arrived(text="", readable=None, findings=(finding,))


def _not_utf8(data: bytes, error: UnicodeDecodeError, name: str, kind: FileKind) -> Arrived:
    line = data.count(b"\n", 0, error.start) + 1
    column = error.start - (data.rfind(b"\n", 0, error.start) + 1) + 1
    meant = data[error.start : error.start + 1].decode("cp1252", errors="replace")
    finding = Finding(
        rule="file.encoding",
        about="the file",
        found=f"it is not UTF-8; here stands byte {data[error.start]:#04x} ({meant!r} in an older encoding).",
        expected="a text file in UTF-8.",
        do="Save it again with the encoding UTF-8.",
        where=Where(file=name, line=line, column=column),
    )
    rest = _text(data.decode("cp1252", errors="replace"), name, kind)
    return Arrived(text=rest.text, readable=rest.readable, findings=(finding, *rest.findings))


def _text(text: str, name: str, kind: FileKind) -> Arrived:
    if not text.strip():
        return Arrived(text=text, readable=None, findings=(nothing_written(name, kind),))
    readable, findings = _harmless(text, name)
    return Arrived(text=text, readable=readable, findings=findings)


def nothing_written(name: str, kind: FileKind) -> Finding:
    """Return the finding about a file that says nothing.

    Parameters
    ----------
    name : str
        Its name.
    kind : FileKind
        What it should be.
    """
    return Finding(
        rule="file.empty",
        about="the file",
        found="nothing is written in it.",
        expected=kind.as_expected,
        do=kind.how_to_begin,
        where=Where(file=name, line=1, column=1),
    )


def _harmless(text: str, name: str) -> tuple[str, tuple[Finding, ...]]:
    """Replace tabs and unprintable characters by spaces; report those that matter."""
    findings: list[Finding] = []
    lines = re.split(r"(\r\n|\r|\n)", text)
    for number, line in enumerate(lines[::2], start=1):
        indent = re.match(r" *[^\S \r\n]\s*", line)
        if indent and line.strip() and not line.strip().startswith("#"):
            lines[2 * number - 2] = indent[0].expandtabs(2) + line[indent.end() :]
            findings.append(_indent(line, Where(file=name, line=number, column=1)))
        if odd := _ODD.search(line):
            findings.append(_odd(odd[0], Where(file=name, line=number, column=odd.start() + 1)))
    if len(findings) > _FEW:
        findings = [*findings[:_FEW], _more(len(findings) - _FEW, name)]
    return _ODD.sub(" ", re.sub(r"[^\S\r\n]", " ", "".join(lines))), tuple(findings)


def _indent(line: str, where: Where) -> Finding:
    tab = "\t" in line[: len(line) - len(line.lstrip())]
    what = "a tab" if tab else "an unusual space (often pasted from a page)"
    return Finding(
        rule="file.tab" if tab else "file.odd-character",
        about=f"line {where.line}",
        found=f"it is indented with {what}.",
        expected="spaces; a tab is as wide as each program likes.",
        do="Replace it by two spaces for each step inward; most editors turn all tabs into spaces at once.",
        where=where,
    )


def _odd(character: str, where: Where) -> Finding:
    return Finding(
        rule="file.odd-character",
        about=f"line {where.line}",
        found=f"it holds an unprintable character (code {ord(character):#x}).",
        expected="characters that can be seen.",
        do="Delete it and type the place again.",
        where=where,
    )


def _more(count: int, name: str) -> Finding:
    return Finding(
        rule="file.odd-character",
        about="the file",
        found=f"{count} more lines hold tabs or unprintable characters.",
        do="Put the first ones right and check again.",
        where=Where(file=name, line=1, column=1),
    )
