"""Rosters: typed lines, CSV in the encodings people save, and OneRoster."""

import io
import zipfile
from datetime import date

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from setday.files import read_roster, read_roster_files
from setday.findings import Severity

USERS = (
    "sourcedId,status,dateLastModified,enabledUser,orgSourcedIds,role,username,userIds,givenName,familyName,"
    "middleName,identifier,email,sms,phone,agentSourcedIds,grades,password\n"
    "u1,,,true,o1,student,ana,,Ana,Ruiz,,1001,ana@example.org,,,,11,\n"
    "u2,tobedeleted,,true,o1,student,ben,,Ben,Ott,,1002,,,,,11,\n"
    "u3,,,true,o1,teacher,hal,,Rae,Halvorsen,,,,,,,,\n"
    "u4,,,true,o1,parent,pat,,Pat,Ruiz,,,,,,,,\n"
    "u5,,,false,o1,student,cy,,Cy,Vang,,1005,,,,,11,\n"
    "u6,,,true,o1,aide,ito,,Mei,Ito,,,,,,,,\n"
)
USERS_12 = (
    "sourcedId,status,dateLastModified,enabledUser,username,userIds,givenName,familyName,middleName,identifier,"
    "email,sms,phone,agentSourcedIds,grades,password,userMasterIdentifier,resourceSourcedIds,"
    "preferredGivenName,preferredMiddleName,preferredFamilyName,primaryOrgSourcedId,pronouns\n"
    "u1,active,,true,ana,,Anastasia,Ruiz,,1001,,,,,11,,,,Ana,,,o1,\n"
    "u3,active,,true,hal,,Rae,Halvorsen,,,,,,,,,,,,,,o1,\n"
)
ROLES_12 = (
    "sourcedId,status,dateLastModified,userSourcedId,roleType,role,beginDate,endDate,orgSourcedId,"
    "userProfileSourcedId\n"
    "r1,active,,u1,primary,student,,,o1,\n"
    "r2,active,,u3,secondary,student,,,o1,\n"
    "r3,active,,u3,primary,teacher,,,o1,\n"
)
CLASSES = (
    "sourcedId,status,dateLastModified,title,grades,courseSourcedId,classCode,classType,location,"
    "schoolSourcedId,termSourcedIds,subjects,subjectCodes,periods\n"
    "c1,,,Building Trades II,11,k1,,scheduled,,o1,t1,,,1\n"
)
ENROLLED = (
    "sourcedId,status,dateLastModified,classSourcedId,schoolSourcedId,userSourcedId,role,primary,beginDate,"
    "endDate\n"
    "e1,,,c1,o1,u1,student,false,,\n"
    "e2,,,c1,o1,u3,teacher,true,,\n"
)
FILES = {
    "manifest.csv": "propertyName,value\nmanifest.version,1.0\noneroster.version,1.1\n",
    "orgs.csv": "sourcedId,status,dateLastModified,name,type,identifier,parentSourcedId\n"
    "o1,,,Elm Creek,school,,\n",
    "users.csv": USERS,
    "classes.csv": CLASSES,
    "enrollments.csv": ENROLLED,
    "demographics.csv": "sourcedId,status,dateLastModified,birthDate\nu1,,,2010-03-09\n",
}


def as_bytes(files):
    """Files as they lie on a disk."""
    return {name: text.encode("utf-8") for name, text in files.items()}


def archive(files, folder=""):
    """Files in a zip archive."""
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as made:
        for name, text in files.items():
            made.writestr(folder + name, text)
    return data.getvalue()


def told(roster):
    """Rules, lines and how much each matters."""
    return [(each.rule, each.where.line, each.severity) for each in roster.findings]


@pytest.mark.parametrize(
    ("line", "name", "born"),
    [
        ("Ana Ruiz", "Ana Ruiz", None),
        ("Ruiz, Ana", "Ana Ruiz", None),
        ("  3. Ana   Ruiz  # new", "Ana Ruiz", None),
        ("- Ana Ruiz, 2010-03-09", "Ana Ruiz", date(2010, 3, 9)),
        ("Ruiz, Ana, 2010-03-09", "Ana Ruiz", date(2010, 3, 9)),
        ("Zoë Ñandú-O'Neil (born 2010-03-09)", "Zoë Ñandú-O'Neil", date(2010, 3, 9)),
        ("李 小龙", "李 小龙", None),
    ],
)
def test_a_typed_line_is_a_student(line, name, born):
    roster = read_roster(f"{line}\n", name="typed")
    assert [(each.name, each.born, each.role) for each in roster.entries] == [(name, born, "student")]
    assert roster.kind == "typed lines"
    assert roster.findings == ()


