"""A roster in whatever form it arrives: typed lines, a CSV file, or OneRoster."""

import re
from collections.abc import Mapping
from itertools import islice

from setday.files.delimited import Complaints, Layout, Row, read_table, text_of
from setday.files.rosters.dates import read_births
from setday.files.rosters.entries import RosterClass, RosterEntry, RosterList, with_doubles
from setday.files.rosters.oneroster import is_oneroster, read_oneroster, unzipped
from setday.findings import Finding, Where, in_order

__all__ = ["MOST_PEOPLE", "read_roster", "read_roster_files"]

MOST_PEOPLE = 2_000
"""A typed or CSV list of more is no class list."""

_GIVEN = ("given_name", "givenname", "first_name", "firstname", "given", "first", "nombre")
_FAMILY = ("family_name", "familyname", "last_name", "lastname", "family", "last", "surname", "apellido")
_NAME = ("name", "student", "student_name", "full_name", "fullname")
_PREFERRED = ("preferred_name", "preferred", "goes_by", "nickname")
_BORN = ("born", "birth_date", "birthdate", "date_of_birth", "dob", "birthday")
_NUMBER = ("number", "student_id", "studentid", "student_number", "id", "local_id")
_CLASS = ("class", "period", "section", "class_name")
_ROLE = ("role",)
_LAYOUT = Layout(
    what="roster",
    prefix="roster",
    columns=(*_NAME, *_GIVEN, *_FAMILY, *_PREFERRED, *_BORN, *_NUMBER, *_CLASS, *_ROLE),
    needed=(),
)
_ROLES = {
    "": "student", "student": "student", "learner": "student", "teacher": "instructor",
    "instructor": "instructor", "aide": "helper", "helper": "helper", "assistant": "helper",
}  # fmt: skip
_LONGEST = 80
_BULLET = re.compile(r"^\s*(?:[-*•]\s+|\d{1,3}[.)]\s+)")
_BORN_LAST = re.compile(r"[,;\t ]+\(?(?:born\s+)?(\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4})\)?\s*$", re.IGNORECASE)


def read_roster(data: bytes | str, *, name: str) -> RosterList:
    """Read a roster: typed lines, CSV, or OneRoster as one file or an archive.

    Parameters
    ----------
    data : bytes or str
        What arrived; anything at all.
    name : str
        File name, for findings and to know a OneRoster file by.

    Returns
    -------
    RosterList
        Never raises for any content; what is wrong is in the findings, and every entry is kept.
    """
    if isinstance(data, bytes) and data.startswith(b"PK\x03\x04"):
        files, findings = unzipped(data, name=name)
        return read_oneroster(files, name=name, findings=findings)
    if is_oneroster(data, name=name):
        raw = data if isinstance(data, bytes) else data.encode("utf-8")
        return read_oneroster({name: raw}, name=name)
    complaints = Complaints(name, _LAYOUT)
    text = text_of(data, complaints, _LAYOUT)
    if text is None or not text.strip():
        if text is not None:
            complaints.say("empty", "nobody is on it.", do="Write one name on each line.", line=1)
        return _list("", text or "", (), complaints.findings)
    first = next(line for line in text.splitlines() if line.strip())
    words = {re.sub(r"[\s_\-]+", "_", cell.strip(' "').lower()) for cell in re.split(r"[,;\t|]", first)}
    if words & set(_LAYOUT.columns):
        return _table(data, name)
    return _typed(text, name, complaints)


def read_roster_files(files: Mapping[str, bytes], *, name: str) -> RosterList:
    """Read a roster that arrives in several files: those of OneRoster, one by one.

    Parameters
    ----------
    files : mapping of str to bytes
        By file name.
    name : str
        What to call them together.
    """
    if len(files) == 1:
        only, data = next(iter(files.items()))
        return read_roster(data, name=only)
    return read_oneroster(files, name=name)


