"""What was kept before there were schools belongs to the first one after an update."""

import os
import sqlite3
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
WHEN = "2026-09-01 12:00:00"
USER = (
    "insert into auth_user (username, password, is_superuser, is_staff, is_active, first_name, last_name,"
    " email, date_joined) values ('Ana Ruiz', 'x', 1, 1, 1, '', '', '', ?)"
)
HOUSE = "insert into keeping_house (key, name, put_away, made_at) values ('shed', 'Shed', 0, ?)"
PRICES = "insert into keeping_pricelist (number, file_name, text, made_at) values (1, 'a.csv', 'x', ?)"


def migrated(folder, *to):
    """Bring the records of a data folder to a state, by Django's own command."""
    variables = {**os.environ, "PYTHONPATH": str(ROOT / "src"), "SETDAY_DATA": str(folder)}
    variables.pop("SETDAY_DATABASE", None)
    variables["DJANGO_SETTINGS_MODULE"] = "setday.web.settings"
    command = [sys.executable, "-m", "django", "migrate", "--verbosity", "0", *to]
    subprocess.run(command, env=variables, check=True, capture_output=True)
    return sqlite3.connect(folder / "setday.sqlite3")


@pytest.fixture
def before(tmp_path):
    """Return a data folder as it was before there were schools."""
    records = migrated(tmp_path, "keeping", "0006")
    records.close()
    migrated(tmp_path, "auth").close()
    return tmp_path


def test_houses_lists_and_the_instructor_come_into_one_school(before):
    records = sqlite3.connect(before / "setday.sqlite3")
    for statement in (USER, HOUSE, PRICES):
        records.execute(statement, (WHEN,))
    records.commit()
    records.close()
    records = migrated(before)
    found = records.execute(
        "select s.key, h.key, p.number, m.name, m.role from keeping_school s"
        " join keeping_house h on h.school_id = s.id join keeping_pricelist p on p.school_id = s.id"
        " join keeping_member m on m.school_id = s.id"
    ).fetchall()
    records.close()
    assert found == [("school", "shed", 1, "Ana Ruiz", "instructor")]


def test_records_without_anything_get_no_school_yet(before):
    records = migrated(before)
    assert records.execute("select count(*) from keeping_school").fetchone() == (0,)
    records.close()
