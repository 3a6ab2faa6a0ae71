"""The people of a test: one of every role, each with a browser of their own."""

from django.contrib.auth import get_user_model
from django.test import Client

from setday.web.keeping.members import keep_class, keep_member
from setday.web.keeping.models import MemberRole
from setday.web.people.accounts import account_of
from setday.web.people.codes import make_card

PASSWORD = "a long plank of oak"


def browser_of(member):
    """Return a browser in which a member is signed in."""
    browser = Client()
    browser.force_login(account_of(member))
    return browser


def morning_of(school):
    """Return the morning class of a school, with two students in it."""
    made = keep_class(school, name="Morning")
    keep_member(school, name="Cal Ortega", shown_as="Cal O.", school_class=made)
    keep_member(school, name="Ivy Lind", school_class=made)
    return made


def one_of(school, role, *, name):
    """Return a member who is no student, with a password."""
    user = get_user_model().objects.create_user(name, password=PASSWORD)
    return keep_member(school, name=name, shown_as=name, role=MemberRole(role), user=user)


def by_card(member, browser=None, **more):
    """Sign a student in by a fresh card; return the browser and the answer."""
    browser = browser or Client()
    return browser, browser.post("/card/", {"code": make_card(member), **more})