def _typed(text: str, name: str, complaints: Complaints) -> RosterList:
    """Read one name on each line: Ana Ruiz; Ruiz, Ana; either with a day of birth after it."""
    written: list[tuple[int, str]] = []
    births: list[tuple[int, str]] = []
    for number, line in enumerate(text.splitlines(), start=1):
        said = _BULLET.sub("", line.partition("#")[0]).strip()
        if not said:
            continue
        if born := _BORN_LAST.search(said):
            births.append((number, born[1]))
            said = said[: born.start()].strip()
        written.append((number, said))
    known = read_births(births, complaints)
    entries = []
    for number, said in islice(written, MOST_PEOPLE):
        called = _turned(said)
        if _named(called, number, complaints):
            entries.append(
                RosterEntry(name=called, born=known.get(number), where=Where(file=name, line=number))
            )
    _too_many(len(written), complaints)
    return _list("typed lines", text, tuple(entries), complaints.findings)


def _turned(said: str) -> str:
    """Return a name with the given name first."""
    family, comma, given = (part.strip() for part in said.partition(","))
    turned = f"{given} {family}" if comma and given else family
    return re.sub(r" +", " ", turned).strip()


def _named(called: str, line: int, complaints: Complaints) -> bool:
    if re.search(r"[;|\t]", called):
        found = f"'{called[:40]}' looks like a row of a table."
        expected = "one name on a line; a table names its columns first: name, or given name and family name."
        complaints.say("name", found, line=line, about=f"line {line}", expected=expected, do="Name them.")
        return False
    if called and len(called) <= _LONGEST and re.search(r"[^\W\d_]", called) and "@" not in called:
        return True
    what = "an e-mail address" if "@" in called else "no name"
    found = f"'{called[:40]}' is {what}." if called else "it names nobody."
    do = "Write the name as the student is called."
    complaints.say("name", found, line=line, about=f"line {line}", do=do)
    return False


def _too_many(many: int, complaints: Complaints) -> None:
    if many > MOST_PEOPLE:
        found = f"{many:,} lines; the first {MOST_PEOPLE:,} were read."
        complaints.say("size", found, line=MOST_PEOPLE, do="Check that it is the list of a class.")


def _table(data: bytes | str, name: str) -> RosterList:
    table = read_table(data, name=name, layout=_LAYOUT)
    complaints = Complaints(name, _LAYOUT)
    rows = table.rows[:MOST_PEOPLE]
    births = read_births([(row.line, _cell(row, _BORN)) for row in rows if _cell(row, _BORN)], complaints)
    entries = []
    for row in rows:
        called = _called(row)
        if not _named(called, row.line, complaints):
            continue
        group = _cell(row, _CLASS)
        entries.append(
            RosterEntry(
                name=called,
                number=_cell(row, _NUMBER),
                born=births.get(row.line),
                role=_role(row, complaints),
                classes=(group,) if group else (),
                where=Where(file=name, line=row.line),
            )
        )
    _too_many(len(table.rows), complaints)
    return _list("CSV", table.text, tuple(entries), (*table.findings, *complaints.findings))


def _cell(row: Row, columns: tuple[str, ...]) -> str:
    return next(filter(None, (row.cell(column) for column in columns)), "")


def _called(row: Row) -> str:
    given = _cell(row, _PREFERRED) or _cell(row, _GIVEN)
    family = _cell(row, _FAMILY)
    if given or family:
        return " ".join(f"{given} {family}".split())
    return _turned(_cell(row, _NAME))


def _role(row: Row, complaints: Complaints) -> str:
    written = _cell(row, _ROLE)
    role = _ROLES.get(written.lower())
    if role is None:
        expected = f"one of: {', '.join(filter(None, _ROLES))}."
        complaints.say(
            "role", f"role '{written[:30]}'.", line=row.line, about=f"line {row.line}", expected=expected
        )
    return role or "student"


def _list(
    kind: str, text: str, entries: tuple[RosterEntry, ...], findings: tuple[Finding, ...]
) -> RosterList:
    marked, doubles = with_doubles(entries)
    keys = dict.fromkeys(key for entry in marked for key in entry.classes)
    students = [entry for entry in marked if entry.double_of is None and entry.role == "student"]
    classes = tuple(
        RosterClass(key=key, title=key, students=sum(key in entry.classes for entry in students))
        for key in keys
    )
    return RosterList(
        kind=kind, text=text, entries=marked, classes=classes, findings=in_order((*findings, *doubles))
    )