@pytest.mark.parametrize("line", ["ana@example.org", "12345", "Ana; Ruiz; 11"])
def test_a_line_that_is_no_name_is_told_and_the_text_is_kept(line):
    text = f"Ben Ott\n{line}\n"
    roster = read_roster(text, name="typed")
    assert [each.name for each in roster.entries] == ["Ben Ott"]
    assert told(roster) == [("roster.name", 2, Severity.PROBLEM)]
    assert roster.text == text


TABLE = "Last Name,First Name,Date of Birth,Student ID,Class\nRuíz,Ana,2010-03-09,17,1\nOtt,Ben,,18,2\n"


@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
def test_a_table_is_read_in_every_encoding_and_with_every_separator(encoding, separator):
    roster = read_roster(TABLE.replace(",", separator).encode(encoding), name="class.csv")
    assert [(e.name, e.born, e.number, e.classes, e.where.line) for e in roster.entries] == [
        ("Ana Ruíz", date(2010, 3, 9), "17", ("1",), 2),
        ("Ben Ott", None, "18", ("2",), 3),
    ]
    notes = [rule for rule, _, severity in told(roster) if severity is Severity.NOTE]
    assert notes == (["roster.encoding"] if encoding == "cp1252" else [])


@pytest.mark.parametrize(
    ("days", "read", "severity"),
    [
        (["3/9/2010", "5/17/2010"], date(2010, 3, 9), Severity.NOTE),
        (["3/9/2010", "17/5/2010"], date(2010, 9, 3), Severity.NOTE),
        (["3/9/2010", "5/6/2010"], date(2010, 3, 9), Severity.ASK),
        (["3/9/2010", "17/5/2010", "5/17/2010"], date(2010, 3, 9), Severity.PROBLEM),
    ],
)
def test_the_order_of_day_and_month_is_judged_by_the_whole_column_and_told(days, read, severity):
    text = "name,born\n" + "".join(f"Student {chr(65 + n)},{day}\n" for n, day in enumerate(days))
    roster = read_roster(text, name="class.csv")
    assert roster.entries[0].born == read
    assert severity in {each.severity for each in roster.findings}


@pytest.mark.parametrize("day", ["3/9/10", "soon", "2010-02-30", "1810-03-09"])
def test_a_day_of_birth_that_is_none_is_told_and_the_student_kept(day):
    roster = read_roster(f"name,born\nAna Ruiz,{day}\n", name="class.csv")
    assert [(each.name, each.born) for each in roster.entries] == [("Ana Ruiz", None)]
    assert told(roster) == [("roster.born", 2, Severity.ASK)]


def test_doubles_are_told_by_name_and_line_and_kept():
    roster = read_roster("Ana Ruiz\nBen Ott\nRuiz, Ana\n", name="typed")
    (found,) = roster.findings
    assert (found.about, found.where.line) == ("'Ana Ruiz'", 3)
    assert "line 1" in found.found
    assert len(roster.entries) == 3
    assert [each.name for each in roster.once] == ["Ana Ruiz", "Ben Ott"]


@pytest.mark.parametrize(
    ("rows", "doubles"),
    [
        ("Ana Ruiz,2010-03-09,1\nAna Ruiz,2010-04-10,2\n", 0),
        ("Ana Ruiz,2010-03-09,\nAna Ruiz,2010-04-10,\n", 0),
        ("Ana Ruiz,,7\nAnna Ruiz,,7\n", 1),
        ("Ana Ruiz,,\nANA  RUIZ,2010-03-09,\n", 1),
    ],
)
def test_a_number_or_a_day_of_birth_tells_namesakes_apart(rows, doubles):
    roster = read_roster("name,born,number\n" + rows, name="class.csv")
    assert sum(each.double_of is not None for each in roster.entries) == doubles


