"""A reader looks at a timetable and reads no student's name, in what it breaks and leaves out neither."""

from setday.web.timetable.figured import forget
from tests.web.people import browser_of, one_of
from tests.web.timetables import searched

NAMED = ("Cal Ortega is at two tasks.", "Ivy Lind is not in the class file.")


def test_what_a_timetable_breaks_and_leaves_out_names_nobody_to_a_reader(school, shed):
    forget()
    run = searched(shed)
    run.told = {"broken": [NAMED[0]], "left_out": [NAMED[1]]}
    run.save()
    said = {
        role: browser_of(one_of(school, role, name=role)).get("/houses/practice-shed/timetable/")
        for role in ("helper", "reader")
    }
    pages = {role: answer.content.decode() for role, answer in said.items()}
    assert [each for each in NAMED if each not in pages["helper"]] == []
    assert [each for each in NAMED if each in pages["reader"]] == []
