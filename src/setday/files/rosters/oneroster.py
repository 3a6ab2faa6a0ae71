"""OneRoster CSV 1.1 and 1.2 (the open standard of 1EdTech): people, classes and who is in which.

Read are users, classes, enrollments, orgs, roles (1.2) and demographics; of a person only the name, the
school's number, the role and the day of birth are kept.
"""

import re
import zipfile
from collections.abc import Mapping
from datetime import date
from io import BytesIO
from pathlib import PurePosixPath

from setday.files.delimited import LARGEST_BYTES, Complaints, Layout, Row, read_table
from setday.files.rosters.dates import read_births
from setday.files.rosters.entries import RosterClass, RosterEntry, RosterList, with_doubles
from setday.findings import Finding, Severity, Where, in_order

__all__ = ["is_oneroster", "read_oneroster", "unzipped"]

MOST_IN_ARCHIVE = 60
"""Files in an archive; the standard has 20 and some [count]."""
_FIRST = ("sourcedId", "status", "dateLastModified")
_COLUMNS: Mapping[str, tuple[str, ...]] = {
    "users": (
        *_FIRST, "enabledUser", "orgSourcedIds", "role", "username", "userIds", "givenName", "familyName",
        "middleName", "identifier", "email", "sms", "phone", "agentSourcedIds", "grades", "password",
        "userMasterIdentifier", "resourceSourcedIds", "preferredGivenName", "preferredMiddleName",
        "preferredFamilyName", "primaryOrgSourcedId", "pronouns",
    ),
    "classes": (
        *_FIRST, "title", "grades", "courseSourcedId", "classCode", "classType", "location",
        "schoolSourcedId", "termSourcedIds", "subjects", "subjectCodes", "periods",
    ),
    "enrollments": (
        *_FIRST, "classSourcedId", "schoolSourcedId", "userSourcedId", "role", "primary", "beginDate",
        "endDate",
    ),
    "orgs": (*_FIRST, "name", "type", "identifier", "parentSourcedId"),
    "roles": (
        *_FIRST, "userSourcedId", "roleType", "role", "beginDate", "endDate", "orgSourcedId",
        "userProfileSourcedId",
    ),
    "demographics": (*_FIRST, "birthDate"),
    "manifest": ("propertyName", "value"),
}  # fmt: skip
_NEEDED = {
    "users": ("sourcedid", "givenname", "familyname"),
    "classes": ("sourcedid", "title"),
    "enrollments": ("classsourcedid", "usersourcedid"),
    "orgs": ("sourcedid", "name"),
    "roles": ("usersourcedid", "role"),
    "demographics": ("sourcedid", "birthdate"),
    "manifest": ("propertyname", "value"),
}
_ROLES = {"student": "student", "teacher": "instructor", "aide": "helper"}
_GONE = "tobedeleted"


def is_oneroster(data: bytes | str, *, name: str) -> bool:
    """Return whether one file is of OneRoster, by its name and the key column in its first line.

    Parameters
    ----------
    data : bytes or str
    name : str
    """
    start = data[:400] if isinstance(data, str) else data[:400].decode("utf-8", errors="replace")
    named = PurePosixPath(name).stem.lower() in _COLUMNS
    return "sourcedid" in start.partition("\n")[0].lower() or (named and "propertyName" in start)


def unzipped(data: bytes, *, name: str) -> tuple[dict[str, bytes], tuple[Finding, ...]]:
    """Return the CSV files of an archive by name, and what was found; nothing too large is opened.

    Parameters
    ----------
    data : bytes
    name : str
        Its name, for findings.
    """
    files: dict[str, bytes] = {}
    complaints = Complaints(name, _layout("archive"))
    try:
        with zipfile.ZipFile(BytesIO(data)) as archive:
            members = [m for m in archive.infolist() if m.filename.lower().endswith(".csv")]
            if len(members) > MOST_IN_ARCHIVE:
                found = f"{len(members):,} CSV files are in it; the first {MOST_IN_ARCHIVE} were looked at."
                complaints.say("size", found, do="Check that it is the right archive.")
            for member in members[:MOST_IN_ARCHIVE]:
                short = PurePosixPath(member.filename.replace("\\", "/")).name
                if PurePosixPath(short).stem.lower() not in _COLUMNS:
                    continue
                with archive.open(member) as opened:
                    content = opened.read(LARGEST_BYTES + 1)
                if len(content) <= LARGEST_BYTES:
                    files[short] = content
                else:
                    found = f"{short} has more than {LARGEST_BYTES:,} bytes."
                    complaints.say("size", found, do="Export one school only.")
    except (zipfile.BadZipFile, RuntimeError, OSError, EOFError, ValueError) as error:
        complaints.say("kind", f"the archive cannot be opened: {str(error)[:80]}.", do="Export it again.")
    return files, complaints.findings


def read_oneroster(
    files: Mapping[str, bytes], *, name: str, findings: tuple[Finding, ...] = ()
) -> RosterList:
    """Read the files of OneRoster.

    Parameters
    ----------
    files : mapping of str to bytes
        By name: users.csv, classes.csv, enrollments.csv ...; only users.csv cannot be missed.
    name : str
        What to call them together, for findings.
    findings : tuple of Finding
        What was found before.
    """
    return _Reading(files, name, findings).roster()


def _layout(kind: str) -> Layout:
    columns = tuple(column.lower() for column in _COLUMNS.get(kind, ()))
    return Layout(
        what="OneRoster archive" if kind == "archive" else f"{kind}.csv",
        prefix="roster",
        columns=columns,
        needed=_NEEDED.get(kind, ()),
    )


