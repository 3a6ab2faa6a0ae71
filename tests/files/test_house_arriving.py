"""What arrives that is no house file is named, and quickly."""

import gzip
import io
import time
import zipfile

import pytest

from setday.files import LARGEST_BYTES
from tests.files.typed import PLAIN, SHED, read


def zip_bomb() -> bytes:
    """Return a small archive that would unpack to 50 MB."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("house.yaml", b"0" * 50_000_000)
    return packed.getvalue()


def laughs() -> bytes:
    """Return nine aliases of nine aliases of nine aliases ..."""
    lines = ["setday house: 1", "a0: &a0 [x, x]"]
    lines += [f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 12)]
    return "\n".join(lines).encode()


STRANGE = [
    ("empty", b"", "file.empty", "docs/house-file.md"),
    ("blank", b" \n\n", "file.empty", "practice shed"),
    ("a byte-order mark only", b"\xef\xbb\xbf", "file.empty", "nothing is written"),
    ("a comment only", b"# later\n", "file.empty", "nothing is written"),
    ("a zip bomb", zip_bomb(), "file.kind", "a zip archive"),
    ("gzip", gzip.compress(PLAIN.encode()), "file.kind", "a gzip archive"),
    ("PDF", b"%PDF-1.7\n%\xe2\xe3", "file.kind", "a PDF"),
    ("PNG", b"\x89PNG\r\n\x1a\n", "file.kind", "a PNG picture"),
    ("any binary", bytes(range(256)) * 40, "file.kind", "a binary file"),
    ("UTF-16", PLAIN.encode("utf-16"), "file.encoding", "UTF-16"),
    ("UTF-16 without a mark", PLAIN.encode("utf-16-be"), "file.encoding", "UTF-16"),
    ("UTF-32", PLAIN.encode("utf-32"), "file.encoding", "UTF-32"),
    ("an older encoding", PLAIN.replace("Practice", "Caf\xe9").encode("latin-1"), "file.encoding", "'é'"),
    ("40 MB", b"wall: east 24'\n" * 2_700_000, "file.size", "40,500,000 bytes"),
    ("text past the limit", "x" * (LARGEST_BYTES + 1), "file.size", "characters"),
    ("aliases of aliases", laughs(), "file.alias", "marks a place to be repeated"),
    ("brackets in brackets", b"setday house: " + b"[" * 150_000, "file.depth", "nested more than"),
    ("indents in indents", "".join(f"{' ' * n}k:\n" for n in range(600)).encode(), "file.depth", "nested"),
    ("far too many entries", b"a: [" + b"1," * 90_000 + b"]", "file.size", "far more entries"),
    ("a list", b"- one\n- two\n", "file.kind", "no names with values"),
    ("a page", b"<html><body>x</body></html>", "file.kind", "no names with values"),
    (
        "another YAML file",
        b"version: 3\nservices: {a: {image: b}}\n",
        "file.form",
        "'setday house: 1' is missing",
    ),
    ("two documents", (PLAIN + "---\n" + PLAIN).encode(), "file.documents", "a second document"),
]


@pytest.mark.parametrize(
    ("data", "rule", "words"), [row[1:] for row in STRANGE], ids=[row[0] for row in STRANGE]
)
def test_what_is_no_house_file_is_named_within_two_seconds(data, rule, words):
    begun = time.process_time()
    file = read(data)
    assert time.process_time() - begun < 2
    assert file.description is None
    assert any(each.rule == rule and words in str(each) for each in file.findings), file.findings


def test_an_older_encoding_does_not_hide_the_other_findings():
    text = PLAIN.replace("Practice", "Caf\xe9").replace("east 24'", "east 24")
    rules = {each.rule for each in read(text.encode("latin-1")).findings}
    assert rules == {"file.encoding", "file.entry"}


def test_a_byte_order_mark_is_no_fault():
    assert read(b"\xef\xbb\xbf" + SHED.encode()).findings == ()


@pytest.mark.parametrize("ending", ["\r\n", "\r"])
def test_line_endings_of_other_machines_are_no_fault(ending):
    file = read(SHED.replace("\n", ending))
    assert file.findings == ()
    assert file.text == SHED.replace("\n", ending)


def test_a_file_just_under_the_limit_is_read_within_two_seconds():
    walls = "".join(
        f"  wall {n}: {{runs: north, from: south, to: north, west face: {n}' east of west}}\n"
        for n in range(9999)
    )
    text = PLAIN.replace("openings:\n", f"{walls}openings:\n")[:LARGEST_BYTES]
    begun = time.process_time()
    read(text)
    assert time.process_time() - begun < 2


def test_lone_surrogates_in_text_are_no_accident():
    assert any(
        each.rule == "file.odd-character" for each in read(PLAIN.replace("Practice", "\ud800")).findings
    )
