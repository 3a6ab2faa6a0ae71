"""Logs and saved timetables: read back, and whatever else arrives is told in sentences."""

import contextlib
import json
from datetime import date, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from setday.errors import FileProblem
from setday.files import read_log, read_timetable

LOG = """\
setday log: 1
periods:
  - date: 2027-01-11
    class: morning
    begin: 8:05
    absent: [Kai Romero]
    worked:
      - {task: roof sheathing, students: [Beto Salcedo, Finn Okafor], done: 20 %}
      - task: house wrap
  - date: 2027-01-12
"""


def test_a_log_is_read():
    first, second = read_log(LOG, name="log.yaml").periods
    assert (first.date, first.begin, first.school_class) == (date(2027, 1, 11), time(8, 5), "morning")
    assert [(w.task, w.students, w.done) for w in first.worked] == [
        ("roof sheathing", ("Beto Salcedo", "Finn Okafor"), 0.2),
        ("house wrap", (), None),
    ]
    assert (first.absent, second.worked) == (("Kai Romero",), None)


def test_entries_know_their_line():
    assert read_log(LOG, name="log.yaml").periods[0].worked[1].where.line == 9


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "first line"),
        ("hello", "setday log: 1"),
        ("setday log: 2\nperiods: []\n", "setday log: 1"),
        (LOG.replace("date: 2027-01-12", "date: soon"), "soon"),
        (LOG.replace("20 %", "120 %"), "120 %"),
        (LOG.replace("absent:", "abscent:"), "absent"),
        ("setday log: 1\nperiods:\n  - date: 2027-01-11\n    worked: 3\n", "period 1, 'worked'"),
    ],
)
def test_a_log_that_cannot_be_used_says_why(text, said):
    read = read_log(text, name="log.yaml")
    assert read.problems
    assert any(said in str(each) for each in read.problems)


@given(st.one_of(st.binary(max_size=200), st.text(max_size=200)))
def test_no_log_raises(data):
    read_log(data, name="log.yaml")


INNER = st.recursive(st.none() | st.integers() | st.text(max_size=5), st.lists, max_leaves=9)
WHOLE = INNER.map(lambda inner: {"setday timetable": 1, "house": "x", "tasks": inner, "periods": inner})


@given(st.binary(max_size=100) | WHOLE.map(lambda read: json.dumps(read).encode()))
def test_what_is_no_timetable_is_a_file_problem(data):
    with contextlib.suppress(FileProblem):
        assert read_timetable(data, name="plan.json").periods == ()