class _Reading:
    """Joins the files of one OneRoster export."""

    def __init__(self, files: Mapping[str, bytes], name: str, findings: tuple[Finding, ...]) -> None:
        self.name = name
        self.files = {PurePosixPath(file).stem.lower(): (file, data) for file, data in files.items()}
        self.findings = list(findings)

    def roster(self) -> RosterList:
        users = self._rows("users")
        if "users" not in self.files and not any(f.severity is Severity.PROBLEM for f in self.findings):
            self._say("missing", "users.csv is not among the files.", do="Give users.csv too.")
        roles = self._roles()
        enrolled = self._enrolled({row.cell("sourcedid") for row in users})
        births = self._births(users)
        entries = []
        for row in users:
            key = row.cell("sourcedid")
            if not self._counts(row):
                continue
            member = enrolled.get(key, {})
            named = row.cell("role").lower() or roles.get(key, "") or next(iter(member.values()), "student")
            role = _ROLES.get(named)
            if role is not None:
                entries.append(self._entry(row, role, tuple(member), births))
        marked, doubles = with_doubles(each for each in entries if each.name)
        return RosterList(
            kind=f"OneRoster {self._version(users)}" if users else "",
            text="",
            entries=marked,
            classes=self._classes(marked),
            findings=in_order((*self.findings, *doubles)),
        )

    def _rows(self, kind: str) -> tuple[Row, ...]:
        if kind not in self.files:
            return ()
        file, data = self.files[kind]
        table = read_table(data, name=file, layout=_layout(kind))
        self.findings += [f for f in table.findings if f.rule != "roster.unknown-column"]
        kept = tuple(row for row in table.rows if row.cell("status").lower() != _GONE)
        gone = len(table.rows) - len(kept)
        if gone:
            found = f"{gone} {'line is' if gone == 1 else 'lines are'} marked as to be deleted; not read."
            self._say("gone", found, file=file, severity=Severity.NOTE)
        return kept

    def _counts(self, row: Row) -> bool:
        """Return whether somebody is an enabled user."""
        return row.cell("enableduser").lower() != "false"

    def _entry(
        self, row: Row, role: str, classes: tuple[str, ...], births: Mapping[str, date]
    ) -> RosterEntry:
        given = row.cell("preferredgivenname") or row.cell("givenname")
        family = row.cell("preferredfamilyname") or row.cell("familyname")
        called = " ".join(f"{given} {family}".split())
        if not called:
            self._say("name", "it names nobody.", file=self.files["users"][0], line=row.line)
        return RosterEntry(
            name=called,
            number=row.cell("identifier") or row.cell("sourcedid"),
            born=births.get(row.cell("sourcedid")),
            role=role,
            classes=classes,
            where=Where(file=self.files["users"][0], line=row.line),
        )

    def _roles(self) -> dict[str, str]:
        """Return the roles that version 1.2 keeps in a file of their own; the primary one counts."""
        roles: dict[str, str] = {}
        for row in self._rows("roles"):
            user = row.cell("usersourcedid")
            if user not in roles or row.cell("roletype").lower() == "primary":
                roles[user] = row.cell("role").lower()
        return roles

    def _enrolled(self, users: set[str]) -> dict[str, dict[str, str]]:
        """Return for each user the classes, with the role in each."""
        enrolled: dict[str, dict[str, str]] = {}
        for row in self._rows("enrollments"):
            user = row.cell("usersourcedid")
            if user not in users:
                found = f"user {user[:40]} is enrolled but not in users.csv."
                self._say(
                    "enrolled", found, file=self.files["enrollments"][0], line=row.line, severity=Severity.ASK
                )
                continue
            enrolled.setdefault(user, {})[row.cell("classsourcedid")] = row.cell("role").lower() or "student"
        return enrolled

    def _births(self, users: tuple[Row, ...]) -> dict[str, date]:
        rows = self._rows("demographics")
        if not rows or not users:
            return {}
        file = self.files["demographics"][0]
        complaints = Complaints(file, _layout("demographics"))
        read = read_births([(row.line, row.cell("birthdate")) for row in rows], complaints)
        self.findings += complaints.findings
        return {row.cell("sourcedid"): read[row.line] for row in rows if row.line in read}

    def _classes(self, entries: tuple[RosterEntry, ...]) -> tuple[RosterClass, ...]:
        schools = {row.cell("sourcedid"): row.cell("name") for row in self._rows("orgs")}
        titles = {
            row.cell("sourcedid"): (row.cell("title"), schools.get(row.cell("schoolsourcedid"), ""))
            for row in self._rows("classes")
        }
        keys = dict.fromkeys([*titles, *(key for entry in entries for key in entry.classes)])
        students = [each for each in entries if each.role == "student" and each.double_of is None]
        return tuple(
            RosterClass(
                key=key,
                title=titles.get(key, (key, ""))[0] or key,
                school=titles.get(key, ("", ""))[1],
                students=sum(key in each.classes for each in students),
            )
            for key in keys
        )

    def _version(self, users: tuple[Row, ...]) -> str:
        for row in self._rows("manifest"):
            if row.cell("propertyname").lower() == "oneroster.version":
                found = re.match(r"1\.[12]", row.cell("value"))
                if not found:
                    said = f"its version is {row.cell('value')[:20]}."
                    self._say(
                        "version", said, file=self.files["manifest"][0], line=row.line, severity=Severity.ASK
                    )
                    return row.cell("value")[:20]
                return found[0]
        return "1.1" if users and "role" in users[0].cells else "1.2"

    def _say(
        self,
        rule: str,
        found: str,
        *,
        file: str = "",
        line: int = 0,
        do: str = "",
        severity: Severity = Severity.PROBLEM,
    ) -> None:
        where = Where(file=file or self.name, line=line)
        about = f"line {line}" if line else "the roster"
        self.findings.append(
            Finding(rule=f"roster.{rule}", about=about, found=found, do=do, where=where, severity=severity)
        )