@pytest.mark.parametrize("folder", ["", "export/2026/"])
def test_a_oneroster_archive_gives_people_and_classes(folder):
    """1EdTech OneRoster 1.1 CSV tables, with the standard's own column names in their order."""
    roster = read_roster(archive(FILES, folder), name="export.zip")
    assert roster.kind == "OneRoster 1.1"
    assert [(e.name, e.number, e.born, e.role, e.classes) for e in roster.entries] == [
        ("Ana Ruiz", "1001", date(2010, 3, 9), "student", ("c1",)),
        ("Rae Halvorsen", "u3", None, "instructor", ("c1",)),
        ("Mei Ito", "u6", None, "helper", ()),
    ]
    (group,) = roster.classes
    assert (group.title, group.school, group.students) == ("Building Trades II", "Elm Creek", 1)
    assert [each.name for each in roster.of_class("c1")] == ["Ana Ruiz", "Rae Halvorsen"]


def test_files_one_by_one_give_the_same_as_the_archive():
    apart = read_roster_files(as_bytes(FILES), name="export.zip")
    assert apart == read_roster(archive(FILES), name="export.zip")


def test_version_1_2_keeps_roles_apart_and_has_preferred_names():
    files = {
        "users.csv": USERS_12,
        "roles.csv": ROLES_12,
        "classes.csv": CLASSES,
        "enrollments.csv": ENROLLED,
    }
    roster = read_roster_files(as_bytes(files), name="export")
    assert roster.kind == "OneRoster 1.2"
    assert [(e.name, e.role) for e in roster.entries] == [
        ("Ana Ruiz", "student"),
        ("Rae Halvorsen", "instructor"),
    ]


def test_who_is_deleted_disabled_or_a_parent_is_left_out():
    roster = read_roster(USERS.encode(), name="users.csv")
    assert {"Ben Ott", "Cy Vang", "Pat Ruiz"}.isdisjoint({each.name for each in roster.entries})
    assert ("roster.gone", 0, Severity.NOTE) in told(roster)


def test_no_address_of_a_student_is_kept():
    assert "@" not in repr(read_roster(archive(FILES), name="export.zip").entries)


def test_an_enrolment_of_nobody_is_told_with_its_line():
    files = {**FILES, "enrollments.csv": ENROLLED + "e3,,,c1,o1,u9,student,,,\n"}
    assert ("roster.enrolled", 4, Severity.ASK) in told(read_roster_files(as_bytes(files), name="x"))


def test_without_users_nobody_can_be_read_and_it_is_said():
    found = read_roster_files(
        as_bytes({"classes.csv": CLASSES, "orgs.csv": FILES["orgs.csv"]}), name="export"
    )
    assert found.entries == ()
    assert ("roster.missing", 0, Severity.PROBLEM) in told(found)


@pytest.mark.parametrize(
    ("data", "rule"),
    [
        (b"", "roster.empty"),
        (b"   \n\n", "roster.empty"),
        (b"%PDF-1.4", "roster.kind"),
        (b"\xd0\xcf\x11\xe0old", "roster.kind"),
        (b"PK\x03\x04broken", "roster.kind"),
        (b"a" * 5_000_001, "roster.size"),
    ],
)
def test_what_is_no_roster_is_told(data, rule):
    roster = read_roster(data, name="x")
    assert roster.entries == ()
    assert [each.rule for each in roster.findings] == [rule]


def test_an_archive_that_grows_past_the_limit_is_not_opened():
    roster = read_roster(archive({"users.csv": "x" * 6_000_000}), name="big.zip")
    assert "roster.size" in {each.rule for each in roster.findings}


def test_a_list_far_too_long_for_a_class_is_cut_and_told():
    roster = read_roster("".join(f"Student A{n}b\n" for n in range(2_500)), name="x")
    assert len(roster.entries) == 2_000
    assert "roster.size" in {each.rule for each in roster.findings}


@settings(max_examples=100, deadline=None)
@given(data=st.binary(max_size=200))
def test_no_bytes_bring_a_traceback(data):
    read_roster(data, name="x")
    read_roster_files({"users.csv": data, "enrollments.csv": data}, name="x")


NAMES = st.text(st.characters(categories=("L",)), min_size=1, max_size=12)


@settings(max_examples=100, deadline=None)
@given(people=st.lists(st.tuples(NAMES, NAMES), min_size=1, max_size=8))
def test_every_name_of_letters_comes_through(people):
    lines = [f"{given} {family}" for given, family in people]
    roster = read_roster("name\n" + "\n".join(lines) + "\n", name="x.csv")
    assert [each.name for each in roster.entries] == lines
